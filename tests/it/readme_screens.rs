//! The screens shown in README and `docs/` are screens as they are: a comment before each says the window
//! and the keys; those marked `sold` begin with the demo's plate, and with the book its invented sale leaves behind.
//! `README_SCREENS=overwrite cargo test` puts in what they look like now.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::LazyLock;
use std::{env, fs};

use printseam::internals::piece::intake::{Told, intake};
use printseam::internals::piece::sighting_file::read;
use printseam::internals::registry::calendar::Date;
use printseam::internals::rulebase::source::SourceFile;
use printseam::internals::screens::app::App;
use printseam::internals::screens::kit::theme::Theme;
use printseam::internals::screens::state::session::AtHand;
use printseam::internals::stock::sqlite::Sqlite;
use ratatui::buffer::Buffer;

use crate::commands::folder;
use crate::screens::{played, text};
use crate::shipped::expert;
use crate::stock_screens::{at_hand, with_book};

const BEGIN: &str = "<!-- screen ";

/// Before the keys of a screen that begins with the demo's plate and the book of its sale.
const SOLD: &str = "sold ";

/// The screen after these keys.
fn screen(size: (u16, u16), keys: &str) -> String {
    trimmed(&match keys.strip_prefix(SOLD) {
        Some(keys) => after_the_sale(size, keys),
        None => played(App::new(expert(), Theme::mono()), keys, size).1,
    })
}

/// The text of a screen, without the blanks at the ends of its lines.
pub fn trimmed(buffer: &Buffer) -> String {
    let lines = text(buffer);
    lines
        .lines()
        .map(|l| l.trim_end().to_owned() + "\n")
        .collect()
}

/// Holds a file of shown screens against what they look like now, or puts that in where it is asked for.
pub fn held_or_put(path: &Path, now: &str) {
    if env::var("README_SCREENS").is_ok_and(|v| v == "overwrite") {
        return fs::write(path, now).unwrap();
    }
    let held = fs::read_to_string(path).unwrap_or_default();
    let path = path.display();
    assert!(
        held == now,
        "{path}: README_SCREENS=overwrite cargo test puts the screens right"
    );
}

/// The demo's plate on the table, as `printseam demo/clouded-plate.ron` shows it when its like were sold before.
fn after_the_sale(size: (u16, u16), keys: &str) -> Buffer {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let name = "demo/clouded-plate.ron".to_owned();
    let text = fs::read_to_string(root.join(&name)).unwrap();
    let sighting = read(&expert().base, &SourceFile { name, text }).unwrap();
    let told = Told {
        sighting: Some(&sighting),
        ..Told::default()
    };
    let taken = intake(&expert(), &told).unwrap();
    let setting = sighting.setting.unwrap();
    let mut app = App::of_file(expert(), Theme::mono(), setting, &taken).with_stock(AtHand {
        today: Date::new(2026, 11, 28).unwrap(),
        ..at_hand()
    });
    with_book(&mut app, &mut Sqlite::open(&BOOK).unwrap(), keys, size)
}

/// What `demo/sale.sh` leaves in a book that it is told to keep.
static BOOK: LazyLock<PathBuf> = LazyLock::new(|| {
    let book = folder("readme-sale").join("sale.db");
    let sale = Command::new("sh")
        .arg("demo/sale.sh")
        .arg(&book)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("PRINTSEAM", env!("CARGO_BIN_EXE_printseam"))
        .env("PRINTSEAM_NOW", "2026")
        .env("XDG_CONFIG_HOME", "/nonexistent")
        .output()
        .unwrap();
    assert!(sale.status.success(), "{sale:?}");
    book
});

/// `80x24 <enter>1` to the size and the keys.
fn told(comment: &str) -> ((u16, u16), &str) {
    let (size, keys) = comment.split_once(' ').unwrap();
    let (width, height) = size.split_once('x').unwrap();
    ((width.parse().unwrap(), height.parse().unwrap()), keys)
}

/// README and the pages it leads to.
fn pages() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let docs = fs::read_dir(root.join("docs")).unwrap();
    let mut pages: Vec<PathBuf> = docs.map(|f| f.unwrap().path()).collect();
    pages.retain(|p| p.extension().is_some_and(|e| e == "md"));
    pages.push(root.join("README.md"));
    pages
}

/// The page with its screens as they are now, and how many there are.
fn redrawn(page: &str) -> (String, usize) {
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
    (out, shown)
}

#[test]
fn screens_in_readme_and_docs_are_true() {
    let mut shown = 0;
    for path in pages() {
        let page = fs::read_to_string(&path).unwrap();
        let (now, screens) = redrawn(&page);
        shown += screens;
        held_or_put(&path, &now);
    }
    assert!(shown >= 5, "{shown} screens in README and docs");
}

/// A page that says more than a stranger reads belongs into `docs/`, and every page there is led to.
#[test]
fn the_readme_is_short_and_leads_to_every_page() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let readme = fs::read_to_string(root.join("README.md")).unwrap();
    assert!(readme.lines().count() <= 200);
    let developers = fs::read_to_string(root.join("DEVELOPERS.md")).unwrap();
    for page in pages() {
        let name = page.strip_prefix(root).unwrap().display().to_string();
        let led = readme.contains(&name) || developers.contains(&name);
        assert!(led || name == "README.md", "nothing leads to {name}");
        let text = fs::read_to_string(&page).unwrap();
        for link in links(&text) {
            let to = page.parent().unwrap().join(link);
            assert!(to.exists(), "{name} leads to {link}, which is not there");
        }
    }
}

/// Targets of Markdown links to files of our own.
fn links(page: &str) -> Vec<&str> {
    let targets = page.split("](").skip(1);
    targets
        .filter_map(|rest| {
            let end = rest.find(')')?;
            let target = &rest[..end];
            (!target.contains("://")).then(|| target.split('#').next().unwrap_or_default())
        })
        .filter(|t| !t.is_empty())
        .collect()
}
