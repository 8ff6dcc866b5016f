//! One line being typed.

use super::msg::Msg;

/// Longest line that can be typed, in letters (common practice, no source: far more than anybody
/// says of a plate, and few enough to be heard anew at every letter).
pub(crate) const MOST_TYPED: usize = 400;

/// A pasted text as one line: where a line ends a space stands, as the field has but one, and
/// characters that steer a terminal are left out.
pub(crate) fn one_line(text: &str) -> impl Iterator<Item = char> {
    let text = text.trim_end_matches(['\r', '\n']);
    let mut before = ' ';
    text.chars().filter_map(move |c| {
        // The two characters of one line's end are one space.
        let second = before == '\r' && c == '\n';
        before = c;
        match c {
            _ if second => None,
            '\n' | '\r' | '\t' => Some(' '),
            c => (!c.is_control()).then_some(c),
        }
    })
}

/// What has been typed so far.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TypedLine(String);

impl TypedLine {
    /// A line that begins with this text.
    pub(crate) fn from(text: &str) -> TypedLine {
        TypedLine(text.to_owned())
    }

    /// The text.
    pub(crate) fn text(&self) -> &str {
        &self.0
    }

    /// Writes a text that came all at once, as far as there is room; gives the number of letters
    /// that were left out.
    pub(crate) fn paste(&mut self, text: &str) -> usize {
        let room = MOST_TYPED.saturating_sub(self.0.chars().count());
        let mut letters = one_line(text);
        self.0.extend(letters.by_ref().take(room));
        letters.count()
    }

    /// Erases all of it.
    pub(crate) fn clear(&mut self) {
        self.0.clear();
    }

    /// Writes or erases a letter; false when the message does neither.
    pub(crate) fn edit(&mut self, msg: Msg) -> bool {
        match msg {
            Msg::Type(c) if !c.is_control() && self.0.chars().count() < MOST_TYPED => {
                self.0.push(c)
            }
            Msg::Type(_) => {}
            Msg::Erase => {
                self.0.pop();
            }
            _ => return false,
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use super::{MOST_TYPED, TypedLine, one_line};

    #[test]
    fn a_pasted_text_is_one_line() {
        let line = |text: &str| one_line(text).collect::<String>();
        assert_eq!(line("dark blue\r\nno mark\n"), "dark blue no mark");
        assert_eq!(line("a\n\nb\tc\u{1b}[31m"), "a  b c[31m");
    }

    #[test]
    fn what_has_no_room_is_counted() {
        let mut line = TypedLine::from("blue ");
        assert_eq!(line.paste(&"é".repeat(100_000)), 100_000 - (MOST_TYPED - 5));
        assert_eq!(line.text().chars().count(), MOST_TYPED);
        assert_eq!(line.paste("more"), 4);
    }
}
