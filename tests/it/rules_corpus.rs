//! Rule files that must load, and rule files that must give exactly the problems beside them.
//!
//! `tests/rules/ok/NAME/` and `tests/rules/err/NAME/` hold files laid over `tests/rules/ok/base`, or
//! a whole rule base; `tests/rules/err/NAME.out` holds the exact lines.
//! Run with `RULES_CORPUS=overwrite` to write the `.out` files anew, then read the difference.
//!
//! A line `//* 257 TEXT` of a file stands for 257 lines of the text, `#` being the number of each.

use std::fs;
use std::path::{Path, PathBuf};

use printseam::internals::core::grid::ClueId;
use printseam::internals::core::grid::FindingId;
use printseam::internals::core::grid::Year;
use printseam::internals::core::observation::{Observed, Sure};
use printseam::internals::piece::expert::Expert;
use printseam::internals::piece::notation::{parse_said, seen_id};
use printseam::internals::rulebase::RuleBase;
use printseam::internals::rulebase::definitions::{Counted, Occasion};
use printseam::internals::rulebase::ids::Id;
use printseam::internals::rulebase::problem::Check;
use printseam::internals::rulebase::source::SourceFile;

pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules")
}

/// All `.ron` and `.csv` files below a folder, sorted, named relative to it.
pub fn read_rules(dir: &Path) -> Vec<SourceFile> {
    fn walk(root: &Path, dir: &Path, out: &mut Vec<SourceFile>) {
        let mut paths: Vec<PathBuf> = fs::read_dir(dir)
            .unwrap()
            .map(|e| e.unwrap().path())
            .collect();
        paths.sort();
        for path in paths {
            if path.is_dir() {
                walk(root, &path, out);
            } else if path
                .extension()
                .is_some_and(|e| ["ron", "RON", "csv"].iter().any(|known| e == *known))
            {
                let name = path
                    .strip_prefix(root)
                    .unwrap()
                    .to_string_lossy()
                    .replace('\\', "/");
                out.push(SourceFile {
                    name,
                    text: repeated(&fs::read_to_string(&path).unwrap()),
                });
            }
        }
    }
    let mut out = Vec::new();
    walk(dir, dir, &mut out);
    out
}

/// The text with its repeated lines written out.
fn repeated(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for line in text.split_inclusive('\n') {
        match line.strip_prefix("//* ").and_then(|l| l.split_once(' ')) {
            None => out.push_str(line),
            Some((count, line)) => {
                for number in 1..=count.parse::<usize>().unwrap() {
                    out.push_str(&line.replace('#', &number.to_string()));
                }
            }
        }
    }
    out
}

/// The good base with the files of `over` laid over it.
fn laid_over(over: &Path) -> Vec<SourceFile> {
    let mut files = read_rules(&root().join("ok/base"));
    for file in read_rules(over) {
        files.retain(|f| f.name != file.name);
        files.push(file);
    }
    files
}

#[test]
fn good_rules_load_clean() {
    let mut seen = 0;
    for entry in fs::read_dir(root().join("ok")).unwrap() {
        let path = entry.unwrap().path();
        if let Err(problems) = RuleBase::load(&laid_over(&path)) {
            let all: Vec<String> = problems.iter().map(|p| p.to_string()).collect();
            panic!("{}:\n{}", path.display(), all.join("\n"));
        }
        seen += 1;
    }
    assert!(seen > 0);
}

#[test]
fn what_marks_and_cautions_say_is_resolved_when_they_are_loaded() {
    let base = RuleBase::load(&laid_over(&root().join("ok/marks"))).unwrap();
    let maker = base.clue_id("maker").unwrap();
    let phrases = base.wording.phrases();
    let ids: Vec<&str> = phrases.iter().map(|p| p.id.as_str()).collect();
    assert_eq!(ids, ["engraved", "year", "number", "works"], "files add up");
    assert_eq!(base.clue(maker).absent_from_whole_mark, Some(FindingId(1)));
    let clues = vec![(base.clue_id("edge").unwrap(), None), (maker, None)];
    assert_eq!(base.cautions[0].occasion, Occasion::Looking(clues));

    let reading = base
        .wording
        .read(&base.registry, "[maker] Hand Engraved Rd No 19800");
    let said = |(clue, seen): &(ClueId, Observed)| seen_id(&base, *clue, seen);
    let phrases: Vec<Option<String>> = reading
        .phrases
        .iter()
        .map(|p| p.says.as_ref().map(said))
        .collect();
    let wanted = [Some("engraved"), None, Some("1885")];
    assert_eq!(phrases, wanted.map(|w| w.map(str::to_owned)));
    assert_eq!(reading.named, Some((maker, FindingId(0))));
    assert_eq!(reading.findings().len(), 3);
}

