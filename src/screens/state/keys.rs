//! Tables of keys. Whatever has the keys gives one: what is in it works, what works is in it; the
//! footer and the help are made from it.

use super::input::Key;
use super::msg::Msg;

/// One key where it works.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Binding {
    pub key: Key,
    pub msg: Msg,
    /// One or two words for the footer.
    pub label: &'static str,
    /// One sentence for the help.
    pub help: &'static str,
    /// Works, but the footer and the help have no room for it.
    pub hidden: bool,
}

impl Binding {
    pub(crate) const fn new(
        key: Key,
        msg: Msg,
        label: &'static str,
        help: &'static str,
    ) -> Binding {
        Binding {
            key,
            msg,
            label,
            help,
            hidden: false,
        }
    }

    /// A key that neither footer nor help speak of.
    pub(crate) const fn hidden(key: Key, msg: Msg) -> Binding {
        Binding {
            hidden: true,
            ..Binding::new(key, msg, "", "")
        }
    }

    /// The same key with another word in the footer.
    pub(crate) const fn labelled(self, label: &'static str) -> Binding {
        Binding { label, ..self }
    }
}

/// What keys write.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Writes {
    Nothing,
    /// Figures of a year.
    Figures,
    /// Every letter.
    Text,
}

/// Every key that works.
#[derive(Clone, Debug)]
pub struct KeyTable {
    pub writes: Writes,
    /// Items of a list that a key chooses each, see `label_of`.
    pub items: usize,
    on_item: fn(usize) -> Msg,
    /// In the order of the footer.
    pub bindings: Vec<Binding>,
}

impl KeyTable {
    /// These keys, and Ctrl-C, which leaves from anywhere.
    pub(crate) fn new(mut bindings: Vec<Binding>) -> KeyTable {
        bindings.push(Binding::hidden(Key::Break, Msg::Leave));
        KeyTable {
            writes: Writes::Nothing,
            items: 0,
            on_item: Msg::Cursor,
            bindings,
        }
    }

    /// Keys write this.
    pub(crate) fn writing(self, writes: Writes) -> KeyTable {
        KeyTable { writes, ..self }
    }

    /// Each of so many items has a key of its own.
    pub(crate) fn choosing(self, items: usize, on_item: fn(usize) -> Msg) -> KeyTable {
        KeyTable {
            items,
            on_item,
            ..self
        }
    }

    /// What a key means: a letter written, else an item chosen, else its binding.
    pub fn message(&self, key: Key) -> Option<Msg> {
        if let Key::Char(c) = key {
            let written = match self.writes {
                Writes::Nothing => false,
                Writes::Figures => c.is_ascii_digit(),
                Writes::Text => true,
            };
            if written {
                return Some(Msg::Type(c));
            }
            if let Some(item) = item_of(c).filter(|i| *i < self.items) {
                return Some((self.on_item)(item));
            }
        }
        let found = self.bindings.iter().find(|b| b.key == key);
        found.map(|b| b.msg)
    }

    /// The keys that are spoken of.
    pub fn listed(&self) -> impl Iterator<Item = &Binding> {
        self.bindings.iter().filter(|b| !b.hidden)
    }
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

/// Keys that mean the same wherever they are.
pub(crate) mod usual {
    use super::{Binding, Key, Msg};

    pub(crate) const UP: Binding = Binding::new(Key::Up, Msg::Up, "", "Move up.");
    pub(crate) const DOWN: Binding = Binding::new(Key::Down, Msg::Down, "", "Move down.");
    pub(crate) const LEFT: Binding = Binding::new(Key::Left, Msg::Left, "", "");
    pub(crate) const RIGHT: Binding = Binding::new(Key::Right, Msg::Right, "", "");
    pub(crate) const PAGE_UP: Binding =
        Binding::new(Key::PageUp, Msg::PageUp, "", "Go back a page.");
    pub(crate) const PAGE_DOWN: Binding =
        Binding::new(Key::PageDown, Msg::PageDown, "page", "Go on a page.");
    pub(crate) const TOP: Binding =
        Binding::new(Key::Home, Msg::First, "top", "Go to the beginning.");
    pub(crate) const END: Binding = Binding::new(Key::End, Msg::Last, "end", "Go to the end.");
    pub(crate) const ERASE: Binding = Binding::new(
        Key::Backspace,
        Msg::Erase,
        "erase",
        "Erase the last letter.",
    );
    pub(crate) const CLOSE: Binding = Binding::new(Key::Esc, Msg::Close, "close", "Close this.");

    /// Enter, which chooses or accepts.
    pub(crate) const fn enter(label: &'static str, help: &'static str) -> Binding {
        Binding::new(Key::Enter, Msg::Take, label, help)
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
