//! What the parts of the drill have in common: the learner they work with, and what they answer.

use std::fmt::Debug;

use ratatui::layout::Rect;

use crate::core::seeded::Seeded;
use crate::learn::learner::Learner;
use crate::learn::memory::Day;
use crate::learn::recorded::Recorded;
use crate::rulebase::ids::SettingId;
use crate::screens::kit::canvas::Canvas;
use crate::screens::popups::popup::Effect;
use crate::screens::state::keys::KeyTable;
use crate::screens::state::msg::Msg;
use crate::screens::state::session::{AtHand, Session};
use crate::screens::state::typed_line::TypedLine;

/// Who learns, and what is handed in with that.
#[derive(Debug)]
pub(super) struct Pupil {
    pub name: String,
    pub record: Learner,
    pub today: Day,
    pub at_hand: AtHand,
    /// The same seed gives the same questions.
    pub seed: Option<u64>,
    /// Drills begun.
    pub begun: u64,
    /// Where hidden pieces come from.
    pub place: SettingId,
    /// Pieces to be asked instead of drawn ones.
    pub recorded: Vec<Recorded>,
    /// The record has changed and is to be kept.
    pub changed: bool,
    /// Names of all learners there are.
    pub known: Vec<String>,
}

impl Pupil {
    /// The seed of the next drill.
    pub(super) fn next_seed(&mut self) -> u64 {
        self.begun += 1;
        match self.seed {
            // The first is that of the command line.
            Some(seed) if self.begun == 1 => seed,
            Some(seed) => Seeded::part(seed, self.begun).number(),
            None => (self.at_hand.chance)(),
        }
    }
}

/// What a part of the drill answers to a message.
#[derive(Debug)]
pub(super) enum Step {
    Stay,
    /// The part has no use for the message.
    Pass,
    /// On to another part.
    To(Box<dyn Part>),
    /// Back to the list of all there is.
    Menu,
    /// The next learner there is.
    NextPupil,
    /// Something for the screens as a whole.
    Effect(Effect),
}

impl Step {
    /// On to this part.
    pub(super) fn to(part: impl Part + 'static) -> Step {
        Step::To(Box::new(part))
    }

    /// `Stay` for a message that was used, else `Pass`.
    pub(super) fn used(used: bool) -> Step {
        if used { Step::Stay } else { Step::Pass }
    }
}

/// A part of the drill: what fills the window.
pub(super) trait Part: Debug {
    /// Every key that works.
    fn keys(&self, session: &Session) -> KeyTable;

    /// Takes a message; whatever is shown is worked out here.
    fn update(&mut self, msg: Msg, pupil: &mut Pupil, session: &Session) -> Step;

    /// Draws; only reads.
    fn draw(&self, pupil: &Pupil, canvas: &mut Canvas, area: Rect);

    /// The line being typed, where there is one.
    fn line(&mut self) -> Option<&mut TypedLine> {
        None
    }

    /// Works out what follows from the line after it was changed.
    fn read(&mut self, _: &Session) {}

    /// The other learners have become known.
    fn known(&mut self, _: &Pupil) {}
}
