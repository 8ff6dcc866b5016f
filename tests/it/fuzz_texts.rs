//! Bytes from outside, broken in every way: rules, sightings, marks, notes, guesses, tables, imports.
//!
//! Each target begins with a small corpus (`tests/fuzz/TARGET/`, and what the repository has anyway),
//! changes it by a seeded generator, and reads it. Nothing may panic, and what is read must hold what is
//! said of it. What once failed is kept in the corpus. In a plain `cargo test` each target takes 150 to
//! 2000 texts; `FUZZ_SECONDS=600 FUZZ_SEED=7 cargo test --release --test it fuzz_texts::mark -- --nocapture`
//! goes on for ten minutes, and prints the text that fails. `FUZZ_TEXTS` sets their number instead.

use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::time::Instant;

use printseam::internals::buy::Currency;
use printseam::internals::claim;
use printseam::internals::core::grid::Year;
use printseam::internals::core::posterior::posterior;
use printseam::internals::lot::stream;
use printseam::internals::piece::expert::Expert;
use printseam::internals::piece::intake::{Told, intake};
use printseam::internals::piece::{reading, sighting_file};
use printseam::internals::prove::cases;
use printseam::internals::rulebase::RuleBase;
use printseam::internals::rulebase::ids::SettingId;
use printseam::internals::rulebase::source::SourceFile;
use printseam::internals::stock::{objects, table};

use crate::random_model::Random;
use crate::rules_corpus::read_rules;
use crate::shipped::EXPERT;

fn root(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path)
}

fn number(name: &str, usual: u64) -> u64 {
    let told = std::env::var(name).ok();
    told.map_or(usual, |text| text.parse().unwrap())
}

/// All files below a folder, in order of name.
fn files(dir: &Path, out: &mut Vec<PathBuf>) {
    let mut paths: Vec<PathBuf> = fs::read_dir(dir)
        .into_iter()
        .flatten()
        .map(|e| e.unwrap().path())
        .collect();
    paths.sort();
    for path in paths {
        match path.is_dir() {
            true => files(&path, out),
            false => out.push(path),
        }
    }
}

/// The texts kept for a target, and those of other places.
fn corpus(target: &str, more: Vec<Vec<u8>>) -> Vec<Vec<u8>> {
    let mut kept = Vec::new();
    files(&root("tests/fuzz").join(target), &mut kept);
    let kept = kept.iter().map(|path| fs::read(path).unwrap());
    kept.chain(more).collect()
}

/// What a slip, a bad disk or bad will puts into a text.
const PIECES: &[&[u8]] = &[
    b"\0",
    b"\xff",
    b"\xc2",
    b"\xe2\x80\xae",
    b"\xef\xbb\xbf",
    b"\r\n",
    b"\"",
    b"'",
    b"(",
    b")",
    b"[",
    b"]",
    b",",
    b";",
    b":",
    b"=",
    b"?",
    b"??",
    b"-",
    b"/",
    b"|",
    b"~",
    b"0",
    b"9999999999999999999999",
    b"-1",
    b"1e999",
    b"NaN",
    b"inf",
    b"1750",
    b"2026",
    b"32768",
    b"not ",
    b"no ",
    b"\xc3\x9f",
    b"\xf0\x9f\x8f\xba",
    b"Rd No ",
    b"diamond ",
    b"c. ",
    b"19th century",
    b"=1+1",
    b"\t",
    b" ",
];

/// A text of the corpus after a few changes.
fn changed(r: &mut Random, corpus: &[Vec<u8>]) -> Vec<u8> {
    let mut text = corpus[r.below(corpus.len())].clone();
    for _ in 0..1 + r.below(6) {
        let at = r.below(text.len() + 1);
        let to = (at + r.below(9)).min(text.len());
        match r.below(7) {
            0 => drop(text.splice(at..to, [])),
            1 => drop(text.splice(at..at, PIECES[r.below(PIECES.len())].iter().copied())),
            2 => drop(text.splice(at..to, PIECES[r.below(PIECES.len())].iter().copied())),
            3 if at < text.len() => text[at] ^= 1 << r.below(8),
            4 => text.truncate(at),
            // A stretch again elsewhere.
            5 => {
                let part = text[at..to].to_vec();
                let there = r.below(text.len() + 1);
                drop(text.splice(there..there, part));
            }
            // A part of another one.
            _ => {
                let other = &corpus[r.below(corpus.len())];
                let from = r.below(other.len() + 1);
                let part = other[from..(from + r.below(60)).min(other.len())].to_vec();
                drop(text.splice(at..to, part));
            }
        }
    }
    text
}

