//! The letters of the screens: what each does, and where it is offered. Those that open something
//! stand with what they open.

use super::input::Key;
use super::keys::Binding;
use super::msg::Msg;
use super::place::Screen;
use super::session::Session;
use crate::core::grid::ClueId;
use crate::core::observation::Sure;
use crate::rulebase::definitions::Tool;

/// A key of the screens.
pub struct Order {
    pub key: Key,
    pub msg: Msg,
    /// One sentence for the help.
    pub help: &'static str,
    /// One or two words for the footer; `None` where the order is not offered.
    pub label: fn(&Session) -> Option<&'static str>,
}

impl Order {
    /// A letter that opens something.
    pub const fn opening(
        letter: char,
        help: &'static str,
        label: fn(&Session) -> Option<&'static str>,
    ) -> Order {
        Order {
            key: Key::Char(letter),
            msg: Msg::Open(letter),
            help,
            label,
        }
    }

    /// The key as it works now.
    pub fn binding(&self, session: &Session) -> Option<Binding> {
        let label = (self.label)(session)?;
        Some(Binding::new(self.key, self.msg, label, self.help))
    }
}

/// The clue of the question that is open. No look is ranked where none is asked for.
pub(crate) fn asked(session: &Session) -> Option<ClueId> {
    match session.screen() {
        Screen::Look => session.clue(),
        Screen::Welcome | Screen::Verdict => None,
    }
}

/// True while a question is open.
pub(crate) fn asks(session: &Session) -> bool {
    asked(session).is_some()
}

/// True past the welcome.
pub(crate) fn begun(session: &Session) -> bool {
    session.screen() != Screen::Welcome
}

/// True where there is something to speak of: before anything is seen these orders would do
/// nothing, and a phone has no room to spare.
pub(crate) fn worth_weighing(session: &Session) -> bool {
    match session.screen() {
        Screen::Welcome => false,
        Screen::Look => !session.piece().evidence().is_empty(),
        Screen::Verdict => true,
    }
}

pub(crate) const UNDO: Order = Order {
    key: Key::Char('u'),
    msg: Msg::Undo,
    help: "Take back the last change.",
    label: |session| begun(session).then_some("undo"),
};

pub(crate) const CANT_TELL: Order = Order {
    key: Key::Char('x'),
    msg: Msg::CantTell,
    help: "You looked and can't tell: says nothing.",
    label: |session| asks(session).then_some("can't tell"),
};

pub(crate) const SURENESS: Order = Order {
    key: Key::Char('s'),
    msg: Msg::Sureness,
    help: "Say how sure the next answer is: unsure, then a guess, then sure again.",
    label: |session| {
        let label = match session.place().sure {
            Sure::Sure => "say unsure",
            Sure::Unsure => "say a guess",
            Sure::Guess => "say sure",
        };
        asks(session).then_some(label)
    },
};

pub(crate) const FORGET: Order = Order {
    key: Key::Char('f'),
    msg: Msg::Forget,
    help: "Take back what was said here.",
    label: |session| {
        let earlier = session.piece().evidence().of(asked(session)?);
        earlier.map(|_| "forget")
    },
};

pub(crate) const BACK: Order = Order {
    key: Key::Esc,
    msg: Msg::Look,
    help: "Back to the best next look.",
    label: |session| {
        let gone = session.screen() == Screen::Look && session.place().gone_to.is_some();
        gone.then_some("back")
    },
};

pub(crate) const VERDICT: Order = Order {
    key: Key::Char('v'),
    msg: Msg::Verdict,
    help: "The whole verdict with its reasons.",
    label: |session| (session.screen() == Screen::Look).then_some("verdict"),
};

pub(crate) const KIT: Order = Order {
    key: Key::Char('i'),
    msg: Msg::Kit,
    help: "Say what you have with you: loupe and torch, one of them, or neither.",
    label: |session| {
        let label = match session.missing() {
            [] => "all tools",
            [Tool::Loupe] => "NO LOUPE",
            [Tool::Torch] => "NO TORCH",
            _ => "NO LOUPE OR TORCH",
        };
        (session.screen() == Screen::Look).then_some(label)
    },
};
