//! The screens of printseam on a page: the library as it is, drawn on a canvas, driven by the browser's
//! events. Nothing leaves the device.
//!
//! | file | what |
//! |---|---|
//! | `page` | the app, its frames, and what follows an event |
//! | `events` | keyboard, pointer, window: each to the page |
//! | `keys` | names of keys, and changes of a field, as keys of the screens |
//! | `field` | the hidden field that opens a phone's keyboard |
//! | `paper` | ratatui's backend: a canvas |
//! | `cells` | how many cells a window has |
//! | `signs` | bars, lines and dots as rectangles |
//! | `palette` | dark and light |
//! | `words` | the screens in words, for those who hear them |
//! | `own` | the user's own: stock book and terms of selling |
//! | `kept` | texts in the browser's own storage |
//! | `draft` | the piece on the table as a text |
//! | `clerk` | the stock book of the page |
//! | `chores` | the menu: files out and in |
//! | `clock` | the day, seconds, and chance |

pub mod cells;
pub mod chores;
mod clerk;
mod clock;
pub mod draft;
mod events;
mod field;
mod kept;
pub mod keys;
mod own;
mod page;
pub mod palette;
mod paper;
pub mod signs;
mod words;

use std::cell::RefCell;
use std::panic::PanicHookInfo;
use std::rc::Rc;

use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;
use web_sys::Document;

use events::Shared;

/// What the menu asks of the page.
#[wasm_bindgen]
pub struct Menu(Shared);

/// Begins; called when the program has been loaded. `saver` offers a file, a name and a text, to the user.
///
/// # Errors
/// When the browser can't show the screens.
#[wasm_bindgen]
pub fn begin(saver: js_sys::Function) -> Result<Menu, JsValue> {
    let missing = |what: &str| JsValue::from_str(what);
    let window = web_sys::window().ok_or_else(|| missing("no window"))?;
    let document = window.document().ok_or_else(|| missing("no document"))?;
    std::panic::set_hook(Box::new(stopped));
    let page = page::Page::open(window.clone(), document, saver)?;
    let shared = Rc::new(RefCell::new(page));
    events::listen(&window, &shared)?;
    Ok(Menu(shared))
}

/// Says that a fault of the program has ended it. The draft was kept before.
fn stopped(why: &PanicHookInfo) {
    web_sys::console::error_1(&JsValue::from_str(&why.to_string()));
    let document = web_sys::window().and_then(|w| w.document());
    let body = document.as_ref().and_then(Document::body);
    let news = document.and_then(|d| d.get_element_by_id("news"));
    if let (Some(body), Some(news)) = (body, news) {
        let text = "printseam has stopped by a fault of its own. Load the page again: what you saw is kept.";
        news.set_text_content(Some(text));
        // Without the class it is heard, not seen.
        let _ = body.class_list().add_1("stopped");
    }
}

#[wasm_bindgen]
impl Menu {
    /// Opens a sighting file; the sentence that says why not, or nothing.
    pub fn open_file(&self, name: &str, text: &str) -> String {
        let opened = self.0.borrow_mut().open_file(name, text);
        opened.err().unwrap_or_default()
    }

    /// Works out what the first question does not need and the next ones do.
    pub fn make_ready(&self) {
        let page = self.0.borrow();
        let (piece, _) = page.piece();
        piece.judgement();
        piece.expert().spoken();
    }

    /// The verdict on the piece on the table, as `judge --json` gives it.
    pub fn verdict(&self) -> String {
        let page = self.0.borrow();
        let (piece, taken) = page.piece();
        chores::verdict(piece, taken)
    }

    /// Where a finger chooses what the button at this place of the words stands for: CSS pixels from
    /// the corner of the window; nothing where the frame does not show it.
    pub fn place_of(&self, place: usize) -> Vec<f64> {
        self.0
            .borrow()
            .place_of(place)
            .map_or(Vec::new(), Vec::from)
    }

    /// The stock book, as a table or as objects.
    ///
    /// # Errors
    /// The sentence that says why not.
    pub fn export(&self, as_table: bool) -> Result<String, JsValue> {
        let mut page = self.0.borrow_mut();
        let (_, book) = page.book();
        let text = chores::export(book, as_table);
        text.map_err(|why| JsValue::from_str(&why.to_string()))
    }

    /// Takes an export in; the sentence that says how it went.
    pub fn import(&self, bytes: &[u8]) -> String {
        let mut page = self.0.borrow_mut();
        let (expert, book) = page.book();
        chores::import(&expert, book, bytes).unwrap_or_else(|why| why)
    }

    /// A settings file: the user's own terms of selling, or the usual ones to be changed.
    pub fn settings(&self) -> String {
        self.0.borrow().settings()
    }

    /// Takes a settings file; the sentence that says how it went.
    pub fn set_terms(&self, text: &str) -> String {
        self.0.borrow_mut().set_terms(text)
    }

    /// `dark`, `light`, or as the system has it.
    pub fn colours(&self, name: &str) {
        self.0.borrow_mut().set_colours(name);
    }
}
