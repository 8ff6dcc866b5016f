//! The whole account, to be scrolled.

use crate::say::band;
use crate::say::caution;
use crate::say::headline;
use crate::say::leaning;
use crate::say::origin;
use crate::say::rarity;
use crate::say::scales;
use crate::say::weight;
use ratatui::layout::Rect;
use ratatui::style::Style;

use super::app::App;
use super::bars;
use super::canvas::{Canvas, Row, item, paragraph};
use super::msg::Msg;
use super::timeline::Timeline;
use crate::say::account;

/// Kinds shown as bars.
const KINDS: usize = 5;

/// Places shown.
const FEW: usize = 3;

/// Draws the verdict.
pub fn draw(app: &App, canvas: &mut Canvas, area: Rect) {
    // One column stays free for the signs that there is more.
    let cells = usize::from(area.width).saturating_sub(2).max(1);
    canvas.scrolled(area, &rows(app, cells), app.scroll);
}

pub fn rows(app: &App, cells: usize) -> Vec<Row> {
    let (expert, theme, text) = (app.expert(), app.theme, Style::new());
    let piece = app.piece();
    let judgement = piece.judgement();
    let explained = piece.explanation();
    let mut out = Vec::new();
    if piece.evidence().is_empty() {
        out.extend(paragraph(
            &headline::nothing_seen(expert, piece.setting()),
            cells,
            theme.caution,
        ));
    }
    out.extend(paragraph(&headline::headline(piece), cells, theme.band));
    out.push(Row::blank());
    out.extend(bars::kinds(
        app,
        cells,
        KINDS * if cells < 48 { 2 } else { 1 },
    ));
    for (place, p) in judgement.places.iter().take(FEW) {
        let name = &expert.base.places[usize::from(place.0)].name;
        out.push(Row::new(&scales::likely(name, *p), text));
    }
    out.push(Row::blank());
    let timeline = Timeline::new(app, cells);
    out.extend(timeline.verdict(4));
    out.push(timeline.axis());
    out.extend(timeline.eras(usize::MAX));
    out.push(Row::blank());
    for band in &judgement.bands {
        out.extend(paragraph(&band::band(band), cells, text));
    }
    out.extend(paragraph(
        &band::earliest(expert, &explained.earliest),
        cells,
        text,
    ));
    out.extend(paragraph(
        &band::latest(expert, &explained.latest),
        cells,
        text,
    ));
    out.push(Row::blank());
    out.push(Row::new("Rarity", theme.heading));
    for line in rarity::rarity(piece) {
        out.extend(paragraph(&line, cells, text));
    }
    let nothing = Default::default();
    let (whole, leanings) = app.account.as_ref().unwrap_or(&nothing);
    parts(&mut out, app, &whole.sides(), cells);
    let steps = &explained.steps;
    heading(&mut out, app, account::IN_ORDER, steps.len());
    for (i, step) in steps.iter().enumerate() {
        let words = format!(
            "{} ({})",
            weight::step(piece, step),
            weight::leave_one_out(piece, step)
        );
        let rows = item(&format!("{:>2}. ", i + 1), &words, cells, text);
        out.extend(
            rows.into_iter()
                .map(|row| row.prose().click(Msg::GoTo(step.observation.clue))),
        );
        let leaning = leaning::leaning_of(leanings, &step.observation);
        if !leaning.is_empty() {
            out.extend(item("    ", leaning, cells, theme.quiet));
        }
        let sources = origin::sources_of(expert, &step.observation);
        out.extend(item("    Source: ", &sources, cells, theme.quiet));
    }
    parts(&mut out, app, &whole.ahead(), cells);
    if let Some(stop) = &whole.stop {
        out.push(Row::blank());
        out.extend(paragraph(stop, cells, text));
    }
    out.push(Row::blank());
    for caution in caution::cautions(expert, piece.evidence()) {
        out.extend(item("! ", &caution, cells, theme.caution));
    }
    out
}

/// Lists under their headings.
fn parts(out: &mut Vec<Row>, app: &App, parts: &[(&str, &[String])], cells: usize) {
    for (title, sentences) in parts {
        heading(out, app, title, sentences.len());
        for sentence in *sentences {
            let rows = item("· ", sentence, cells, Style::new());
            out.extend(rows.into_iter().map(Row::prose));
        }
    }
}

/// A heading with a blank row before it, when something follows.
fn heading(out: &mut Vec<Row>, app: &App, text: &str, items: usize) {
    if items > 0 {
        out.push(Row::blank());
        out.push(Row::new(text, app.theme.heading));
    }
}
