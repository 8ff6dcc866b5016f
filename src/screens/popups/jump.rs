//! Any clue, by station, found by typing.

use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Span;

use super::popup::{Effect, Opening, Popup};
use crate::core::grid::ClueId;
use crate::core::model::Gate;
use crate::hearing::search::Search;
use crate::say::names::{capital, clue_name};
use crate::say::observation::seen;
use crate::screens::kit::canvas::Canvas;
use crate::screens::kit::rows::Row;
use crate::screens::kit::theme::Theme;
use crate::screens::kit::wrap::wrap;
use crate::screens::state::keys::usual::{CLOSE, DOWN, ERASE, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::keys::{KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::{Order, begun};
use crate::screens::state::position::{chosen_item, step_item};
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::TypedLine;
use crate::screens::views::look::{STATIONS, station_name};

pub const OPENING: Opening = Opening {
    order: Order::opening(
        'j',
        "Go to any clue, also to change an answer.",
        |session| begun(session).then_some("jump"),
    ),
    open: |session, _| Effect::open(Jump::new(session)),
};

/// What is typed, and the clues found by it.
#[derive(Debug)]
pub struct Jump {
    line: TypedLine,
    found: Vec<Found>,
    cursor: usize,
}

/// A clue that was found.
#[derive(Debug)]
struct Found {
    clue: ClueId,
    /// Its gate is shut, and nothing was said of it.
    does_not_apply: bool,
}

impl Jump {
    fn new(session: &Session) -> Jump {
        Jump {
            line: TypedLine::default(),
            found: found(session, ""),
            cursor: 0,
        }
    }

    /// The list under the stations' names, with the earlier answer to each clue.
    fn rows(&self, session: &Session, theme: Theme, cells: usize) -> Vec<Row> {
        let expert = session.expert();
        let mut out = Vec::new();
        let mut station = None;
        // What is searched for comes in the order it fits, whatever the station.
        let by_station = self.line.text().trim().is_empty();
        for (i, found) in self.found.iter().enumerate() {
            let clue = expert.base.clue(found.clue);
            if by_station && station != Some(clue.station) {
                station = Some(clue.station);
                let name = capital(station_name(clue.station));
                out.push(Row::new(&name, theme.heading));
            }
            let name = clue_name(expert, found.clue);
            let earlier = session.piece().evidence().of(found.clue);
            let (sign, text, style) = match earlier {
                Some(earlier) => {
                    let text = format!("{name}: {}", seen(expert, earlier));
                    ("✓ ", text, Style::new())
                }
                None if found.does_not_apply => {
                    ("– ", format!("{name}: does not apply"), theme.quiet)
                }
                None => ("  ", format!("{name}: {}", clue.question), Style::new()),
            };
            let lines = wrap(&text, cells.saturating_sub(4));
            for (n, line) in lines.into_iter().enumerate() {
                let sign = if n == 0 { sign } else { "    " };
                let row = Row::of(vec![
                    Span::styled(sign, theme.band),
                    Span::styled(line, style),
                ]);
                out.push(row.click(Msg::Choose(i)).chosen(i == self.cursor));
            }
        }
        if out.is_empty() {
            out.push(Row::new("No clue has these words.", theme.instruction));
        }
        out
    }
}

impl Popup for Jump {
    fn title(&self) -> &'static str {
        "Go to a clue"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        let go = enter("go", "Go to the clue marked.");
        KeyTable::new(vec![go, ERASE, UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE]).writing(Writes::Text)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        if let Some(i) = chosen_item(self.cursor, msg) {
            let found = self.found.get(i);
            return found.map_or(Effect::Stay, |found| Effect::GoTo(found.clue));
        }
        if self.line.edit(msg) {
            self.read(session);
            return Effect::Stay;
        }
        Effect::used(step_item(&mut self.cursor, msg, self.found.len()))
    }

    fn line(&mut self) -> Option<&mut TypedLine> {
        Some(&mut self.line)
    }

    fn read(&mut self, session: &Session) {
        self.found = found(session, self.line.text());
        self.cursor = 0;
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let rest = canvas.typed_line(inside, "Find: ", self.line.text());
        let rows = self.rows(session, canvas.theme, usize::from(inside.width));
        canvas.list(rest, &rows);
    }
}

/// How well a clue fits what was typed, the best first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Fits {
    /// It is called so.
    Called,
    /// Its name begins so.
    Begins,
    /// It has the words in its name.
    Named,
    /// It has them in its question.
    Asks,
    /// It has them in a finding.
    Finds,
}

/// Clues in which every word typed occurs, the best fit first, those that fit alike by station.
fn found(session: &Session, search: &str) -> Vec<Found> {
    let search = Search::new(search);
    let (expert, evidence) = (session.expert(), session.piece().evidence());
    let (base, model) = (&expert.base, &expert.engine().model);
    let mut out = Vec::new();
    for (station, name) in STATIONS {
        for id in model.clue_ids() {
            let clue = base.clue(id);
            if clue.station != station {
                continue;
            }
            let heading = [name, &clue.id, &clue.question];
            let findings = clue.findings.iter().flat_map(|finding| {
                let spoken = finding.spoken.iter().map(String::as_str);
                spoken.chain([finding.words.as_str()])
            });
            let name = [clue.id.as_str()];
            let fits = if search.is(name) {
                Fits::Called
            } else if search.begins(name) {
                Fits::Begins
            } else if search.fits(name) {
                Fits::Named
            } else if search.fits(heading) {
                Fits::Asks
            } else if search.fits(heading.into_iter().chain(findings)) {
                Fits::Finds
            } else {
                continue;
            };
            out.push((fits, id));
        }
    }
    // Stable: those that fit alike stay by station.
    out.sort_by_key(|(fits, _)| *fits);
    let found = |clue: ClueId| Found {
        clue,
        does_not_apply: model.gate(clue, evidence) == Gate::Closed,
    };
    out.into_iter().map(|(_, clue)| found(clue)).collect()
}
