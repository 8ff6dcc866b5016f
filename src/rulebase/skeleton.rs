//! What a new clue looks like: everything it needs, with what each part is for.

/// A rule file with one clue, to be filled in.
pub fn clue(id: &str) -> String {
    CLUE.replace("NEW-CLUE", id)
}

const CLUE: &str = r#"// A new clue. Put this file into the folder `clues` of your own rules (`printseam doctor` says where they lie), change
// what follows, and see what it does:
//   printseam rules check                                        says what is still wrong, with line and column
//   printseam rules compare built-in in-use --cases CASES.csv    shows which verdicts moved
// All of it is explained in rules/README.md.
(
    format: 1,
    // Where it is looked for: Front, Loupe, Glaze, Back, Shape, Mark, Condition.
    station: Front,
    clues: [
        (
            id: "NEW-CLUE",
            question: "What do you see?",
            look: "How to look for it, so that two people see the same.",
            tells: "What it tells of kind, place or year.",
            seconds: 10,
            // Eye, Loupe, Torch, Fingernail, UvLamp, Ruler.
            tools: [Eye],
            // How often a careful person ticks the wrong finding: 0.02 is usual, 0.05 for a hard look.
            slip: 0.03,
            // Clues of a family tell partly the same; `printseam rules list` shows all clues.
            // family: "fashion",
            // Asked only when another clue was answered so:
            // only_if: [("line-make", ["engraved"])],
            because: "Why it tells anything, in words a beginner understands.",
            // Ids of sources.ron; a source of your own goes into a sources.ron beside the folder `clues`.
            source: ["common-practice"],
            findings: [
                (
                    id: "seen", words: "it is there",
                    because: "What seeing it speaks for.",
                    // Words of a line of notes that mean this finding.
                    spoken: ["NEW-CLUE seen"],
                    // How often it is seen: Typical 100, Common 30, Occasional 10, Uncommon 3, Rare 1, Freak 0.1,
                    // Never 0, or a number. The first case that fits a kind and place counts. `years` is a curve of
                    // (year, height) that the weight is multiplied by.
                    cases: [
                        (kinds: ["@all-print"], weight: Common, years: [(1800, 0.2), (1850, 1)]),
                        (weight: Uncommon),
                    ],
                ),
                (
                    id: "none", words: "it is not there",
                    because: "What its absence speaks for.",
                    spoken: ["no NEW-CLUE"],
                    cases: [(weight: Typical)],
                ),
            ],
        ),
    ],
)
"#;