#[test]
fn the_id_of_a_finding_renamed_or_split_is_read_as_what_it_became() {
    let base = RuleBase::load(&laid_over(&root().join("ok/renamed-and-split"))).unwrap();
    let gloss = base.clue_id("gloss").unwrap();
    let read = |said: &str| parse_said(&base, gloss, said).unwrap();
    let today = |said: &str| seen_id(&base, gloss, &read(said).seen);
    assert_eq!(today("bright"), "glossy", "renamed");
    assert_eq!(today("dull?"), "satin|matt", "split");
    assert_eq!(read("dull?").sure, Sure::Unsure);
    assert_eq!(today("glossy|dull:0.5"), "glossy:1|satin:0.5|matt:0.5");
    assert_eq!(base.clue(gloss).was(&read("dull").seen), ["dull"]);
    assert_eq!(base.clue(gloss).was(&read("matt").seen), [""; 0]);
    assert!(parse_said(&base, gloss, "satiny").is_err());
}

#[test]
fn counts_move_a_frequency_near_their_years_and_none_keeps_its_share() {
    let files = laid_over(&root().join("ok/counted"));
    let counted = Expert::new(RuleBase::load(&files).unwrap(), Year(2026));
    let mut base = counted.base.clone();
    base.counted = Counted::default();
    let drawn = Expert::new(base, Year(2026));
    let share = |expert: &Expert, clue: &str, finding: &str, year: i16| {
        let (base, grid) = (&expert.base, &expert.engine().model.grid);
        let id = base.clue_id(clue).unwrap();
        let seen = base.clue(id).finding(finding).unwrap();
        let table = &expert.engine().model.clues[id.index()].table;
        // The first pair of kind and place is printed, here.
        table.shares(table.row(0), usize::from(seen.0))[grid.offset(Year(year)).unwrap()]
    };
    let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-12, "{a} is not {b}");
    // Drawn 1 of 101, worth 30 pieces; ten pieces seen: (30 / 101 + 10) / (30 + 10).
    near(share(&drawn, "line", "brush", 1850), 1.0 / 101.0);
    near(
        share(&counted, "line", "brush", 1850),
        (30.0 / 101.0 + 10.0) / 40.0,
    );
    // Ten years away they count exp(-1/2) each; forty years away not at all.
    let ten = 10.0 * (-0.5_f64).exp();
    near(
        share(&counted, "line", "brush", 1860),
        (30.0 / 101.0 + ten) / (30.0 + ten),
    );
    near(share(&counted, "line", "brush", 1890), 1.0 / 101.0);
    // `none` keeps 30 of 63, seen or not; the others divide the rest: drawn 3 : 30, ten rings seen.
    near(share(&counted, "stamp", "none", 1850), 30.0 / 63.0);
    let ring = (30.0 * 3.0 / 33.0 + 10.0) / 40.0;
    near(share(&counted, "stamp", "ring", 1850), 33.0 / 63.0 * ring);
    // Where a piece turns up is no matter of the counts.
    assert_eq!(
        format!("{:?}", counted.engine().priors[0]),
        format!("{:?}", drawn.engine().priors[0])
    );
}

#[test]
fn bad_rules_give_exactly_their_problems() {
    let mut wrong = Vec::new();
    let mut seen = 0;
    let mut folders: Vec<PathBuf> = fs::read_dir(root().join("err"))
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.is_dir())
        .collect();
    folders.sort();
    for folder in folders {
        seen += 1;
        let got = match RuleBase::load(&laid_over(&folder)) {
            Ok(_) => "loads without a problem\n".to_owned(),
            Err(problems) => problems.iter().map(|p| format!("{p}\n")).collect(),
        };
        let out = folder.with_extension("out");
        if std::env::var("RULES_CORPUS").is_ok_and(|v| v == "overwrite") {
            fs::write(&out, &got).unwrap();
        }
        let wanted = fs::read_to_string(&out).unwrap_or_default();
        if got != wanted {
            wrong.push(format!(
                "== {}\n-- wanted\n{wanted}-- got\n{got}",
                folder.display()
            ));
        }
    }
    assert!(seen >= 50, "{seen}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_check_has_a_file_that_fails_it() {
    // Those of sightings; `commands` and `tests/cmd/errors.trycmd` have files for them.
    const ELSEWHERE: [Check; 2] = [Check::UnknownSetting, Check::BadFinding];
    let mut all = String::new();
    for entry in fs::read_dir(root().join("err")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|e| e == "out") {
            all += &fs::read_to_string(&path).unwrap();
        }
    }
    let shown = |check: &&Check| all.contains(&format!(" [{check}]\n"));
    let missing: Vec<&Check> = Check::ALL.iter().filter(|c| !shown(c)).collect();
    assert_eq!(missing, ELSEWHERE.iter().collect::<Vec<_>>());
}

#[test]
fn the_shipped_list_equals_the_folder() {
    let rules = Path::new(env!("CARGO_MANIFEST_DIR")).join("rules");
    let mut folder: Vec<String> = read_rules(&rules).into_iter().map(|f| f.name).collect();
    let mut list: Vec<String> = printseam::internals::rulebase::shipped::files()
        .into_iter()
        .map(|f| f.name)
        .collect();
    folder.sort();
    list.sort();
    assert_eq!(folder, list);
}
