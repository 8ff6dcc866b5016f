//! What a person did: keys and clicks, in our own words so that any backend can drive the screens.

/// A key, without modifiers but for Ctrl-C and Ctrl-Z.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Key {
    Char(char),
    Enter,
    Esc,
    Up,
    Down,
    Left,
    Right,
    PageUp,
    PageDown,
    Home,
    End,
    Backspace,
    Tab,
    /// Ctrl-C: leaves at once, from anywhere.
    Break,
    /// Ctrl-Z: puts the program aside, from anywhere.
    Aside,
}

/// One event.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Input {
    Key(Key),
    /// A text that came all at once.
    Paste(String),
    /// Left button or a finger, in cells.
    Click {
        x: u16,
        y: u16,
    },
    Wheel {
        down: bool,
    },
}

/// Names of keys in key strings and, where it differs, what is shown for them.
const NAMED: [(&str, Key, &str); 15] = [
    ("enter", Key::Enter, "Enter"),
    ("esc", Key::Esc, "Esc"),
    ("up", Key::Up, "↑"),
    ("down", Key::Down, "↓"),
    ("left", Key::Left, "←"),
    ("right", Key::Right, "→"),
    ("pgup", Key::PageUp, "PgUp"),
    ("pgdn", Key::PageDown, "PgDn"),
    ("home", Key::Home, "Home"),
    ("end", Key::End, "End"),
    ("bs", Key::Backspace, "Bksp"),
    ("tab", Key::Tab, "Tab"),
    ("c-c", Key::Break, "Ctrl-C"),
    ("c-z", Key::Aside, "Ctrl-Z"),
    ("lt", Key::Char('<'), "<"),
];

impl Key {
    /// The key as written on the screen.
    pub fn shown(self) -> String {
        match self {
            Key::Char(' ') => "Space".to_owned(),
            Key::Char(c) => c.to_string(),
            _ => NAMED
                .iter()
                .find(|(_, key, _)| *key == self)
                .map_or(String::new(), |(_, _, shown)| (*shown).to_owned()),
        }
    }
}

/// Reads a key string such as `1<enter>3?`; an unknown `<name>` is an error.
///
/// # Errors
/// The unknown `<name>`.
pub fn keys(text: &str) -> Result<Vec<Key>, String> {
    let mut out = Vec::new();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        if c == '<' {
            let Some((name, after)) = rest[1..].split_once('>') else {
                return Err(format!("'{rest}' has no closing '>'"));
            };
            let named = NAMED.iter().find(|(n, _, _)| *n == name);
            let (_, key, _) = named.ok_or_else(|| format!("no key is called '{name}'"))?;
            out.push(*key);
            rest = after;
        } else {
            out.push(Key::Char(c));
            rest = &rest[c.len_utf8()..];
        }
    }
    Ok(out)
}
