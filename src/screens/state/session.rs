//! The piece on the table, where the person is, and the one stack that undo goes back on.
//!
//! A piece keeps all that follows from it, so nothing that follows is kept here: going back is
//! taking the piece and the place from the stack.

use std::sync::Arc;

use super::msg::Msg;
use super::place::{Place, Screen};
use super::position::{step_item, step_rows};
use super::shown::Shown;
use super::typed_line::one_line;
use crate::buy::Terms;
use crate::core::grid::ClueId;
use crate::core::observation::Observed;
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::piece::kit::next_without;
use crate::registry::calendar::Date;
use crate::rulebase::definitions::Tool;
use crate::rulebase::ids::SettingId;
use crate::rulebase::prices::PriceGuesses;

/// What may have been left at home, in the order the switch goes through it.
const KITS: [&[Tool]; 4] = [
    &[],
    &[Tool::Loupe],
    &[Tool::Torch],
    &[Tool::Loupe, Tool::Torch],
];

/// Figures of a year.
const YEAR_FIGURES: usize = 4;

/// What the screens are handed for a stock book and for drills: the day, numbers nobody else has, and
/// a clock that counts seconds.
#[derive(Clone, Copy, Debug)]
pub struct AtHand {
    pub today: Date,
    pub chance: fn() -> u64,
    pub seconds: fn() -> u64,
}

/// What the screens know, but for what is open over them.
#[derive(Debug)]
pub struct Session {
    screen: Screen,
    pub(super) piece: Piece,
    pub(super) place: Place,
    /// The piece before each change, and where it was changed from.
    pub(super) earlier: Vec<(Piece, Place)>,
    /// First line shown of the verdict.
    scroll: usize,
    /// Index into `KITS`; stays from piece to piece.
    kit: usize,
    notice: String,
    shown: Shown,
    /// Lines typed and not taken, by the title of what they were typed into.
    pub(in crate::screens) unfinished: Vec<(String, String)>,
    pub(crate) stock: Option<AtHand>,
    /// Columns at the end of the first row that whoever shows the screens has taken.
    pub(in crate::screens) corner: u16,
    /// There is no shell to go back to.
    pub(in crate::screens) stays: bool,
    /// The user's own terms of selling.
    pub(crate) terms: Option<Terms>,
}

impl Session {
    /// The welcome, with the first setting marked.
    pub fn new(expert: Arc<Expert>) -> Session {
        Session {
            screen: Screen::Welcome,
            piece: Piece::unseen(expert, SettingId::default()),
            place: Place::default(),
            earlier: Vec::new(),
            scroll: 0,
            kit: 0,
            notice: String::new(),
            shown: Shown::default(),
            unfinished: Vec::new(),
            stock: None,
            corner: 0,
            stays: false,
            terms: None,
        }
    }

    /// What is sold on: the user's own terms, or the usual ones.
    pub fn terms(&self, guesses: &PriceGuesses) -> Terms {
        let own = self.terms.clone();
        own.unwrap_or_else(|| Terms::usual(guesses, None))
    }

    /// What fills the window.
    pub fn screen(&self) -> Screen {
        self.screen
    }

    /// The piece on the table.
    pub fn piece(&self) -> &Piece {
        &self.piece
    }

    /// The rule base and engine.
    pub fn expert(&self) -> &Arc<Expert> {
        self.piece.expert()
    }

    /// Where the person is on the screens that ask.
    pub fn place(&self) -> &Place {
        &self.place
    }

    /// First line shown of the verdict.
    pub fn scroll(&self) -> usize {
        self.scroll
    }

    /// What is said after the last message; empty when nothing is.
    pub fn notice(&self) -> &str {
        &self.notice
    }

    /// What a stock book needs; none where there is no book.
    pub fn stock(&self) -> Option<AtHand> {
        self.stock
    }

    /// Where the last frame put things.
    pub fn shown(&self) -> &Shown {
        &self.shown
    }

    /// The clue being asked: one gone to, or the best next look; `None` when it is time to stop.
    pub fn clue(&self) -> Option<ClueId> {
        let best = || next_without(&self.piece, self.missing()).map(|look| look.clue);
        self.place.gone_to.or_else(best)
    }

    /// True when a year is asked for and figures write it.
    pub fn asks_year(&self) -> bool {
        let dated = |clue| self.expert().base.clue(clue).dated.is_some();
        self.screen == Screen::Look && self.clue().is_some_and(dated)
    }

