//! What each finding of the question looks like: pictures drawn anew for every example.

use ratatui::layout::Rect;

use super::popup::{Effect, Opening, Popup};
use super::words;
use crate::core::grid::ClueId;
use crate::picture::{self, Picture};
use crate::rulebase::definitions::Clue;
use crate::say::drill::DRAWN;
use crate::say::names::capital;
use crate::screens::kit::canvas::{Canvas, above, beside};
use crate::screens::kit::picture::{COLOURS, in_colour, rows};
use crate::screens::kit::rows::{Row, paragraph, prose};
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{CLOSE, DOWN, LEFT, PAGE_DOWN, PAGE_UP, RIGHT, UP, enter};
use crate::screens::state::keys::{Binding, KeyTable};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::{Order, asked};
use crate::screens::state::session::Session;

/// From this many columns on two findings stand side by side.
const WIDE: u16 = 96;

pub const OPENING: Opening = Opening {
    order: Order::opening('p', "Show what each finding looks like.", |session| {
        pictured(session).map(|_| "show me")
    }),
    open: |session, _| match pictured(session) {
        Some(clue) => Effect::open(Show::new(session, clue)),
        None => Effect::Stay,
    },
};

/// The clue of the question that is open, if one of its findings has a picture.
fn pictured(session: &Session) -> Option<ClueId> {
    let clue = asked(session)?;
    let rules = session.expert().base.clue(clue);
    let drawn = picture::findings(&rules.id);
    let any = rules
        .findings
        .iter()
        .any(|f| drawn.contains(&f.id.as_str()));
    any.then_some(clue)
}

/// A finding and its picture; `None` where there is none.
#[derive(Debug)]
struct Page {
    finding: usize,
    picture: Option<Picture>,
}

/// The findings of one clue, a page each.
#[derive(Debug)]
pub struct Show {
    clue: ClueId,
    at: usize,
    /// Which example; every one is drawn from a seed of its own.
    example: u64,
    /// The page turned to, and the one after it.
    pages: Vec<Page>,
}

impl Show {
    fn new(session: &Session, clue: ClueId) -> Show {
        let mut show = Show {
            clue,
            at: session.place().cursor,
            example: 1,
            pages: Vec::new(),
        };
        show.draw_pages(session);
        show
    }

    fn rules<'a>(&self, session: &'a Session) -> &'a Clue {
        session.expert().base.clue(self.clue)
    }

    fn draw_pages(&mut self, session: &Session) {
        let rules = self.rules(session);
        let count = rules.findings.len().max(1);
        self.at %= count;
        let page = |finding: usize| Page {
            finding,
            picture: rules
                .findings
                .get(finding)
                .and_then(|f| picture::draw(&rules.id, &f.id, self.example)),
        };
        // The one after the last is the first.
        self.pages = vec![page(self.at), page((self.at + 1) % count)];
    }

    fn turn(&mut self, session: &Session, by: usize) {
        self.at += by;
        self.draw_pages(session);
    }

    fn page(&self, session: &Session, canvas: &mut Canvas, area: Rect, page: &Page) {
        let rules = self.rules(session);
        let cells = usize::from(area.width);
        let Some(finding) = rules.findings.get(page.finding) else {
            return;
        };
        let place = format!("{} of {}: ", page.finding + 1, rules.findings.len());
        let words = place + &capital(&finding.words);
        let text = prose(&words, cells, canvas.theme.heading);
        let (top, rest) = above(area, text.len() as u16);
        canvas.rows(top, &text);
        let drawn = match &page.picture {
            Some(picture) => rows(picture, cells, usize::from(rest.height), canvas.theme),
            None => vec![Row::new("There is no picture of this.", canvas.theme.quiet)],
        };
        canvas.rows(rest, &drawn);
    }
}

impl Popup for Show {
    fn title(&self) -> &'static str {
        "What it looks like"
    }

    fn keys(&self, session: &Session) -> KeyTable {
        let back = Binding::hidden(Key::Char('p'), Msg::Close, "Back to the question.");
        let mut keys = vec![
            PAGE_DOWN.labelled("next"),
            Binding::hidden(Key::PageUp, PAGE_UP.msg, "The finding before."),
            Binding::hidden(Key::Down, DOWN.msg, "The next finding."),
            Binding::hidden(Key::Up, UP.msg, "The finding before."),
            Binding::hidden(Key::Right, RIGHT.msg, "The next finding."),
            Binding::hidden(Key::Left, LEFT.msg, "The finding before."),
            Binding::new(Key::Tab, Msg::Next, "another", "Draw another example."),
            enter("I see this", "Choose the finding shown."),
        ];
        keys.extend(words::OPENING.order.binding(session));
        keys.extend([CLOSE, back]);
        KeyTable::new(keys)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        let last = self.rules(session).findings.len().max(1) - 1;
        match msg {
            Msg::PageDown | Msg::Down | Msg::Right => self.turn(session, 1),
            Msg::PageUp | Msg::Up | Msg::Left => self.turn(session, last),
            Msg::Next => {
                self.example += 1;
                self.draw_pages(session);
            }
            Msg::Take => return Effect::Below(Msg::Choose(self.at)),
            _ => return Effect::Pass,
        }
        Effect::Stay
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let mut note = format!("{DRAWN} Example {}.", self.example);
        if picture::needs_colour(&self.rules(session).id) && !in_colour(canvas.theme) {
            note = format!("{note} {COLOURS}");
        }
        let note = paragraph(&note, usize::from(inside.width), canvas.theme.quiet);
        let (top, foot) = above(inside, inside.height.saturating_sub(note.len() as u16));
        canvas.rows(foot, &note);
        if inside.width < WIDE || self.rules(session).findings.len() < 2 {
            return self.page(session, canvas, top, &self.pages[0]);
        }
        let (left, right) = beside(top, inside.width / 2 - 1, 2);
        for (area, page) in [left, right].into_iter().zip(&self.pages) {
            self.page(session, canvas, area, page);
        }
    }
}
