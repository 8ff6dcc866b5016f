//! One question at a time, the verdict always in sight.

use ratatui::layout::Rect;

use super::app::App;
use super::canvas::{Canvas, Row, paragraph};
use super::jump::station_name;
use super::msg::Msg;
use super::{bars, findings, years};
use crate::core::axes::ClueId;
use crate::words::{reasons, summary};

/// From this width on the question stands beside the verdict.
const TWO_COLUMNS: u16 = 76;

/// Draws the consultation.
pub fn draw(app: &App, canvas: &mut Canvas, area: Rect) {
    if area.width >= TWO_COLUMNS {
        let left = Rect {
            width: area.width * 11 / 20,
            ..area
        };
        let right = Rect {
            x: area.x + left.width + 1,
            width: area.width - left.width - 1,
            ..area
        };
        question(app, canvas, left);
        side(app, canvas, right);
        return;
    }
    // A phone: the verdict in four rows, the question below it.
    let cells = usize::from(area.width);
    let mut rows = bars::kinds(app, cells, 2);
    rows.push(Row::new(&brief(app), app.theme.band).click(Msg::Verdict));
    rows.extend(years::picture(app, cells, 1, 0).into_iter().take(2));
    let top = rows.len() as u16;
    canvas.rows(
        Rect {
            height: top.min(area.height),
            ..area
        },
        &rows,
    );
    let rest = Rect {
        y: area.y + top.min(area.height),
        height: area.height.saturating_sub(top),
        ..area
    };
    question(app, canvas, rest);
}

/// Band, middle year and rarity in one line.
fn brief(app: &App) -> String {
    let verdict = app.case().verdict();
    let band = verdict.band();
    format!(
        "{}–{} (80 %), middle {}, rarity {:.0}",
        band.from.0, band.to.0, verdict.median.0, verdict.rarity.score
    )
}

/// Kinds, years, rarity and what was seen.
fn side(app: &App, canvas: &mut Canvas, area: Rect) {
    let cells = usize::from(area.width);
    let roomy = area.height >= 28;
    let mut rows = bars::kinds(app, cells, if roomy { 6 } else { 4 });
    rows.push(Row::new(&brief(app), app.theme.band).click(Msg::Verdict));
    let eras = if roomy { 10 } else { 5 };
    rows.extend(years::picture(app, cells, if roomy { 5 } else { 3 }, eras));
    let entries = app.case().evidence().entries();
    let free = usize::from(area.height).saturating_sub(rows.len() + 1);
    if !entries.is_empty() && free > 1 {
        rows.push(Row::new("Seen so far", app.theme.heading));
        let skipped = entries.len().saturating_sub(free - 1);
        for entry in &entries[skipped..] {
            let text = format!(
                "{}: {}",
                reasons::clue_name(app.expert(), entry.clue),
                reasons::seen(app.expert(), entry)
            );
            rows.push(
                Row::new(&super::wrap::fit(&text, cells), app.theme.quiet)
                    .click(Msg::GoTo(entry.clue)),
            );
        }
    }
    canvas.rows(area, &rows);
}

fn question(app: &App, canvas: &mut Canvas, area: Rect) {
    match app.clue() {
        Some(clue) => ask(app, canvas, area, clue),
        None => stopped(app, canvas, area),
    }
}

fn ask(app: &App, canvas: &mut Canvas, area: Rect, clue: ClueId) {
    let cells = usize::from(area.width);
    let rules = app.expert().base.clue(clue);
    let mut rows = paragraph(&rules.question, cells, app.theme.heading);
    let list = findings::rows(app, clue, cells);
    let tools: Vec<String> = rules
        .tools
        .iter()
        .map(|t| format!("{t:?}").to_lowercase())
        .collect();
    let how = format!(
        "{} [{}; {}; {:.0} s]",
        rules.look,
        station_name(rules.station),
        tools.join(", "),
        rules.seconds
    );
    let dated = rules.dated.is_some();
    if dated {
        rows.extend(paragraph(&how, cells, app.theme.quiet));
        rows.push(Row::blank());
        rows.push(Row::new(&format!("Year: {}_", app.typed), app.theme.chosen));
        canvas.rows(area, &rows);
        return;
    }
    // How to look gives way to the findings when there is little room.
    let free = usize::from(area.height).saturating_sub(rows.len() + list.len().min(9));
    let mut help = paragraph(&how, cells, app.theme.quiet);
    if free > help.len() + 2 {
        help.push(Row::blank());
        help.extend(paragraph(&rules.tells, cells, app.theme.quiet));
    }
    help.truncate(free.max(1));
    rows.extend(help);
    let top = (rows.len() as u16).min(area.height);
    canvas.rows(
        Rect {
            height: top,
            ..area
        },
        &rows,
    );
    let rest = Rect {
        y: area.y + top,
        height: area.height - top,
        ..area
    };
    canvas.list(rest, &list);
}

/// Nothing left that repays a look.
fn stopped(app: &App, canvas: &mut Canvas, area: Rect) {
    let cells = usize::from(area.width);
    let verdict = app.case().verdict();
    let mut rows = Vec::new();
    if let Some(reason) = verdict.stop {
        let text = format!("No further look needed: {}.", reasons::stop(reason));
        rows.extend(paragraph(&text, cells, app.theme.heading));
        rows.push(Row::blank());
    }
    rows.extend(paragraph(
        &reasons::headline(app.expert(), verdict),
        cells,
        app.theme.band,
    ));
    rows.push(Row::blank());
    rows.extend(paragraph(
        &summary::years(&verdict.band()),
        cells,
        app.theme.quiet,
    ));
    rows.push(Row::new("Enter: the whole verdict", app.theme.key).click(Msg::Take));
    canvas.rows(area, &rows);
}
