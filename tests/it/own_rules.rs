//! The user's own rule folder as it may be found: empty, unreadable, with odd names, pipes, marks of
//! editors. What can't be read is said; nothing is passed over in silence, and nothing hangs.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Output;

use crate::commands::{folder, rules_copy};
use crate::running::{command, run, text};

/// `printseam judge` with this configuration folder.
fn judged(config: &Path) -> Output {
    let mut command = command(&["judge", "--saw", "edge=crisp"]);
    command.env("XDG_CONFIG_HOME", config).output().unwrap()
}

/// A configuration folder with an empty folder of rules in it.
fn overlay(name: &str) -> (PathBuf, PathBuf) {
    let config = folder(name);
    let rules = config.join("printseam/rules");
    fs::create_dir_all(&rules).unwrap();
    (config, rules)
}

fn stops(config: &Path, says: &str) {
    let output = judged(config);
    let said = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{said}");
    assert!(said.contains(says), "{said}");
    assert!(output.stdout.is_empty());
}

fn does_not_matter(config: &Path) {
    let output = judged(config);
    assert_eq!(text(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(
        output.stdout,
        run(&["judge", "--saw", "edge=crisp"], b"").stdout
    );
}

#[test]
fn an_empty_folder_adds_nothing() {
    let (config, rules) = overlay("overlay-empty");
    does_not_matter(&config);
    fs::write(rules.join("notes.txt"), "to do").unwrap();
    fs::create_dir_all(rules.join(".git/objects/ab/cd")).unwrap();
    fs::write(rules.join("._kinds.ron"), "of another system").unwrap();
    does_not_matter(&config);
}

#[test]
fn what_is_no_folder_of_rules_is_said() {
    let (config, rules) = overlay("overlay-file");
    fs::remove_dir(&rules).unwrap();
    fs::write(&rules, "x").unwrap();
    stops(&config, "is no folder");
}

#[test]
fn a_file_with_an_odd_name_or_too_deep_is_said() {
    let (config, rules) = overlay("overlay-names");
    fs::write(rules.join("Kinds.RON"), "(format: 1, kinds: [])").unwrap();
    stops(&config, "overlay/Kinds.RON:1:1: not a rule file's name");
    fs::remove_file(rules.join("Kinds.RON")).unwrap();
    let deep = rules.join("a/b/c");
    fs::create_dir_all(&deep).unwrap();
    fs::write(deep.join("kinds.ron"), "(format: 1, kinds: [])").unwrap();
    stops(&config, "at most 3 folders deep");
}

#[cfg(unix)]
mod unix {
    use std::fs;
    use std::os::unix::fs::{PermissionsExt, symlink};
    use std::process::Command;

    use super::{overlay, stops};

    #[test]
    fn a_pipe_is_not_waited_for() {
        let (config, rules) = overlay("overlay-pipe");
        let pipe = rules.join("kinds.ron");
        assert!(
            Command::new("mkfifo")
                .arg(&pipe)
                .status()
                .unwrap()
                .success()
        );
        stops(&config, "is no ordinary file");
    }

    #[test]
    fn a_link_that_leads_nowhere_is_not_the_same_as_nothing() {
        let (config, rules) = overlay("overlay-link");
        fs::remove_dir(&rules).unwrap();
        symlink("/nonexistent/rules", &rules).unwrap();
        stops(&config, "leads nowhere");
    }

    /// Root may read everything: then there is nothing to be seen here.
    #[test]
    fn a_folder_that_can_not_be_read_is_said() {
        let (config, rules) = overlay("overlay-closed");
        let own = config.join("printseam");
        let rights = |mode| fs::set_permissions(&own, fs::Permissions::from_mode(mode)).unwrap();
        rights(0o000);
        let closed = fs::read_dir(&rules).is_err();
        if closed {
            stops(&config, "can't be read");
        }
        rights(0o755);
        assert!(rules.is_dir());
    }
}

#[test]
fn a_byte_order_mark_before_rules_and_sightings_is_passed_over() {
    let dir = rules_copy("with-mark");
    let path = dir.join("kinds.ron");
    let plain = fs::read_to_string(&path).unwrap();
    fs::write(&path, format!("\u{feff}{plain}")).unwrap();
    let checked = run(&["rules", "check", &dir.display().to_string()], b"");
    assert!(text(&checked.stdout).ends_with("no problem\n"));
    let sighting = "(format: 1, saw: [\"edge=crisp\"])";
    let with = run(&["judge", "-"], format!("\u{feff}{sighting}").as_bytes());
    assert_eq!(text(&with.stderr), "");
    assert_eq!(
        with.stdout,
        run(&["judge", "-"], sighting.as_bytes()).stdout
    );
}

#[test]
fn very_many_problems_are_told_in_few_lines() {
    let dir = rules_copy("many-problems");
    let kind = |i: usize| {
        format!(
            "(id: \"k{i}\", name: \"x\", made: [(place: \"nowhere{i}\", weight: Comon)], because: \"b\"),\n"
        )
    };
    let kinds: String = (0..1_500).map(kind).collect();
    fs::create_dir(dir.join("own")).unwrap();
    fs::write(
        dir.join("own/kinds.ron"),
        format!("(format: 1, kinds: [{kinds}])"),
    )
    .unwrap();
    let shown = dir.display().to_string();
    let checked = run(&["rules", "check", &shown], b"");
    assert_eq!(checked.status.code(), Some(1));
    let said = text(&checked.stdout);
    assert!(
        said.lines().count() <= 103,
        "{} lines",
        said.lines().count()
    );
    // Of each: no such place, no such weight, no source; and more kinds than there can be.
    let (_, more) = said.rsplit_once("\nand ").unwrap();
    assert!(more.contains(" more problems\n"), "{more}");
    let judged = run(&["--rules", &shown, "judge"], b"");
    assert_eq!(judged.status.code(), Some(2));
    assert!(text(&judged.stderr).lines().count() <= 102);
}

#[test]
fn very_many_bad_rows_are_told_in_few_lines() {
    let table = folder("many-rows").join("bad.csv");
    let rows: String = (0..5_000).map(|i| format!("abcd,18{i},x{i}\n")).collect();
    fs::write(&table, format!("from,to,kind\n{rows}")).unwrap();
    let proved = run(&["prove", &table.display().to_string()], b"");
    assert_eq!(proved.status.code(), Some(2));
    let said = text(&proved.stderr);
    assert_eq!(said.lines().count(), 51);
    assert!(said.ends_with(" more problems\n"), "{said}");
}
