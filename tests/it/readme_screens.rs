//! The screens shown in the README are screens as they are: a comment before each says the window
//! and the keys. `README_SCREENS=overwrite cargo test` puts in what they look like now.

use std::path::Path;
use std::{env, fs};

use printseam::internals::screens::app::App;
use printseam::internals::screens::kit::theme::Theme;

use crate::screens::played;
use crate::shipped::expert;

const BEGIN: &str = "<!-- screen ";

/// The screen after these keys, without the blanks at the ends of its lines.
fn screen(size: (u16, u16), keys: &str) -> String {
    let (_, buffer) = played(App::new(expert(), Theme::mono()), keys, size);
    let rows = buffer.content.chunks(usize::from(size.0));
    rows.map(|row| {
        let line: String = row.iter().map(|c| c.symbol()).collect();
        line.trim_end().to_owned() + "\n"
    })
    .collect()
}

/// `80x24 <enter>1` to the size and the keys.
fn told(comment: &str) -> ((u16, u16), &str) {
    let (size, keys) = comment.split_once(' ').unwrap();
    let (width, height) = size.split_once('x').unwrap();
    ((width.parse().unwrap(), height.parse().unwrap()), keys)
}

#[test]
fn screens_in_the_readme_are_true() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let page = fs::read_to_string(&path).unwrap();
    let mut parts = page.split(BEGIN);
    let mut out = parts.next().unwrap().to_owned();
    let mut shown = 0;
    for part in parts {
        let (comment, rest) = part.split_once(" -->\n").unwrap();
        let (before, rest) = rest.split_once("```text\n").unwrap();
        let (_, after) = rest.split_once("```").unwrap();
        let (size, keys) = told(comment);
        let now = screen(size, keys);
        out += &format!("{BEGIN}{comment} -->\n{before}```text\n{now}```{after}");
        shown += 1;
    }
    assert!(shown >= 3, "{shown} screens in the README");
    if env::var("README_SCREENS").is_ok_and(|v| v == "overwrite") {
        fs::write(&path, &out).unwrap();
    } else {
        assert!(
            out == page,
            "README_SCREENS=overwrite cargo test puts the screens right"
        );
    }
}
