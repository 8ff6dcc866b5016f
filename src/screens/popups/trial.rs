//! What if one finding were another? Findings are flipped on the left, kinds and years before and
//! after stand side by side on the right; the piece is left alone until the person accepts.

use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Span;

use super::popup::{Effect, Opening, Popup};
use crate::core::grid::{ClueId, FindingId, Year};
use crate::core::observation::{Observation, Observed, Sure};
use crate::piece::Piece;
use crate::piece::trial::{Change, Side, WhatIf, changed};
use crate::say::names::{capital, clue_name, kind_name};
use crate::say::observation::seen;
use crate::say::scales::percent;
use crate::say::trial;
use crate::screens::kit::canvas::{Canvas, above, beside};
use crate::screens::kit::rows::{Row, paragraph};
use crate::screens::kit::theme::Theme;
use crate::screens::kit::wrap::{fit, pad, wrap};
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{CLOSE, DOWN, LEFT, RIGHT, UP, enter};
use crate::screens::state::keys::{Binding, KeyTable};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::{Order, asked, worth_weighing};
use crate::screens::state::position::step_item;
use crate::screens::state::session::Session;
use crate::screens::views::timeline::Timeline;

/// Clues not looked at yet that are offered beside those that were.
const OTHERS: usize = 5;

/// Rows of the list on a narrow screen.
const LIST: u16 = 6;

/// From this width on the list stands beside the comparison.
const WIDE: u16 = 72;

/// Cells of the columns "now" and "then".
const NUMBER: usize = 10;

pub const OPENING: Opening = Opening {
    order: Order::opening(
        'w',
        "Try another finding without changing anything yet.",
        |session| worth_weighing(session).then_some("what if"),
    ),
    open: |session, _| Effect::open(Trial::new(session.piece(), asked(session))),
};

/// Changes being tried out.
#[derive(Debug)]
pub struct Trial {
    /// Those that have been answered, then the question that is open and the best other looks.
    clues: Vec<ClueId>,
    cursor: usize,
    /// At most one a clue.
    changes: Vec<Change>,
    outcome: WhatIf,
}

impl Trial {
    /// Nothing changed yet; the cursor on the open question, else on the last finding.
    fn new(piece: &Piece, open: Option<ClueId>) -> Trial {
        let mut clues: Vec<ClueId> = piece
            .evidence()
            .observations()
            .iter()
            .map(|e| e.clue)
            .collect();
        let answered = clues.len();
        let looks = piece.advice().looks.iter().map(|l| l.clue).take(OTHERS);
        for clue in open.into_iter().chain(looks) {
            if !clues.contains(&clue) {
                clues.push(clue);
            }
        }
        let at = |clue| clues.iter().position(|c| *c == clue);
        Trial {
            cursor: open.and_then(at).unwrap_or(answered.saturating_sub(1)),
            clues,
            changes: Vec::new(),
            outcome: WhatIf::new(piece, piece),
        }
    }

    /// The next or earlier finding of the clue under the cursor; "not looked at" is one of them.
    fn turn(&mut self, piece: &Piece, on: bool) {
        let Some(clue) = self.clues.get(self.cursor).copied() else {
            return;
        };
        let now = self.entry(piece, clue);
        let sure = now.as_ref().map_or(Sure::Sure, |e| e.sure);
        let rules = piece.expert().base.clue(clue);
        let seen = if rules.dated.is_some() {
            let grid = &piece.expert().engine().model.grid;
            let middle = piece.judgement().median;
            let year = match now.map(|e| e.seen) {
                Some(Observed::Year(y)) => Year(if on { y.0 + 1 } else { y.0 - 1 }),
                _ => middle,
            };
            Some(Observed::Year(year.clamp(grid.first(), grid.last())))
        } else {
            // 0 stands for "not looked at", then come the findings.
            let all = rules.findings.len() + 1;
            let at = now.and_then(|e| e.seen.finding());
            let at = at.map_or(0, |f| usize::from(f.0) + 1);
            let to = if on { at + 1 } else { at + all - 1 } % all;
            let finding = |i: usize| Observed::Finding(FindingId(i as u16));
            to.checked_sub(1).map(finding)
        };
        self.set(
            piece,
            clue,
            seen.map(|seen| Observation::new(clue, seen).sure(sure)),
        );
    }

