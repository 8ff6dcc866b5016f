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
use super::state::session::{AtHand, Session};
use super::state::shown::Shown;
use super::update;
use crate::core::grid::ClueId;
use crate::core::observation::Observation;
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::rulebase::ids::{Id, SettingId};
use crate::stock::store::{Answer, Ask, Outbox, Ticket, Trouble};

/// The screens: what they know, and what is open over them.
#[derive(Debug)]
pub struct App {
    theme: Theme,
    session: Session,
    popups: Vec<Box<dyn Popup>>,
    outbox: Outbox,
    /// The message to the stock book whose answer the popup on top waits for.
    awaited: Option<Ticket>,
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
            outbox: Outbox::default(),
            awaited: None,
            done: false,
        }
    }

    /// The same with a stock book to speak to.
    pub fn with_stock(mut self, at_hand: AtHand) -> App {
        self.session.stock = Some(at_hand);
        self
    }

    /// Messages to the stock book, the oldest first; the answers go to `answered`.
    pub fn messages(&mut self) -> Vec<(Ticket, Ask)> {
        self.outbox.collect()
    }

    /// Takes an answer of the stock book. One that nobody waits for any longer is dropped.
    pub fn answered(&mut self, ticket: Ticket, answer: Result<Answer, Trouble>) {
        if self.awaited != Some(ticket) {
            return;
        }
        self.awaited = None;
        if let Some(popup) = self.popups.last_mut() {
            let effect = popup.answered(answer, &self.session);
            self.carry_out(effect, Msg::Nothing);
        }
        self.send();
        self.session.work_out();
    }

    /// Puts what the popup on top has to ask into the outbox.
    fn send(&mut self) {
        if let Some(ask) = self.popups.last_mut().and_then(|popup| popup.ask()) {
            self.awaited = Some(self.outbox.ask(ask));
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
        match self.popups.last_mut() {
            Some(popup) => {
                let effect = popup.update(msg, &self.session);
                self.carry_out(effect, msg);
            }
            None => self.below(msg),
        }
        self.send();
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
            Effect::TakeUp(piece) => {
                self.popups.clear();
                self.session.take_up(piece);
            }
            Effect::Done(words) => {
                self.popups.pop();
                self.session.notify(words);
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
