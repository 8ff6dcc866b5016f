//! Reports as self-contained pages: no script, no font, no picture from elsewhere.

use std::collections::BTreeMap;

use minijinja::value::Serde;
use minijinja::{AutoEscape, Environment, Value, context};

use super::card::Card;
use super::class_sheet::ClassSheet;
use super::guide::Guide;
use super::handout::Handout;
use super::lesson::Lesson;
use super::picture_file;
use super::sheet::Sheet;

/// Rules of style that all pages begin with.
const STYLE: &str = include_str!("base.css");

/// How all pages begin, and how a sentence shows its trade words.
const SHARED: &str = concat!(include_str!("head.html"), include_str!("words.html"));

/// The line of a page that tells a later run that this program wrote it.
pub const MARKER: &str = r#"<meta name="generator" content="printseam">"#;

/// The report on a piece.
///
/// # Errors
/// Those of the template.
pub fn page(sheet: &Sheet) -> Result<String, minijinja::Error> {
    render(
        include_str!("page.html"),
        context! { s => Value::from(Serde(sheet)), picture => sheet.picture.as_str() },
    )
}

/// Cards for the shelf: one is a page of A6, several stand four to a page of A4.
///
/// # Errors
/// Those of the template.
pub fn cards(cards: &[Card]) -> Result<String, minijinja::Error> {
    render(
        include_str!("cards.html"),
        context! { cards => Value::from(Serde(cards)) },
    )
}

/// Sheets for a class, each from the top of a page.
///
/// # Errors
/// Those of the template.
pub fn lessons(lessons: &[Lesson]) -> Result<String, minijinja::Error> {
    let pictures: Vec<String> = lessons.iter().map(|l| l.picture.clone()).collect();
    render(
        include_str!("lessons.html"),
        context! { lessons => Value::from(Serde(lessons)), pictures },
    )
}

/// Handouts of lessons, each on a page of its own.
///
/// # Errors
/// Those of the template, and of a picture that can't be encoded.
pub fn handouts(handouts: &[Handout]) -> anyhow::Result<String> {
    let shown = handouts.iter().flat_map(|h| &h.shows);
    let drawn = drawn(shown.map(|s| (s.finding.as_str(), s.seen.plain())))?;
    let with = context! { handouts => Value::from(Serde(handouts)), drawn };
    Ok(render(include_str!("handouts.html"), with)?)
}

/// All learners of a class on one page.
///
/// # Errors
/// Those of the template.
pub fn class(class: &ClassSheet) -> Result<String, minijinja::Error> {
    render(
        include_str!("class.html"),
        context! { c => Value::from(Serde(class)) },
    )
}

/// Pictures of findings, by clue and finding, where there are any.
fn drawn<'a>(
    findings: impl Iterator<Item = (&'a str, String)>,
) -> anyhow::Result<BTreeMap<&'a str, String>> {
    let mut out = BTreeMap::new();
    for (finding, name) in findings {
        if let Some(picture) = picture_file::in_page(finding, &name)? {
            out.insert(finding, picture);
        }
    }
    Ok(out)
}

/// The field guide as one book.
///
/// # Errors
/// Those of the template, and of a picture that can't be encoded.
pub fn guide(guide: &Guide) -> anyhow::Result<String> {
    let entries = guide.chapters.iter().flat_map(|c| &c.entries);
    let findings = entries.flat_map(|e| &e.findings);
    let with = context! {
        g => Value::from(Serde(guide)),
        origins => guide.origins.trim_end_matches('.'),
        picture => guide.picture.as_str(),
        drawn => drawn(findings.map(|f| (f.finding.as_str(), f.words.clone())))?,
    };
    Ok(render(include_str!("guide.html"), with)?)
}

/// The page. The template escapes every text; only the pictures, which escape their own texts, and the style
/// are put in as they are.
fn render(template: &str, with: Value) -> Result<String, minijinja::Error> {
    let mut env = Environment::new();
    env.set_auto_escape_callback(|_| AutoEscape::Html);
    env.add_global("style", STYLE);
    env.add_global("marker", MARKER);
    let whole = env.render_named_str("page.html", &format!("{SHARED}{template}"), with)?;
    // The template's own definitions leave blank lines; within the page they do no harm.
    let lines = whole.lines().filter(|line| !line.trim().is_empty());
    Ok(lines.map(|line| format!("{line}\n")).collect())
}
