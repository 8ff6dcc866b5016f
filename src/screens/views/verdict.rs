//! The whole account, to be scrolled.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::bars;
use super::timeline::Timeline;
use crate::say::{account, band, caution, leaning, origin, plain, rarity, scales, weight};
use crate::screens::kit::canvas::{Canvas, text_cells};
use crate::screens::kit::rows::{Row, item, paragraph};
use crate::screens::kit::theme::Theme;
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{DOWN, END, PAGE_DOWN, PAGE_UP, TOP, UP};
use crate::screens::state::keys::{Binding, KeyTable};
use crate::screens::state::msg::Msg;
use crate::screens::state::session::Session;

/// Rows of kinds as bars.
const KINDS: usize = 8;

/// Places shown.
const FEW: usize = 3;

const BACK: Binding = Binding::new(Key::Esc, Msg::Look, "back", "Back to the questions.");

/// The keys of the verdict alone.
pub(crate) fn keys() -> KeyTable {
    KeyTable::new(vec![
        UP,
        DOWN,
        PAGE_UP,
        PAGE_DOWN,
        BACK,
        TOP.in_help(),
        END.in_help(),
    ])
}

/// Draws the verdict.
pub(crate) fn draw(session: &Session, canvas: &mut Canvas, area: Rect) {
    let rows = rows(session, canvas.theme, text_cells(area).max(1));
    canvas.scrolled(area, &rows, session.scroll());
}

/// The verdict from beginning to end.
pub(crate) fn rows(session: &Session, theme: Theme, cells: usize) -> Vec<Row> {
    let (expert, piece, text) = (session.expert(), session.piece(), Style::new());
    let judgement = piece.judgement();
    let explained = piece.explanation();
    let mut out = Vec::new();
    for (i, line) in plain::lines(piece).iter().enumerate() {
        let style = if i == 0 { theme.band } else { text };
        out.extend(paragraph(line, cells, style));
    }
    out.extend(paragraph(&plain::place_and_rarity(piece), cells, text));
    out.push(Row::blank());
    out.extend(bars::kinds(piece, theme, cells, KINDS));
    for (place, p) in judgement.places.iter().take(FEW) {
        let name = &expert.base.places[usize::from(place.0)].name;
        out.push(Row::new(&scales::likely(name, *p), text));
    }
    out.push(Row::blank());
    let timeline = Timeline::new(session, theme, cells);
    out.extend(timeline.verdict(4));
    out.push(timeline.axis());
    out.extend(timeline.findings(usize::MAX));
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
    let whole = account::account(piece);
    parts(&mut out, theme, &whole.sides(), cells);
    let steps = &explained.steps;
    heading(&mut out, theme, account::IN_ORDER, steps.len());
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
        let mut leanings = piece.leanings().iter();
        if let Some(leaning) = leanings.find(|l| l.observation == step.observation) {
            let words = leaning::leaning(expert, leaning);
            out.extend(item("    ", &words, cells, theme.quiet));
        }
        let sources = origin::sources_of(expert, &step.observation);
        out.extend(item("    Source: ", &sources, cells, theme.quiet));
    }
    parts(&mut out, theme, &whole.ahead(), cells);
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
fn parts(out: &mut Vec<Row>, theme: Theme, parts: &[(&str, &[String])], cells: usize) {
    for (title, sentences) in parts {
        heading(out, theme, title, sentences.len());
        for sentence in *sentences {
            let rows = item("· ", sentence, cells, Style::new());
            out.extend(rows.into_iter().map(Row::prose));
        }
    }
}

/// A heading with a blank row before it, when something follows.
fn heading(out: &mut Vec<Row>, theme: Theme, text: &str, items: usize) {
    if items > 0 {
        out.push(Row::blank());
        out.push(Row::new(text, theme.heading));
    }
}
