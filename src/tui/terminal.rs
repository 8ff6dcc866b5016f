//! The crossterm backend: the only file that reads a terminal's events.
//!
//! The terminal is restored on every way out: the end, an error, a panic (ratatui's own hook) and
//! Ctrl-C, which raw mode delivers as a key. A hangup or termination signal ends the blocking read
//! with the process; the guard below turns the mouse off whenever the stack unwinds.

use std::io::stdout;

use anyhow::Result;
use ratatui::crossterm::event::{
    self, DisableMouseCapture, EnableMouseCapture, Event, KeyCode, KeyModifiers, MouseButton,
    MouseEventKind,
};
use ratatui::crossterm::execute;

use super::app::App;
use super::input::{Input, Key};

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

/// Shows the screens until the person leaves.
pub fn run(mut app: App) -> Result<()> {
    ratatui::run(|terminal| -> Result<()> {
        let _mouse = Mouse::on()?;
        while !app.done {
            let mut shown = None;
            terminal.draw(|frame| shown = Some(app.draw(frame)))?;
            if let Some(shown) = shown {
                app.drawn(shown);
            }
            if let Some(input) = read(&event::read()?) {
                app.handle(input);
            }
        }
        Ok(())
    })
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
