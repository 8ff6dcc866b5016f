//! A piece in the learner's own hands: the program asks and keeps its answer to itself until a guess
//! is made. It begins with what is on the table, which it leaves as it is.

use ratatui::layout::Rect;

use super::guess::{GUESS, Guess, Guessing};
use super::part::{Part, Pupil, Step};
use super::reading::Reading;
use crate::core::grid::{ClueId, FindingId};
use crate::core::observation::{Observation, Observed};
use crate::learn::asked::Guess as Scored;
use crate::learn::round::Drill;
use crate::piece::{Piece, notation};
use crate::say::asked;
use crate::say::names::capital;
use crate::say::round::what;
use crate::screens::kit::canvas::{Canvas, above};
use crate::screens::kit::rows::{paragraph, prose};
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{CLOSE, DOWN, ERASE, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::keys::{Binding, KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::position::{chosen_item, step_item};
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::TypedLine;
use crate::screens::views::findings;

/// Rows that how to look leaves to the list of findings (common practice, no source).
const LEAST_LIST: usize = 5;

/// The question that is open.
#[derive(Debug)]
struct Open {
    clue: ClueId,
    question: String,
    look: String,
    findings: Vec<String>,
    /// A year is asked for.
    dated: bool,
}

/// A piece being looked at.
#[derive(Debug)]
pub(super) struct OwnPiece {
    piece: Piece,
    earlier: Vec<Piece>,
    open: Option<Open>,
    cursor: usize,
    line: TypedLine,
    problem: String,
    guess: Option<Guess>,
}

impl OwnPiece {
    /// The piece on the table.
    pub(super) fn new(session: &Session) -> OwnPiece {
        let mut own = OwnPiece {
            piece: session.piece().clone(),
            earlier: Vec::new(),
            open: None,
            cursor: 0,
            line: TypedLine::default(),
            problem: String::new(),
            guess: None,
        };
        own.open(session);
        own
    }

    /// Opens the best next question; when enough is seen, the guess.
    fn open(&mut self, session: &Session) {
        let expert = session.expert();
        self.cursor = 0;
        self.line.clear();
        self.problem.clear();
        self.open = self.piece.advice().next().map(|look| {
            let rules = expert.base.clue(look.clue);
            Open {
                clue: look.clue,
                question: rules.question.clone(),
                look: rules.look.clone(),
                findings: rules.findings.iter().map(|f| f.words.clone()).collect(),
                dated: rules.dated.is_some(),
            }
        });
        self.guess = self.open.is_none().then(|| Guess::new(expert));
    }

    fn take(&mut self, observation: Observation, session: &Session) {
        let next = self.piece.with(observation);
        self.earlier.push(std::mem::replace(&mut self.piece, next));
        self.open(session);
    }

    /// Says what the program makes of it, beside the guess.
    fn told(&self, guess: &Scored, session: &Session) -> Step {
        let expert = session.expert();
        let mut lines = vec![asked::understood(expert, guess)];
        lines.extend(asked::own(&self.piece, guess));
        let heading = capital(&what(expert, Drill::Own));
        let reading = Reading::one(&heading, lines);
        Step::to(reading.of_piece(self.piece.clone()))
    }

    fn in_guess(&mut self, msg: Msg, session: &Session) -> Option<Step> {
        let guess = self.guess.as_mut()?;
        Some(match guess.update(msg, session) {
            Guessing::Stay => Step::Stay,
            Guessing::Pass => Step::Pass,
            Guessing::Done(guess) => self.told(&guess, session),
            Guessing::Back if self.open.is_some() => {
                self.guess = None;
                Step::Stay
            }
            Guessing::Back => Step::Menu,
        })
    }
}

impl Part for OwnPiece {
    fn keys(&self, _: &Session) -> KeyTable {
        if let Some(guess) = &self.guess {
            return guess.keys();
        }
        let cant_tell = "You looked and can't tell: says nothing.";
        if self.open.as_ref().is_some_and(|o| o.dated) {
            let keys = vec![
                enter("accept", "Accept the year typed."),
                ERASE,
                Binding::new(Key::Tab, Msg::CantTell, "can't tell", cant_tell),
                CLOSE.labelled("stop here"),
            ];
            return KeyTable::new(keys).writing(Writes::Text);
        }
        let mut keys = vec![
            enter("choose", "Choose the finding marked."),
            Binding::new(Key::Char('x'), Msg::CantTell, "can't tell", cant_tell),
            GUESS,
        ];
        if !self.earlier.is_empty() {
            keys.push(Binding::new(
                Key::Char('u'),
                Msg::Undo,
                "undo",
                "Take the last answer back.",
            ));
        }
        keys.extend([
            UP.in_help(),
            DOWN.in_help(),
            PAGE_UP.in_help(),
            PAGE_DOWN.in_help(),
            CLOSE.labelled("stop here"),
        ]);
        let items = self.open.as_ref().map_or(0, |o| o.findings.len());
        KeyTable::new(keys).choosing(items, Msg::Choose)
    }

    fn update(&mut self, msg: Msg, _: &mut Pupil, session: &Session) -> Step {
        if let Some(step) = self.in_guess(msg, session) {
            return step;
        }
        let Some(open) = &self.open else {
            return Step::Menu;
        };
        let msg = session.shown().turned(msg);
        let (clue, items) = (open.clue, open.findings.len());
        match msg {
            Msg::Close => return Step::Menu,
            Msg::CantTell => self.take(Observation::cant_tell(clue), session),
            Msg::Start => self.guess = Some(Guess::new(session.expert())),
            Msg::Undo => {
                if let Some(piece) = self.earlier.pop() {
                    self.piece = piece;
                    self.open(session);
                }
            }
            Msg::Take if open.dated => {
                match notation::parse_said(&session.expert().base, clue, self.line.text()) {
                    Ok(observation) => self.take(observation, session),
                    Err(refused) => self.problem = refused.0,
                }
            }
            _ if open.dated && self.line.edit(msg) => self.problem.clear(),
            _ => match chosen_item(self.cursor, msg).filter(|i| *i < items && !open.dated) {
                Some(item) => {
                    let finding = Observed::Finding(FindingId(item as u16));
                    self.take(Observation::new(clue, finding), session);
                }
                None => return Step::used(step_item(&mut self.cursor, msg, items)),
            },
        }
        Step::Stay
    }

    fn line(&mut self) -> Option<&mut TypedLine> {
        match &mut self.guess {
            Some(guess) => guess.line(),
            None if self.open.as_ref().is_some_and(|o| o.dated) => Some(&mut self.line),
            None => None,
        }
    }

    fn read(&mut self, session: &Session) {
        if let Some(guess) = &mut self.guess {
            guess.read(session.expert());
        }
    }

    fn draw(&self, _: &Pupil, canvas: &mut Canvas, area: Rect) {
        if let Some(guess) = &self.guess {
            return guess.draw(canvas, area);
        }
        let Some(open) = &self.open else {
            return;
        };
        let (theme, cells) = (canvas.theme, usize::from(area.width));
        let mut rows = prose(&open.question, cells, theme.heading);
        let mut look = prose(&open.look, cells, theme.instruction);
        let (_, least) = findings::rows_wanted(&open.findings, cells);
        let free = usize::from(area.height).saturating_sub(rows.len() + least.min(LEAST_LIST));
        look.truncate(free);
        rows.extend(look);
        if !self.problem.is_empty() {
            rows.extend(paragraph(&self.problem, cells, theme.caution));
        }
        let (top, rest) = above(area, rows.len() as u16);
        canvas.rows(top, &rows);
        match open.dated {
            true => drop(canvas.typed_line(rest, "Type the year: ", self.line.text())),
            false => findings::list(canvas, rest, &open.findings, self.cursor, &|_| false),
        }
    }
}
