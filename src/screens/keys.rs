//! What a key or a click means now.

use ratatui::layout::Position;

use super::app::{App, Screen};
use super::bindings::bindings;
use super::input::{Input, Key};
use super::msg::Msg;
use super::popups::Popup;

/// One key where it works.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Binding {
    pub key: Key,
    pub msg: Msg,
    /// One or two words for the footer.
    pub label: &'static str,
    /// One sentence for the help.
    pub help: &'static str,
}

pub(super) const fn key(key: Key, msg: Msg, label: &'static str, help: &'static str) -> Binding {
    Binding {
        key,
        msg,
        label,
        help,
    }
}

pub(super) const fn letter(c: char, msg: Msg, label: &'static str, help: &'static str) -> Binding {
    key(Key::Char(c), msg, label, help)
}

/// The key that chooses item `i` of a list: 1–9, then A–Z; later ones are reached by moving.
pub fn label_of(i: usize) -> Option<char> {
    match i {
        0..=8 => char::from_digit(i as u32 + 1, 10),
        9..=34 => Some(char::from(b'A' + (i - 9) as u8)),
        _ => None,
    }
}

/// The item a key chooses.
fn item_of(c: char) -> Option<usize> {
    (0..35).find(|&i| label_of(i) == Some(c))
}

/// What an event means now.
pub fn message(app: &App, input: Input) -> Option<Msg> {
    match input {
        Input::Key(Key::Break) => Some(Msg::Leave),
        Input::Key(pressed) => key_message(app, pressed),
        Input::Click { x, y } => app.shown.at(Position::new(x, y)),
        Input::Wheel { down: true } => Some(Msg::Down),
        Input::Wheel { down: false } => Some(Msg::Up),
    }
}

fn key_message(app: &App, pressed: Key) -> Option<Msg> {
    if let Key::Char(c) = pressed {
        if app.writing() || (app.dating() && c.is_ascii_digit()) {
            return Some(Msg::Type(c));
        }
        if let Some(i) = item_of(c).filter(|&i| i < app.items()) {
            return Some(match (app.popup(), app.screen()) {
                (None, Screen::Welcome) | (Some(Popup::Trial(_)), _) => Msg::Cursor(i),
                _ => Msg::Choose(i),
            });
        }
    }
    let same = |b: &Binding| b.key == pressed;
    if let Some(binding) = bindings(app).into_iter().find(same) {
        return Some(binding.msg);
    }
    // Pages of a long list of findings: their line on the screen says so when there are any.
    match (pressed, app.popup()) {
        (Key::PageUp, None) => Some(Msg::PageUp),
        (Key::PageDown, None) => Some(Msg::PageDown),
        (Key::Esc, Some(_)) => Some(Msg::Close),
        (Key::Char('q'), Some(Popup::Quit)) => Some(Msg::Leave),
        (Key::Char('q' | 'h' | '?'), Some(Popup::Help { .. } | Popup::Why { .. })) => {
            Some(Msg::Close)
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::{item_of, label_of};

    #[test]
    fn labels_and_keys_agree() {
        for i in 0..35 {
            assert_eq!(item_of(label_of(i).unwrap()), Some(i));
        }
        assert_eq!(label_of(35), None);
        assert_eq!(item_of('a'), None);
        assert_eq!(item_of('0'), None);
    }
}