    /// As if the clue under the cursor had not been looked at.
    fn forget(&mut self, piece: &Piece) {
        if let Some(clue) = self.clues.get(self.cursor).copied() {
            self.set(piece, clue, None);
        }
    }

    /// Sure, unsure or a guess.
    fn doubt(&mut self, piece: &Piece) {
        let clue = self.clues.get(self.cursor).copied();
        if let Some(entry) = clue.and_then(|clue| self.entry(piece, clue)) {
            let sure = entry.sure.next();
            self.set(piece, entry.clue, Some(Observation { sure, ..entry }));
        }
    }

    fn set(&mut self, piece: &Piece, clue: ClueId, entry: Option<Observation>) {
        self.changes.retain(|c| c.clue() != clue);
        if piece.evidence().of(clue) != entry.as_ref() {
            self.changes
                .push(entry.map_or(Change::Forget(clue), Change::Add));
        }
        self.outcome = WhatIf::new(piece, &changed(piece, &self.changes));
    }

    /// What the trial says of a clue.
    fn entry(&self, piece: &Piece, clue: ClueId) -> Option<Observation> {
        match self.changes.iter().find(|c| c.clue() == clue) {
            Some(Change::Add(observation)) => Some(observation.clone()),
            Some(Change::Forget(_)) => None,
            None => piece.evidence().of(clue).cloned(),
        }
    }

    /// The findings, what is changed beside what was seen.
    fn list(&self, piece: &Piece, theme: Theme, cells: usize) -> Vec<Row> {
        let expert = piece.expert();
        let row = |(i, clue): (usize, &ClueId)| {
            let chosen = i == self.cursor;
            let (now, before) = (self.entry(piece, *clue), piece.evidence().of(*clue));
            let words = |entry: Option<&Observation>| match entry {
                Some(entry) => seen(expert, entry),
                None => "not looked at".to_owned(),
            };
            let (sign, was) = match now.as_ref() == before {
                false => ("≠ ", format!(", was {}", words(before))),
                true if before.is_some() => ("✓ ", String::new()),
                true => ("  ", String::new()),
            };
            let name = clue_name(expert, *clue);
            let text = format!("{name}: {}{was}", words(now.as_ref()));
            // The finding being flipped can be read whole.
            let lines = match chosen {
                true => wrap(&text, cells.saturating_sub(4)),
                false => vec![fit(&text, cells.saturating_sub(4))],
            };
            let line = move |(n, line): (usize, String)| {
                let sign = if n == 0 { sign } else { "  " };
                let text = vec![Span::styled(sign, theme.caution), Span::raw(line)];
                Row::of(text)
                    .click(if chosen { Msg::Right } else { Msg::Cursor(i) })
                    .chosen(chosen)
            };
            lines.into_iter().enumerate().map(line).collect::<Vec<_>>()
        };
        self.clues.iter().enumerate().flat_map(row).collect()
    }

