//! A file the screens want written. They touch no files themselves: whoever shows them, a terminal
//! or a browser, does, and tells how it went.

/// What to write, and the name the person gave it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Save {
    pub name: String,
    pub text: String,
}
