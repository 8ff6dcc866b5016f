//! Texts of rules, files and arguments are data: none commands a terminal, a page or a reader.

use std::fs;

use crate::commands::{changed, folder, rules_copy};
use crate::running::{run, text};

/// What commands: controls but line ends and tabs, and what turns the direction of writing.
fn commanding(text: &str) -> Option<char> {
    let turns =
        |c| ('\u{202a}'..='\u{202e}').contains(&c) || ('\u{2066}'..='\u{2069}').contains(&c);
    let controls = |c: char| c.is_control() && c != '\n' && c != '\t';
    text.chars().find(|c| controls(*c) || turns(*c))
}

#[test]
fn names_in_rules_command_neither_pages_nor_the_terminal() {
    let dir = rules_copy("commanding-names");
    let bad = "name: \"b\\u{1b}[31m\\u{9b}2J\\u{202e}\\u{2066}";
    let kinds = changed(
        "kinds.ron",
        "name: \"blue print",
        &format!("{bad}blue print"),
    );
    fs::write(dir.join("kinds.ron"), kinds).unwrap();
    let rules = dir.display().to_string();
    let pages = folder("commanding-pages");
    let with = |arguments: &[&str]| run(&[&["--rules", &rules], arguments].concat(), b"");
    let judge = [
        "judge",
        "--saw",
        "edge=crisp",
        "--notes",
        "willow \u{202e}title",
    ];
    for form in ["--html", "--markdown", "--card", "--sheet"] {
        let page = pages
            .join(form.trim_start_matches('-'))
            .with_extension("html");
        let to_file = format!("{form}={}", page.display());
        let done = with(&[&judge[..], &[&to_file]].concat());
        assert_eq!(text(&done.stderr), "");
        let page = fs::read_to_string(page).unwrap();
        assert!(page.contains("blue print"), "{form}");
        assert_eq!(commanding(&page), None, "{form}");
        let printed = text(&with(&[&judge[..], &[form]].concat()).stdout);
        assert!(printed.contains("blue print"), "{form}");
        assert_eq!(commanding(&printed), None, "{form}");
    }
    for arguments in [
        &judge[..],
        &["judge", "--details"],
        &["rules", "show", "printed-blue"],
    ] {
        assert_eq!(commanding(&text(&with(arguments).stdout)), None);
    }
    let guide = pages.join("guide.html");
    with(&["guide", "--html", &guide.display().to_string()]);
    assert_eq!(commanding(&fs::read_to_string(guide).unwrap()), None);
}

#[cfg(unix)]
#[test]
fn a_file_name_can_not_forge_a_line_of_an_error() {
    let forged = "no\nprintseam: all is well.ron";
    for arguments in [
        &["judge", forged][..],
        &["--rules", forged, "judge"],
        &["lot", forged],
        &["prove", forged],
        &[
            "judge",
            "--saw",
            "edge=crisp",
            "--html",
            "/nonexistent/a\nb",
        ],
    ] {
        let output = run(arguments, b"");
        assert_eq!(output.status.code(), Some(2));
        assert_eq!(text(&output.stderr).lines().count(), 1, "{arguments:?}");
    }
    let dir = folder("forged");
    fs::write(dir.join(forged), "(format: 1, saw: [\"edge=\nx\"])").unwrap();
    let output = run(&["judge", &dir.join(forged).display().to_string()], b"");
    let said = text(&output.stderr);
    // What is wrong, and what to do.
    assert!(said.lines().count() <= 2, "{said}");
    assert!(
        said.lines().skip(1).all(|l| l.starts_with("  help: ")),
        "{said}"
    );
}

#[cfg(unix)]
#[test]
fn a_folder_in_place_of_input_is_called_a_folder() {
    use std::process::Stdio;
    for arguments in [&["ask"][..], &["drill"]] {
        let mut command = crate::running::command(arguments);
        command.stdin(Stdio::from(fs::File::open("/").unwrap()));
        command.env("XDG_DATA_HOME", folder("folder-as-input"));
        let output = command.output().unwrap();
        assert_eq!(output.status.code(), Some(2));
        assert_eq!(
            text(&output.stderr),
            "printseam: standard input: is a folder\n"
        );
    }
}

#[test]
fn a_class_that_is_none_leaves_the_day_standing() {
    let said = |class: &str| {
        let output = run(
            &["registered", "--diamond", "31,S,W,2", "--class", class],
            b"",
        );
        assert_eq!(output.status.code(), Some(0));
        text(&output.stdout)
    };
    let said = said("XIV");
    assert!(said.starts_with("  registered 1875-03-31\n"), "{said}");
    assert!(
        said.contains("  the day stands, but: 'XIV' is no class"),
        "{said}"
    );
    assert!(!said.contains("not possible"), "{said}");
}