    /// Number of items of the screen's list; 0 where there is none.
    pub fn items(&self) -> usize {
        let base = &self.expert().base;
        match self.screen {
            Screen::Welcome => base.kinds_of_place().len(),
            Screen::Look => self.clue().map_or(0, |c| base.clue(c).findings.len()),
            Screen::Verdict => 0,
        }
    }

    /// Works out what the screen shows of the piece, which keeps it: drawing only reads.
    pub(crate) fn work_out(&self) {
        if self.screen == Screen::Welcome {
            return;
        }
        self.clue();
        self.piece.eras();
        self.piece.rarity();
        // The reasons only where they are read: they would make every answer wait.
        if self.screen == Screen::Verdict {
            self.piece.advice();
            self.piece.explanation();
            self.piece.at_odds();
            self.piece.leanings();
            self.piece.rarity_of_its_kind();
            self.piece.alone();
            self.piece.turning_points();
        }
    }

    /// Remembers where the frame put things.
    pub(crate) fn keep_shown(&mut self, shown: Shown) {
        self.shown = shown;
    }

    /// Says something; until the next message.
    pub(crate) fn notify(&mut self, notice: impl Into<String>) {
        self.notice = notice.into();
    }

    /// What was typed under this title and not taken yet.
    pub(crate) fn unfinished(&self, title: &str) -> &str {
        let found = self.unfinished.iter().find(|(t, _)| t == title);
        found.map_or("", |(_, line)| line)
    }

    /// Remembers what was typed and not taken; an empty line forgets it.
    pub(crate) fn keep_unfinished(&mut self, title: &str, line: &str) {
        self.unfinished.retain(|(t, _)| t != title);
        if !line.is_empty() {
            self.unfinished.push((title.to_owned(), line.to_owned()));
        }
    }

    /// A move in the screen's list or long text.
    pub(crate) fn step(&mut self, msg: Msg) {
        if self.screen == Screen::Verdict {
            step_rows(&mut self.scroll, msg, &self.shown);
            return;
        }
        let (msg, items) = (self.shown.turned(msg), self.items());
        step_item(&mut self.place.cursor, msg, items);
    }

    /// Writes a figure of the year asked for.
    pub(crate) fn type_figure(&mut self, c: char) {
        if c.is_ascii_digit() && self.place.year.len() < YEAR_FIGURES {
            self.place.year.push(c);
        }
    }

    /// Writes the figures of a pasted text; gives the number of letters that were left out.
    pub(crate) fn paste_figures(&mut self, text: &str) -> usize {
        let letters: Vec<char> = one_line(text).collect();
        let before = self.place.year.len();
        letters.iter().for_each(|c| self.type_figure(*c));
        letters.len() - (self.place.year.len() - before)
    }

    /// Erases the last figure of the year.
    pub(crate) fn erase_figure(&mut self) {
        self.place.year.pop();
    }

    /// Sure, unsure or a guess.
    pub(crate) fn next_sureness(&mut self) {
        self.place.sure = self.place.sure.next();
    }

    /// Tools that are not at hand: looks that need them are not proposed.
    pub fn missing(&self) -> &'static [Tool] {
        KITS[self.kit]
    }

    /// Loupe and torch, one of them, or neither.
    pub(crate) fn next_kit(&mut self) {
        self.kit = (self.kit + 1) % KITS.len();
        if self.place.gone_to.is_none() {
            self.ask(None);
        }
    }

    /// To the questions: to this clue, or to the best next look.
    pub(crate) fn look(&mut self, clue: Option<ClueId>) {
        self.screen = Screen::Look;
        self.ask(clue);
    }

    /// To the beginning of the verdict.
    pub(crate) fn judge(&mut self) {
        self.screen = Screen::Verdict;
        self.scroll = 0;
    }

    /// Asks this clue, or the best next look, with the cursor on its earlier answer.
    pub(super) fn ask(&mut self, clue: Option<ClueId>) {
        self.place.gone_to = clue;
        self.place.cursor = 0;
        self.place.year.clear();
        let earlier = self.clue().and_then(|clue| self.piece.evidence().of(clue));
        match earlier.map(|e| &e.seen) {
            Some(Observed::Finding(f)) => self.place.cursor = usize::from(f.0),
            Some(Observed::Year(y)) => self.place.year = y.0.to_string(),
            Some(Observed::Soft(_) | Observed::CantTell) | None => {}
        }
    }
}
