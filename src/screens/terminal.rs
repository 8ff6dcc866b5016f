//! The crossterm backend: the only room that reads a terminal's events.
//!
//! The terminal is restored on every way out: the end, an error, a panic, Ctrl-C, which raw mode
//! delivers as a key, and the signals that ask a program to end, which only set a flag here so that
//! the loop can leave by its usual door.
//!
//! | file | what |
//! |---|---|
//! | `modes` | what the screens ask of a terminal, and giving it back |
//! | `signals` | an end, a stop and a return that the system asks for |

mod modes;
mod signals;

use std::io::{Stdout, stdout};
use std::mem::ManuallyDrop;
use std::time::Duration;

use anyhow::Result;
use crossterm::event::{self, Event, KeyCode, KeyModifiers, MouseButton, MouseEventKind};
use ratatui::backend::CrosstermBackend;
use ratatui::layout::Rect;
use ratatui::{Terminal, TerminalOptions, Viewport};

use super::app::App;
use super::draw::MOST;
use super::kit::ascii::{self, Letters};
use super::state::input::{Input, Key};
use super::state::keys::Writes;
use super::state::save::Save;
use crate::stock::store::{Answer, Ask, Trouble};
use modes::Modes;
use signals::Signals;

/// How soon a signal is noticed while no key is pressed.
const PATIENCE: Duration = Duration::from_millis(250);

/// Writes a file the screens want: gives the place it is at, or why it is not.
pub type Keeper<'a> = &'a dyn Fn(&Save) -> std::result::Result<String, String>;

/// Whatever answers messages to the stock book.
pub type Clerk<'a> = &'a mut dyn FnMut(Ask) -> std::result::Result<Answer, Trouble>;

/// Shows the screens until the person leaves. An end by a signal is an error.
///
/// # Errors
/// Those of the terminal, and an end by a signal.
pub fn run(mut app: App, letters: Letters, keeper: Keeper, clerk: Clerk) -> Result<()> {
    modes::restore_after_panic();
    let signals = Signals::watch()?;
    let mut window = Window::open(letters)?;
    window.show(&mut app, &signals, keeper, clerk)
}

/// The terminal while the screens have it.
struct Window {
    modes: Modes,
    /// Never dropped: it would complain to a standard error that may have gone with the terminal,
    /// and end the program by a panic. The modes bring the cursor back.
    terminal: ManuallyDrop<Terminal<CrosstermBackend<Stdout>>>,
    area: Rect,
    letters: Letters,
}

impl Window {
    fn open(letters: Letters) -> Result<Window> {
        let modes = Modes::enter()?;
        let area = area();
        let options = TerminalOptions {
            viewport: Viewport::Fixed(area),
        };
        let terminal = Terminal::with_options(CrosstermBackend::new(stdout()), options)?;
        let mut window = Window {
            modes,
            terminal: ManuallyDrop::new(terminal),
            area,
            letters,
        };
        window.clear()?;
        Ok(window)
    }

    fn show(
        &mut self,
        app: &mut App,
        signals: &Signals,
        keeper: Keeper,
        clerk: Clerk,
    ) -> Result<()> {
        let mut held_over = None;
        while !app.done {
            // Before the frame: what was asked for as the screens opened has its answer too.
            app.deliver(clerk);
            self.draw(app)?;
            let event = match held_over.take() {
                Some(event) => event,
                None => match self.wait(signals)? {
                    Some(event) => event,
                    None => continue,
                },
            };
            let mut typed = take(app, &event);
            // Letters that came together are drawn together; a click needs the frame it was made on.
            while typed && app.keys().writes == Writes::Text && event::poll(Duration::ZERO)? {
                signals.end()?;
                let next = event::read()?;
                if !is_letter(&next) {
                    held_over = Some(next);
                    break;
                }
                typed = take(app, &next);
            }
            if let Some(save) = app.wanted() {
                app.saved(keeper(&save));
            }
            if std::mem::take(&mut app.aside) {
                self.put_aside()?;
            }
        }
        Ok(())
    }

    fn draw(&mut self, app: &mut App) -> Result<()> {
        let now = area();
        if now != self.area {
            self.area = now;
            self.clear()?;
        }
        let mut shown = None;
        let letters = self.letters;
        self.terminal.draw(|frame| {
            shown = Some(app.draw(frame));
            if letters == Letters::Ascii {
                ascii::spell(frame.buffer_mut());
            }
        })?;
        if let Some(shown) = shown {
            app.drawn(shown);
        }
        Ok(())
    }

    /// The next event; `None` when the frame has to be drawn anew first.
    fn wait(&mut self, signals: &Signals) -> Result<Option<Event>> {
        loop {
            signals.end()?;
            if signals.stop() {
                self.put_aside()?;
                return Ok(None);
            }
            if signals.returned() {
                self.come_back()?;
                return Ok(None);
            }
            if event::poll(PATIENCE)? {
                return Ok(Some(event::read()?));
            }
        }
    }

    /// Gives the terminal back and stops, as Ctrl-Z does; goes on when the shell says so.
    fn put_aside(&mut self) -> Result<()> {
        self.modes.leave();
        signals::stop_here();
        self.come_back()
    }

    fn come_back(&mut self) -> Result<()> {
        self.modes.again()?;
        self.clear()
    }

    /// Has the next frame drawn whole. Not `Terminal::clear`: it asks the terminal where its cursor
    /// is, and one that has just come back may not answer.
    fn clear(&mut self) -> Result<()> {
        Ok(self.terminal.resize(self.area)?)
    }
}

/// The window, as far as it is drawn.
fn area() -> Rect {
    let (columns, rows) = crossterm::terminal::size().unwrap_or((80, 24));
    Rect::new(0, 0, columns.min(MOST.0), rows.min(MOST.1))
}

/// Hands an event on; true for a letter that may be followed by others at once.
fn take(app: &mut App, event: &Event) -> bool {
    if let Some(input) = read(event) {
        app.handle(input);
    }
    is_letter(event)
}

fn is_letter(event: &Event) -> bool {
    let key = event.as_key_press_event();
    key.is_some_and(|key| matches!(key.code, KeyCode::Char(_)))
}

/// An event in our own words; `None` for what means nothing to the screens.
fn read(event: &Event) -> Option<Input> {
    if let Some(key) = event.as_key_press_event() {
        let control = key.modifiers.contains(KeyModifiers::CONTROL);
        let key = match key.code {
            KeyCode::Char('c') if control => Key::Break,
            KeyCode::Char('z') if control => Key::Aside,
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
    if let Event::Paste(text) = event {
        return Some(Input::Paste(text.clone()));
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
