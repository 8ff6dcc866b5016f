//! The loop: an event means a message, by the table of whatever has the keys; the message goes to
//! the popup on top or to the screen; what the popup answers is carried out here.

use std::sync::Arc;

use ratatui::Frame;
use ratatui::layout::Position;

use super::draw;
use super::kit::theme::Theme;
use super::popups::popup::{Effect, Popup};
use super::popups::words;
use super::screen_keys::{open, screen_keys};
use super::state::input::{Input, Key};
use super::state::keys::KeyTable;
use super::state::msg::Msg;
use super::state::place::Screen;
use super::state::session::Session;
use super::state::shown::Shown;
use super::update;
use crate::core::grid::ClueId;
use crate::core::observation::Observation;
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::piece::typed_mark::words_to_type;
use crate::rulebase::ids::{Id, SettingId};

/// The screens: what they know, and what is open over them.
#[derive(Debug)]
pub struct App {
    theme: Theme,
    session: Session,
    popups: Vec<Box<dyn Popup>>,
    /// True when the program should end.
    pub done: bool,
}

impl App {
    /// The welcome screen, with the first setting chosen.
    pub fn new(expert: Arc<Expert>, theme: Theme) -> App {
        App::with(Session::new(expert), theme)
    }

    /// The same, past the welcome, with findings already given.
    pub fn opened(
        expert: Arc<Expert>,
        theme: Theme,
        setting: SettingId,
        saw: &[Observation],
    ) -> App {
        App::with(Session::opened(expert, setting, saw), theme)
    }

    fn with(session: Session, theme: Theme) -> App {
        session.work_out();
        App {
            theme,
            session,
            popups: Vec::new(),
            done: false,
        }
    }

    /// Takes one event.
    pub fn handle(&mut self, input: Input) {
        let msg = match input {
            Input::Key(key) => self.keys().message(key),
            Input::Click { x, y } => self.session.shown().at(Position::new(x, y)),
            Input::Wheel { down: true } => Some(Msg::Down),
            Input::Wheel { down: false } => Some(Msg::Up),
        };
        if let Some(msg) = msg {
            self.update(msg);
        }
    }

    /// A key as if pressed; for tests and other backends.
    pub fn press(&mut self, key: Key) {
        self.handle(Input::Key(key));
    }

    /// Every key that works now.
    pub fn keys(&self) -> KeyTable {
        match self.popup() {
            Some(popup) => popup.keys(&self.session),
            None => screen_keys(&self.session),
        }
    }

    /// Does what was asked.
    pub fn update(&mut self, msg: Msg) {
        self.session.notify("");
        let (before, had_words) = (self.screen(), self.has_words_to_type());
        match self.popups.last_mut() {
            Some(popup) => {
                let effect = popup.update(msg, &self.session);
                self.carry_out(effect, msg);
            }
            None => self.below(msg),
        }
        self.offer(msg, before, had_words);
        // So that drawing only reads.
        self.session.work_out();
    }

    /// Draws one frame. Give what comes back to `drawn`, so that clicks find their mark.
    pub fn draw(&self, frame: &mut Frame) -> Shown {
        let (area, buf) = (frame.area(), frame.buffer_mut());
        let keys = self.keys();
        draw::draw(&self.session, self.popup(), &keys, self.theme, area, buf)
    }

    /// Remembers where the frame put things.
    pub fn drawn(&mut self, shown: Shown) {
        self.session.keep_shown(shown);
    }

    /// The piece on the table.
    pub fn piece(&self) -> &Piece {
        self.session.piece()
    }

    /// The screen that fills the window.
    pub fn screen(&self) -> Screen {
        self.session.screen()
    }

    /// The popup on top.
    pub fn popup(&self) -> Option<&dyn Popup> {
        self.popups.last().map(Box::as_ref)
    }

    /// The clue being asked: one gone to, or the best next look; `None` when it is time to stop.
    pub fn clue(&self) -> Option<ClueId> {
        self.session.clue()
    }

    /// A message while nothing is open over the screen.
    fn below(&mut self, msg: Msg) {
        match msg {
            Msg::Open(_) | Msg::Word(_) | Msg::Leave => self.anywhere(msg),
            _ => update::update(&mut self.session, msg),
        }
    }

    /// True when it is known that there is a mark, and its words have not been typed.
    fn has_words_to_type(&self) -> bool {
        let piece = self.piece();
        !words_to_type(piece.expert(), piece.evidence()).is_empty()
    }

    /// Opens what the message led to: the first glance at the start, and the mark to be typed as
    /// soon as there is one. What is taken back is not offered again.
    fn offer(&mut self, msg: Msg, before: Screen, had_words: bool) {
        if self.screen() != Screen::Look || !self.popups.is_empty() || msg == Msg::Undo {
            return;
        }
        let begins = before == Screen::Welcome || msg == Msg::NewPiece;
        if begins && self.piece().evidence().is_empty() {
            self.anywhere(Msg::Open('e'));
        } else if !had_words && self.has_words_to_type() {
            self.anywhere(Msg::Open('m'));
        }
    }

    /// A message that means the same whatever is open.
    fn anywhere(&mut self, msg: Msg) {
        match msg {
            Msg::Open(letter) => {
                let effect = open(&self.session, letter);
                self.carry_out(effect, Msg::Nothing);
            }
            Msg::Word(term) => {
                let effect = words::explain(&self.session, term);
                self.carry_out(effect, Msg::Nothing);
            }
            Msg::Close => {
                self.popups.pop();
            }
            Msg::Leave => self.done = true,
            _ => {}
        }
    }

    /// Does what the popup on top answered to a message.
    fn carry_out(&mut self, effect: Effect, msg: Msg) {
        match effect {
            Effect::Stay => {}
            Effect::Pass => self.anywhere(msg),
            Effect::Open(popup) => self.popups.push(popup),
            Effect::Below(msg) => {
                self.popups.pop();
                self.below(msg);
            }
            Effect::GoTo(clue) => {
                self.popups.clear();
                self.session.look(Some(clue));
            }
            Effect::Take(observations) if observations.is_empty() => {
                self.session.notify("Nothing here was understood.");
            }
            Effect::Take(observations) => {
                self.popups.clear();
                self.session.take(&observations);
            }
            Effect::Make(changes) => {
                self.popups.clear();
                self.session.make(&changes);
            }
            Effect::SetSetting(setting) => {
                self.popups.pop();
                self.session
                    .set_setting(SettingId::at(setting).unwrap_or_default());
            }
            Effect::Notify(words) => self.session.notify(words),
            Effect::Leave => self.done = true,
        }
    }
}
