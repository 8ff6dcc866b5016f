//! Every file the program writes is written whole or not at all, and over nobody else's. Tested on
//! the pages of `judge`, which go through the one writer of files.

use std::fs;
use std::path::Path;

use crate::commands::{folder, refused};
use crate::running::{run, text};

const PAGES: [(&str, &str); 2] = [("--html", "card.html"), ("--markdown", "card.md")];

/// Writes a page of a piece with this finding, and gives it back.
fn written(option: &str, path: &Path, saw: &str, force: &[&str]) -> String {
    let path = path.display().to_string();
    let arguments = [&["judge", option, &path, "--saw", saw], force].concat();
    let output = run(&arguments, b"");
    assert!(output.status.success(), "{}", text(&output.stderr));
    fs::read_to_string(path).unwrap()
}

/// What lies in a folder, sorted: nothing may be left beside a page.
fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let mut names: Vec<String> = entries
        .map(|e| e.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

#[test]
fn a_page_of_ours_and_an_empty_file_are_written_over() {
    let dir = folder("writing-ours");
    for (option, name) in PAGES {
        let path = dir.join(name);
        fs::write(&path, "").unwrap();
        let one = written(option, &path, "edge=clouded", &[]);
        let two = written(option, &path, "edge=crisp", &[]);
        assert_ne!(one, two);
    }
    assert_eq!(names(&dir), ["card.html", "card.md"]);
}

#[test]
fn a_file_of_somebody_else_is_kept_unless_forced() {
    let dir = folder("writing-foreign");
    for (option, name) in PAGES {
        let path = dir.join(name);
        let shown = path.display().to_string();
        // A page of ours quoted in another is no page of ours, nor is one in the other form.
        let other = PAGES.iter().find(|(o, _)| *o != option).unwrap();
        let of_other_form = run(&["judge", other.0], b"").stdout;
        let quoted = text(&run(&["judge", option], b"").stdout).replace('\n', "\n> ");
        for foreign in [
            &b"my own page"[..],
            b"\xff\xfe\0",
            &of_other_form,
            quoted.as_bytes(),
        ] {
            fs::write(&path, foreign).unwrap();
            refused(&["judge", option, &shown], b"", "--force");
            assert_eq!(fs::read(&path).unwrap(), foreign);
        }
        let page = written(option, &path, "edge=clouded", &["--force"]);
        assert_eq!(written(option, &path, "edge=clouded", &[]), page);
    }
    assert_eq!(names(&dir), ["card.html", "card.md"]);
    // There is nothing to force where nothing is written.
    refused(&["judge", "--force"], b"", "--html");
    refused(&["judge", "--json", "--force"], b"", "--html");
}

#[test]
fn a_folder_is_no_page() {
    let dir = folder("writing-folder");
    let shown = dir.display().to_string();
    refused(&["judge", "--html", &shown], b"", "is a folder");
    refused(&["judge", "--html", &shown, "--force"], b"", "is a folder");
    let nowhere = dir.join("no/such/card.html").display().to_string();
    refused(&["judge", "--html", &nowhere], b"", "folder");
    assert!(names(&dir).is_empty());
}

#[cfg(unix)]
mod unix {
    use std::io::{Write, stderr};
    use std::os::unix::fs::{PermissionsExt, symlink};
    use std::process::{Command, Output};

    use super::*;

    #[test]
    fn links_are_not_followed() {
        let dir = folder("writing-links");
        let target = dir.join("target.html");
        let ours = written("--html", &target, "edge=clouded", &[]);
        let (link, dangling) = (dir.join("link.html"), dir.join("dangling.html"));
        symlink(&target, &link).unwrap();
        symlink(dir.join("nothing.html"), &dangling).unwrap();
        for link in [&link, &dangling] {
            let shown = link.display().to_string();
            refused(&["judge", "--html", &shown], b"", "is a link");
            refused(&["judge", "--html", &shown, "--force"], b"", "is a link");
        }
        assert_eq!(fs::read_to_string(&target).unwrap(), ours);
        assert_eq!(names(&dir), ["dangling.html", "link.html", "target.html"]);
        // A page reached by two names is written over under one of them.
        let second = dir.join("second.html");
        fs::hard_link(&target, &second).unwrap();
        written("--html", &second, "edge=crisp", &[]);
        assert_eq!(fs::read_to_string(&target).unwrap(), ours);
    }

    #[test]
    fn devices_and_pipes_are_refused() {
        let dir = folder("writing-devices");
        let pipe = dir.join("pipe.html");
        let made = Command::new("mkfifo").arg(&pipe).status().unwrap();
        assert!(made.success());
        for path in [&pipe, Path::new("/dev/null"), Path::new("/dev/full")] {
            let shown = path.display().to_string();
            refused(&["judge", "--html", &shown], b"", "no ordinary file");
            refused(
                &["judge", "--html", &shown, "--force"],
                b"",
                "no ordinary file",
            );
        }
        assert_eq!(names(&dir), ["pipe.html"]);
    }

    #[test]
    fn who_may_read_a_page_stays_as_it_was() {
        let dir = folder("writing-rights");
        let path = dir.join("card.html");
        let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
        written("--html", &path, "edge=clouded", &[]);
        fs::write(dir.join("plain"), "").unwrap();
        // A new page is made as any new file is.
        assert_eq!(mode(&path), mode(&dir.join("plain")));
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
        written("--html", &path, "edge=crisp", &[]);
        assert_eq!(mode(&path), 0o640);
        fs::set_permissions(&path, fs::Permissions::from_mode(0o440)).unwrap();
        let shown = path.display().to_string();
        refused(&["judge", "--html", &shown], b"", "write-protected");
        written("--html", &path, "edge=clouded", &["--force"]);
        assert_eq!(mode(&path), 0o440);
    }

    /// The program in a shell, with its path in `$0` and the page's in `$1`.
    fn shell(script: &str, page: &Path) -> Output {
        let mut command = Command::new("sh");
        command.args(["-c", script, env!("CARGO_BIN_EXE_printseam")]);
        command.arg(page).env("PRINTSEAM_NOW", "2026");
        command.env("XDG_CONFIG_HOME", "/nonexistent");
        command.output().unwrap()
    }

    /// A disk that is full after one block: here a limit on the size of files, which stops a writer
    /// half way as a full disk does and needs no rights.
    #[test]
    fn a_page_that_does_not_fit_leaves_the_old_one() {
        let dir = folder("writing-limit");
        let path = dir.join("card.html");
        let old = written("--html", &path, "edge=clouded", &[]);
        let script = "trap '' XFSZ; ulimit -f 1; exec \"$0\" judge --saw edge=crisp --html \"$1\"";
        let output = shell(script, &path);
        let said = text(&output.stderr);
        assert_eq!(
            (output.status.code(), said.lines().count()),
            (Some(2), 1),
            "{said}"
        );
        assert!(said.contains("card.html: can't be written"), "{said}");
        assert_eq!(fs::read_to_string(&path).unwrap(), old);
        assert_eq!(names(&dir), ["card.html"]);
    }

    /// Runs a script with a small disk of its own mounted on `$2`; `None`, and said so, where that is
    /// not allowed.
    fn on_small_disk(dir: &Path, script: &str) -> Option<Output> {
        let mut command = Command::new("unshare");
        let whole = format!("mount -t tmpfs -o size=64k tmpfs \"$2\" || exit 99; {script}");
        command.args(["-rm", "sh", "-c", &whole, env!("CARGO_BIN_EXE_printseam")]);
        command.arg("unused").arg(dir).env("PRINTSEAM_NOW", "2026");
        command.env("XDG_CONFIG_HOME", "/nonexistent");
        match command.output() {
            Ok(output) if ![Some(1), Some(99)].contains(&output.status.code()) => Some(output),
            why => {
                // Straight to the real standard error: a skipped test must not look like a passed one.
                let _ = writeln!(stderr(), "SKIPPED: no disk can be mounted here: {why:?}");
                None
            }
        }
    }

    const ON_DISK: &str = r#"
        cd "$2" && "$0" judge --saw edge=clouded --html card.html || exit 90
        cp card.html /dev/stdout
        printf '%s\n' ----
        CHANGE
        "$0" judge --saw edge=crisp --html card.html 2>&1
        printf '%s\n' "code $?" ----
        ls -A
        printf '%s\n' ----
        cat card.html
    "#;

    /// The page before, what was said, what lies there, and the page after.
    fn changed_between(name: &str, change: &str) -> Option<[String; 4]> {
        let output = on_small_disk(&folder(name), &ON_DISK.replace("CHANGE", change))?;
        let all = text(&output.stdout);
        let parts: Vec<String> = all.split("----\n").map(str::to_owned).collect();
        Some(
            parts
                .try_into()
                .unwrap_or_else(|_| panic!("{all} {}", text(&output.stderr))),
        )
    }

    #[test]
    fn a_full_disk_keeps_the_old_page() {
        let fill = "dd if=/dev/zero of=filler bs=1k 2>/dev/null";
        let Some([before, said, left, after]) = changed_between("writing-full", fill) else {
            return;
        };
        assert_eq!(before, after);
        assert_eq!(left, "card.html\nfiller\n");
        assert!(said.contains("card.html: can't be written"), "{said}");
        assert!(
            said.contains("code 2") && said.lines().count() == 2,
            "{said}"
        );
    }

    #[test]
    fn a_folder_that_may_not_be_written_in_is_said() {
        let protect = "cd /; mount -o remount,ro \"$2\"; cd \"$2\"";
        let Some([before, said, left, after]) = changed_between("writing-protected", protect)
        else {
            return;
        };
        assert_eq!(before, after);
        assert_eq!(left, "card.html\n");
        assert!(said.contains("card.html: can't be written"), "{said}");
        assert!(
            said.contains("code 2") && said.lines().count() == 2,
            "{said}"
        );
    }
}
