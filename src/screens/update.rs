//! What a message changes. Reads and writes nothing outside the `App`.

use super::app::{App, Screen};
use super::msg::Msg;
use super::popups::Popup;
use super::popups::trial::Trial;
use crate::core::grid::{ClueId, FindingId};
use crate::core::observation::{Observation, Observed, Sure};
use crate::piece::{Piece, notation};
use crate::rulebase::ids::{Id, SettingId};
use crate::say::account;

impl App {
    /// Does what was asked.
    pub fn update(&mut self, msg: Msg) {
        self.notice.clear();
        if self.in_form(msg) {
            return;
        }
        match msg {
            Msg::Up | Msg::Down | Msg::PageUp | Msg::PageDown | Msg::First | Msg::Last => {
                self.step(msg);
            }
            Msg::Cursor(i) => self.set_cursor(i),
            Msg::Choose(i) => {
                self.set_cursor(i);
                self.take();
            }
            Msg::Take => self.take(),
            Msg::Type(c) => self.write(c),
            Msg::Erase => {
                self.text().pop();
                self.retyped();
            }
            Msg::Close => {
                self.popups.pop();
            }
            Msg::Leave => self.done = true,
            _ => {
                // From the help an order is carried out on the screen below.
                if matches!(self.popups.last(), Some(Popup::Help { .. })) {
                    self.popups.pop();
                }
                self.order(msg);
            }
        }
    }

    fn order(&mut self, msg: Msg) {
        match msg {
            Msg::Start => self.start(),
            Msg::Undo => self.undo(),
            Msg::CantTell => self.answer(Observed::CantTell),
            Msg::Forget => {
                if let Some(clue) = self.clue() {
                    self.change(|piece| piece.forget(clue));
                    self.jumped = Some(clue);
                    self.settle();
                }
            }
            Msg::Sureness => self.sure = self.sure.next(),
            Msg::GoOn => {
                if let Some(look) = self.piece.verdict().looks.first() {
                    self.go_to(look.clue);
                }
            }
            Msg::GoTo(clue) => self.go_to(clue),
            Msg::Why => self.open(Popup::Why { scroll: 0 }),
            Msg::Jump => self.open(Popup::Jump {
                search: String::new(),
                cursor: 0,
            }),
            Msg::Setting => self.open(Popup::Setting {
                cursor: self.piece.setting().index(),
            }),
            Msg::Notes => self.open(Popup::Notes {
                text: String::new(),
                scroll: 0,
            }),
            Msg::Mark => self.open(Popup::Mark {
                text: String::new(),
                scroll: 0,
                whole: false,
            }),
            Msg::Ticket => self.open(Popup::Ticket(Box::default())),
            Msg::WhatIf => {
                let open = self.clue().filter(|_| self.screen == Screen::Look);
                self.open(Popup::Trial(Box::new(Trial::new(&self.piece, open))));
            }
            Msg::Words => self.explain(String::new()),
            Msg::Word(term) => {
                if let Some(term) = self.expert().base.glossary.get(term) {
                    self.explain(term.term.clone());
                }
            }
            Msg::Help => self.open(Popup::Help { scroll: 0 }),
            Msg::Verdict => self.judge(),
            Msg::Look => {
                self.screen = Screen::Look;
                self.jumped = None;
                self.settle();
            }
            Msg::NewPiece => self.new_piece(),
            Msg::Quit if self.piece.evidence().is_empty() => self.done = true,
            Msg::Quit => self.open(Popup::Quit),
            _ => {}
        }
    }

    pub(super) fn open(&mut self, popup: Popup) {
        self.popups.push(popup);
    }

    fn explain(&mut self, search: String) {
        self.open(Popup::Words { search, scroll: 0 });
    }

    pub(super) fn start(&mut self) {
        let setting = SettingId::at(self.cursor).unwrap_or_default();
        self.piece = Piece::new(self.expert().clone(), setting);
        self.screen = Screen::Look;
        self.weigh();
        self.settle();
    }

    pub(super) fn go_to(&mut self, clue: ClueId) {
        self.popups.clear();
        self.screen = Screen::Look;
        self.jumped = Some(clue);
        self.settle();
    }

    pub(super) fn judge(&mut self) {
        self.screen = Screen::Verdict;
        self.scroll = 0;
        if self.account.is_none() {
            let piece = &self.piece;
            self.account = Some((account::account(piece), account::leanings_of(piece)));
        }
    }

    fn undo(&mut self) {
        if !self.piece.undo() {
            "There is nothing to take back.".clone_into(&mut self.notice);
            return;
        }
        self.weigh();
        if self.screen == Screen::Verdict {
            self.judge();
        }
        if let Some(mark) = self.trail.pop() {
            self.jumped = mark.jumped;
            self.sure = mark.sure;
            self.cursor = mark.cursor;
            self.typed = mark.typed;
        }
    }

    fn new_piece(&mut self) {
        let had = !self.piece.evidence().is_empty();
        self.change(crate::piece::Piece::clear);
        self.screen = Screen::Look;
        self.jumped = None;
        self.sure = Sure::Sure;
        self.settle();
        if had {
            "A new piece. Undo brings the last one back.".clone_into(&mut self.notice);
        }
    }

    /// Chooses what the cursor is on in whatever has the keys.
    fn take(&mut self) {
        if self.popups.last().is_some() {
            return self.take_popup();
        }
        match self.screen {
            Screen::Welcome => self.start(),
            Screen::Look => self.take_look(),
            Screen::Verdict => {}
        }
    }

    fn take_look(&mut self) {
        if self.clue().is_none() {
            self.judge();
        } else if self.dating() {
            match self.year() {
                Ok(year) => self.answer(year),
                Err(why) => self.notice = why,
            }
        } else if self.cursor < self.items() {
            self.answer(Observed::Finding(FindingId(self.cursor as u16)));
        }
    }

    /// The year typed, checked as on the command line.
    fn year(&self) -> Result<Observed, String> {
        let base = &self.expert().base;
        let Some(clue) = self.clue() else {
            return Err(String::new());
        };
        let text = format!("{}={}", base.clue(clue).id, self.typed);
        notation::parse(base, &text).map(|entry| entry.seen)
    }

    fn answer(&mut self, seen: Observed) {
        let Some(clue) = self.clue() else {
            return;
        };
        let sure = match seen {
            Observed::CantTell => Sure::Sure,
            Observed::Finding(_) | Observed::Year(_) => self.sure,
        };
        self.change(|piece| piece.say(Observation { clue, seen, sure }));
        self.jumped = None;
        self.sure = Sure::Sure;
        self.settle();
    }
}
