//! Trade words explained: those on the screen below first, found by typing.

use ratatui::layout::Rect;

use super::popup::{Effect, Opening, Popup};
use crate::hearing::fold::plain;
use crate::rulebase::definitions::Term;
use crate::say::glossary::{line, used};
use crate::screens::kit::canvas::{Canvas, text_cells};
use crate::screens::kit::rows::{Row, item};
use crate::screens::kit::theme::Theme;
use crate::screens::state::keys::usual::{CLOSE, DOWN, ERASE, PAGE_DOWN, PAGE_UP, UP};
use crate::screens::state::keys::{KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::{Order, begun};
use crate::screens::state::place::Screen;
use crate::screens::state::position::step_rows;
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::TypedLine;
use crate::screens::views::verdict;

/// Cells the verdict is laid out in when only its words matter: no line is broken.
const UNBROKEN: usize = 10_000;

/// Kinds of the verdict whose names are on the screen of questions.
const KINDS: usize = 3;

pub const OPENING: Opening = Opening {
    order: Order::opening('g', "Have trade words explained.", |session| {
        begun(session).then_some("words")
    }),
    open: |session, _| Effect::open(Words::new(session, "")),
};

/// Explains one word of the glossary.
pub fn explain(session: &Session, term: usize) -> Effect {
    match session.expert().base.glossary.get(term) {
        Some(term) => Effect::open(Words::new(session, &term.term)),
        None => Effect::Stay,
    }
}

/// Words by their place in the glossary.
#[derive(Debug)]
pub struct Words {
    line: TypedLine,
    /// Those of the screen below, and all others.
    here: Vec<usize>,
    others: Vec<usize>,
    /// Those that are found; `None` while nothing is searched for.
    found: Option<Vec<usize>>,
    scroll: usize,
}

impl Words {
    fn new(session: &Session, search: &str) -> Words {
        let here = on_screen(session);
        let all = 0..session.expert().base.glossary.len();
        let mut words = Words {
            line: TypedLine::from(search),
            others: all.filter(|t| !here.contains(t)).collect(),
            here,
            found: None,
            scroll: 0,
        };
        words.search(session);
        words
    }

    fn search(&mut self, session: &Session) {
        let wanted = self.line.text().trim().to_lowercase();
        let glossary = &session.expert().base.glossary;
        self.found = (!wanted.is_empty()).then(|| found(glossary, &wanted));
    }

    fn rows(&self, session: &Session, theme: Theme, cells: usize) -> Vec<Row> {
        let base = &session.expert().base;
        let entry = |term: &usize| item("· ", &line(base, *term), cells, theme.instruction);
        if let Some(found) = &self.found {
            let out: Vec<Row> = found.iter().flat_map(entry).collect();
            return match out.is_empty() {
                true => vec![Row::new("No trade word is written so.", theme.instruction)],
                false => out,
            };
        }
        let mut out = Vec::new();
        for (heading, terms) in [("On the screen", &self.here), ("All others", &self.others)] {
            if !terms.is_empty() {
                out.push(Row::new(heading, theme.heading));
                out.extend(terms.iter().flat_map(entry));
            }
        }
        out
    }
}

impl Popup for Words {
    fn title(&self) -> &'static str {
        "Trade words"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        KeyTable::new(vec![ERASE, UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE]).writing(Writes::Text)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        if self.line.edit(msg) {
            self.read(session);
            return Effect::Stay;
        }
        Effect::used(step_rows(&mut self.scroll, msg, session.shown()))
    }

    fn line(&mut self) -> Option<&mut TypedLine> {
        Some(&mut self.line)
    }

    fn read(&mut self, session: &Session) {
        self.search(session);
        self.scroll = 0;
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let rest = canvas.typed_line(inside, "Find: ", self.line.text());
        let rows = self.rows(session, canvas.theme, text_cells(inside));
        canvas.scrolled(rest, &rows, self.scroll);
    }
}

/// Words of the screen below.
fn on_screen(session: &Session) -> Vec<usize> {
    let base = &session.expert().base;
    let mut texts: Vec<String> = Vec::new();
    if session.screen() == Screen::Verdict {
        let rows = verdict::rows(session, Theme::mono(), UNBROKEN);
        texts.extend(rows.iter().map(Row::text));
    } else if let Some(clue) = session.clue() {
        let clue = base.clue(clue);
        texts.extend([&clue.question, &clue.look, &clue.tells, &clue.because].map(String::clone));
        texts.extend(clue.findings.iter().map(|f| f.words.clone()));
    }
    let kinds = session.piece().judgement().kinds.iter().take(KINDS);
    texts.extend(kinds.map(|(k, _)| base.kinds[usize::from(k.0)].name.clone()));
    used(base, texts.iter().map(String::as_str))
}

/// Entries written so first, then those that begin so, then those that have it in their text.
fn found(glossary: &[Term], search: &str) -> Vec<usize> {
    let folded = |text: &str| plain(text).join(" ");
    let wanted = folded(search);
    let rank = |term: &Term| {
        let written: Vec<String> = term.written().map(folded).collect();
        if written.contains(&wanted) {
            Some(0)
        } else if written.iter().any(|w| w.starts_with(&wanted)) {
            Some(1)
        } else if written.iter().any(|w| w.contains(&wanted)) {
            Some(2)
        } else {
            folded(&term.text).contains(&wanted).then_some(3)
        }
    };
    let terms = glossary.iter().enumerate();
    let mut out: Vec<(i32, usize)> = terms.filter_map(|(i, t)| Some((rank(t)?, i))).collect();
    out.sort_unstable();
    out.into_iter().map(|(_, i)| i).collect()
}
