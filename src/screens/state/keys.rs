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
    /// Works, but the footer has no room for it: the help speaks of it.
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

    /// A key the help alone speaks of.
    pub(crate) const fn hidden(key: Key, msg: Msg, help: &'static str) -> Binding {
        Binding::new(key, msg, "", help).in_help()
    }

    /// The same key, spoken of in the help alone.
    pub(crate) const fn in_help(self) -> Binding {
        Binding {
            hidden: true,
            ..self
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
    /// Items of a list that are chosen by their numbers, see `label_of`. Letters choose nothing:
    /// each of them is an order, and the same one whatever the list holds.
    pub items: usize,
    on_item: fn(usize) -> Msg,
    /// In the order of the footer.
    pub bindings: Vec<Binding>,
}

impl KeyTable {
    /// These keys, and those that work anywhere.
    pub(crate) fn new(mut bindings: Vec<Binding>) -> KeyTable {
        bindings.push(Binding::hidden(
            Key::Break,
            Msg::Leave,
            "Leave at once, from anywhere.",
        ));
        bindings.push(Binding::hidden(
            Key::Aside,
            Msg::Aside,
            "Put the program aside; fg in the shell brings it back.",
        ));
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

    /// Each of so many items is chosen by its number.
    pub(crate) fn choosing(self, items: usize, on_item: fn(usize) -> Msg) -> KeyTable {
        KeyTable {
            items,
            on_item,
            ..self
        }
    }

    /// What a key means when no figure was typed before it.
    pub fn message(&self, key: Key) -> Option<Msg> {
        self.meaning(key, None).msg
    }

    /// What a key means: a letter written, else a figure of an item's number, else its binding.
    /// `before`: the figure typed just before.
    pub(crate) fn meaning(&self, key: Key, before: Option<usize>) -> Meaning {
        if let Key::Char(c) = key {
            let written = match self.writes {
                Writes::Nothing => false,
                Writes::Figures => c.is_ascii_digit(),
                Writes::Text => true,
            };
            if written {
                return Meaning::of(Some(Msg::Type(c)));
            }
            if let Some(figure) = c.to_digit(10).filter(|_| self.items > 0) {
                return self.numbered(figure as usize, before);
            }
        }
        let found = self.bindings.iter().find(|b| b.key == key);
        Meaning::of(found.map(|b| b.msg))
    }

    /// A figure of an item's number. It chooses as soon as no longer number begins so; until then
    /// the cursor goes to the item, for Enter or a second figure. `07` is 7.
    fn numbered(&self, figure: usize, before: Option<usize>) -> Meaning {
        let number = 10 * before.unwrap_or(0) + figure;
        let longer = before.is_none() && 10 * number <= self.items && self.items > 9;
        let item = number.checked_sub(1).filter(|i| *i < self.items);
        match (item, longer) {
            (Some(item), false) => Meaning::of(Some((self.on_item)(item))),
            (Some(item), true) => Meaning {
                msg: Some(Msg::Cursor(item)),
                typed: Some(number),
                none_such: None,
            },
            (None, true) => Meaning {
                typed: Some(0),
                ..Meaning::of(None)
            },
            (None, false) => Meaning {
                none_such: Some(number),
                ..Meaning::of(None)
            },
        }
    }

    /// The keys that are spoken of.
    pub fn listed(&self) -> impl Iterator<Item = &Binding> {
        self.bindings.iter().filter(|b| !b.hidden)
    }
}

/// What a key means where it was pressed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Meaning {
    pub msg: Option<Msg>,
    /// A number that waits for a second figure, or for Enter.
    pub typed: Option<usize>,
    /// A number that no item has.
    pub none_such: Option<usize>,
}

impl Meaning {
    fn of(msg: Option<Msg>) -> Meaning {
        Meaning {
            msg,
            typed: None,
            none_such: None,
        }
    }
}

/// The number that chooses item `i` of a list.
pub fn label_of(i: usize) -> String {
    (i + 1).to_string()
}

/// Keys that mean the same wherever they are.
pub(crate) mod usual {
    use super::{Binding, Key, Msg};

    pub(crate) const UP: Binding = Binding::new(Key::Up, Msg::Up, "", "Move up.");
    pub(crate) const DOWN: Binding = Binding::new(Key::Down, Msg::Down, "", "Move down.");
    pub(crate) const LEFT: Binding = Binding::new(Key::Left, Msg::Left, "", "To the left.");
    pub(crate) const RIGHT: Binding = Binding::new(Key::Right, Msg::Right, "", "To the right.");
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
    use super::{Key, KeyTable, Msg, label_of};

    /// The messages of some figures, one after the other.
    fn typed(items: usize, figures: &str) -> Vec<Option<Msg>> {
        let table = KeyTable::new(Vec::new()).choosing(items, Msg::Choose);
        let mut before = None;
        let mut press = |c| {
            let meaning = table.meaning(Key::Char(c), before);
            before = meaning.typed;
            meaning.msg
        };
        figures.chars().map(&mut press).collect()
    }

    #[test]
    fn every_item_is_chosen_by_its_number() {
        for items in [1, 3, 9, 10, 12, 28, 60, 99] {
            for i in 0..items {
                for text in [label_of(i), format!("{:02}", i + 1)] {
                    if items < 10 && text.len() > 1 {
                        continue;
                    }
                    let last = *typed(items, &text).last().unwrap();
                    let waits = Some(Msg::Cursor(i));
                    assert!(
                        last == Some(Msg::Choose(i)) || last == waits,
                        "{items}: {text}"
                    );
                    // Only a number that a longer one begins with waits.
                    let longer = text.len() == 1 && 10 * (i + 1) <= items && items > 9;
                    assert_eq!(last == waits, longer, "{items}: {text}");
                }
            }
        }
    }

    #[test]
    fn a_number_that_no_item_has_chooses_nothing() {
        assert_eq!(typed(12, "19"), [Some(Msg::Cursor(0)), None]);
        assert_eq!(typed(12, "00"), [None, None]);
        assert_eq!(typed(3, "40"), [None, None]);
        // What was typed before is over then.
        assert_eq!(
            typed(12, "193"),
            [Some(Msg::Cursor(0)), None, Some(Msg::Choose(2))]
        );
    }
}
