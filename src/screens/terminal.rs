//! The crossterm backend: the only file that reads a terminal's events.
//!
//! The terminal is restored on every way out: the end, an error, a panic (ratatui's own hook, then
//! the guard below), Ctrl-C, which raw mode delivers as a key, and the signals that ask a program
//! to end, which only set a flag here so that the loop can leave by its usual door.

use std::io::stdout;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use anyhow::bail;
use crossterm::event::{
    self, DisableMouseCapture, EnableMouseCapture, Event, KeyCode, KeyModifiers, MouseButton,
    MouseEventKind,
};
use crossterm::execute;
use ratatui::DefaultTerminal;

use super::app::App;
use super::state::input::{Input, Key};
use crate::stock::store::{Answer, Ask, Trouble};

/// How soon a signal is noticed while no key is pressed.
const PATIENCE: Duration = Duration::from_millis(250);

/// Turns the mouse on, and off again whatever happens.
struct Mouse;

impl Mouse {
    fn on() -> std::io::Result<Mouse> {
        execute!(stdout(), EnableMouseCapture)?;
        Ok(Mouse)
    }
}

impl Drop for Mouse {
    fn drop(&mut self) {
        // Nothing can be done about a terminal that has gone.
        let _ = execute!(stdout(), DisableMouseCapture);
    }
}

/// Whatever answers messages to the stock book.
pub type Clerk<'a> = &'a mut dyn FnMut(Ask) -> Result<Answer, Trouble>;

/// Shows the screens until the person leaves. An end by a signal is an error.
///
/// # Errors
/// Those of the terminal, and an end by a signal.
pub fn run(mut app: App, clerk: Clerk) -> anyhow::Result<()> {
    let ended = Arc::new(AtomicBool::new(false));
    watch_signals(&ended)?;
    ratatui::run(|terminal| show(terminal, &mut app, clerk, &ended))
}

/// Sets the flag when the system asks the program to end.
///
/// When the terminal itself has gone, the reader of events never comes back to look at the flag:
/// it meets an end of input again and again. So after a moment the signal is let through.
#[cfg(unix)]
fn watch_signals(ended: &Arc<AtomicBool>) -> anyhow::Result<()> {
    use signal_hook::consts::{SIGHUP, SIGINT, SIGQUIT, SIGTERM};
    let mut signals = signal_hook::iterator::Signals::new([SIGTERM, SIGHUP, SIGINT, SIGQUIT])?;
    let ended = ended.clone();
    std::thread::spawn(move || {
        for signal in signals.forever() {
            ended.store(true, Ordering::Relaxed);
            std::thread::sleep(4 * PATIENCE);
            ratatui::restore();
            // Only a signal without a default end could fail here, and none of these is.
            let _ = signal_hook::low_level::emulate_default_handler(signal);
        }
    });
    Ok(())
}

#[cfg(not(unix))]
fn watch_signals(_: &Arc<AtomicBool>) -> anyhow::Result<()> {
    Ok(())
}

fn show(
    terminal: &mut DefaultTerminal,
    app: &mut App,
    clerk: Clerk,
    ended: &AtomicBool,
) -> anyhow::Result<()> {
    let _mouse = Mouse::on()?;
    while !app.done {
        let mut shown = None;
        terminal.draw(|frame| shown = Some(app.draw(frame)))?;
        if let Some(shown) = shown {
            app.drawn(shown);
        }
        while !event::poll(PATIENCE)? {
            if ended.load(Ordering::Relaxed) {
                bail!("ended by a signal; the findings of this piece are not kept");
            }
        }
        if let Some(input) = read(&event::read()?) {
            app.handle(input);
        }
        for (ticket, ask) in app.messages() {
            app.answered(ticket, clerk(ask));
        }
    }
    Ok(())
}

/// An event in our own words; `None` for what means nothing to the screens.
fn read(event: &Event) -> Option<Input> {
    if let Some(key) = event.as_key_press_event() {
        let control = key.modifiers.contains(KeyModifiers::CONTROL);
        let key = match key.code {
            KeyCode::Char('c') if control => Key::Break,
            KeyCode::Char(_) if control => return None,
            KeyCode::Char(c) => Key::Char(c),
            KeyCode::Enter => Key::Enter,
            KeyCode::Esc => Key::Esc,
            KeyCode::Up => Key::Up,
            KeyCode::Down => Key::Down,
            KeyCode::Left => Key::Left,
            KeyCode::Right => Key::Right,
            KeyCode::PageUp => Key::PageUp,
            KeyCode::PageDown => Key::PageDown,
            KeyCode::Home => Key::Home,
            KeyCode::End => Key::End,
            KeyCode::Backspace => Key::Backspace,
            KeyCode::Tab => Key::Tab,
            _ => return None,
        };
        return Some(Input::Key(key));
    }
    let Event::Mouse(mouse) = event else {
        return None;
    };
    match mouse.kind {
        MouseEventKind::Down(MouseButton::Left) => Some(Input::Click {
            x: mouse.column,
            y: mouse.row,
        }),
        MouseEventKind::ScrollDown => Some(Input::Wheel { down: true }),
        MouseEventKind::ScrollUp => Some(Input::Wheel { down: false }),
        _ => None,
    }
}
