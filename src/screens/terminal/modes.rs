//! What the screens ask of a terminal: its keys as they are pressed, a screen of their own, the
//! mouse, pasted text in one piece. And giving all of it back, which never fails aloud: nothing can
//! be done about a terminal that has gone.

use std::io::{self, stdout};

use crossterm::cursor::Show;
use crossterm::event::{
    DisableBracketedPaste, DisableMouseCapture, EnableBracketedPaste, EnableMouseCapture,
};
use crossterm::execute;
use crossterm::terminal::{
    EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode,
};

/// A terminal that has been asked; given back when dropped.
pub(super) struct Modes(());

impl Modes {
    pub(super) fn enter() -> io::Result<Modes> {
        let modes = Modes(());
        modes.again()?;
        Ok(modes)
    }

    /// Asks once more, after the terminal was somebody else's.
    pub(super) fn again(&self) -> io::Result<()> {
        enable_raw_mode()?;
        execute!(stdout(), EnterAlternateScreen, EnableMouseCapture)?;
        // Old consoles can't tell pasted text from keys.
        let _ = execute!(stdout(), EnableBracketedPaste);
        Ok(())
    }

    pub(super) fn leave(&self) {
        give_back();
    }
}

impl Drop for Modes {
    fn drop(&mut self) {
        give_back();
    }
}

/// Gives everything back, from wherever it is noticed that it must be.
pub(super) fn give_back() {
    let _ = execute!(stdout(), DisableBracketedPaste);
    let _ = execute!(stdout(), DisableMouseCapture);
    let _ = execute!(stdout(), LeaveAlternateScreen, Show);
    let _ = disable_raw_mode();
}

/// A panic speaks on a terminal that can show it.
pub(super) fn restore_after_panic() {
    let before = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |panic| {
        give_back();
        before(panic);
    }));
}
