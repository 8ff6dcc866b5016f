//! Which key means what, and where. The footer and the help are made from this table, so that
//! what is listed is what works.

use ratatui::layout::Position;

use super::app::{App, Popup, Screen};
use super::input::{Input, Key};
use super::msg::Msg;
use crate::core::evidence::Sure;

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

const fn key(key: Key, msg: Msg, label: &'static str, help: &'static str) -> Binding {
    Binding {
        key,
        msg,
        label,
        help,
    }
}

const fn letter(c: char, msg: Msg, label: &'static str, help: &'static str) -> Binding {
    key(Key::Char(c), msg, label, help)
}

const UP: Binding = key(Key::Up, Msg::Up, "", "Move up.");
const DOWN: Binding = key(Key::Down, Msg::Down, "", "Move down.");
const PAGE_UP: Binding = key(Key::PageUp, Msg::PageUp, "", "Go back a page.");
const PAGE_DOWN: Binding = key(Key::PageDown, Msg::PageDown, "page", "Go on a page.");
const TOP: Binding = key(Key::Home, Msg::First, "top", "Go to the beginning.");
const END: Binding = key(Key::End, Msg::Last, "end", "Go to the end.");
const CLOSE: Binding = key(Key::Esc, Msg::Close, "close", "Close this.");
const HELP: Binding = letter(
    'h',
    Msg::Help,
    "help",
    "Show all keys and what the words mean.",
);
const QUIT: Binding = letter(
    'q',
    Msg::Quit,
    "quit",
    "Leave; asks first when findings would be lost.",
);
const UNDO: Binding = letter('u', Msg::Undo, "undo", "Take back the last change.");
const JUMP: Binding = letter(
    'j',
    Msg::Jump,
    "jump",
    "Go to any clue, also to change an answer.",
);
const SETTING: Binding = letter(
    'c',
    Msg::Setting,
    "setting",
    "Change where the piece was found.",
);
const NEW: Binding = letter(
    'n',
    Msg::NewPiece,
    "new",
    "Begin a new piece in the same setting.",
);
const NOTES: Binding = letter(
    'l',
    Msg::Notes,
    "line of notes",
    "Write what you see in trade words, on one line.",
);

const MARK: Binding = letter('m', Msg::Mark, "mark", "Type what can be read on the back.");

/// The keys of whatever has them now, in the order of the footer.
pub fn bindings(app: &App) -> Vec<Binding> {
    match app.popup() {
        Some(popup) => popup_bindings(popup),
        None => screen_bindings(app),
    }
}

/// The keys of the screen below the popups.
pub fn screen_bindings(app: &App) -> Vec<Binding> {
    match app.screen() {
        Screen::Welcome => vec![
            UP,
            DOWN,
            key(
                Key::Enter,
                Msg::Start,
                "start",
                "Begin with the setting marked.",
            ),
            NOTES,
            HELP,
            QUIT,
        ],
        Screen::Look => look_bindings(app),
        Screen::Verdict => vec![
            UP,
            DOWN,
            PAGE_UP,
            PAGE_DOWN,
            TOP,
            END,
            key(Key::Esc, Msg::Look, "back", "Back to the questions."),
            UNDO,
            JUMP,
            SETTING,
            NEW,
            HELP,
            QUIT,
        ],
    }
}

fn look_bindings(app: &App) -> Vec<Binding> {
    let mut out = Vec::new();
    match app.clue() {
        None => {
            out.push(key(
                Key::Enter,
                Msg::Take,
                "see the verdict",
                "See the whole verdict.",
            ));
            if !app.case().verdict().looks.is_empty() {
                out.push(letter(
                    'g',
                    Msg::GoOn,
                    "go on",
                    "Make the best look left, though it is worth little.",
                ));
            }
            out.push(UNDO);
        }
        Some(clue) => {
            if app.dating() {
                out.push(key(
                    Key::Enter,
                    Msg::Take,
                    "accept",
                    "Accept the year typed.",
                ));
                out.push(key(
                    Key::Backspace,
                    Msg::Erase,
                    "erase",
                    "Erase the last figure.",
                ));
            } else {
                out.extend([UP, DOWN]);
                out.push(key(
                    Key::Enter,
                    Msg::Take,
                    "choose",
                    "Choose the finding marked.",
                ));
            }
            out.extend([
                UNDO,
                letter(
                    'x',
                    Msg::CantTell,
                    "can't tell",
                    "You looked and can't tell: says nothing.",
                ),
                letter(
                    '?',
                    Msg::Why,
                    "why",
                    "Why this question, and what it would tell.",
                ),
                letter(
                    's',
                    Msg::Sureness,
                    sureness(app.sure),
                    "Say how sure the next answer is: sure, unsure, a guess.",
                ),
            ]);
            if app.case().evidence().of(clue).is_some() {
                out.push(letter(
                    'f',
                    Msg::Forget,
                    "forget",
                    "Take back what was said here.",
                ));
            }
            if app.jumped.is_some() {
                out.push(key(
                    Key::Esc,
                    Msg::Look,
                    "back",
                    "Back to the best next look.",
                ));
            }
        }
    }
    out.extend([
        JUMP,
        letter(
            'v',
            Msg::Verdict,
            "verdict",
            "The whole verdict with its reasons.",
        ),
        Binding {
            label: "notes",
            ..NOTES
        },
        MARK,
        SETTING,
        NEW,
        HELP,
        QUIT,
    ]);
    out
}

fn sureness(sure: Sure) -> &'static str {
    match sure {
        Sure::Sure => "sure",
        Sure::Unsure => "UNSURE",
        Sure::Guess => "A GUESS",
    }
}

fn popup_bindings(popup: &Popup) -> Vec<Binding> {
    let enter = |label, help| key(Key::Enter, Msg::Take, label, help);
    match popup {
        Popup::Jump { .. } => vec![
            UP,
            DOWN,
            PAGE_UP,
            PAGE_DOWN,
            enter("go", "Go to the clue marked."),
            key(
                Key::Backspace,
                Msg::Erase,
                "erase",
                "Erase the last letter.",
            ),
            CLOSE,
        ],
        Popup::Setting { .. } => vec![
            UP,
            DOWN,
            enter("choose", "Choose the setting marked."),
            CLOSE,
        ],
        Popup::Notes { .. } | Popup::Mark { .. } => vec![
            enter("take", "Take these findings."),
            key(
                Key::Backspace,
                Msg::Erase,
                "erase",
                "Erase the last letter.",
            ),
            CLOSE,
        ],
        Popup::Why { .. } | Popup::Help { .. } => vec![UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE],
        Popup::Quit => vec![
            letter('y', Msg::Leave, "yes, leave", "Leave."),
            letter('n', Msg::Close, "no, stay", "Stay."),
        ],
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
                (None, Screen::Welcome) => Msg::Cursor(i),
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
