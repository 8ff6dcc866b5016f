//! One line being typed.

use super::msg::Msg;

/// Longest line that can be typed.
const MOST_TYPED: usize = 400;

/// What has been typed so far.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct TypedLine(String);

impl TypedLine {
    /// A line that begins with this text.
    pub(crate) fn from(text: &str) -> TypedLine {
        TypedLine(text.to_owned())
    }

    /// The text.
    pub(crate) fn text(&self) -> &str {
        &self.0
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
