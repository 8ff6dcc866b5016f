//! The stock book when things go wrong: killed in the middle of a write, no room, no right to write.
//!
//! `STOCK_KILLS=200` kills more often than an everyday run does (`tests/kill_stock.sh`).

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Output;
use std::time::{Duration, Instant, SystemTime};

use crate::commands::no_control;
use crate::running::{command, text};
use crate::stock_book::Book;

/// Kills of an everyday run.
const KILLS: usize = 12;

/// Rows of one import; all of them are there afterwards, or none.
const ROWS: usize = 150;

/// What a kill waits for, and at most how much longer in microseconds: the file opened, then reading
/// and writing take some dozens of milliseconds; or the first page written, then the rest follows fast.
const MOMENTS: [(u64, u64); 2] = [(0, 40_000), (1, 6_000)];

/// Titles in the book, with how often each stands there.
fn titles(book: &Book) -> BTreeMap<String, usize> {
    let said = book.done(&["export", "-"]);
    let mut reader = csv::Reader::from_reader(said.as_bytes());
    let at = reader
        .headers()
        .unwrap()
        .iter()
        .position(|h| h == "title")
        .unwrap();
    let mut titles = BTreeMap::new();
    for record in reader.records() {
        *titles.entry(record.unwrap()[at].to_owned()).or_default() += 1;
    }
    titles
}

/// Size and time of what is being written, when it has at least so many bytes.
fn stamp(book: &Path, least: u64) -> Option<(u64, SystemTime)> {
    let wal = format!("{}-wal", book.display());
    let meta = fs::metadata(wal).ok().filter(|m| m.len() >= least)?;
    Some((meta.len(), meta.modified().ok()?))
}

/// Runs it and kills it at a moment of its writing; it may have ended before.
fn killed(arguments: &[&str], book: &Path, (least, after): (u64, Duration)) -> Output {
    let before = stamp(book, least);
    let mut child = command(arguments).spawn().unwrap();
    let start = Instant::now();
    while stamp(book, least) == before && start.elapsed() < Duration::from_secs(60) {
        if child.try_wait().unwrap().is_some() {
            break;
        }
        std::thread::sleep(Duration::from_micros(100));
    }
    std::thread::sleep(after);
    // It may just have ended by itself.
    let _ = child.kill();
    child.wait_with_output().unwrap()
}

#[test]
fn no_acknowledged_piece_is_lost_and_none_is_half_written() {
    let kills = std::env::var("STOCK_KILLS")
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(KILLS);
    let book = Book::new("stock-kill");
    book.add(&["--title", "first"]);
    let mut expected: Vec<(String, usize, bool)> = Vec::new();
    let mut hits = 0;
    // Any sequence does, as long as it is spread (a linear congruence; Knuth's MMIX constants).
    let mut chance = 2_026_u64;
    for i in 0..kills {
        chance = chance
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let (least, within) = MOMENTS[i % 2];
        let moment = (least, Duration::from_micros((chance >> 33) % within));
        let title = format!("kill {i}");
        let mut arguments = vec!["stock", "--stock", book.0.to_str().unwrap()];
        let file = book.0.with_file_name("rows.csv");
        let rows = match i % 3 {
            // One piece; its findings and photos are rows of their own.
            0 => {
                arguments.extend([
                    "add",
                    "--title",
                    &title,
                    "--saw",
                    "edge=clouded",
                    "--photo",
                    "a",
                    "--photo",
                    "b",
                ]);
                1
            }
            _ => {
                let row = |n| {
                    format!(
                        "{title},\"{}\",{n}\n",
                        "a remark of some length; ".repeat(8)
                    )
                };
                let rows: String = (0..ROWS).map(row).collect();
                fs::write(&file, format!("title,remark,paid\n{rows}")).unwrap();
                arguments.extend(["import", file.to_str().unwrap()]);
                ROWS
            }
        };
        let output = killed(&arguments, &book.0, moment);
        hits += usize::from(output.status.code().is_none());
        let said = text(&output.stdout);
        expected.push((
            title,
            rows,
            said.contains("Added: ") || said.contains(" new, "),
        ));
        // The book is looked into at once, and all of it at the end.
        if i % 4 == 0 {
            book.done(&["list", "--limit", "1"]);
        }
    }
    let titles = titles(&book);
    assert_eq!(titles["first"], 1);
    let mut acknowledged = 0;
    for (title, rows, said) in &expected {
        let there = titles.get(title).copied().unwrap_or(0);
        assert!(
            there == *rows || (there == 0 && !said),
            "{title}: {there} of {rows}, acknowledged: {said}"
        );
        acknowledged += usize::from(*said);
    }
    let copy = book.0.with_file_name("whole.db");
    book.done(&["backup", copy.to_str().unwrap()]);
    println!(
        "{kills} runs, {hits} killed, {acknowledged} acknowledged, {} written whole",
        expected
            .iter()
            .filter(|(title, _, _)| titles.contains_key(title))
            .count()
    );
    // A kill that never hits anything would prove nothing.
    assert!(hits * 6 >= kills, "{hits} of {kills}");
}

