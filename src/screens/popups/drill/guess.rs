//! What it is, how sure, from when to when: a guess in three steps.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::how_sure::HowSure;
use crate::claim::read;
use crate::core::grid::{KindId, Year};
use crate::learn::asked::Guess as Scored;
use crate::piece::expert::Expert;
use crate::rulebase::ids::ids;
use crate::say::asked::{WHAT_IS_IT, years_of};
use crate::say::band::years;
use crate::say::names::{capital, kind_name};
use crate::screens::kit::canvas::{Canvas, above};
use crate::screens::kit::rows::paragraph;
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{CLOSE, DOWN, ERASE, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::keys::{Binding, KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::position::{chosen_item, step_item};
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::TypedLine;
use crate::screens::views::findings;

/// What is asked of the years alone.
const YEARS: &str = "From when to when, so that you would be right four times in five? As 1840-1870; \
    Enter alone leaves the years open.";

/// The key that leads to a guess.
pub(super) const GUESS: Binding = Binding::new(
    Key::Char('s'),
    Msg::Start,
    "say what it is",
    "Say what it is, how sure you are and from when to when.",
);

#[derive(Debug)]
enum Stage {
    Kind,
    HowSure(KindId),
    Years(KindId, u8),
}

/// A guess under way.
#[derive(Debug)]
pub(super) struct Guess {
    kinds: Vec<String>,
    how_sure: HowSure,
    cursor: usize,
    stage: Stage,
    line: TypedLine,
    /// The years typed, as they are understood.
    years: Option<(Year, Year)>,
}

/// What became of a message.
pub(super) enum Guessing {
    Stay,
    Pass,
    /// Back to looking.
    Back,
    Done(Scored),
}

impl Guess {
    pub(super) fn new(expert: &Expert) -> Guess {
        let kinds = ids::<KindId>(expert.base.kinds.len());
        let kinds: Vec<String> = kinds.map(|k| capital(kind_name(expert, k))).collect();
        Guess {
            how_sure: HowSure::stated(kinds.len()),
            kinds,
            cursor: 0,
            stage: Stage::Kind,
            line: TypedLine::default(),
            years: None,
        }
    }

    pub(super) fn keys(&self) -> KeyTable {
        let items = match self.stage {
            Stage::Kind => self.kinds.len(),
            Stage::HowSure(_) => self.how_sure.count(),
            Stage::Years(..) => {
                let keys = vec![
                    enter("that is it", "Make this guess."),
                    ERASE,
                    CLOSE.labelled("back"),
                ];
                return KeyTable::new(keys).writing(Writes::Text);
            }
        };
        let keys = vec![
            enter("choose", "Choose what is marked."),
            UP.in_help(),
            DOWN.in_help(),
            PAGE_UP.in_help(),
            PAGE_DOWN.in_help(),
            Binding::new(Key::Esc, Msg::Close, "back", "One step back."),
        ];
        KeyTable::new(keys).choosing(items, Msg::Choose)
    }

    pub(super) fn update(&mut self, msg: Msg, session: &Session) -> Guessing {
        if let Stage::Years(kind, percent) = self.stage {
            return self.typed(msg, (kind, percent), session.expert());
        }
        let items = match self.stage {
            Stage::Kind => self.kinds.len(),
            _ => self.how_sure.count(),
        };
        let msg = session.shown().turned(msg);
        if let Some(item) = chosen_item(self.cursor, msg).filter(|i| *i < items) {
            self.cursor = 0;
            let percent = self.how_sure.percent(item).unwrap_or_default();
            self.stage = match self.stage {
                Stage::Kind => Stage::HowSure(KindId(item as u8)),
                Stage::HowSure(kind) | Stage::Years(kind, _) => Stage::Years(kind, percent),
            };
            return Guessing::Stay;
        }
        match (msg, &self.stage) {
            (Msg::Close, Stage::Kind) => Guessing::Back,
            (Msg::Close, _) => {
                self.stage = Stage::Kind;
                self.cursor = 0;
                Guessing::Stay
            }
            _ if step_item(&mut self.cursor, msg, items) => Guessing::Stay,
            _ => Guessing::Pass,
        }
    }

    fn typed(&mut self, msg: Msg, (kind, percent): (KindId, u8), expert: &Expert) -> Guessing {
        match msg {
            Msg::Take if self.years.is_some() || self.line.text().trim().is_empty() => {
                return Guessing::Done(Scored {
                    kind,
                    percent,
                    years: self.years,
                });
            }
            Msg::Close => {
                self.stage = Stage::HowSure(kind);
                return Guessing::Stay;
            }
            Msg::Take => {}
            _ if self.line.edit(msg) => self.read(expert),
            _ => return Guessing::Pass,
        }
        Guessing::Stay
    }

    /// Understands the years anew.
    pub(super) fn read(&mut self, expert: &Expert) {
        let claim = read(expert, self.line.text()).ok();
        self.years = claim.and_then(|claim| years_of(expert, &claim));
    }

    pub(super) fn line(&mut self) -> Option<&mut TypedLine> {
        matches!(self.stage, Stage::Years(..)).then_some(&mut self.line)
    }

    pub(super) fn draw(&self, canvas: &mut Canvas, area: Rect) {
        let (theme, cells) = (canvas.theme, usize::from(area.width));
        let (question, words): (&str, &[String]) = match self.stage {
            Stage::Kind => (WHAT_IS_IT, &self.kinds),
            Stage::HowSure(_) => (self.how_sure.question(), self.how_sure.words()),
            Stage::Years(..) => {
                let rows = paragraph(YEARS, cells, theme.heading);
                let (top, rest) = above(area, rows.len() as u16);
                canvas.rows(top, &rows);
                let rest = canvas.typed_line(rest, "Years: ", self.line.text());
                let understood = match self.years {
                    Some((from, to)) => years(from, to),
                    None if self.line.text().trim().is_empty() => String::new(),
                    None => "No years are understood in this yet.".to_owned(),
                };
                canvas.rows(rest, &paragraph(&understood, cells, Style::new()));
                return;
            }
        };
        let rows = paragraph(question, cells, theme.heading);
        let (top, rest) = above(area, rows.len() as u16);
        canvas.rows(top, &rows);
        findings::list(canvas, rest, words, self.cursor, &|_| false);
    }
}
