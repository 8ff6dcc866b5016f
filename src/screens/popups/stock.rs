//! The stock book: found by words, narrowed down, put in order, added up; one piece in full, two
//! side by side, and a piece that was left taken up again.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::popup::{Effect, Opening, Popup};
use crate::screens::kit::canvas::{Canvas, above};
use crate::screens::kit::rows::{Row, paragraph};
use crate::screens::kit::theme::Theme;
use crate::screens::kit::wrap::{fit, pad, wrap};
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{
    CLOSE, DOWN, ERASE, LEFT, PAGE_DOWN, PAGE_UP, RIGHT, UP, enter,
};
use crate::screens::state::keys::{Binding, KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::Order;
use crate::screens::state::position::{chosen_item, step_item, step_rows};
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::TypedLine;
use crate::stock::again;
use crate::stock::columns::{self, COLUMNS};
use crate::stock::entry::Stage;
use crate::stock::find::{Listing, Query, Sort};
use crate::stock::store::{Answer, Ask, Held, Trouble};
use crate::stock::words;

/// Lines asked for at once; the rest is found by words (common practice, no source).
const MOST: usize = 200;

/// What the list is narrowed down to.
const STAGES: [(&str, &[Stage]); 4] = [
    ("all", &[]),
    ("held", &[Stage::Held]),
    ("sold", &[Stage::Sold]),
    ("looked at", &[Stage::Draft]),
];

pub const OPENING: Opening = Opening {
    order: Order::opening(
        'o',
        "Look into the stock book: your own pieces.",
        |session| session.stock().map(|_| "own pieces"),
    ),
    open: |_, _| Effect::open(Stock::new()),
};

/// What is in the frame.
#[derive(Debug, PartialEq, Eq)]
enum View {
    List,
    One,
    Two,
}

/// What was typed and chosen, and what the book answered.
#[derive(Debug)]
pub struct Stock {
    line: TypedLine,
    /// Index into `STAGES`.
    stage: usize,
    /// Index into `Sort::ALL`.
    sort: usize,
    listing: Listing,
    /// The list in words.
    lines: Vec<String>,
    totals: Vec<String>,
    cursor: usize,
    sending: Option<Ask>,
    trouble: String,
    view: View,
    one: Option<Held>,
    /// The piece to be compared with.
    beside: Option<Held>,
    page: Vec<String>,
    /// Column, one piece, the other.
    differing: Vec<(&'static str, String, String)>,
    scroll: usize,
}

impl Stock {
    fn new() -> Stock {
        let mut stock = Stock {
            line: TypedLine::default(),
            stage: 0,
            sort: 0,
            listing: Listing::default(),
            lines: Vec::new(),
            totals: Vec::new(),
            cursor: 0,
            sending: None,
            trouble: String::new(),
            view: View::List,
            one: None,
            beside: None,
            page: Vec::new(),
            differing: Vec::new(),
            scroll: 0,
        };
        stock.look();
        stock
    }

    /// Asks for the list as typed and chosen.
    fn look(&mut self) {
        self.view = View::List;
        self.cursor = 0;
        self.sending = Some(Ask::List(Query {
            words: self.line.text().to_owned(),
            stages: STAGES[self.stage].1.to_vec(),
            sort: Sort::ALL[self.sort].0,
            descending: matches!(Sort::ALL[self.sort].0, Sort::Added | Sort::Sold),
            take: MOST,
            ..Query::default()
        }));
    }

    fn in_list(&mut self, msg: Msg) -> Effect {
        if let Some(at) = chosen_item(self.cursor, msg) {
            if let Some(line) = self.listing.lines.get(at) {
                self.cursor = at;
                self.sending = Some(Ask::Find(line.id.to_string()));
            }
            return Effect::Stay;
        }
        match msg {
            Msg::Left => self.stage = (self.stage + STAGES.len() - 1) % STAGES.len(),
            Msg::Right => self.stage = (self.stage + 1) % STAGES.len(),
            Msg::Next => self.sort = (self.sort + 1) % Sort::ALL.len(),
            _ if self.line.edit(msg) => {}
            _ => return Effect::used(step_item(&mut self.cursor, msg, self.lines.len())),
        }
        self.look();
        Effect::Stay
    }

    fn on_page(&mut self, msg: Msg, session: &Session) -> Effect {
        match msg {
            Msg::Left => self.view = View::List,
            Msg::Field(_) => {
                self.beside = self.one.take();
                self.view = View::List;
            }
            Msg::Start => return self.take_up(session),
            _ => return Effect::used(step_rows(&mut self.scroll, msg, session.shown())),
        }
        Effect::Stay
    }

    /// The piece on the page with its findings, as today's rules take them.
    fn take_up(&mut self, session: &Session) -> Effect {
        let Some(held) = &self.one else {
            return Effect::Stay;
        };
        match again::judge(session.expert(), &held.entry) {
            Ok(again) => Effect::TakeUp(again.piece),
            Err(why) => Effect::Notify(why.to_string()),
        }
    }

    /// Shows a piece, beside the one to be compared with where there is one.
    fn show(&mut self, held: Held, session: &Session) {
        self.scroll = 0;
        self.page = words::page(&session.expert().base, &held);
        self.view = View::One;
        if let Some(other) = self.beside.take().filter(|o| o.entry.id != held.entry.id) {
            let both = COLUMNS.iter().map(|(name, _)| {
                let of = |held: &Held| columns::write(&held.entry, name).replace('\n', " / ");
                (*name, of(&other), of(&held))
            });
            self.differing = both
                .filter(|(_, a, b)| !(a.is_empty() && b.is_empty()))
                .collect();
            self.view = View::Two;
        }
        self.one = Some(held);
    }

    fn list_rows(&self, theme: Theme, cells: usize) -> Vec<Row> {
        let row = |(i, line): (usize, &String)| {
            let row = Row::new(&fit(line, cells.saturating_sub(1)), Style::new());
            row.click(Msg::Choose(i)).chosen(i == self.cursor)
        };
        let mut out: Vec<Row> = self.lines.iter().enumerate().map(row).collect();
        if self.listing.found > self.lines.len() {
            let more = self.listing.found - self.lines.len();
            out.push(Row::new(
                &format!("… {more} more; type words to find them"),
                theme.quiet,
            ));
        }
        if out.is_empty() && self.trouble.is_empty() {
            out.push(Row::new("Nothing found.", theme.quiet));
        }
        out
    }

    /// Column by column; `≠` where the two differ.
    fn two_rows(&self, theme: Theme, cells: usize) -> Vec<Row> {
        let label = 15.min(cells / 4);
        let each = cells.saturating_sub(label + 4) / 2;
        let mut out = Vec::new();
        for (name, one, other) in &self.differing {
            let (left, right) = (wrap(one, each), wrap(other, each));
            let sign = if one == other { "  " } else { "≠ " };
            let style = if one == other {
                theme.quiet
            } else {
                Style::new()
            };
            for i in 0..left.len().max(right.len()).max(1) {
                let part = |lines: &[String]| pad(lines.get(i).map_or("", String::as_str), each);
                let (sign, name) = if i == 0 { (sign, *name) } else { ("  ", "") };
                let head = pad(name, label);
                let text = format!("{sign}{head} {} {}", part(&left), part(&right));
                out.push(Row::new(&text, style));
            }
        }
        out
    }
}

impl Popup for Stock {
    fn title(&self) -> &'static str {
        "Stock book"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        if self.view == View::List {
            let keys = vec![
                enter("show", "Show the piece marked."),
                ERASE,
                LEFT,
                RIGHT.labelled("which"),
                Binding::new(
                    Key::Tab,
                    Msg::Next,
                    "order",
                    "Put the list in another order.",
                ),
                UP,
                DOWN,
                PAGE_UP,
                PAGE_DOWN,
                CLOSE,
            ];
            return KeyTable::new(keys).writing(Writes::Text);
        }
        KeyTable::new(vec![
            LEFT.labelled("list"),
            Binding::new(
                Key::Char('c'),
                Msg::Field(0),
                "compare",
                "Choose another to lay beside it.",
            ),
            Binding::new(
                Key::Char('t'),
                Msg::Start,
                "take up",
                "Go on looking at this piece.",
            ),
            UP,
            DOWN,
            PAGE_UP,
            PAGE_DOWN,
            CLOSE,
        ])
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        match self.view {
            View::List => self.in_list(msg),
            View::One | View::Two => self.on_page(msg, session),
        }
    }

    fn line(&mut self) -> Option<&mut TypedLine> {
        Some(&mut self.line)
    }

    fn read(&mut self, _: &Session) {
        self.look();
    }

    fn ask(&mut self) -> Option<Ask> {
        self.sending.take()
    }

    fn answered(&mut self, answer: Result<Answer, Trouble>, session: &Session) -> Effect {
        self.trouble.clear();
        match answer {
            Ok(Answer::Listed(listing)) => {
                let base = &session.expert().base;
                self.lines = listing.lines.iter().map(|l| words::line(base, l)).collect();
                self.totals = words::totals(&listing.totals);
                self.listing = listing;
            }
            Ok(Answer::Held(mut held)) => {
                if let Some(held) = held.pop() {
                    self.show(held, session);
                }
            }
            Ok(Answer::Written | Answer::Learners(_)) => {}
            Err(trouble) => self.trouble = trouble.to_string(),
        }
        Effect::Stay
    }

    fn draw(&self, _: &Session, canvas: &mut Canvas, inside: Rect) {
        let (theme, cells) = (canvas.theme, usize::from(inside.width));
        match self.view {
            View::One => {
                let rows: Vec<Row> = self
                    .page
                    .iter()
                    .flat_map(|line| paragraph(line, cells, Style::new()))
                    .collect();
                canvas.scrolled(inside, &rows, self.scroll);
            }
            View::Two => canvas.scrolled(inside, &self.two_rows(theme, cells), self.scroll),
            View::List => {
                let rest = canvas.typed_line(inside, "Find: ", self.line.text());
                let beside = match &self.beside {
                    Some(held) => format!("; choose what to lay beside {}", held.entry.id),
                    None => String::new(),
                };
                let order = Sort::ALL[self.sort].1;
                let nearly = if self.listing.nearly {
                    "; nearly these words"
                } else {
                    ""
                };
                let head = format!(
                    "{}, by {order}: {} found{nearly}{beside}",
                    STAGES[self.stage].0, self.listing.found
                );
                let mut top = paragraph(&head, cells, theme.heading);
                top.extend(paragraph(&self.trouble, cells, theme.caution));
                let foot: Vec<Row> = self
                    .totals
                    .iter()
                    .flat_map(|line| paragraph(line, cells, theme.quiet))
                    .collect();
                let (head, rest) = above(rest, top.len() as u16);
                canvas.rows(head, &top);
                let foot_rows = (foot.len() as u16).min(rest.height / 3);
                let (list, below) = above(rest, rest.height - foot_rows);
                canvas.list(list, &self.list_rows(theme, cells));
                canvas.rows(below, &foot);
            }
        }
    }
}
