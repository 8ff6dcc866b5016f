//! One question at a time, the verdict always in sight.

use ratatui::layout::Rect;

use super::timeline::{self, Timeline};
use super::{bars, findings};
use crate::core::grid::ClueId;
use crate::core::model::Station;
use crate::core::observation::Sure;
use crate::core::question::seconds;
use crate::rulebase::definitions::Clue;
use crate::say::plain::tool;
use crate::say::{headline, look};
use crate::screens::kit::canvas::{Canvas, above, beside};
use crate::screens::kit::rows::{Row, paragraph, prose};
use crate::screens::kit::wrap::{fit, wrap};
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{DOWN, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::keys::{Binding, KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::session::Session;

/// From this width on the question stands beside the kinds, and the years below both.
const WIDE: u16 = 76;

/// Rows from which the years get more room.
const ROOMY: u16 = 30;

/// Rows from which a narrow window shows the findings with their eras, and rows below which it
/// has none for the curve: a phone with its keyboard up.
const TALL: u16 = 24;
const SHORT: u16 = 14;

/// Rows that how to look leaves to a long list of findings: it can be paged and searched, and how
/// to look can't (common practice, no source).
const LEAST_LIST: usize = 4;

/// Stations in the order a hand would follow.
pub(crate) const STATIONS: [(Station, &str); 7] = [
    (Station::Front, "front"),
    (Station::Shape, "shape"),
    (Station::Back, "back"),
    (Station::Mark, "mark"),
    (Station::Glaze, "glaze"),
    (Station::Loupe, "loupe"),
    (Station::Condition, "condition"),
];

/// What a station is called.
pub(crate) fn station_name(station: Station) -> &'static str {
    let found = STATIONS.iter().find(|(s, _)| *s == station);
    found.map_or("", |(_, name)| name)
}

/// The keys of the questions alone.
pub(crate) fn keys(session: &Session) -> KeyTable {
    if session.clue().is_none() {
        let mut keys = vec![enter("see the verdict", "See the whole verdict.")];
        if !session.piece().advice().looks.is_empty() {
            let help = "Make the best look left, though it is worth little.";
            keys.push(Binding::new(Key::Char('a'), Msg::GoOn, "go on", help));
        }
        return KeyTable::new(keys);
    }
    if session.asks_year() {
        let help = "Erase the last figure.";
        let erase = Binding::new(Key::Backspace, Msg::Erase, "erase", help);
        let keys = vec![enter("accept", "Accept the year typed."), erase];
        return KeyTable::new(keys).writing(Writes::Figures);
    }
    // The line below a list in pages says which keys turn them.
    let keys = vec![
        enter("choose", "Choose the finding marked."),
        UP.in_help(),
        DOWN.in_help(),
        PAGE_UP.in_help(),
        PAGE_DOWN.in_help(),
    ];
    KeyTable::new(keys).choosing(session.items(), Msg::Choose)
}

/// Draws the question and what is known so far.
pub(crate) fn draw(session: &Session, canvas: &mut Canvas, area: Rect) {
    if area.width >= WIDE {
        wide(session, canvas, area);
    } else {
        narrow(session, canvas, area);
    }
}

fn wide(session: &Session, canvas: &mut Canvas, area: Rect) {
    let (curve, most) = if area.height >= ROOMY { (6, 9) } else { (3, 3) };
    let eras = session.piece().evidence().observations().len().min(most);
    // A long list has more need of the rows than the picture.
    let room = usize::from(area.height).saturating_sub(3 + curve + eras);
    let (curve, eras) = match room < rows_of_question(session, usize::from(area.width / 2)) {
        true => (1, 0),
        false => (curve, eras),
    };
    // Rule, curve, band, axis, eras.
    let strip = (1 + curve + 2 + eras) as u16;
    let (top, bottom) = above(area, area.height.saturating_sub(strip));
    let (left, right) = beside(top, area.width / 2, 2);
    question(session, canvas, left);
    kinds(session, canvas, right);

    let cells = usize::from(area.width);
    let (rule, rest) = above(bottom, 1);
    canvas.rule(
        rule,
        &timeline::brief(session.piece(), cells - 4),
        canvas.theme.band,
    );
    canvas.hit(rule, Msg::Verdict);
    let timeline = Timeline::new(session, canvas.theme, cells);
    let mut rows = timeline.verdict(curve);
    rows.push(timeline.axis());
    rows.extend(timeline.findings(eras));
    canvas.rows(rest, &rows);
}

/// Rows of the open question with how to look and all its findings; 0 where there is no list.
fn rows_of_question(session: &Session, cells: usize) -> usize {
    let Some(clue) = session.clue() else {
        return 0;
    };
    let rules = session.expert().base.clue(clue);
    if rules.dated.is_some() {
        return 0;
    }
    let (all, _) = findings::rows_wanted(&findings::words(session, clue), cells);
    wrap(&rules.question, cells).len() + wrap(&rules.look, cells).len() + all
}

/// A phone: the verdict above, the question below it where the thumb is.
fn narrow(session: &Session, canvas: &mut Canvas, area: Rect) {
    let cells = usize::from(area.width);
    let (tall, short) = (area.height >= TALL, area.height < SHORT);
    let most = match (tall, short) {
        (true, _) => 4,
        (_, true) => 1,
        _ => 2,
    };
    let mut rows = bars::kinds(session.piece(), canvas.theme, cells, most);
    rows.push(
        Row::new(&timeline::brief(session.piece(), cells), canvas.theme.band).click(Msg::Verdict),
    );
    let timeline = Timeline::new(session, canvas.theme, cells);
    if tall {
        rows.extend(timeline.verdict(2));
        rows.push(timeline.axis());
        rows.extend(timeline.findings(usize::from(area.height / 6)));
    } else if !short {
        let years = &session.piece().judgement().years;
        rows.extend(timeline.curve("", years, 1));
        rows.push(timeline.axis());
    }
    let (top, rest) = above(area, rows.len() as u16);
    canvas.rows(top, &rows);
    question(session, canvas, rest);
}

fn kinds(session: &Session, canvas: &mut Canvas, area: Rect) {
    let cells = usize::from(area.width);
    let places = paragraph(&bars::places(session.piece(), 3), cells, canvas.theme.quiet);
    let free = usize::from(area.height).saturating_sub(places.len() + 1);
    let mut rows = vec![Row::new("How decorated", canvas.theme.heading)];
    rows.extend(bars::kinds(
        session.piece(),
        canvas.theme,
        cells,
        free.min(12),
    ));
    rows.extend(places);
    canvas.rows(area, &rows);
}

fn question(session: &Session, canvas: &mut Canvas, area: Rect) {
    match session.clue() {
        Some(clue) => ask(session, canvas, area, clue),
        None => stopped(session, canvas, area),
    }
}

fn ask(session: &Session, canvas: &mut Canvas, area: Rect, clue: ClueId) {
    let (cells, height) = (usize::from(area.width), usize::from(area.height));
    let rules = session.expert().base.clue(clue);
    let quiet = canvas.theme.quiet;
    let mut rows = prose(&rules.question, cells, canvas.theme.heading);
    let mut last = Vec::new();
    if session.place().sure != Sure::Sure {
        let text = match session.place().sure {
            Sure::Guess => "The next answer counts as a guess.",
            _ => "The next answer counts as unsure.",
        };
        last = paragraph(text, cells, canvas.theme.caution);
    }
    let words = findings::words(session, clue);
    let (all, least) = match rules.dated {
        Some(_) => (2, 2),
        None => findings::rows_wanted(&words, cells),
    };
    // How to look stays in sight whole where it can, the station and the time where there is room
    // for the whole list too. What the look tells gives way to both.
    let taken = rows.len() + last.len();
    let free = |list: usize| height.saturating_sub(taken + list);
    let how = format!("{} ({})", rules.look, effort(session, clue, rules));
    let mut help = prose(&how, cells, canvas.theme.instruction);
    if help.len() > free(least) {
        help = prose(&rules.look, cells, canvas.theme.instruction);
        let room = free(least.min(LEAST_LIST)).max(1);
        if help.len() > room {
            help.truncate(room);
            if let Some(row) = help.last_mut() {
                let words = row.text();
                let words = fit(&words, cells.saturating_sub(MORE.len() + 2));
                let begun = words.trim_end_matches('…');
                let text = format!("{begun}… {MORE}");
                *row = Row::new(&text, canvas.theme.instruction).click(Msg::Open('?'));
            }
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
        let text = format!("Type the year: {}_", session.place().year);
        canvas.rows(rest, &[Row::new(&text, canvas.theme.chosen)]);
    } else {
        findings::draw(session, canvas, rest, clue);
    }
}

/// Where the rest of how to look stands.
const MORE: &str = "(? shows all)";

/// Station, tools and time of a look.
fn effort(session: &Session, clue: ClueId, rules: &Clue) -> String {
    let tools: Vec<&str> = rules.tools.iter().map(|t| tool(*t)).collect();
    let looked_up = session.expert().engine().model.clue(clue);
    format!(
        "{}; {}; about {:.0} seconds",
        station_name(rules.station),
        tools.join(", "),
        seconds(looked_up, session.piece().station())
    )
}

/// Nothing left that repays a look: why, and the verdict proposed.
fn stopped(session: &Session, canvas: &mut Canvas, area: Rect) {
    let cells = usize::from(area.width);
    let piece = session.piece();
    let mut rows = Vec::new();
    if let Some(reason) = piece.advice().stop {
        let text = format!("Enough seen: {}.", look::stop(reason));
        rows.extend(paragraph(&text, cells, canvas.theme.heading));
        rows.push(Row::blank());
    }
    let headline = headline::headline(piece);
    rows.extend(paragraph(&headline, cells, canvas.theme.band));
    rows.push(Row::blank());
    rows.push(Row::new("Enter  see the whole verdict", canvas.theme.key).click(Msg::Take));
    if !piece.advice().looks.is_empty() {
        rows.push(Row::new("a      go on looking all the same", canvas.theme.key).click(Msg::GoOn));
    }
    rows.push(Row::new("j      go to any clue", canvas.theme.key).click(Msg::Open('j')));
    canvas.rows(area, &rows);
}
