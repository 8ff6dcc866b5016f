//! What a popup is: it knows the session, which it never changes, and says what is to be done in
//! effects, which the app carries out.

use std::any::Any;
use std::fmt::Debug;

use ratatui::layout::Rect;

use crate::core::grid::ClueId;
use crate::core::observation::Observation;
use crate::piece::Piece;
use crate::piece::trial::Change;
use crate::rulebase::ids::SettingId;
use crate::screens::kit::canvas::Canvas;
use crate::screens::state::keys::KeyTable;
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::Order;
use crate::screens::state::save::Save;
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::{TypedLine, one_line};
use crate::stock::store::{Answer, Ask, Trouble};

/// What opens over a screen; the one on top has the keys.
///
/// Whatever is shown is worked out when the popup is opened and in `update`: `draw` only reads.
pub trait Popup: Debug + Any {
    /// Words in the frame.
    fn title(&self) -> &'static str;

    /// Every key that works while the popup is on top.
    fn keys(&self, session: &Session) -> KeyTable;

    /// Takes a message and says what is to be done.
    fn update(&mut self, msg: Msg, session: &Session) -> Effect;

    /// Draws what stands in the frame.
    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect);

    /// The line being typed, where there is one.
    fn line(&mut self) -> Option<&mut TypedLine> {
        None
    }

    /// Works out what follows from the line after it was changed.
    fn read(&mut self, _: &Session) {}

    /// Writes a text that came all at once, and reads it once; gives the number of letters that
    /// were left out.
    fn paste(&mut self, text: &str, session: &Session) -> usize {
        let Some(line) = self.line() else {
            return one_line(text).count();
        };
        let left_out = line.paste(text);
        self.read(session);
        left_out
    }

    /// What was typed and should still be there when this is opened again.
    fn unfinished(&self) -> Option<&str> {
        None
    }

    /// A message to the stock book that is to go off now; each is given once.
    fn ask(&mut self) -> Option<Ask> {
        None
    }

    /// Takes the stock book's answer to the last message.
    fn answered(&mut self, _: Result<Answer, Trouble>, _: &Session) -> Effect {
        Effect::Stay
    }

    /// True for what leaves nothing of the screen in sight, header included.
    fn fills(&self) -> bool {
        false
    }

    /// Rows of the frame in the middle of the screen; `None` = all there are.
    fn height(&self) -> Option<u16> {
        None
    }
}

/// What is to be done after a message, as plain data.
#[derive(Debug)]
pub enum Effect {
    /// Nothing more: what had to change has changed in the popup.
    Stay,
    /// The popup has no use for the message. Words are explained, popups opened and closed from
    /// anywhere; all else is dropped.
    Pass,
    /// Another popup on top.
    Open(Box<dyn Popup>),
    /// Closes, and has the message carried out by the screen below.
    Below(Msg),
    /// Closes all and asks this clue.
    GoTo(ClueId),
    /// Closes all and takes these observations.
    Take(Vec<Observation>),
    /// Closes all and makes these changes.
    Make(Vec<Change>),
    /// Closes all and goes on with this piece.
    TakeUp(Piece),
    /// Closes, and says something below the screen.
    Done(String),
    /// Closes, and changes where the piece was found.
    SetSetting(SettingId),
    /// Has a file written, by whoever shows the screens.
    Save(Save),
    /// Says something below the screen.
    Notify(String),
    /// Leaves at once.
    Leave,
}

impl Effect {
    /// This popup on top.
    pub fn open(popup: impl Popup) -> Effect {
        Effect::Open(Box::new(popup))
    }

    /// `Stay` for a message that was used, else `Pass`.
    pub fn used(used: bool) -> Effect {
        if used { Effect::Stay } else { Effect::Pass }
    }
}

/// A letter of the screens that opens something.
pub struct Opening {
    pub order: Order,
    /// From the session and the keys of the screen below.
    pub open: fn(&Session, &KeyTable) -> Effect,
}
