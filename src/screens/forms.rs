//! What is typed and chosen in a popup, and what it comes to when it is accepted.

use super::app::{App, Screen};
use super::msg::Msg;
use super::popups::diamond::Diamond;
use super::popups::{Popup, jump};
use crate::core::observation::Observation;
use crate::piece::{intake, trial};
use crate::rulebase::ids::{Id, SettingId};
use crate::say::reasons::{capital, clue_name, seen};

/// Longest line that can be typed.
const MOST_TYPED: usize = 400;

impl App {
    /// What a form over the screen does with a message; false when it leaves it to others.
    pub(super) fn in_form(&mut self, msg: Msg) -> bool {
        let piece = &self.piece;
        match (self.popups.last_mut(), msg) {
            (Some(Popup::Diamond(diamond)), _) => {
                match msg {
                    Msg::Up => diamond.at = 0,
                    Msg::Right => diamond.at = 1,
                    Msg::Down => diamond.at = 2,
                    Msg::Left => diamond.at = 3,
                    Msg::Field(i) => diamond.at = i,
                    Msg::Next | Msg::Type(',' | ' ') => diamond.next(),
                    Msg::Type(c) => diamond.write(c),
                    _ => return false,
                }
                diamond.scroll = 0;
            }
            (Some(Popup::Trial(trial)), Msg::Left | Msg::Right) => {
                trial.turn(piece, msg == Msg::Right);
            }
            (Some(Popup::Trial(trial)), Msg::Forget) => trial.forget(piece),
            (Some(Popup::Trial(trial)), Msg::Sureness) => trial.doubt(piece),
            (Some(Popup::Mark { whole, .. }), Msg::Left | Msg::Right) => *whole = !*whole,
            (Some(Popup::Mark { .. }), Msg::Next) => {
                self.open(Popup::Diamond(Diamond::default()));
            }
            _ => return false,
        }
        true
    }

    /// Accepts what was typed or chosen in the popup on top.
    pub(super) fn take_popup(&mut self) {
        match self.popups.last() {
            Some(Popup::Jump { search, cursor }) => {
                if let Some(clue) = jump::found(self, search).get(*cursor) {
                    self.go_to(*clue);
                }
            }
            Some(Popup::Setting { cursor }) => {
                let setting = *cursor;
                self.popups.pop();
                self.change(|piece| piece.set_setting(SettingId::at(setting).unwrap_or_default()));
                match self.screen {
                    Screen::Welcome => self.cursor = setting,
                    Screen::Look if self.jumped.is_none() => self.settle(),
                    Screen::Look => {}
                    Screen::Verdict => self.judge(),
                }
            }
            Some(Popup::Notes { text, .. }) => {
                let heard = intake::notes(self.expert(), text).heard;
                self.take_heard(&heard.into_iter().map(|(_, e)| e).collect::<Vec<_>>());
            }
            Some(Popup::Mark { text, whole, .. }) => {
                let entries = intake::mark(self.expert(), text, *whole).entries;
                self.take_heard(&entries);
            }
            Some(Popup::Diamond(diamond)) => {
                let entries = diamond.heard(self).map(|heard| heard.entries);
                self.take_heard(&entries.unwrap_or_default());
            }
            Some(Popup::Ticket(ticket)) => {
                let look = match &ticket.answer {
                    Some(Ok(answer)) => answer.look,
                    _ => None,
                };
                match look {
                    Some(look) => self.go_to(look.clue),
                    None => "No look would settle it.".clone_into(&mut self.notice),
                }
            }
            Some(Popup::Trial(trial)) => {
                let changes = trial.changes.clone();
                self.popups.clear();
                self.change(|piece| trial::accept(piece, &changes));
                self.go_on();
                self.notice = match changes.len() {
                    0 => "Nothing was changed.".to_owned(),
                    1 => "1 finding changed; undo takes it back.".to_owned(),
                    n => format!("{n} findings changed; undo takes them back."),
                };
            }
            _ => {}
        }
    }

    /// Takes what was heard from notes or a mark, once the person has said yes to it.
    fn take_heard(&mut self, entries: &[Observation]) {
        if entries.is_empty() {
            "Nothing here was understood.".clone_into(&mut self.notice);
            return;
        }
        self.popups.clear();
        if self.screen == Screen::Welcome {
            self.start();
        }
        self.change(|piece| piece.say_all(entries));
        self.go_on();
        let heard: Vec<String> = entries
            .iter()
            .map(|e| {
                let name = capital(&clue_name(self.expert(), e.clue));
                format!("{name}: {}", seen(self.expert(), e))
            })
            .collect();
        self.notice = format!("{}.", heard.join("; "));
    }

    /// The best next look, or the verdict anew, after findings that came from elsewhere.
    fn go_on(&mut self) {
        self.jumped = None;
        self.settle();
        if self.screen == Screen::Verdict {
            self.judge();
        }
    }

    /// The text being typed.
    pub(super) fn text(&mut self) -> &mut String {
        let typed = &mut self.typed;
        self.popups
            .last_mut()
            .and_then(Popup::text)
            .unwrap_or(typed)
    }

    pub(super) fn write(&mut self, c: char) {
        let most = if self.dating() { 4 } else { MOST_TYPED };
        let text = self.text();
        if text.chars().count() < most && !c.is_control() {
            text.push(c);
        }
        self.retyped();
    }

    /// What follows from a changed text: lists and long texts begin at their top.
    pub(super) fn retyped(&mut self) {
        if let Some(popup) = self.popups.last_mut() {
            if let Some(cursor) = popup.cursor() {
                *cursor = 0;
            }
            if let Some(scroll) = popup.scroll() {
                *scroll = 0;
            }
            if let Popup::Ticket(ticket) = popup {
                ticket.judge(&self.piece);
            }
        }
    }
}