/// A limit on the size of files stands for a disk that runs full; `tests/kill_stock.sh` fills one.
#[cfg(unix)]
#[test]
fn without_room_nothing_is_changed() {
    use std::process::{Command, Stdio};
    let book = Book::new("stock-room");
    book.add(&["--title", "first"]);
    let rows: String = (0..2_000)
        .map(|n| format!("piece {n},{}\n", "x".repeat(200)))
        .collect();
    let file = book.0.with_file_name("rows.csv");
    fs::write(&file, format!("title,remark\n{rows}")).unwrap();
    let before = book.csv();
    // Blocks of 1024 bytes; the signal is ignored so that writing fails as it does on a full disk.
    let script = "trap '' XFSZ; ulimit -f 200; exec \"$0\" stock --stock \"$1\" import \"$2\"";
    let output = Command::new("bash")
        .args(["-c", script, env!("CARGO_BIN_EXE_printseam")])
        .args([&book.0, &file])
        .stdin(Stdio::null())
        .output()
        .unwrap();
    let said = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{said}");
    assert_eq!(said.lines().count(), 1, "{said}");
    assert!(said.contains("nothing was changed"), "{said}");
    assert_eq!(book.csv(), before);
}

/// As another user where the tests run as root, who may write anywhere.
#[cfg(unix)]
#[test]
fn without_the_right_to_write_nothing_is_changed() {
    use std::os::unix::fs::{MetadataExt, PermissionsExt};
    use std::os::unix::process::CommandExt;
    // Other users need not be let into the folders of the build.
    let dir = std::env::temp_dir().join(format!("printseam-readonly-{}", std::process::id()));
    let _ = fs::remove_dir_all(&dir);
    fs::create_dir(&dir).unwrap();
    let program = dir.join("printseam");
    fs::copy(env!("CARGO_BIN_EXE_printseam"), &program).unwrap();
    let book = Book(dir.join("stock.db"));
    book.add(&["--title", "first"]);
    let before = fs::read(&book.0).unwrap();
    fs::set_permissions(&dir, fs::Permissions::from_mode(0o555)).unwrap();
    let root = fs::metadata(&dir).unwrap().uid() == 0;
    let new = dir.join("new.db");
    for (file, rest) in [
        (&book.0, &["add"][..]),
        (&book.0, &["list"]),
        (&new, &["list"]),
    ] {
        let mut command = std::process::Command::new(&program);
        command
            .args(["stock", "--stock"])
            .arg(file)
            .args(rest)
            .env("XDG_CONFIG_HOME", "/nonexistent");
        if root {
            // Nobody, on most systems.
            command.uid(65_534).gid(65_534);
        }
        let output = command.output().unwrap();
        let said = text(&output.stderr);
        assert_eq!(
            output.status.code(),
            Some(2),
            "{rest:?}: {said}{}",
            text(&output.stdout)
        );
        assert_eq!(said.lines().count(), 1, "{said}");
        assert!(
            said.contains("may you write in it") || said.contains("you may not write"),
            "{said}"
        );
        no_control(&output.stderr);
    }
    assert_eq!(fs::read(&book.0).unwrap(), before);
    assert!(!new.exists());
    fs::set_permissions(&dir, fs::Permissions::from_mode(0o755)).unwrap();
    fs::remove_dir_all(&dir).unwrap();
}
