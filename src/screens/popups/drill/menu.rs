//! All there is: lessons by number, what is due, the rounds, how the learner stands.

use ratatui::layout::Rect;

use super::hidden_piece::HiddenPiece;
use super::lesson::Lesson;
use super::own_piece::OwnPiece;
use super::part::{Part, Pupil, Step};
use super::questions::Questions;
use super::reading::Reading;
use crate::learn::round::{Drill, ROUNDS, Round};
use crate::piece::expert::Expert;
use crate::say::names::capital;
use crate::say::progress::{due, progress};
use crate::say::round::{self, what};
use crate::screens::kit::canvas::{Canvas, above};
use crate::screens::kit::rows::paragraph;
use crate::screens::popups::ask_first;
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{CLOSE, DOWN, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::keys::{Binding, KeyTable};
use crate::screens::state::msg::Msg;
use crate::screens::state::position::{chosen_item, step_item};
use crate::screens::state::session::Session;
use crate::screens::views::findings;

/// Where a newcomer begins.
const NEW_HERE: &str = "New here? Enter begins lesson one; it takes five minutes.";

/// What an item leads to.
#[derive(Clone, Copy, Debug)]
enum Choice {
    Drill(Drill),
    Progress,
}

/// The list.
#[derive(Debug)]
pub(super) struct Menu {
    choices: Vec<Choice>,
    words: Vec<String>,
    /// Lessons done.
    done: Vec<bool>,
    head: String,
    cursor: usize,
    /// Another learner can be chosen.
    others: bool,
}

impl Menu {
    /// The list with the cursor on what is next: what is due, else the next lesson.
    pub(super) fn new(pupil: &Pupil, session: &Session) -> Menu {
        let expert = session.expert();
        let lessons = &expert.base.lessons;
        let (record, today) = (&pupil.record, pupil.today);
        let waiting = due(record, today);
        let repeat = match waiting.first() {
            Some(line) => format!("{}: {line}", capital(&what(expert, Drill::Due))),
            None => capital(&what(expert, Drill::Due)),
        };
        let lesson = |i: usize| (Choice::Drill(Drill::Lesson(i)), lessons[i].title.clone());
        let mut items: Vec<(Choice, String)> = (0..lessons.len()).map(lesson).collect();
        items.push((Choice::Drill(Drill::Due), repeat));
        for (_, drill) in ROUNDS {
            items.push((Choice::Drill(drill), capital(&what(expert, drill))));
        }
        items.push((Choice::Progress, "How you stand".to_owned()));
        let next = match record.due(today).is_empty() {
            true => record.next_lesson(&expert.base),
            false => Some(lessons.len()),
        };
        let new = record.lessons.is_empty() && record.memories.is_empty() && !lessons.is_empty();
        let (choices, words) = items.into_iter().unzip();
        Menu {
            choices,
            words,
            done: lessons
                .iter()
                .map(|l| record.lessons.contains_key(&l.id))
                .collect(),
            head: match new {
                true => format!("Learner: {}. {NEW_HERE}", pupil.name),
                false => format!("Learner: {}", pupil.name),
            },
            cursor: next.unwrap_or(lessons.len() + 1),
            others: others(pupil),
        }
    }
}

/// True when there are learners beside this one.
fn others(pupil: &Pupil) -> bool {
    pupil.known.iter().any(|name| *name != pupil.name)
}

/// Begins a drill.
pub(super) fn begin(drill: Drill, pupil: &mut Pupil, session: &Session) -> Box<dyn Part> {
    let expert = session.expert();
    let seed = pupil.next_seed();
    match drill {
        Drill::Lesson(at) => Box::new(Lesson::new(at, seed, session)),
        Drill::Ask => HiddenPiece::begin(seed, pupil, session),
        Drill::Own => Box::new(OwnPiece::new(session)),
        Drill::Due => {
            let round = Round::due(expert, &mut pupil.record, pupil.today, seed);
            let heading = capital(&what(expert, drill));
            match round.is_over() {
                true => Box::new(Reading::one(&heading, nothing_due(pupil))),
                false => Questions::begin(round, heading, None, pupil, session),
            }
        }
        Drill::Printed | Drill::Which | Drill::Misfit | Drill::Back => {
            let round = Round::of(drill, pupil.place, seed);
            let heading = match round.seconds() {
                Some(_) => round::TWO_MINUTES.to_owned(),
                None => capital(&what(expert, drill)),
            };
            Questions::begin(round, heading, None, pupil, session)
        }
    }
}

fn nothing_due(pupil: &Pupil) -> Vec<String> {
    let lines = due(&pupil.record, pupil.today);
    match lines.is_empty() {
        true => vec!["What you answer is asked again after some days.".to_owned()],
        false => lines
            .iter()
            .map(|line| format!("{}.", capital(line)))
            .collect(),
    }
}

fn standing(expert: &Expert, pupil: &Pupil) -> Reading {
    let heading = format!("How {} stands", pupil.name);
    let mut parts = vec![(heading, Vec::new())];
    parts.extend(progress(expert, &pupil.record, pupil.today));
    Reading::new(parts)
}

impl Part for Menu {
    fn keys(&self, session: &Session) -> KeyTable {
        let mut keys = vec![enter("begin", "Begin what is marked.")];
        if self.others {
            let help = "The next learner in the book.";
            keys.push(Binding::new(Key::Tab, Msg::Next, "another learner", help));
        }
        keys.extend([
            UP.in_help(),
            DOWN.in_help(),
            PAGE_UP.in_help(),
            PAGE_DOWN.in_help(),
            CLOSE.labelled("to the pieces"),
        ]);
        keys.extend(ask_first::LEAVE.order.binding(session));
        KeyTable::new(keys).choosing(self.words.len(), Msg::Choose)
    }

    fn update(&mut self, msg: Msg, pupil: &mut Pupil, session: &Session) -> Step {
        let msg = session.shown().turned(msg);
        if let Some(choice) = chosen_item(self.cursor, msg).and_then(|i| self.choices.get(i)) {
            return Step::To(match choice {
                Choice::Drill(drill) => begin(*drill, pupil, session),
                Choice::Progress => Box::new(standing(session.expert(), pupil)),
            });
        }
        match msg {
            Msg::Next if self.others => Step::NextPupil,
            _ => Step::used(step_item(&mut self.cursor, msg, self.words.len())),
        }
    }

    fn known(&mut self, pupil: &Pupil) {
        self.others = others(pupil);
    }

    fn draw(&self, _: &Pupil, canvas: &mut Canvas, area: Rect) {
        let rows = paragraph(&self.head, usize::from(area.width), canvas.theme.heading);
        let (top, rest) = above(area, rows.len() as u16);
        canvas.rows(top, &rows);
        let done = |i: usize| self.done.get(i).copied().unwrap_or(false);
        findings::list(canvas, rest, &self.words, self.cursor, &done);
    }
}
