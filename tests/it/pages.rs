//! Pages of `judge`: `--html` and `--markdown` with and without a file, in every order.

use std::fs;

use crate::commands::{folder, refused};
use crate::running::{run, text};

#[test]
fn pages_go_where_they_are_sent_in_every_order() {
    let dir = folder("pages");
    let at = |name: &str| dir.join(name).display().to_string();
    let sighting = "(format: 1, title: \"A plate of its own\", saw: [\"edge=clouded\"])";
    let piece = at("piece.ron");
    fs::write(&piece, sighting).unwrap();
    for (option, name, begins) in [
        ("--html", "card.html", "<!DOCTYPE"),
        ("--markdown", "card.md", "# "),
    ] {
        let card = at(name);
        let joined = format!("{option}={card}");
        let printed = run(&["judge", &piece, option], b"");
        let printed = text(&printed.stdout);
        let older = text(&run(&["judge", option], b"").stdout);
        assert_ne!(older, printed);
        assert!(
            printed.to_lowercase().starts_with(&begins.to_lowercase()),
            "{printed}"
        );
        assert!(printed.contains("A plate of its own"));
        // Printed: the option last, before the piece, before another option.
        for arguments in [
            vec!["judge", option, &piece],
            vec!["judge", option, "--setting", "thrift-shelf", &piece],
            vec!["judge", option, "--", &piece],
        ] {
            let output = run(&arguments, b"");
            assert_eq!(
                text(&output.stdout),
                printed,
                "{arguments:?}: {}",
                text(&output.stderr)
            );
        }
        for arguments in [["judge", "-", option], ["judge", option, "-"]] {
            let output = run(&arguments, sighting.as_bytes());
            assert_eq!(text(&output.stdout), printed, "{arguments:?}");
        }
        // Into a file: joined or not, before or after the piece, and again over the old page.
        for arguments in [
            vec!["judge", &piece, option, &card],
            vec!["judge", option, &card, &piece],
            vec!["judge", &piece, &joined],
            vec!["judge", &joined, &piece],
            vec!["judge", option, &card, "--setting", "thrift-shelf", &piece],
        ] {
            fs::write(&card, &older).unwrap();
            let output = run(&arguments, b"");
            assert!(
                output.status.success(),
                "{arguments:?}: {}",
                text(&output.stderr)
            );
            assert!(output.stdout.is_empty());
            assert_eq!(fs::read_to_string(&card).unwrap(), printed, "{arguments:?}");
        }
        // Neither a sighting nor somebody's notes are written over.
        let (other, notes) = (at("other.ron"), at("notes.txt"));
        fs::write(&other, sighting).unwrap();
        fs::write(&notes, "my notes").unwrap();
        refused(&["judge", &piece, option, &other], b"", "written over");
        refused(&["judge", option, &other, &piece], b"", "written over");
        refused(&["judge", option, &notes, &piece], b"", "put it before");
        assert_eq!(fs::read_to_string(&other).unwrap(), sighting);
        assert_eq!(fs::read_to_string(&notes).unwrap(), "my notes");
    }
}
