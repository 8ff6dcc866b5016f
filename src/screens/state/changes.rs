//! Every change of what is known of the piece. Each but the start puts the piece from before on
//! the stack.

use std::sync::Arc;

use super::place::{Place, Screen};
use super::session::Session;
use crate::core::observation::{Observation, Observed, Sure};
use crate::piece::expert::Expert;
use crate::piece::trial::{self, Change};
use crate::piece::{Piece, notation};
use crate::rulebase::ids::{Id, SettingId};
use crate::say::names::{capital, clue_name};
use crate::say::observation::seen;

impl Session {
    /// Past the welcome, with findings already given.
    pub fn opened(expert: Arc<Expert>, setting: SettingId, saw: &[Observation]) -> Session {
        let mut session = Session::new(expert);
        session.place.cursor = setting.index();
        session.start();
        session.change(|piece| piece.with_all(saw.iter().cloned()));
        session.ask(None);
        session
    }

    /// Begins with the setting under the cursor.
    pub(crate) fn start(&mut self) {
        let setting = SettingId::at(self.place.cursor).unwrap_or_default();
        self.piece = Piece::unseen(self.expert().clone(), setting);
        self.look(None);
    }

    /// Answers the clue being asked.
    pub(crate) fn answer(&mut self, seen: Observed) {
        let Some(clue) = self.clue() else {
            return;
        };
        let sure = match seen {
            Observed::CantTell => Sure::Sure,
            Observed::Finding(_) | Observed::Year(_) | Observed::Soft(_) => self.place.sure,
        };
        self.change(|piece| piece.with(Observation::new(clue, seen).sure(sure)));
        self.place.sure = Sure::Sure;
        self.ask(None);
    }

    /// Answers with the year typed, checked as on the command line.
    pub(crate) fn answer_year(&mut self) {
        let Some(clue) = self.clue() else {
            return;
        };
        match notation::parse_said(&self.expert().base, clue, &self.place.year) {
            Ok(entry) => self.answer(entry.seen),
            Err(refused) => self.notify(refused.0),
        }
    }

    /// Takes back what was said of the clue being asked, and goes on asking it.
    pub(crate) fn forget(&mut self) {
        if let Some(clue) = self.clue() {
            self.change(|piece| piece.without(clue));
            self.ask(Some(clue));
        }
    }

    /// Takes observations that were read elsewhere and begins if need be; says what they are.
    pub(crate) fn take(&mut self, observations: &[Observation]) {
        if self.screen() == Screen::Welcome {
            self.start();
        }
        self.change(|piece| piece.with_all(observations.iter().cloned()));
        self.go_on();
        let expert = self.expert();
        let in_words = |o: &Observation| {
            let name = capital(&clue_name(expert, o.clue));
            format!("{name}: {}", seen(expert, o))
        };
        let all: Vec<String> = observations.iter().map(in_words).collect();
        self.notify(format!("{}.", all.join("; ")));
    }

    /// Goes on with a piece that was left.
    pub(crate) fn take_up(&mut self, piece: Piece) {
        self.put_down(|_| piece);
        self.notify("Taken up again; undo brings the last piece back.");
    }

    /// Makes the changes of a trial.
    pub(crate) fn make(&mut self, changes: &[Change]) {
        self.change(|piece| trial::changed(piece, changes));
        self.go_on();
        self.notify(match changes.len() {
            0 => "Nothing was changed.".to_owned(),
            1 => "1 finding changed; undo takes it back.".to_owned(),
            n => format!("{n} findings changed; undo takes them back."),
        });
    }

    /// The piece turned up elsewhere.
    pub(crate) fn set_setting(&mut self, setting: SettingId) {
        self.change(|piece| piece.in_setting(setting));
        match self.screen() {
            Screen::Verdict => self.judge(),
            // Another look may be the best one now; a clue gone to stays.
            _ if self.place.gone_to.is_none() => self.ask(None),
            _ => {}
        }
    }

    /// Another piece in the same setting.
    pub(crate) fn new_piece(&mut self) {
        let had = !self.piece.evidence().is_empty();
        self.put_down(Piece::cleared);
        if had {
            self.notify("A new piece. Undo brings the last one back.");
        }
    }

    /// Another piece on the table. A line begun and a doubt spoke of the piece before.
    fn put_down(&mut self, other: impl FnOnce(&Piece) -> Piece) {
        self.change(other);
        self.unfinished.clear();
        self.place.sure = Sure::Sure;
        self.look(None);
    }

    /// Back to the piece and the place before the last change.
    pub(crate) fn undo(&mut self) {
        let Some((piece, place)) = self.earlier.pop() else {
            self.notify("There is nothing to take back.");
            return;
        };
        (self.piece, self.place) = (piece, place);
        if self.screen() == Screen::Verdict {
            self.judge();
        }
    }

    /// Another piece in place of this one, which goes on the stack with the place.
    fn change(&mut self, change: impl FnOnce(&Piece) -> Piece) {
        let after = change(&self.piece);
        if !after.same_as(&self.piece) {
            let before: (Piece, Place) = (self.piece.clone(), self.place.clone());
            self.earlier.push(before);
            self.piece = after;
        }
    }

    /// The best next look, or the verdict anew, after findings that came from elsewhere.
    fn go_on(&mut self) {
        self.ask(None);
        if self.screen() == Screen::Verdict {
            self.judge();
        }
    }
}