/// Reads the corpus as it is and then changed texts of it.
fn fuzz(target: &str, usual: u64, more: Vec<Vec<u8>>, read: impl Fn(&[u8])) {
    let corpus = corpus(target, more);
    assert!(!corpus.is_empty());
    let mut r = Random(number("FUZZ_SEED", 1));
    let (begun, seconds) = (Instant::now(), number("FUZZ_SECONDS", 0));
    let going_on = |n: u64| match seconds {
        0 => n < number("FUZZ_TEXTS", usual),
        some => begun.elapsed().as_secs() < some,
    };
    let mut tried: u64 = 0;
    let changed = (0..)
        .take_while(|n| going_on(*n))
        .map(|_| changed(&mut r, &corpus));
    for text in corpus.iter().cloned().chain(changed) {
        tried += 1;
        if catch_unwind(AssertUnwindSafe(|| read(&text))).is_err() {
            let shown = String::from_utf8_lossy(&text);
            panic!("{target}: keep in tests/fuzz/{target}/: {shown:?}\n{text:?}");
        }
    }
    // Seen with --nocapture.
    println!("{target}: {tried} texts in {} s", begun.elapsed().as_secs());
}

fn lossy(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// A small rule base with one file broken: refused with a place, or a posterior of it is one.
#[test]
fn rules() {
    let sources = read_rules(&root("tests/rules/ok/base"));
    for (i, broken) in sources.iter().enumerate() {
        fuzz(
            "rules",
            150,
            vec![broken.text.clone().into_bytes()],
            |bytes| {
                let mut files = sources.clone();
                files[i].text = lossy(bytes);
                assert_eq!(told(&files, None), told(&by_ron(&files, i), Some(i)));
                match Expert::load(&files, Year(2026)) {
                    Err(problems) => {
                        assert!(!problems.is_empty());
                        let known = |p: &str| files.iter().any(|f| f.name == p) || p.ends_with('/');
                        for p in &problems {
                            assert!(p.line >= 1 && p.col >= 1 && !p.message.is_empty());
                            assert!(known(&p.file) || p.file.ends_with(".ron"), "{p}");
                        }
                    }
                    Ok(expert) => {
                        for prior in expert.engine().priors.iter() {
                            let model = &expert.engine().model;
                            let p = posterior(model, prior, &Default::default());
                            let sum: f64 = p.cells().iter().sum();
                            assert!((sum - 1.0).abs() < 1e-9, "{sum}");
                        }
                    }
                }
            },
        );
    }
}

#[test]
fn sightings() {
    let mut paths = Vec::new();
    files(&root("demo"), &mut paths);
    files(&root("tests/data/sightings"), &mut paths);
    paths.retain(|p| p.extension().is_some_and(|e| e == "ron"));
    let more = paths.iter().map(|p| fs::read(p).unwrap()).collect();
    fuzz("sightings", 2000, more, |bytes| {
        let text = lossy(bytes);
        let file = SourceFile {
            name: "x.ron".to_owned(),
            text,
        };
        match sighting_file::read(&EXPERT.base, &file) {
            Ok(sighting) => {
                let told = Told {
                    sighting: Some(&sighting),
                    ..Told::default()
                };
                intake(&EXPERT, &told).unwrap();
            }
            Err(problem) => assert!(problem.line >= 1 && problem.col >= 1),
        }
    });
}

fn lines(texts: &[&str]) -> Vec<Vec<u8>> {
    texts.iter().map(|t| t.as_bytes().to_vec()).collect()
}

#[test]
fn mark() {
    let more = lines(&[
        "IRONST?NE CH1NA / MADE IN ENGLAND / Rd No 61234?",
        "diamond 31,S,W,2 class IV",
        "[maker] \u{a9} 1987 dishwasher safe EST. 1770",
        "BAVARIA / GERMANY U.S. ZONE",
    ]);
    fuzz("mark", 600, more, |bytes| {
        let text = lossy(bytes);
        for complete in [false, true] {
            let heard = reading::mark(&EXPERT, &text, complete);
            let spans = heard.reading.phrases.iter().map(|p| p.span);
            let spans = spans.chain(heard.reading.unread.iter().map(|u| u.span));
            for (from, to) in spans {
                assert!(text.get(from..to).is_some(), "{from} {to}");
            }
        }
    });
}

#[test]
fn notes() {
    let more = lines(&[
        "dark blue willow, scalloped, crazed, three stilt marks, no mark",
        "not flow blue, perhaps a decal? c. 1890-1910, printed in blue and black, 26 cm",
        "I think it is 19th century, inscribed 1847; the lid is crisp but the base isn't",
    ]);
    fuzz("notes", 300, more, |bytes| {
        let text = lossy(bytes);
        let heard = reading::notes(&EXPERT, &text);
        for said in &heard.heard {
            assert!(text.get(said.span.0..said.span.1).is_some());
        }
        for unread in &heard.unread {
            assert!(text.get(unread.span.0..unread.span.1).is_some());
        }
    });
}

#[test]
fn guess() {
    let more = lines(&[
        "flow blue, 1890s",
        "1840~/1860~",
        "not a decal, late 18th or early 19th century",
        "Georgian, about 200 years old",
        "1890-05-12",
    ]);
    fuzz("guess", 1500, more, |bytes| {
        if let Ok(claim) = claim::read(&EXPERT, &lossy(bytes)) {
            let grid = &EXPERT.engine().model.grid;
            // Some of it lies within the years judged, and it does not end before it begins.
            assert!(claim.to.is_none_or(|to| to >= grid.first().0), "{claim:?}");
            assert!(
                claim.from.is_none_or(|from| from <= grid.last().0),
                "{claim:?}"
            );
            if let (Some(from), Some(to)) = (claim.from, claim.to) {
                assert!(from <= to, "{claim:?}");
            }
        }
    });
}

/// Tables of `lot` and `prove`.
#[test]
fn tables() {
    let known = fs::read(root("tests/cmd/known.csv")).unwrap();
    let more = vec![
        known,
        b"notes,mark,edge,asking,condition\nblue willow,ENGLAND,crisp?,4.50,chip\n".to_vec(),
    ];
    fuzz("tables", 250, more, |bytes| {
        if let Err(problems) = cases::read(&EXPERT, SettingId(0), bytes) {
            assert!(
                problems.iter().all(|p| p.starts_with("line ")),
                "{problems:?}"
            );
        }
        if let Err(problem) = stream::open(&EXPERT, bytes) {
            assert!(problem.starts_with("line 1: "), "{problem}");
        }
    });
}

/// Imports of the stock book, as a table and as objects.
#[test]
fn imports() {
    let more = vec![
        b"id,added,notes,mark,findings,paid,currency,condition,asking\nabcdefghjk,2026-11-01,blue willow,ENGLAND,edge=crisp?,4.50,USD,chip,12\n".to_vec(),
        br#"{"format":1,"pieces":[{"notes":"blue willow","paid":"4.50","currency":"USD","added":"2026-11-01"}]}"#.to_vec(),
    ];
    fuzz("imports", 1500, more, |bytes| {
        let table = table::read(bytes, Currency::default());
        let objects = objects::read(bytes, Currency::default());
        for rows in [table, objects] {
            if let Err(problems) = rows {
                assert!(!problems.is_empty());
            }
        }
    });
}

/// The same files, one of them with a comment that only ron reads, at its very start.
fn by_ron(files: &[SourceFile], i: usize) -> Vec<SourceFile> {
    let mut files = files.to_vec();
    files[i].text.insert_str(0, "/**/");
    files
}

/// All that is read, or all that is wrong; the first line of one file has `/**/` before it.
fn told(files: &[SourceFile], moved: Option<usize>) -> String {
    // Places stand before a message, and within it: "first at places.ron:1:60".
    let first_line = moved.map(|i| format!("{}:1:", files[i].name));
    let back = |line: String| match &first_line {
        None => line,
        Some(first_line) => moved_back(&line, first_line),
    };
    match RuleBase::load(files) {
        Ok(base) => {
            let version = String::new();
            format!("{:?}", RuleBase { version, ..base })
        }
        Err(problems) => {
            let each = problems.iter();
            each.map(|p| format!("{}:{}:{} {}\n", p.file, p.line, p.col, p.message))
                .map(back)
                .collect()
        }
    }
}

/// Columns after each `first_line` four less, where they are more than four.
fn moved_back(line: &str, first_line: &str) -> String {
    let mut parts = line.split(first_line);
    let mut out = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let rest = part.trim_start_matches(|c: char| c.is_ascii_digit());
        let column: usize = part[..part.len() - rest.len()].parse().unwrap_or(0);
        let column = if column > 4 { column - 4 } else { column };
        out += &format!("{first_line}{column}{rest}");
    }
    out
}

#[test]
fn rules_read_plainly_are_those_ron_reads() {
    let files = printseam::internals::rulebase::shipped::files();
    let plainly = told(&files, None);
    for i in 0..files.len() {
        assert!(
            plainly == told(&by_ron(&files, i), Some(i)),
            "{}",
            files[i].name
        );
    }
}

/// Without it a reader that refuses everything would pass: rules as they are must load.
#[test]
fn what_is_not_broken_is_read() {
    let sources = read_rules(&root("tests/rules/ok/base"));
    assert!(RuleBase::load(&sources).is_ok());
    let objects = br#"{"format":1,"pieces":[]}"#;
    assert!(objects::read(objects, Currency::default()).is_ok());
    assert!(table::read(b"notes,paid\nwillow,3\n", Currency::default()).is_ok());
}
