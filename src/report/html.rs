//! The report as one self-contained page: no script, no font, no picture from elsewhere.

use minijinja::value::Serde;
use minijinja::{AutoEscape, Environment, Value, context};

use super::sheet::Sheet;

const TEMPLATE: &str = include_str!("page.html");

/// The line of a page that tells a later run that this program wrote it.
pub const MARKER: &str = r#"<meta name="generator" content="printseam">"#;

/// The page. The template escapes every text; only the picture, which escapes its own, is put in as
/// it is.
///
/// # Errors
/// Those of the template.
pub fn page(sheet: &Sheet) -> Result<String, minijinja::Error> {
    let mut env = Environment::new();
    env.set_auto_escape_callback(|_| AutoEscape::Html);
    env.add_template("page.html", TEMPLATE)?;
    let whole = env.get_template("page.html")?.render(context! {
        s => Value::from(Serde(sheet)),
        picture => sheet.picture.as_str(),
    })?;
    // The template's own definitions leave blank lines; within the page they do no harm.
    let lines = whole.lines().filter(|line| !line.trim().is_empty());
    Ok(lines.map(|line| format!("{line}\n")).collect())
}
