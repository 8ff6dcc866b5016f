//! One question at a time, the verdict always in sight.

use crate::say::headline;
use crate::say::look;
use ratatui::layout::Rect;

use super::app::App;
use super::canvas::{Canvas, Row, above, beside, paragraph, prose};
use super::msg::Msg;
use super::popups::jump::station_name;
use super::timeline::{self, Timeline};
use super::{bars, findings};
use crate::core::grid::ClueId;
use crate::core::observation::Sure;
use crate::core::question::seconds;
use crate::rulebase::definitions::{Clue, Tool};

/// From this width on the question stands beside the kinds, and the years below both.
const WIDE: u16 = 76;

/// Rows from which the years get more room.
const ROOMY: u16 = 30;

/// Rows from which a narrow window shows the findings with their eras.
const TALL: u16 = 24;

/// Draws the consultation.
pub fn draw(app: &App, canvas: &mut Canvas, area: Rect) {
    if area.width >= WIDE {
        wide(app, canvas, area);
    } else {
        narrow(app, canvas, area);
    }
}

fn wide(app: &App, canvas: &mut Canvas, area: Rect) {
    let (curve, most) = if area.height >= ROOMY { (6, 9) } else { (3, 3) };
    let eras = app.piece().evidence().observations().len().min(most);
    // Rule, curve, band, axis, eras.
    let strip = (1 + curve + 2 + eras) as u16;
    let (top, bottom) = above(area, area.height.saturating_sub(strip));
    let (left, right) = beside(top, area.width * 11 / 20, 2);
    question(app, canvas, left);
    kinds(app, canvas, right);

    let cells = usize::from(area.width);
    let (rule, rest) = above(bottom, 1);
    canvas.rule(rule, &timeline::brief(app, cells - 4), app.theme.band);
    canvas.hit(rule, Msg::Verdict);
    let timeline = Timeline::new(app, cells);
    let mut rows = timeline.verdict(curve);
    rows.push(timeline.axis());
    rows.extend(timeline.eras(eras));
    canvas.rows(rest, &rows);
}

/// A phone: the verdict above, the question below it where the thumb is.
fn narrow(app: &App, canvas: &mut Canvas, area: Rect) {
    let cells = usize::from(area.width);
    let tall = area.height >= TALL;
    let mut rows = bars::names(app, cells, if tall { 3 } else { 2 });
    rows.push(Row::new(&timeline::brief(app, cells), app.theme.band).click(Msg::Verdict));
    if tall {
        let timeline = Timeline::new(app, cells);
        rows.extend(timeline.verdict(2));
        rows.push(timeline.axis());
        rows.extend(timeline.eras(usize::from(area.height / 6)));
    } else {
        rows.extend(Timeline::bare(app, cells).verdict(1));
    }
    let (top, rest) = above(area, rows.len() as u16);
    canvas.rows(top, &rows);
    question(app, canvas, rest);
}

fn kinds(app: &App, canvas: &mut Canvas, area: Rect) {
    let cells = usize::from(area.width);
    let places = paragraph(&bars::places(app, 3), cells, app.theme.quiet);
    let free = usize::from(area.height).saturating_sub(places.len() + 1);
    let mut rows = vec![Row::new("How decorated", app.theme.heading)];
    rows.extend(bars::kinds(app, cells, free.min(12)));
    rows.extend(places);
    canvas.rows(area, &rows);
}

fn question(app: &App, canvas: &mut Canvas, area: Rect) {
    match app.clue() {
        Some(clue) => ask(app, canvas, area, clue),
        None => stopped(app, canvas, area),
    }
}

fn ask(app: &App, canvas: &mut Canvas, area: Rect, clue: ClueId) {
    let (cells, height) = (usize::from(area.width), usize::from(area.height));
    let rules = app.expert().base.clue(clue);
    let quiet = app.theme.quiet;
    let mut rows = prose(&rules.question, cells, app.theme.heading);
    let mut last = Vec::new();
    if app.sure != Sure::Sure {
        let text = match app.sure {
            Sure::Guess => "The next answer counts as a guess.",
            _ => "The next answer counts as unsure.",
        };
        last = paragraph(text, cells, app.theme.caution);
    }
    let words = findings::words(app, clue);
    let (all, least) = match rules.dated {
        Some(_) => (2, 2),
        None => findings::rows_wanted(&words, cells),
    };
    // How to look gives way to the findings: all rows but one when they need pages anyway. What it
    // tells gives way to both.
    let taken = rows.len() + last.len();
    let whole = least + taken <= height;
    let wanted = match whole {
        true => least,
        false => height.saturating_sub(taken + 1),
    };
    let free = height.saturating_sub(taken + wanted);
    let how = format!("{} ({})", rules.look, effort(app, clue, rules));
    let mut help = prose(&how, cells, quiet);
    if help.len() > free {
        help.truncate(free);
        if let Some(row) = help.last_mut() {
            *row = Row::new("? shows how to look", app.theme.key).click(Msg::Why);
        }
    }
    let tells = prose(&rules.tells, cells, quiet);
    if taken + help.len() + tells.len() + all <= height {
        help.extend(tells);
    }
    rows.extend(help);
    rows.extend(last);
    let (top, rest) = above(area, rows.len() as u16);
    canvas.rows(top, &rows);
    if rules.dated.is_some() {
        let text = format!("Type the year: {}_", app.typed);
        canvas.rows(rest, &[Row::new(&text, app.theme.chosen)]);
    } else {
        findings::draw(app, canvas, rest, clue);
    }
}

/// Station, tools and time of a look.
fn effort(app: &App, clue: ClueId, rules: &Clue) -> String {
    let tools: Vec<&str> = rules.tools.iter().map(tool_name).collect();
    let looked_up = app.expert().engine.model.clue(clue);
    format!(
        "{}; {}; about {:.0} seconds",
        station_name(rules.station),
        tools.join(", "),
        seconds(looked_up, app.piece().station())
    )
}

fn tool_name(tool: &Tool) -> &'static str {
    match tool {
        Tool::Eye => "eye",
        Tool::Loupe => "loupe",
        Tool::Torch => "torch",
        Tool::Fingernail => "fingernail",
        Tool::UvLamp => "UV lamp",
        Tool::Ruler => "ruler",
    }
}

/// Nothing left that repays a look: why, and the verdict proposed.
fn stopped(app: &App, canvas: &mut Canvas, area: Rect) {
    let cells = usize::from(area.width);
    let piece = app.piece();
    let mut rows = Vec::new();
    if let Some(reason) = piece.advice().stop {
        let text = format!("Enough seen: {}.", look::stop(reason));
        rows.extend(paragraph(&text, cells, app.theme.heading));
        rows.push(Row::blank());
    }
    let headline = headline::headline(piece);
    rows.extend(paragraph(&headline, cells, app.theme.band));
    rows.push(Row::blank());
    rows.push(Row::new("Enter  see the whole verdict", app.theme.key).click(Msg::Take));
    if !piece.advice().looks.is_empty() {
        rows.push(Row::new("o      go on looking all the same", app.theme.key).click(Msg::GoOn));
    }
    rows.push(Row::new("j      go to any clue", app.theme.key).click(Msg::Jump));
    canvas.rows(area, &rows);
}
