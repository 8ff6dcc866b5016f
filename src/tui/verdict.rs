//! The whole account, to be scrolled.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::app::App;
use super::bars;
use super::canvas::{Canvas, Row, item, paragraph};
use super::msg::Msg;
use super::timeline::Timeline;
use crate::words::{reasons, summary};

/// Kinds shown as bars.
const KINDS: usize = 5;

/// Places and looks shown.
const FEW: usize = 3;

/// Draws the verdict.
pub fn draw(app: &App, canvas: &mut Canvas, area: Rect) {
    // One column stays free for the signs that there is more.
    let cells = usize::from(area.width).saturating_sub(2).max(1);
    canvas.scrolled(area, &rows(app, cells), app.scroll);
}

pub fn rows(app: &App, cells: usize) -> Vec<Row> {
    let (expert, theme, text) = (app.expert(), app.theme, Style::new());
    let case = app.case();
    let verdict = case.verdict();
    let account = &verdict.explanation;
    let mut out = Vec::new();
    if case.evidence().is_empty() {
        out.extend(paragraph(
            &reasons::nothing_seen(expert, case.setting()),
            cells,
            theme.caution,
        ));
    }
    out.extend(paragraph(
        &reasons::headline(expert, verdict),
        cells,
        theme.band,
    ));
    out.push(Row::blank());
    out.extend(bars::kinds(
        app,
        cells,
        KINDS * if cells < 48 { 2 } else { 1 },
    ));
    for (place, p) in verdict.places.iter().take(FEW) {
        let name = &expert.base.places[usize::from(place.0)].name;
        out.push(Row::new(&summary::likely(name, *p), text));
    }
    out.push(Row::blank());
    let timeline = Timeline::new(app, cells);
    out.extend(timeline.verdict(4));
    out.push(timeline.axis());
    out.extend(timeline.eras(usize::MAX));
    out.push(Row::blank());
    for band in &verdict.bands {
        out.extend(paragraph(&summary::band(band), cells, text));
    }
    out.extend(paragraph(
        &summary::earliest(expert, &account.earliest),
        cells,
        text,
    ));
    out.extend(paragraph(
        &summary::latest(expert, &account.latest),
        cells,
        text,
    ));
    out.push(Row::blank());
    out.push(Row::new("Rarity", theme.heading));
    for line in summary::rarity(expert, verdict) {
        out.extend(paragraph(&line, cells, text));
    }
    heading(
        &mut out,
        app,
        "Because, in the order seen",
        account.steps.len(),
    );
    for (i, step) in account.steps.iter().enumerate() {
        let words = format!(
            "{} ({})",
            reasons::step(expert, verdict, step),
            summary::leave_one_out(expert, verdict, step)
        );
        let rows = item(&format!("{:>2}. ", i + 1), &words, cells, text);
        out.extend(
            rows.into_iter()
                .map(|row| row.click(Msg::GoTo(step.entry.clue))),
        );
        let sources = summary::sources_of(expert, &step.entry);
        out.extend(item("    Source: ", &sources, cells, theme.quiet));
    }
    heading(&mut out, app, "Doubts", account.at_odds.len());
    for odd in &account.at_odds {
        out.extend(item(
            "! ",
            &reasons::at_odds(expert, odd),
            cells,
            theme.caution,
        ));
    }
    let turns = app.turns.as_deref().unwrap_or_default();
    heading(&mut out, app, "What would change the answer", turns.len());
    for turn in turns.iter().take(FEW) {
        out.extend(item("· ", &reasons::turn(expert, turn), cells, text));
    }
    heading(&mut out, app, "Look next at", verdict.looks.len());
    for look in verdict.looks.iter().take(FEW) {
        out.extend(item("· ", &reasons::look(expert, look), cells, text));
    }
    if let Some(reason) = verdict.stop {
        out.extend(paragraph(
            &format!("No further look needed: {}.", reasons::stop(reason)),
            cells,
            text,
        ));
    }
    out.push(Row::blank());
    for caution in reasons::cautions(expert, case.evidence()) {
        out.extend(item("! ", &caution, cells, theme.caution));
    }
    out
}

/// A heading with a blank row before it, when something follows.
fn heading(out: &mut Vec<Row>, app: &App, text: &str, items: usize) {
    if items > 0 {
        out.push(Row::blank());
        out.push(Row::new(text, app.theme.heading));
    }
}