    /// Kinds, band and middle year in two columns, then both curves on one axis.
    fn sides(&self, session: &Session, theme: Theme, area: Rect) -> Vec<Row> {
        let (cells, rows) = (usize::from(area.width), usize::from(area.height));
        let (expert, outcome) = (session.expert(), &self.outcome);
        let lead = match self.changes.is_empty() {
            true => "Nothing is changed yet. ← and → change the finding marked.".to_owned(),
            false => trial::lead(expert, outcome),
        };
        let mut out = paragraph(&lead, cells, theme.heading);
        out.push(row(cells, "", ["now", "then"], theme.quiet));
        let curve = match rows {
            20.. => 3,
            10.. => 1,
            _ => 0,
        };
        // Band and middle year, both curves with their bands, the axis.
        let pictures = 2 * (curve + usize::from(curve > 1)) + usize::from(curve > 0);
        let below = 2 + pictures;
        let last = rows.saturating_sub(below);
        for shift in trial::named(outcome) {
            let name = capital(kind_name(expert, shift.kind));
            let lines = wrap(&name, cells.saturating_sub(2 * NUMBER + 1));
            if out.len() + lines.len() > last {
                break;
            }
            let [before, after] = [percent(shift.before), percent(shift.after)];
            for (n, line) in lines.iter().enumerate() {
                let numbers = if n == 0 {
                    [before.as_str(), &after]
                } else {
                    ["", ""]
                };
                out.push(row(cells, line, numbers, Style::new()));
            }
        }
        let (before, after) = (&outcome.before, &outcome.after);
        let years = |side: &Side| format!("{}–{}", side.band.from.0, side.band.to.0);
        let label = format!("{} band", percent(before.band.share));
        let both = [years(before), years(after)];
        out.push(row(cells, &label, [&both[0], &both[1]], theme.band));
        let both = [before.median.0.to_string(), after.median.0.to_string()];
        out.push(row(cells, "middle year", [&both[0], &both[1]], theme.band));
        if curve == 0 {
            return out;
        }
        let timeline = Timeline::labelled(session, theme, cells);
        for (label, years, side) in [
            ("now", &outcome.years.0, before),
            ("then", &outcome.years.1, after),
        ] {
            out.extend(timeline.curve(label, years, curve));
            if curve > 1 {
                out.push(timeline.band("", &side.band, side.median));
            }
        }
        out.push(timeline.axis());
        out
    }
}

impl Popup for Trial {
    fn title(&self) -> &'static str {
        "What if?"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        let keys = vec![
            UP,
            DOWN,
            LEFT,
            RIGHT.labelled("change"),
            Binding::new(
                Key::Char('f'),
                Msg::Forget,
                "forget",
                "As if it had not been looked at.",
            ),
            Binding::new(
                Key::Char('s'),
                Msg::Sureness,
                "how sure",
                "Unsure, then a guess, then sure again.",
            ),
            enter("accept", "Make these changes."),
            CLOSE.labelled("drop"),
        ];
        KeyTable::new(keys).choosing(self.clues.len(), Msg::Cursor)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        let piece = session.piece();
        match msg {
            Msg::Left | Msg::Right => self.turn(piece, msg == Msg::Right),
            Msg::Forget => self.forget(piece),
            Msg::Sureness => self.doubt(piece),
            Msg::Take => return Effect::Make(std::mem::take(&mut self.changes)),
            _ => return Effect::used(step_item(&mut self.cursor, msg, self.clues.len())),
        }
        Effect::Stay
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let (piece, theme) = (session.piece(), canvas.theme);
        let list = |area: Rect| self.list(piece, theme, usize::from(area.width));
        if inside.width >= WIDE {
            let (left, right) = beside(inside, inside.width * 2 / 5, 2);
            canvas.list(left, &list(left));
            canvas.rows(right, &self.sides(session, theme, right));
        } else {
            let rows = list(inside);
            let most = LIST.min(inside.height / 3).min(rows.len() as u16);
            let (top, rest) = above(inside, most);
            canvas.list(top, &rows);
            canvas.rows(rest, &self.sides(session, theme, rest));
        }
    }
}

fn row(cells: usize, label: &str, columns: [&str; 2], style: Style) -> Row {
    let label = pad(label, cells.saturating_sub(2 * NUMBER));
    Row::new(
        &format!("{label}{:>2$}{:>2$}", columns[0], columns[1], NUMBER),
        style,
    )
}
