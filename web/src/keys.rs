//! Keys of the browser in the words of the screens.

use printseam::internals::screens::state::input::Key;

/// The key of this name (`KeyboardEvent.key`); `None` for what means nothing to the screens. `order`:
/// a control, alternate or command key is held.
pub fn key(name: &str, order: bool) -> Option<Key> {
    if order {
        return None;
    }
    Some(match name {
        "Enter" => Key::Enter,
        "Escape" => Key::Esc,
        "ArrowUp" => Key::Up,
        "ArrowDown" => Key::Down,
        "ArrowLeft" => Key::Left,
        "ArrowRight" => Key::Right,
        "PageUp" => Key::PageUp,
        "PageDown" => Key::PageDown,
        "Home" => Key::Home,
        "End" => Key::End,
        "Backspace" => Key::Backspace,
        "Tab" => Key::Tab,
        _ => {
            let mut letters = name.chars();
            match (letters.next(), letters.next()) {
                (Some(one), None) => Key::Char(one),
                _ => return None,
            }
        }
    })
}

/// What a change of the hidden field means: letters that went, then letters that came.
pub fn edits(before: &str, after: &str) -> Vec<Key> {
    let same = before
        .chars()
        .zip(after.chars())
        .take_while(|(a, b)| a == b)
        .count();
    let gone = before.chars().skip(same).map(|_| Key::Backspace);
    gone.chain(after.chars().skip(same).map(Key::Char))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{edits, key};
    use printseam::internals::screens::state::input::Key;

    #[test]
    fn names_of_keys_are_read() {
        assert_eq!(key("é", false), Some(Key::Char('é')));
        assert_eq!(key("Escape", false), Some(Key::Esc));
        for unknown in ["Unidentified", "Dead", "F5", "Shift", ""] {
            assert_eq!(key(unknown, false), None);
        }
        assert_eq!(key("c", true), None);
    }

    #[test]
    fn a_changed_field_is_the_same_as_keys() {
        for (before, after) in [
            (" ", " made in"),
            (" made im", " made in"),
            (" made in", ""),
            (" teh plate", " the plate"),
            ("é", "é"),
        ] {
            let mut line: Vec<char> = before.chars().collect();
            for key in edits(before, after) {
                match key {
                    Key::Char(c) => line.push(c),
                    _ => drop(line.pop()),
                }
            }
            assert_eq!(line.into_iter().collect::<String>(), after);
        }
    }
}
