//! Lessons and drills for the eye, over the whole window.
//!
//! What is asked, and when, stands in `learn`; every sentence in `say`. The learner's record comes
//! from the stock book and goes back there after every answer, by message.
//!
//! | file | what |
//! |---|---|
//! | `part` | what fills the window at a time, and the learner it works with |
//! | `menu` | all there is |
//! | `lesson` | text and pictures of a lesson |
//! | `questions` | questions in a row |
//! | `hidden_piece`, `own_piece` | a whole piece, look by look |
//! | `guess` | what it is, how sure, from when to when |
//! | `how_sure` | confidences to choose from |
//! | `drawn` | the picture of a finding |
//! | `reading` | a text to be read at the end |

mod drawn;
mod guess;
mod hidden_piece;
mod how_sure;
mod lesson;
mod menu;
mod own_piece;
mod part;
mod questions;
mod reading;

use ratatui::layout::Rect;

use self::menu::{Menu, begin};
use self::part::{Part, Pupil, Step};
use super::popup::{Effect, Opening, Popup};
use crate::learn::learner::Learner;
use crate::learn::memory::Day;
use crate::learn::round::{Drill, Sitting};
use crate::screens::kit::canvas::{Canvas, above};
use crate::screens::kit::rows::paragraph;
use crate::screens::state::keys::KeyTable;
use crate::screens::state::keys::usual::CLOSE;
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::Order;
use crate::screens::state::session::{AtHand, Session};
use crate::screens::state::typed_line::TypedLine;
use crate::stock::store::{Answer, Ask, Trouble};

/// The learner where none is named.
const ME: &str = "me";

pub const OPENING: Opening = Opening {
    order: Order::opening('d', "Lessons and drills for the eye.", |session| {
        session.stock().map(|_| "drill")
    }),
    open: |session, _| match session.stock() {
        Some(at_hand) => Effect::open(DrillScreen::new(
            at_hand,
            Sitting {
                learner: ME.to_owned(),
                drill: None,
                seed: None,
                today: Day::of(at_hand.today),
                place: session.piece().setting(),
                recorded: Vec::new(),
            },
        )),
        None => Effect::Stay,
    },
};

/// Lessons and drills.
#[derive(Debug)]
pub struct DrillScreen {
    pupil: Pupil,
    /// What to begin with as soon as the record is there.
    wanted: Option<Drill>,
    /// `None` until the record is there.
    part: Option<Box<dyn Part>>,
    /// Messages to the book, the next first.
    waiting: Vec<Ask>,
    /// The record is what was asked for last.
    awaits_record: bool,
    trouble: String,
}

impl DrillScreen {
    /// Somebody sits down; their record is asked for.
    pub fn new(at_hand: AtHand, sitting: Sitting) -> DrillScreen {
        DrillScreen {
            waiting: vec![Ask::Learner(sitting.learner.clone()), Ask::Learners],
            awaits_record: false,
            wanted: sitting.drill,
            part: None,
            trouble: String::new(),
            pupil: Pupil {
                name: sitting.learner,
                record: Learner::default(),
                today: sitting.today,
                at_hand,
                seed: sitting.seed,
                begun: 0,
                place: sitting.place,
                recorded: sitting.recorded,
                changed: false,
                known: Vec::new(),
            },
        }
    }

    /// What is wanted, else the list of all there is.
    fn sit_down(&mut self, session: &Session) {
        let part: Box<dyn Part> = match self.wanted.take() {
            Some(wanted) => begin(wanted, &mut self.pupil, session),
            None => Box::new(Menu::new(&self.pupil, session)),
        };
        self.part = Some(part);
    }

    /// The learner after this one, by name.
    fn next_pupil(&mut self) {
        let known = &self.pupil.known;
        let after = known.iter().find(|name| **name > self.pupil.name);
        if let Some(name) = after.or(known.first()).cloned() {
            self.waiting.push(Ask::Learner(name.clone()));
            self.pupil.name = name;
            self.part = None;
        }
    }
}

impl Popup for DrillScreen {
    fn title(&self) -> &'static str {
        "Drill"
    }

    fn fills(&self) -> bool {
        true
    }

    fn keys(&self, session: &Session) -> KeyTable {
        match &self.part {
            Some(part) => part.keys(session),
            None => KeyTable::new(vec![CLOSE]),
        }
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        let Some(part) = &mut self.part else {
            return Effect::Pass;
        };
        let step = part.update(msg, &mut self.pupil, session);
        if std::mem::take(&mut self.pupil.changed) {
            let record = Box::new(self.pupil.record.clone());
            self.waiting
                .push(Ask::KeepLearner(self.pupil.name.clone(), record));
        }
        match step {
            Step::Stay => {}
            Step::Pass => return Effect::Pass,
            Step::To(part) => self.part = Some(part),
            Step::Menu => self.part = Some(Box::new(Menu::new(&self.pupil, session))),
            Step::NextPupil => self.next_pupil(),
            Step::Effect(effect) => return effect,
        }
        Effect::Stay
    }

    fn line(&mut self) -> Option<&mut TypedLine> {
        self.part.as_mut().and_then(|part| part.line())
    }

    fn read(&mut self, session: &Session) {
        if let Some(part) = &mut self.part {
            part.read(session);
        }
    }

    fn ask(&mut self) -> Option<Ask> {
        let ask = (!self.waiting.is_empty()).then(|| self.waiting.remove(0))?;
        self.awaits_record = matches!(ask, Ask::Learner(_));
        Some(ask)
    }

    fn answered(&mut self, answer: Result<Answer, Trouble>, session: &Session) -> Effect {
        let record = std::mem::take(&mut self.awaits_record);
        self.trouble.clear();
        match answer {
            Ok(Answer::Learners(found)) if record => {
                let known = found.into_iter().next().map(|(_, learner)| learner);
                self.pupil.record = known.unwrap_or_default();
                self.sit_down(session);
            }
            Ok(Answer::Learners(found)) => {
                self.pupil.known = found.into_iter().map(|(name, _)| name).collect();
                if let Some(part) = &mut self.part {
                    part.known(&self.pupil);
                }
            }
            Ok(Answer::Written | Answer::Held(_) | Answer::Listed(_)) => {}
            // Without the record nothing is begun: it would be written over.
            Err(trouble) => self.trouble = trouble.to_string(),
        }
        Effect::Stay
    }

    fn draw(&self, _: &Session, canvas: &mut Canvas, inside: Rect) {
        let (theme, cells) = (canvas.theme, usize::from(inside.width));
        let trouble = match self.trouble.is_empty() {
            true => Vec::new(),
            false => paragraph(&self.trouble, cells, theme.caution),
        };
        let (top, rest) = above(inside, trouble.len() as u16);
        canvas.rows(top, &trouble);
        match &self.part {
            Some(part) => part.draw(&self.pupil, canvas, rest),
            None if self.trouble.is_empty() => {
                let words = format!("The record of {} is being fetched.", self.pupil.name);
                canvas.rows(rest, &paragraph(&words, cells, theme.quiet));
            }
            None => {}
        }
    }
}
