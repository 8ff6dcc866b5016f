//! Where the piece was found, to be changed.

use ratatui::layout::Rect;
use ratatui::text::Span;

use super::popup::{Effect, Opening, Popup};
use crate::rulebase::definitions::Setting;
use crate::rulebase::ids::Id;
use crate::screens::kit::canvas::Canvas;
use crate::screens::kit::rows::Row;
use crate::screens::kit::wrap::wrap;
use crate::screens::state::keys::usual::{CLOSE, DOWN, UP, enter};
use crate::screens::state::keys::{KeyTable, label_of};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::{Order, begun};
use crate::screens::state::position::step_item;
use crate::screens::state::session::Session;

pub const OPENING: Opening = Opening {
    order: Order::opening('c', "Change where the piece was found.", |session| {
        begun(session).then_some("setting")
    }),
    open: |session, _| {
        let cursor = session.piece().setting().index();
        Effect::open(Settings { cursor })
    },
};

/// The setting the cursor is on.
#[derive(Debug)]
pub struct Settings {
    cursor: usize,
}

impl Popup for Settings {
    fn title(&self) -> &'static str {
        "Where was it found?"
    }

    fn keys(&self, session: &Session) -> KeyTable {
        let choose = enter("choose", "Choose the setting marked.");
        let keys = KeyTable::new(vec![UP, DOWN, choose, CLOSE]);
        keys.choosing(session.expert().base.settings.len(), Msg::Choose)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        let settings = session.expert().base.settings.len();
        match msg {
            Msg::Take => Effect::SetSetting(self.cursor),
            Msg::Choose(setting) if setting < settings => Effect::SetSetting(setting),
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
        let settings = session.expert().base.settings.iter().enumerate();
        canvas.list(inside, &settings.flat_map(rows).collect::<Vec<_>>());
    }
}
