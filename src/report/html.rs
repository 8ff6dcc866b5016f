//! Reports as self-contained pages: no script, no font, no picture from elsewhere.

use minijinja::value::Serde;
use minijinja::{AutoEscape, Environment, Value, context};

use super::card::Card;
use super::guide::Guide;
use super::handout::Handout;
use super::lesson::Lesson;
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
/// Those of the template.
pub fn handouts(handouts: &[Handout]) -> Result<String, minijinja::Error> {
    render(
        include_str!("handouts.html"),
        context! { handouts => Value::from(Serde(handouts)) },
    )
}

/// The field guide as one book.
///
/// # Errors
/// Those of the template.
pub fn guide(guide: &Guide) -> Result<String, minijinja::Error> {
    render(
        include_str!("guide.html"),
        context! {
            g => Value::from(Serde(guide)),
            origins => guide.origins.trim_end_matches('.'),
            picture => guide.picture.as_str(),
        },
    )
}

/// The page. The template escapes every text; only the pictures, which escape their own, and the style
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
