//! A lesson: its text, then what it shows, a page each with its picture, then its practice items.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::drawn::Drawn;
use super::part::{Part, Pupil, Step};
use super::questions::Questions;
use crate::core::seeded::Seeded;
use crate::learn::item::Picture;
use crate::learn::round::Round;
use crate::piece::expert::Expert;
use crate::say::round;
use crate::screens::kit::canvas::{Canvas, beside, text_cells};
use crate::screens::kit::rows::{Row, paragraph, prose};
use crate::screens::kit::theme::Theme;
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{CLOSE, DOWN, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::keys::{Binding, KeyTable};
use crate::screens::state::msg::Msg;
use crate::screens::state::position::{read_on, step_rows};
use crate::screens::state::session::Session;

/// From this width on the picture stands beside its text (common practice, no source).
const WIDE: u16 = 96;

/// Rows of a picture below its text, at least, in a window that has them: text and picture then go
/// on below the edge (common practice, no source).
const LEAST_PICTURE: usize = 12;

/// A page: paragraphs, the first one a heading, and perhaps a picture.
#[derive(Debug)]
struct Page {
    lines: Vec<String>,
    shown: Option<Picture>,
    picture: Option<Drawn>,
}

impl Page {
    /// Its picture is drawn when the page is turned to: a lesson's at once would keep the reader
    /// waiting.
    fn new(lines: Vec<String>, shown: Option<Picture>) -> Page {
        Page {
            picture: None,
            lines,
            shown,
        }
    }

    /// Draws its picture, if that has not been done.
    fn turned_to(&mut self, expert: &Expert) {
        if self.picture.is_none() {
            self.picture = self.shown.and_then(|shown| Drawn::of(expert, &shown));
        }
    }

    /// Another example of the same finding.
    fn draw_another(&mut self, expert: &Expert) {
        if let Some(shown) = &mut self.shown {
            shown.seed = Seeded::new(shown.seed).number();
            self.picture = Drawn::of(expert, shown);
        }
    }
}

/// A lesson being read.
#[derive(Debug)]
pub(super) struct Lesson {
    at: usize,
    seed: u64,
    heading: String,
    pages: Vec<Page>,
    page: usize,
    scroll: usize,
}

impl Lesson {
    /// The lesson at its first page; its pictures are drawn from the seed.
    pub(super) fn new(at: usize, seed: u64, session: &Session) -> Lesson {
        let expert = session.expert();
        let heading = round::lesson(expert, at);
        let lesson = expert.base.lessons.get(at);
        let mut text = vec![heading.clone()];
        text.extend(lesson.iter().flat_map(|l| l.text.clone()));
        let mut pages = vec![Page::new(text, None)];
        let shows = lesson.map_or(&[][..], |l| &l.shows);
        pages.extend(shows.iter().enumerate().map(|(n, &(clue, finding))| {
            let because = expert.base.finding(clue, finding).because.clone();
            let lines = vec![round::to_look_for(expert, at, n), because];
            let shown = Picture {
                clue,
                finding,
                seed,
            };
            Page::new(lines, Some(shown))
        }));
        Lesson {
            at,
            seed,
            heading,
            pages,
            page: 0,
            scroll: 0,
        }
    }

    /// The next page, or the practice items.
    fn on(&mut self, pupil: &Pupil, session: &Session) -> Step {
        self.scroll = 0;
        if self.page + 1 < self.pages.len() {
            self.page += 1;
            self.pages[self.page].turned_to(session.expert());
            return Step::Stay;
        }
        let round = Round::lesson(session.expert(), self.at, self.seed);
        let heading = self.heading.clone();
        Step::To(Questions::begin(
            round,
            heading,
            Some(self.at),
            pupil,
            session,
        ))
    }

    fn text(&self, page: &Page, theme: Theme, cells: usize) -> Vec<Row> {
        let (at, pages) = (self.page + 1, self.pages.len());
        let place = format!("Lesson {}, page {at} of {pages}", self.at + 1);
        let mut rows = match self.page {
            0 => Vec::new(),
            _ => paragraph(&place, cells, theme.quiet),
        };
        for (i, line) in page.lines.iter().enumerate() {
            let style = if i == 0 { theme.heading } else { Style::new() };
            if i > 0 && self.page == 0 {
                rows.push(Row::blank());
            }
            rows.extend(prose(line, cells, style));
        }
        rows
    }
}

impl Part for Lesson {
    fn keys(&self, _: &Session) -> KeyTable {
        let label = match self.page + 1 == self.pages.len() {
            true => "now you",
            false => "go on",
        };
        let mut keys = vec![enter(
            label,
            "Read on; after the last page come the questions.",
        )];
        if self.page > 0 {
            let help = "The page before.";
            keys.push(Binding::new(Key::Left, Msg::Left, "page before", help));
        }
        if self
            .pages
            .get(self.page)
            .is_some_and(|p| p.picture.is_some())
        {
            let help = "Draw another example.";
            keys.push(Binding::new(Key::Tab, Msg::Next, "another", help));
        }
        keys.extend([UP, DOWN, PAGE_UP, PAGE_DOWN].map(Binding::in_help));
        keys.push(CLOSE.labelled("to the list"));
        KeyTable::new(keys)
    }

    fn update(&mut self, msg: Msg, pupil: &mut Pupil, session: &Session) -> Step {
        match msg {
            // What stands below the edge is read first.
            Msg::Take if read_on(&mut self.scroll, session.shown()) => Step::Stay,
            Msg::Take => self.on(pupil, session),
            Msg::Left => {
                self.page = self.page.saturating_sub(1);
                self.scroll = 0;
                Step::Stay
            }
            Msg::Next => {
                if let Some(page) = self.pages.get_mut(self.page) {
                    page.draw_another(session.expert());
                }
                Step::Stay
            }
            Msg::Close => Step::Menu,
            _ => Step::used(step_rows(&mut self.scroll, msg, session.shown())),
        }
    }

    fn draw(&self, _: &Pupil, canvas: &mut Canvas, area: Rect) {
        let Some(page) = self.pages.get(self.page) else {
            return;
        };
        let theme = canvas.theme;
        if let Some(picture) = page.picture.as_ref().filter(|_| area.width >= WIDE) {
            let (left, right) = beside(area, area.width / 2 - 6, 2);
            canvas.scrolled(left, &self.text(page, theme, text_cells(left)), self.scroll);
            return picture.draw(canvas, right);
        }
        let (cells, height) = (text_cells(area), usize::from(area.height));
        let mut rows = self.text(page, theme, cells);
        if let Some(picture) = &page.picture {
            let least = LEAST_PICTURE.min(height.saturating_sub(1));
            let free = height.saturating_sub(rows.len()).max(least);
            rows.extend(picture.rows(theme, cells, free));
        }
        canvas.scrolled(area, &rows, self.scroll);
    }
}
