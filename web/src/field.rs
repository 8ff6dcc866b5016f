//! The hidden field: while a line is typed it has the focus, so that a phone shows its keyboard. What
//! changes in it is handed on as keys, since a phone's keyboard writes words and not keys.

use printseam::internals::screens::state::input::Key;
use printseam::internals::screens::state::keys::Writes;
use web_sys::HtmlInputElement;

use crate::keys::edits;

/// What stands in the field before anything is typed: an empty one would hide the erasing key.
const REST: &str = " ";

/// The field, and what was last seen in it.
pub struct Field {
    input: HtmlInputElement,
    seen: String,
    /// What is typed into, while something is.
    place: Option<&'static str>,
}

impl Field {
    pub fn new(input: HtmlInputElement) -> Field {
        Field {
            input,
            seen: String::new(),
            place: None,
        }
    }

    /// The keys that make what was seen before into what stands there now.
    pub fn changes(&mut self) -> Vec<Key> {
        let now = self.input.value();
        let keys = edits(&self.seen, &now);
        self.seen = now;
        if self.seen.is_empty() {
            self.rest();
        }
        keys
    }

    /// Takes the focus while a line is typed; a new line begins afresh. True when it gives it up.
    pub fn follow(&mut self, writes: Writes, place: &'static str) -> bool {
        if writes == Writes::Nothing {
            self.input.set_disabled(true);
            return self.place.take().is_some();
        }
        self.input.set_disabled(false);
        if self.place != Some(place) {
            self.rest();
            let keyboard = match writes {
                Writes::Figures => "numeric",
                Writes::Text | Writes::Nothing => "text",
            };
            // Without it the usual keyboard comes.
            let _ = self.input.set_attribute("inputmode", keyboard);
            self.place = Some(place);
        }
        // Again at every tap: a keyboard that was put away comes back.
        let _ = self.input.focus();
        false
    }

    fn rest(&mut self) {
        self.input.set_value(REST);
        self.seen = REST.to_owned();
    }
}
