//! Ask the piece: looks are chosen, what they show is read, and then a guess is made.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::guess::{GUESS, Guess, Guessing};
use super::part::{Part, Pupil, Step};
use super::reading::Reading;
use crate::core::grid::ClueId;
use crate::learn::asked::Asking;
use crate::learn::round::{Drill, Sitting};
use crate::say::asked;
use crate::say::names::{capital, clue_name};
use crate::say::round::what;
use crate::screens::kit::canvas::{Canvas, above};
use crate::screens::kit::rows::{Row, paragraph, prose};
use crate::screens::state::keys::KeyTable;
use crate::screens::state::keys::usual::{CLOSE, DOWN, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::msg::Msg;
use crate::screens::state::position::{chosen_item, step_item};
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::TypedLine;
use crate::screens::views::findings;

/// What was seen may take one row in so many of the window's (common practice, no source).
const ONE_ROW_IN: u16 = 2;

/// A hidden piece being asked.
#[derive(Debug)]
pub(super) struct HiddenPiece {
    asking: Asking,
    /// Looks that can be made, by station, and their names.
    choices: Vec<ClueId>,
    words: Vec<String>,
    /// What was seen, the last first.
    seen: Vec<String>,
    /// What stands above.
    head: Vec<String>,
    cursor: usize,
    guess: Option<Guess>,
}

impl HiddenPiece {
    /// The piece of this seed; a word of regret when the rules make none.
    pub(super) fn begin(seed: u64, pupil: &Pupil, session: &Session) -> Box<dyn Part> {
        let expert = session.expert();
        let asking = Sitting::asking(expert, pupil.place, &pupil.recorded, seed);
        let Some(asking) = asking else {
            let none = "The rules in use make no piece for this setting.".to_owned();
            return Box::new(Reading::one(&what(expert, Drill::Ask), vec![none]));
        };
        let mut part = HiddenPiece {
            asking,
            choices: Vec::new(),
            words: Vec::new(),
            seen: Vec::new(),
            head: Vec::new(),
            cursor: 0,
            guess: None,
        };
        part.offer();
        Box::new(part)
    }

    /// The looks left, in the order of the rules: the best first would give away too much.
    fn offer(&mut self) {
        let expert = self.asking.piece().expert();
        self.choices = self.asking.choices().iter().map(|l| l.clue).collect();
        self.choices.sort_unstable();
        let name = |c: &ClueId| capital(&clue_name(expert, *c));
        self.words = self.choices.iter().map(name).collect();
        self.cursor = self.cursor.min(self.words.len().saturating_sub(1));
        self.head = match self.asking.looks().len() {
            0 => asked::from_where(&self.asking),
            1 => vec!["1 look. Where next?".to_owned()],
            n => vec![format!("{n} looks. Where next?")],
        };
    }

    fn look(&mut self, clue: ClueId) {
        let shown = self.asking.look(clue);
        let expert = self.asking.piece().expert();
        self.seen
            .insert(0, asked::look(expert, clue, shown.as_ref()));
        self.offer();
    }
}

impl Part for HiddenPiece {
    fn keys(&self, _: &Session) -> KeyTable {
        if let Some(guess) = &self.guess {
            return guess.keys();
        }
        let keys = vec![
            enter("look", "Look there."),
            GUESS,
            UP.in_help(),
            DOWN.in_help(),
            PAGE_UP.in_help(),
            PAGE_DOWN.in_help(),
            CLOSE.labelled("give up"),
        ];
        KeyTable::new(keys).choosing(self.words.len(), Msg::Choose)
    }

    fn update(&mut self, msg: Msg, pupil: &mut Pupil, session: &Session) -> Step {
        if let Some(guess) = &mut self.guess {
            match guess.update(msg, session) {
                Guessing::Stay => {}
                Guessing::Pass => return Step::Pass,
                Guessing::Back => self.guess = None,
                Guessing::Done(guess) => {
                    let mut lines = vec![asked::understood(session.expert(), &guess)];
                    lines.extend(asked::asked(&self.asking, &guess));
                    self.asking.keep(&guess, &mut pupil.record);
                    pupil.changed = true;
                    let heading = what(session.expert(), Drill::Ask);
                    return Step::to(Reading::one(&capital(&heading), lines));
                }
            }
            return Step::Stay;
        }
        let msg = session.shown().turned(msg);
        if let Some(clue) = chosen_item(self.cursor, msg).and_then(|i| self.choices.get(i)) {
            self.look(*clue);
            return Step::Stay;
        }
        match msg {
            Msg::Start => {
                self.guess = Some(Guess::new(session.expert()));
                Step::Stay
            }
            Msg::Close => Step::Menu,
            _ => Step::used(step_item(&mut self.cursor, msg, self.words.len())),
        }
    }

    fn line(&mut self) -> Option<&mut TypedLine> {
        self.guess.as_mut().and_then(Guess::line)
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
        let (theme, cells) = (canvas.theme, usize::from(area.width));
        let mut rows = Vec::new();
        for line in &self.head {
            rows.extend(paragraph(line, cells, theme.heading));
        }
        for line in &self.seen {
            rows.extend(prose(line, cells, Style::new()));
        }
        let most = usize::from(area.height / ONE_ROW_IN).max(2);
        if rows.len() > most {
            rows.truncate(most - 1);
            rows.push(Row::new("…", theme.quiet));
        }
        let (top, rest) = above(area, rows.len() as u16);
        canvas.rows(top, &rows);
        findings::list(canvas, rest, &self.words, self.cursor, &|_| false);
    }
}
