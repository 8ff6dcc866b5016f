//! What the screens know. Changes are in `update`, drawing in `draw`.

use std::sync::Arc;

use ratatui::Frame;

use super::canvas::Shown;
use super::input::{Input, Key};
use super::popups::{Popup, jump};
use super::theme::Theme;
use super::{draw, keys};
use crate::core::eras::{era, scaled};
use crate::core::grid::ClueId;
use crate::core::leaning::Leaning;
use crate::core::observation::{Observation, Observed, Sure};
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::rulebase::ids::SettingId;
use crate::say::account::Account;

/// What fills the window.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Screen {
    Welcome,
    /// One question at a time, the verdict in sight.
    Look,
    /// The whole account.
    Verdict,
}

/// Where the person was before a change, for undo.
#[derive(Clone, Debug)]
pub(super) struct Mark {
    pub jumped: Option<ClueId>,
    pub sure: Sure,
    pub cursor: usize,
    pub typed: String,
}

/// The account of the verdict in sentences, and what each finding speaks for and against.
pub(super) type Spelled = (Account, Vec<(Leaning, String)>);

/// The state of the screens.
pub struct App {
    pub(super) theme: Theme,
    pub(super) screen: Screen,
    pub(super) popups: Vec<Popup>,
    pub(super) piece: Piece,
    /// Item of the screen's list the cursor is on.
    pub(super) cursor: usize,
    /// A clue gone to by hand; `None` = the best next look.
    pub(super) jumped: Option<ClueId>,
    pub(super) sure: Sure,
    /// Digits of a year being typed.
    pub(super) typed: String,
    /// First line shown of the verdict.
    pub(super) scroll: usize,
    /// One line said after the last message.
    pub(super) notice: String,
    pub(super) trail: Vec<Mark>,
    /// Findings that say something, with their eras scaled to 1.
    pub(super) eras: Vec<(Observation, Vec<f64>)>,
    /// Worked out when the verdict is opened.
    pub(super) account: Option<Spelled>,
    /// Where the last frame put things.
    pub(super) shown: Shown,
    /// True when the program should end.
    pub done: bool,
}

impl App {
    /// The welcome screen, with the first setting chosen.
    pub fn new(expert: Arc<Expert>, theme: Theme) -> App {
        App {
            theme,
            screen: Screen::Welcome,
            popups: Vec::new(),
            piece: Piece::new(expert, SettingId(0)),
            cursor: 0,
            jumped: None,
            sure: Sure::Sure,
            typed: String::new(),
            scroll: 0,
            notice: String::new(),
            trail: Vec::new(),
            eras: Vec::new(),
            account: None,
            shown: Shown::default(),
            done: false,
        }
    }

    /// The same, past the welcome, with findings already given.
    pub fn opened(
        expert: Arc<Expert>,
        theme: Theme,
        setting: SettingId,
        saw: &[Observation],
    ) -> App {
        let mut app = App::new(expert.clone(), theme);
        app.piece = Piece::new(expert, setting);
        app.screen = Screen::Look;
        app.change(|piece| piece.say_all(saw));
        app.settle();
        app
    }

    /// Takes one event.
    pub fn handle(&mut self, input: Input) {
        if let Some(msg) = keys::message(self, input) {
            self.update(msg);
        }
    }

    /// Draws one frame. Give what comes back to `drawn`, so that clicks find their mark.
    pub fn draw(&self, frame: &mut Frame) -> Shown {
        draw::draw(self, frame.area(), frame.buffer_mut())
    }

    /// Remembers where the frame put things.
    pub fn drawn(&mut self, shown: Shown) {
        self.shown = shown;
    }

    /// The piece on the table.
    pub fn piece(&self) -> &Piece {
        &self.piece
    }

    /// The screen that fills the window.
    pub fn screen(&self) -> Screen {
        self.screen
    }

    /// The popup on top.
    pub fn popup(&self) -> Option<&Popup> {
        self.popups.last()
    }

    /// The clue being asked: one gone to, or the best next look; `None` when it is time to stop.
    pub fn clue(&self) -> Option<ClueId> {
        self.jumped
            .or_else(|| self.piece.verdict().next().map(|look| look.clue))
    }

    pub(super) fn expert(&self) -> &Arc<Expert> {
        self.piece.expert()
    }

    /// Number of items of the list that has the keys; 0 where there is none.
    pub(super) fn items(&self) -> usize {
        match (self.popups.last(), self.screen) {
            (Some(Popup::Jump { search, .. }), _) => jump::found(self, search).len(),
            (Some(Popup::Trial(trial)), _) => trial.clues.len(),
            (Some(Popup::Setting { .. }), _) | (None, Screen::Welcome) => {
                self.expert().base.settings.len()
            }
            (None, Screen::Look) => self
                .clue()
                .map_or(0, |clue| self.expert().base.clue(clue).findings.len()),
            _ => 0,
        }
    }

    /// True when keys write text instead of giving orders.
    pub(super) fn writing(&self) -> bool {
        self.popups.last().is_some_and(Popup::writes)
    }

    /// True when a year is asked for and digits write it.
    pub(super) fn dating(&self) -> bool {
        self.popups.is_empty()
            && self.screen == Screen::Look
            && self
                .clue()
                .is_some_and(|clue| self.expert().base.clue(clue).dated.is_some())
    }

    /// Works out what follows from the findings.
    pub(super) fn weigh(&mut self) {
        self.account = None;
        let engine = &self.piece.expert().engine;
        let prior = engine.priors[self.piece.setting()].cells();
        let evidence = self.piece.evidence();
        self.eras = evidence
            .entries()
            .iter()
            .filter(|e| engine.model.speaks(e, evidence))
            .filter_map(|e| Some((*e, scaled(era(&engine.model, prior, e)?))))
            .collect();
    }

    /// Puts the cursor on the earlier answer of the clue being asked, or on its first finding.
    pub(super) fn settle(&mut self) {
        self.cursor = 0;
        self.typed.clear();
        let earlier = self.clue().and_then(|clue| self.piece.evidence().of(clue));
        match earlier.map(|e| e.seen) {
            Some(Observed::Finding(f)) => self.cursor = usize::from(f.0),
            Some(Observed::Year(y)) => self.typed = y.0.to_string(),
            Some(Observed::CantTell) | None => {}
        }
    }

    /// Changes the findings or the setting and remembers where it was done from.
    pub(super) fn change(&mut self, change: impl FnOnce(&mut Piece)) {
        let before = (self.piece.setting(), self.piece.evidence().clone());
        change(&mut self.piece);
        if self.piece.setting() != before.0 || *self.piece.evidence() != before.1 {
            self.trail.push(Mark {
                jumped: self.jumped,
                sure: self.sure,
                cursor: self.cursor,
                typed: self.typed.clone(),
            });
        }
        self.weigh();
    }

    /// A key as if pressed; for tests and other backends.
    pub fn press(&mut self, key: Key) {
        self.handle(Input::Key(key));
    }
}
