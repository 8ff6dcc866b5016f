//! Which keys there are, and where. The footer and the help are made from these tables, so that
//! what is listed is what works.

use super::app::{App, Screen};
use super::input::Key;
use super::keys::{Binding, key, letter};
use super::msg::Msg;
use super::popups::Popup;
use crate::core::observation::Sure;

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

const TICKET: Binding = letter(
    't',
    Msg::Ticket,
    "ticket",
    "Check the date on a ticket, or any guess, against what was seen.",
);
const WHAT_IF: Binding = letter(
    'w',
    Msg::WhatIf,
    "what if",
    "Try another finding without changing anything yet.",
);
const WORDS: Binding = letter('g', Msg::Words, "words", "Have trade words explained.");
const LEFT: Binding = key(Key::Left, Msg::Left, "", "");
const RIGHT: Binding = key(Key::Right, Msg::Right, "", "");
const ERASE: Binding = key(
    Key::Backspace,
    Msg::Erase,
    "erase",
    "Erase the last letter.",
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
            WHAT_IF,
            TICKET,
            WORDS,
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
            if !app.piece().advice().looks.is_empty() {
                out.push(letter(
                    'o',
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
            if app.piece().evidence().of(clue).is_some() {
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
    ]);
    // Before anything is seen these would do nothing, and a phone has no room to spare.
    let seen = !app.piece().evidence().is_empty();
    if seen {
        out.extend([WHAT_IF, TICKET]);
    }
    out.extend([WORDS, SETTING]);
    if seen {
        out.push(NEW);
    }
    out.extend([HELP, QUIT]);
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
    let typing = |first: Binding| vec![first, ERASE, UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE];
    match popup {
        Popup::Jump { .. } => typing(enter("go", "Go to the clue marked.")),
        Popup::Setting { .. } => vec![
            UP,
            DOWN,
            enter("choose", "Choose the setting marked."),
            CLOSE,
        ],
        Popup::Notes { .. } => typing(enter("take", "Take these findings.")),
        Popup::Mark { .. } => {
            let mut out = typing(enter("take", "Take these findings."));
            let help = "Type into a registration diamond.";
            out.insert(1, key(Key::Tab, Msg::Next, "diamond", help));
            out.insert(
                2,
                Binding {
                    label: "whole or not",
                    ..RIGHT
                },
            );
            out
        }
        Popup::Diamond(_) => vec![
            UP,
            RIGHT,
            DOWN,
            LEFT,
            key(Key::Tab, Msg::Next, "next", "Go to the next corner."),
            enter("take", "Take these findings."),
            ERASE,
            PAGE_UP,
            PAGE_DOWN,
            CLOSE,
        ],
        Popup::Ticket(_) => typing(enter("look", "Make the look that would settle it.")),
        Popup::Trial(_) => vec![
            UP,
            DOWN,
            LEFT,
            Binding {
                label: "change",
                ..RIGHT
            },
            letter('f', Msg::Forget, "not looked at", ""),
            letter('s', Msg::Sureness, "sure or not", ""),
            enter("accept", "Make these changes."),
            Binding {
                label: "drop",
                ..CLOSE
            },
        ],
        Popup::Words { .. } => vec![ERASE, UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE],
        Popup::Why { .. } => vec![UP, DOWN, PAGE_UP, PAGE_DOWN, WORDS, CLOSE],
        Popup::Help { .. } => vec![UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE],
        Popup::Quit => vec![
            letter('y', Msg::Leave, "yes, leave", "Leave."),
            letter('n', Msg::Close, "no, stay", "Stay."),
        ],
    }
}
