//! A line of notes, and what stands on the back, turned into findings: each shown for a yes.

use crate::core::observation::Observation;
use crate::piece::intake::{self, MarkHeard};
use crate::registry::decoded::Decoded;
use crate::say::reasons::{clue_name, seen};
use crate::say::registration::{self, REGISTRATION_IS_A_FLOOR, registered};
use crate::screens::app::App;
use crate::screens::canvas::{Row, item, paragraph};
use crate::screens::msg::Msg;

/// More runs of days than this are summed up, and stand in full further down.
const MOST_DATES: usize = 3;

/// The line, what was understood of it, and what was not.
pub fn notes(app: &App, text: &str, cells: usize) -> Vec<Row> {
    let theme = app.theme;
    let hint = "One line in trade words, such as: dark blue willow, scalloped, no mark";
    let mut out = paragraph(hint, cells, theme.quiet);
    out.extend(paragraph(&format!("{text}_"), cells, theme.chosen));
    let heard = intake::notes(app.expert(), text);
    for (words, entry) in &heard.heard {
        let line = format!("{words}: {}", said(app, entry));
        out.extend(item("✓ ", &line, cells, theme.quiet));
    }
    for unread in &heard.unread {
        let line = format!("{} (not understood)", unread.text);
        out.extend(item("? ", &line, cells, theme.caution));
    }
    out
}

/// The mark as typed, and what it says.
pub fn mark(app: &App, text: &str, whole: bool, cells: usize) -> Vec<Row> {
    let theme = app.theme;
    let hint = "What can be read: ? for a letter you can't read, / for a new line. Tab opens a registration diamond to type into.";
    let mut out = paragraph(hint, cells, theme.quiet);
    out.extend(paragraph(&format!("{text}_"), cells, theme.chosen));
    let more = match whole {
        true => "Nothing else stands there: words that are missing speak too. (→ takes it back)",
        false => "There may be more that can't be read. (→ if nothing else stands there)",
    };
    let more = paragraph(more, cells, theme.quiet).into_iter();
    out.extend(more.map(|row| row.click(Msg::Right)));
    out.extend(heard(app, &intake::mark(app.expert(), text, whole), cells));
    out
}

/// Registrations decoded, findings, each phrase with what it dates, and what was not recognised.
pub fn heard(app: &App, heard: &MarkHeard, cells: usize) -> Vec<Row> {
    let theme = app.theme;
    let mut out = Vec::new();
    let decoded_all = &heard.reading.registered;
    for decoded in decoded_all {
        if let Some(problem) = registration::problem(decoded) {
            out.extend(item("! ", &problem, cells, theme.caution));
        }
        if let (n, Some((from, to))) = (decoded.dates.len(), decoded.years())
            && n > MOST_DATES
        {
            let line = format!("registered between {from} and {to}, in one of {n} runs of days");
            out.extend(item("✓ ", &line, cells, theme.band));
        } else {
            out.extend(dates(app, decoded, cells));
        }
        let again = registration::look_again_all(decoded);
        if !again.is_empty() {
            let line = format!("look again at: {}", again.join(", "));
            out.extend(item("! ", &line, cells, theme.caution));
        }
    }
    for entry in &heard.entries {
        out.extend(item("✓ ", &said(app, entry), cells, theme.key));
    }
    for decoded in decoded_all {
        for why in &decoded.why {
            out.extend(item("  ", &registration::why(why), cells, theme.quiet));
        }
    }
    if decoded_all.iter().any(|d| !d.dates.is_empty()) {
        out.extend(item("  ", REGISTRATION_IS_A_FLOOR, cells, theme.quiet));
    }
    for decoded in decoded_all.iter().filter(|d| d.dates.len() > MOST_DATES) {
        out.extend(dates(app, decoded, cells));
    }
    for phrase in &heard.reading.phrases {
        let line = format!("{}: {}", phrase.text, phrase.because);
        out.extend(item("· ", &line, cells, theme.quiet));
    }
    for unread in heard.reading.unread.iter().filter(|u| !u.name) {
        let line = format!("{} (not recognised)", unread.text);
        out.extend(item("? ", &line, cells, theme.caution));
    }
    out
}

fn dates(app: &App, decoded: &Decoded, cells: usize) -> Vec<Row> {
    let lines = decoded.dates.iter().map(registered);
    lines
        .flat_map(|line| item("✓ ", &line, cells, app.theme.band))
        .collect()
}

/// A finding in words.
fn said(app: &App, entry: &Observation) -> String {
    let name = clue_name(app.expert(), entry.clue);
    format!("{name}: {}", seen(app.expert(), entry))
}
