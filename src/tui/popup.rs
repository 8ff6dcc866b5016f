//! What opens over a screen.

use ratatui::layout::{Constraint, Rect};
use ratatui::text::Span;

use super::app::{App, Popup};
use super::canvas::{Canvas, Row, item, paragraph};
use super::keys::{label_of, screen_bindings};
use super::msg::Msg;
use super::wrap::fit;
use super::{jump, why};
use crate::case::heard;
use crate::core::evidence::Entry;
use crate::words::reasons::{REGISTRATION_IS_A_FLOOR, clue_name, seen};

/// Draws the popup on top.
pub fn draw(app: &App, canvas: &mut Canvas, area: Rect, popup: &Popup) {
    // A narrow window has no cells to spare for what lies below.
    let width = if area.width < 92 {
        area.width
    } else {
        (area.width - 2).min(90)
    };
    let height = match popup {
        Popup::Quit => 5,
        _ => area.height,
    };
    let at = area.centered(Constraint::Length(width), Constraint::Length(height));
    let inside = canvas.frame(at, title(popup));
    let cells = usize::from(inside.width);
    let theme = app.theme;
    match popup {
        Popup::Jump { search, cursor } => {
            let head = Row::new(&format!("Find: {search}_"), theme.key);
            canvas.rows(
                Rect {
                    height: 1,
                    ..inside
                },
                &[head],
            );
            canvas.list(below(inside, 1), &jump::rows(app, search, *cursor, cells));
        }
        Popup::Setting { cursor } => {
            let settings = app.expert().base.settings.iter().enumerate();
            let rows: Vec<Row> = settings
                .map(|(i, s)| {
                    Row::of(vec![
                        Span::styled(format!("{:>2} ", label_of(i).unwrap_or(' ')), theme.key),
                        Span::raw(fit(
                            &format!("{}: {}", s.name, s.about),
                            cells.saturating_sub(3),
                        )),
                    ])
                    .click(Msg::Choose(i))
                    .chosen(i == *cursor)
                })
                .collect();
            canvas.list(inside, &rows);
        }
        Popup::Notes { text } => canvas.rows(inside, &notes(app, text, cells)),
        Popup::Mark { text } => canvas.rows(inside, &mark(app, text, cells)),
        Popup::Why { scroll } => {
            canvas.scrolled(inside, &why::rows(app, cells.saturating_sub(2)), *scroll)
        }
        Popup::Help { scroll } => {
            canvas.scrolled(inside, &help(app, cells.saturating_sub(2)), *scroll)
        }
        Popup::Quit => {
            let text = "Leave? The findings of this piece are not kept.";
            canvas.rows(inside, &paragraph(text, cells, theme.heading));
        }
    }
}

fn title(popup: &Popup) -> &'static str {
    match popup {
        Popup::Jump { .. } => "Go to a clue",
        Popup::Setting { .. } => "Where was it found?",
        Popup::Notes { .. } => "Say what you see",
        Popup::Mark { .. } => "Read the back",
        Popup::Why { .. } => "Why this question",
        Popup::Help { .. } => "Keys",
        Popup::Quit => "Leave",
    }
}

fn below(area: Rect, rows: u16) -> Rect {
    let rows = rows.min(area.height);
    Rect {
        y: area.y + rows,
        height: area.height - rows,
        ..area
    }
}

/// The line, what was understood of it, and what was not.
fn notes(app: &App, text: &str, cells: usize) -> Vec<Row> {
    let theme = app.theme;
    let mut out = paragraph(
        "One line in trade words, such as: dark blue willow, scalloped, no mark",
        cells,
        theme.quiet,
    );
    out.extend(paragraph(&format!("{text}_"), cells, theme.chosen));
    let heard = heard::notes(app.expert(), text);
    for (words, entry) in &heard.heard {
        let line = format!("{words}: {}", said(app, entry));
        out.extend(item("✓ ", &line, cells, theme.quiet));
    }
    for unread in &heard.unread {
        out.extend(item(
            "? ",
            &format!("{} (not understood)", unread.text),
            cells,
            theme.caution,
        ));
    }
    out
}

/// The mark as typed, each phrase with what it dates, and registrations decoded.
fn mark(app: &App, text: &str, cells: usize) -> Vec<Row> {
    let theme = app.theme;
    let mut out = paragraph(
        "What can be read: ? for a letter you can't read, / for a new line; a diamond as diamond A,12,3,W (top, right, bottom, left)",
        cells,
        theme.quiet,
    );
    out.extend(paragraph(&format!("{text}_"), cells, theme.chosen));
    let heard = heard::mark(app.expert(), text, false);
    for decoded in &heard.reading.registered {
        for date in &decoded.dates {
            out.extend(item(
                "✓ ",
                &format!("registered {} to {}", date.from, date.to),
                cells,
                theme.band,
            ));
        }
        if let Some(problem) = &decoded.problem {
            out.extend(item("! ", problem, cells, theme.caution));
        }
        for why in &decoded.why {
            out.extend(item("  ", why, cells, theme.quiet));
        }
    }
    let dated = heard.reading.registered.iter();
    if dated.flat_map(|d| &d.dates).next().is_some() {
        out.extend(item("  ", REGISTRATION_IS_A_FLOOR, cells, theme.quiet));
    }
    for entry in &heard.entries {
        out.extend(item("✓ ", &said(app, entry), cells, theme.key));
    }
    for phrase in &heard.reading.phrases {
        out.extend(item(
            "· ",
            &format!("{}: {}", phrase.text, phrase.because),
            cells,
            theme.quiet,
        ));
    }
    for unread in heard.reading.unread.iter().filter(|u| !u.name) {
        out.extend(item(
            "? ",
            &format!("{} (not recognised)", unread.text),
            cells,
            theme.caution,
        ));
    }
    out
}

/// A finding in words.
fn said(app: &App, entry: &Entry) -> String {
    let name = clue_name(app.expert(), entry.clue);
    format!("{name}: {}", seen(app.expert(), entry))
}

/// The keys of the screen below, then what the signs mean.
fn help(app: &App, cells: usize) -> Vec<Row> {
    let theme = app.theme;
    let mut out = Vec::new();
    for binding in screen_bindings(app) {
        let key = format!("{:<7}", binding.key.shown());
        out.extend(
            item(&key, binding.help, cells, theme.quiet)
                .into_iter()
                .map(|row| row.click(binding.msg)),
        );
    }
    out.extend(item(
        "1–9, A–Z ",
        "Choose a finding. Everything can also be tapped or clicked.",
        cells,
        theme.quiet,
    ));
    out.push(Row::blank());
    for (sign, meaning) in [
        (
            "● ",
            "the middle year: half of the chance lies on either side",
        ),
        (
            "├ ┤ ",
            "the shortest run of years that holds 80 % of the chance",
        ),
        (
            "░▒▓█ ",
            "when a finding is seen: the darker, the more often",
        ),
        ("✓ ", "what you have said"),
    ] {
        out.extend(item(sign, meaning, cells, theme.quiet));
    }
    out
}
