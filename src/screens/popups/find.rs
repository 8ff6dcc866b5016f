//! A finding of the open question, found by typing: a list of thirty is no list to page through.

use ratatui::layout::Rect;

use super::popup::{Effect, Opening, Popup};
use crate::core::grid::ClueId;
use crate::hearing::search::Search;
use crate::rulebase::definitions::Finding;
use crate::screens::kit::canvas::Canvas;
use crate::screens::kit::rows::Row;
use crate::screens::kit::theme::Theme;
use crate::screens::state::keys::usual::{CLOSE, DOWN, ERASE, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::keys::{KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::{Order, asked};
use crate::screens::state::position::{chosen_item, step_item};
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::TypedLine;
use crate::screens::views::findings::item;

/// More findings than this are searched: up to here one figure chooses each.
const FEW: usize = 9;

pub const OPENING: Opening = Opening {
    order: Order::opening('/', "Find a finding by typing a part of it.", |session| {
        let findings = |clue| session.expert().base.clue(clue).findings.len();
        asked(session)
            .filter(|clue| findings(*clue) > FEW)
            .map(|_| "find")
    }),
    open: |session, _| match asked(session) {
        Some(clue) => Effect::open(Find::new(session, clue)),
        None => Effect::Stay,
    },
};

/// What is typed, and the findings that have it.
#[derive(Debug)]
pub struct Find {
    clue: ClueId,
    line: TypedLine,
    /// By their place in the clue's list.
    found: Vec<usize>,
    cursor: usize,
}

impl Find {
    fn new(session: &Session, clue: ClueId) -> Find {
        let mut find = Find {
            clue,
            line: TypedLine::default(),
            found: Vec::new(),
            cursor: 0,
        };
        find.read(session);
        find
    }

    fn rows(&self, session: &Session, theme: Theme, cells: usize) -> Vec<Row> {
        let findings = &session.expert().base.clue(self.clue).findings;
        let earlier = session.piece().evidence().of(self.clue);
        let answered = earlier.and_then(|e| e.seen.finding());
        let mut out = Vec::new();
        for (at, i) in self.found.iter().enumerate() {
            let ticked = answered.is_some_and(|f| usize::from(f.0) == *i);
            let rows = item(*i, &findings[*i].words, cells, ticked, theme).into_iter();
            let chosen = at == self.cursor;
            out.extend(rows.map(|row| row.click(Msg::Choose(at)).chosen(chosen)));
        }
        if out.is_empty() {
            out.push(Row::new("No finding has these words.", theme.instruction));
        }
        out
    }
}

impl Popup for Find {
    fn title(&self) -> &'static str {
        "Find a finding"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        let choose = enter("choose", "Choose the finding marked.");
        KeyTable::new(vec![choose, ERASE, UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE])
            .writing(Writes::Text)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        if let Some(at) = chosen_item(self.cursor, msg) {
            let found = self.found.get(at);
            return found.map_or(Effect::Stay, |i| Effect::Below(Msg::Choose(*i)));
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

    /// Findings in which every word typed occurs; those that begin so come first. Before anything
    /// is typed the cursor is on the earlier answer.
    fn read(&mut self, session: &Session) {
        let findings = &session.expert().base.clue(self.clue).findings;
        self.found = found(findings, self.line.text());
        let place = session.place().cursor;
        let typed = !self.line.text().is_empty();
        self.cursor = if typed { 0 } else { place.min(findings.len()) };
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let rest = canvas.typed_line(inside, "Find: ", self.line.text());
        let rows = self.rows(session, canvas.theme, usize::from(inside.width));
        canvas.list(rest, &rows);
    }
}

fn found(findings: &[Finding], typed: &str) -> Vec<usize> {
    let search = Search::new(typed);
    let texts = |f: &Finding| {
        let mut texts = vec![f.words.clone(), f.id.clone()];
        texts.extend(f.spoken.iter().cloned());
        texts
    };
    let rank = |f: &Finding| {
        let texts = texts(f);
        let texts = || texts.iter().map(String::as_str);
        search.fits(texts()).then(|| !search.begins(texts()))
    };
    let all = findings.iter().enumerate();
    let mut out: Vec<(bool, usize)> = all.filter_map(|(i, f)| Some((rank(f)?, i))).collect();
    out.sort_unstable();
    out.into_iter().map(|(_, i)| i).collect()
}
