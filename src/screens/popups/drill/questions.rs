//! Questions in a row: put, answered by a number, how sure asked, right or wrong explained.

use std::sync::Arc;

use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Span;

use super::drawn::Drawn;
use super::how_sure::HowSure;
use super::part::{Part, Pupil, Step};
use super::reading::Reading;
use crate::learn::item::Item;
use crate::learn::round::Round;
use crate::piece::expert::Expert;
use crate::say::drill::{Question, question, why};
use crate::say::round;
use crate::screens::kit::canvas::{Canvas, text_cells};
use crate::screens::kit::rows::{Row, paragraph, prose};
use crate::screens::kit::theme::Theme;
use crate::screens::kit::wrap::wrap;
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{CLOSE, DOWN, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::keys::{Binding, KeyTable, label_of};
use crate::screens::state::msg::Msg;
use crate::screens::state::position::{read_on, step_rows};
use crate::screens::state::session::Session;

/// Fewest rows worth a picture beside its question; where there are fewer, a key shows it
/// (common practice, no source).
const LEAST_PICTURE: usize = 8;

/// Where a question stands.
#[derive(Debug)]
enum Stage {
    Put,
    /// Answered so; how sure?
    HowSure(usize, HowSure),
    /// Right or wrong, and why.
    Told(Vec<String>, Vec<String>),
}

/// The question that is open.
#[derive(Debug)]
struct Open {
    number: String,
    item: Item,
    put: Question,
    picture: Option<Drawn>,
}

impl Open {
    fn new(expert: &Arc<Expert>, round: &Round, item: Item) -> Open {
        Open {
            number: round::number(round),
            put: question(expert, &item),
            picture: match &item {
                Item::Which { picture, .. } => Drawn::of(expert, picture),
                _ => None,
            },
            item,
        }
    }
}

/// Questions in a row.
#[derive(Debug)]
pub(super) struct Questions {
    round: Round,
    heading: String,
    /// Gone through when all its questions are answered.
    lesson: Option<usize>,
    /// When the round began, by the clock handed in.
    begun: u64,
    /// Seconds left at the last answer.
    left: Option<u64>,
    open: Open,
    /// The picture fills the window.
    magnified: bool,
    stage: Stage,
    scroll: usize,
}

impl Questions {
    /// The first question; a word of regret when the rules have none.
    pub(super) fn begin(
        round: Round,
        heading: String,
        lesson: Option<usize>,
        pupil: &Pupil,
        session: &Session,
    ) -> Box<dyn Part> {
        let expert = session.expert();
        let Some(item) = round.next(expert) else {
            let none = "The rules in use have nothing for this.".to_owned();
            return Box::new(Reading::one(&heading, vec![none]));
        };
        Box::new(Questions {
            left: round.seconds(),
            open: Open::new(expert, &round, item),
            magnified: false,
            stage: Stage::Put,
            scroll: 0,
            begun: (pupil.at_hand.seconds)(),
            round,
            heading,
            lesson,
        })
    }

    fn answered(
        &mut self,
        said: usize,
        confidence: Option<u8>,
        pupil: &mut Pupil,
        session: &Session,
    ) {
        let expert = session.expert();
        let answer = (said, confidence);
        let record = &mut pupil.record;
        let outcome = self
            .round
            .take(expert, &self.open.item, answer, record, pupil.today);
        pupil.changed = true;
        let verdict = round::verdict(&self.open.put, &self.open.item, outcome);
        self.stage = Stage::Told(verdict, why(expert, &self.open.item));
        self.magnified = false;
        self.scroll = 0;
        let gone = (pupil.at_hand.seconds)().saturating_sub(self.begun);
        self.left = self.round.seconds().map(|most| most.saturating_sub(gone));
    }

    /// The next question, or how the round went.
    fn next(&mut self, pupil: &mut Pupil, session: &Session) -> Step {
        let expert = session.expert();
        match self.round.next(expert).filter(|_| self.left != Some(0)) {
            Some(item) => {
                self.open = Open::new(expert, &self.round, item);
                self.stage = Stage::Put;
                self.scroll = 0;
                Step::Stay
            }
            None => self.over(pupil, session),
        }
    }

    fn over(&mut self, pupil: &mut Pupil, session: &Session) -> Step {
        let mut lines = Vec::new();
        if self.left == Some(0) {
            lines.push("Time.".to_owned());
        }
        lines.extend(round::tally(&self.round));
        if lines.is_empty() {
            return Step::Menu;
        }
        let lessons = &session.expert().base.lessons;
        if let Some(lesson) = self.lesson.and_then(|at| lessons.get(at))
            && self.round.is_over()
        {
            pupil.record.lessons.insert(lesson.id.clone(), pupil.today);
            pupil.changed = true;
        }
        if self.round.is_listed() {
            lines.extend(round::come_back(&pupil.record, pupil.today));
        }
        Step::to(Reading::one(&self.heading, lines))
    }

    /// Question and answers, with the picture where the window has room for it.
    fn put_rows(&self, theme: Theme, cells: usize, height: usize) -> Vec<Row> {
        let left = self
            .left
            .map_or(String::new(), |s| format!(", {s} seconds left"));
        let number = format!("{}{left}. {}", self.open.number, self.heading);
        let mut top = paragraph(&number, cells, theme.quiet);
        let mut rows = Vec::new();
        for line in &self.open.put.given {
            rows.extend(prose(line, cells, Style::new()));
        }
        rows.extend(prose(&self.open.put.question, cells, theme.heading));
        for (i, answer) in self.open.put.answers.iter().enumerate() {
            rows.extend(numbered(i, answer, cells, theme));
        }
        // Whoever has done it once knows.
        if self.round.tally().0 == 0 {
            rows.push(Row::new(
                "Press the number of your answer.",
                theme.instruction,
            ));
        }
        let free = height.saturating_sub(top.len() + rows.len());
        if let Some(picture) = self.open.picture.as_ref().filter(|_| free >= LEAST_PICTURE) {
            top.extend(picture.rows(theme, cells, free));
        }
        top.extend(rows);
        top
    }

    fn told_rows(
        &self,
        verdict: &[String],
        why: &[String],
        theme: Theme,
        cells: usize,
    ) -> Vec<Row> {
        let mut rows = Vec::new();
        for (i, line) in verdict.iter().enumerate() {
            let style = if i == 0 { theme.band } else { Style::new() };
            rows.extend(paragraph(line, cells, style));
        }
        for line in why {
            rows.extend(prose(line, cells, Style::new()));
        }
        rows.push(Row::blank());
        for line in self.open.put.given.iter().chain([&self.open.put.question]) {
            rows.extend(paragraph(line, cells, theme.quiet));
        }
        rows
    }
}

/// An answer with its number, which chooses it.
fn numbered(i: usize, words: &str, cells: usize, theme: Theme) -> Vec<Row> {
    const BEFORE: usize = 3;
    let lines = wrap(words, cells.saturating_sub(BEFORE));
    let row = |(n, line): (usize, &String)| {
        let key = if n == 0 { label_of(i) } else { String::new() };
        let key = Span::styled(format!("{key:>2} "), theme.key);
        Row::of(vec![key, Span::raw(line.clone())]).click(Msg::Choose(i))
    };
    lines.iter().enumerate().map(row).collect()
}

impl Part for Questions {
    fn keys(&self, _: &Session) -> KeyTable {
        let mut keys = Vec::new();
        if self.magnified {
            let back = Binding::new(Key::Enter, Msg::Field(0), "back", "Back to the question.");
            let hidden = Binding::hidden(Key::Char('p'), Msg::Field(0), "Back to the question.");
            return KeyTable::new(vec![back, hidden, CLOSE]);
        }
        if let Stage::HowSure(_, how_sure) = &self.stage {
            let back = Binding::new(Key::Esc, Msg::Close, "another answer", "Choose again.");
            return KeyTable::new(vec![back]).choosing(how_sure.count(), Msg::Choose);
        }
        if let Stage::Told(..) = self.stage {
            keys.push(enter("next", "The next question."));
        }
        if self.open.picture.is_some() {
            let help = "Show the picture by itself.";
            keys.push(Binding::new(Key::Char('p'), Msg::Field(0), "picture", help));
        }
        keys.extend([UP, DOWN, PAGE_UP, PAGE_DOWN].map(Binding::in_help));
        keys.push(CLOSE.labelled("stop here"));
        match self.stage {
            Stage::Put => KeyTable::new(keys).choosing(self.open.put.answers.len(), Msg::Choose),
            _ => KeyTable::new(keys),
        }
    }

    fn update(&mut self, msg: Msg, pupil: &mut Pupil, session: &Session) -> Step {
        if self.magnified {
            self.magnified = !matches!(msg, Msg::Field(_) | Msg::Close);
            return Step::Stay;
        }
        match (&self.stage, msg) {
            (_, Msg::Field(_)) => {
                self.magnified = self.open.picture.is_some();
                Step::Stay
            }
            (Stage::Put, Msg::Choose(said)) if said < self.open.put.answers.len() => {
                match self.round.seconds() {
                    // Two minutes leave no time to weigh words.
                    Some(_) => self.answered(said, None, pupil, session),
                    None => {
                        let how_sure = HowSure::new(self.open.put.answers.len());
                        self.stage = Stage::HowSure(said, how_sure);
                        self.scroll = 0;
                    }
                }
                Step::Stay
            }
            (Stage::HowSure(said, how_sure), Msg::Choose(i)) if i < how_sure.count() => {
                let (said, confidence) = (*said, how_sure.percent(i));
                self.answered(said, confidence, pupil, session);
                Step::Stay
            }
            (Stage::HowSure(..), Msg::Close) => {
                self.stage = Stage::Put;
                Step::Stay
            }
            (Stage::Told(..), Msg::Take) => match read_on(&mut self.scroll, session.shown()) {
                true => Step::Stay,
                false => self.next(pupil, session),
            },
            (_, Msg::Close) => self.over(pupil, session),
            _ => Step::used(step_rows(&mut self.scroll, msg, session.shown())),
        }
    }

    fn draw(&self, _: &Pupil, canvas: &mut Canvas, area: Rect) {
        let (theme, cells) = (canvas.theme, text_cells(area));
        if let Some(picture) = self.open.picture.as_ref().filter(|_| self.magnified) {
            return picture.draw(canvas, area);
        }
        let rows = match &self.stage {
            Stage::Put => self.put_rows(theme, cells, usize::from(area.height)),
            Stage::HowSure(said, how_sure) => {
                let said = format!("You say: {}", self.open.put.answers[*said]);
                let mut rows = paragraph(&said, cells, Style::new());
                rows.extend(paragraph(how_sure.question(), cells, theme.heading));
                for (i, words) in how_sure.words().iter().enumerate() {
                    rows.extend(numbered(i, words, cells, theme));
                }
                rows
            }
            Stage::Told(verdict, why) => self.told_rows(verdict, why, theme, cells),
        };
        canvas.scrolled(area, &rows, self.scroll);
    }
}
