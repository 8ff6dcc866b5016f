//! Where the piece was found, to be changed: the kind of place, and the country it stands in.

use ratatui::layout::Rect;
use ratatui::text::Span;

use super::popup::{Effect, Opening, Popup};
use crate::rulebase::definitions::Setting;
use crate::rulebase::ids::{Id, SettingId};
use crate::screens::kit::canvas::Canvas;
use crate::screens::kit::rows::Row;
use crate::screens::kit::wrap::{fit, wrap};
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{CLOSE, DOWN, UP, enter};
use crate::screens::state::keys::{Binding, KeyTable, label_of};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::{Order, begun};
use crate::screens::state::position::step_item;
use crate::screens::state::session::Session;

pub const OPENING: Opening = Opening {
    order: Order::opening('c', "Change where the piece was found.", |session| {
        begun(session).then_some("setting")
    }),
    open: |session, _| {
        let base = &session.expert().base;
        let (place, country) = base.place_and_country(session.piece().setting());
        Effect::open(Settings {
            cursor: place.index(),
            country,
        })
    },
};

/// The kind of place the cursor is on, and the country chosen.
#[derive(Debug)]
pub struct Settings {
    cursor: usize,
    country: Option<usize>,
}

const BEFORE: Binding = Binding::new(Key::Left, Msg::Left, "", "The country before.");
const AFTER: Binding = Binding::new(Key::Right, Msg::Right, "country", "The next country.");

impl Settings {
    /// The next country, or the one before; the first of all is none.
    fn turn(&mut self, session: &Session, on: bool) {
        let choices = session.expert().base.countries.len() + 1;
        let now = self.country.map_or(0, |c| c + 1);
        let next = if on { now + 1 } else { now + choices - 1 };
        self.country = (next % choices).checked_sub(1);
    }

    /// The kind of place in the country chosen.
    fn chosen(&self, session: &Session, place: usize) -> Effect {
        let place = SettingId::at(place).unwrap_or_default();
        Effect::SetSetting(session.expert().base.in_country(place, self.country))
    }
}

impl Popup for Settings {
    fn title(&self) -> &'static str {
        "Where was it found?"
    }

    fn keys(&self, session: &Session) -> KeyTable {
        let choose = enter("choose", "Choose the setting marked.");
        let base = &session.expert().base;
        let mut keys = vec![UP, DOWN, choose, CLOSE];
        if !base.countries.is_empty() {
            keys.splice(2..2, [BEFORE, AFTER]);
        }
        KeyTable::new(keys).choosing(base.kinds_of_place().len(), Msg::Choose)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        let settings = session.expert().base.kinds_of_place().len();
        match msg {
            Msg::Take => self.chosen(session, self.cursor),
            Msg::Choose(setting) if setting < settings => self.chosen(session, setting),
            Msg::Left | Msg::Right => {
                self.turn(session, msg == Msg::Right);
                Effect::Stay
            }
            _ => Effect::used(step_item(&mut self.cursor, msg, settings)),
        }
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let (theme, cells) = (canvas.theme, usize::from(inside.width));
        let rows = |(i, setting): (usize, &Setting)| {
            let words = format!("{}: {}", setting.name, setting.about);
            let lines = wrap(&words, cells.saturating_sub(3)).into_iter();
            let row = move |(n, line): (usize, String)| {
                let key = if n == 0 { label_of(i) } else { String::new() };
                Row::of(vec![
                    Span::styled(format!("{key:>2} "), theme.key),
                    Span::raw(line),
                ])
                .click(Msg::Choose(i))
                .chosen(i == self.cursor)
            };
            lines.enumerate().map(row).collect::<Vec<_>>()
        };
        let base = &session.expert().base;
        let settings = base.kinds_of_place().iter().enumerate();
        let mut rows: Vec<Row> = settings.flat_map(rows).collect();
        if !base.countries.is_empty() {
            let country = self.country.and_then(|c| base.countries.get(c));
            let name = country.map_or("not said", |c| &c.name);
            let words = fit(&format!("Country: {name}"), cells);
            rows.push(Row::new(&words, theme.heading).click(Msg::Right));
        }
        canvas.list(inside, &rows);
    }
}
