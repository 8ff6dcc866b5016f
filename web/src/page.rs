//! The page: events of the browser in, frames on the canvas out. What `screens::terminal` is for a
//! terminal.

use std::sync::Arc;

use printseam::internals::piece::intake::Taken;
use printseam::internals::screens::app::App;
use printseam::internals::screens::state::input::{Input, Key};
use printseam::internals::screens::state::keys::Writes;
use printseam::internals::screens::state::save::Save;
use printseam::internals::screens::theme::Theme;
use printseam::internals::stock::store::Store;
use printseam::{Expert, Piece, Year};
use ratatui::layout::Rect;
use ratatui::{Terminal, TerminalOptions, Viewport};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{
    CanvasRenderingContext2d, Document, Element, HtmlCanvasElement, HtmlElement, Window,
};

use crate::cells::{Cells, Room};
use crate::chores::{self, Opened};
use crate::clerk::Clerk;
use crate::clock;
use crate::draft;
use crate::field::Field;
use crate::kept::Kept;
use crate::own;
use crate::palette::Palette;
use crate::paper::{self, Paper};
use crate::words::Words;

/// Letters are so large where the browser does not say how large they should be, in CSS pixels: what
/// browsers begin with (from memory).
const LETTERS: f64 = 16.0;

/// A window is so large where the browser does not say, in CSS pixels: a small phone's (from memory).
const WINDOW: (f64, f64) = (360.0, 640.0);

/// Names of what is kept.
const DRAFT: &str = "draft";
const COLOURS: &str = "colours";

/// Everything the page is.
pub struct Page {
    window: Window,
    document: Document,
    canvas: HtmlCanvasElement,
    menu: HtmlElement,
    app: App,
    terminal: Terminal<Paper>,
    cells: Cells,
    density: f64,
    advance: f64,
    palette: Palette,
    field: Field,
    words: Words,
    /// The last choice was made among the words.
    hears: bool,
    kept: Kept,
    clerk: Clerk,
    /// What was made of the file the piece came from.
    taken: Option<Taken>,
    /// Hands a file to the browser: a name and a text.
    saver: js_sys::Function,
}

/// The element of this name.
///
/// # Errors
/// When the page has none, or it is something else.
pub fn element<T: JsCast>(document: &Document, id: &str) -> Result<T, JsValue> {
    let found = document.get_element_by_id(id);
    let found = found.ok_or_else(|| JsValue::from_str(&format!("no element '{id}'")))?;
    let other = |_| JsValue::from_str(&format!("'{id}' is another element"));
    found.dyn_into().map_err(other)
}

impl Page {
    /// Loads the rules and draws the first frame. `saver` offers a file to the user.
    ///
    /// # Errors
    /// When the page lacks an element, or the browser can't draw.
    pub fn open(
        window: Window,
        document: Document,
        saver: js_sys::Function,
    ) -> Result<Page, JsValue> {
        let canvas: HtmlCanvasElement = element(&document, "screen")?;
        let context = canvas.get_context("2d")?;
        let context = context.ok_or_else(|| JsValue::from_str("no canvas to draw on"))?;
        let context: CanvasRenderingContext2d = context.dyn_into()?;
        let kept = Kept::of(&window);
        let present = Year(clock::today().year());
        let first = |problems: Vec<printseam::Problem>| {
            JsValue::from_str(&problems.first().map_or(String::new(), ToString::to_string))
        };
        let expert = Arc::new(Expert::shipped(present).map_err(first)?);
        let palette = palette(&window, &kept);
        let advance = paper::advance(&context);
        let room = room(&window, &document, advance);
        let cells = Cells::of(room);
        let paper = Paper::new(canvas.clone(), context, cells, palette);
        let area = Rect::new(0, 0, cells.columns, cells.rows);
        let options = TerminalOptions {
            viewport: Viewport::Fixed(area),
        };
        let terminal = Terminal::with_options(paper, options);
        let Ok(terminal) = terminal;
        let field = Field::new(element(&document, "field")?);
        let left = kept.get(DRAFT);
        let left = left.and_then(|text| draft::read(&text, &expert, theme(palette)));
        let app = left.unwrap_or_else(|| App::new(expert, theme(palette)));
        let words = Words::new(
            document.clone(),
            element(&document, "words")?,
            element(&document, "news")?,
        );
        let mut page = Page {
            app: own::furnished(app, &kept),
            window,
            menu: element(&document, "open-menu")?,
            document,
            words,
            hears: false,
            clerk: Clerk::new(kept.clone()),
            kept,
            taken: None,
            saver,
            canvas,
            terminal,
            cells,
            density: room.density,
            advance,
            palette,
            field,
        };
        page.fit();
        page.say();
        Ok(page)
    }

    /// Takes the window's size, its letters and its colours, and draws all of it.
    fn fit(&mut self) {
        let room = room(&self.window, &self.document, self.advance);
        let palette = palette(&self.window, &self.kept);
        (self.cells, self.density) = (Cells::of(room), room.density);
        if palette != self.palette {
            self.palette = palette;
            self.app.set_theme(theme(palette));
        }
        if let Some(body) = self.document.body() {
            let name = if palette == Palette::LIGHT {
                "light"
            } else {
                "dark"
            };
            // The style sheet has the colours of all that is not the canvas.
            let _ = body.set_attribute("data-colours", name);
        }
        // The menu's button lies over the end of the first row.
        let button = self.menu.offset_width();
        let columns = f64::from(button) * self.density / self.cells.wide;
        self.app.leave_corner(columns.ceil() as u16);
        let paper = self.terminal.backend_mut();
        paper.fit(self.cells, palette, room.density);
        let area = Rect::new(0, 0, self.cells.columns, self.cells.rows);
        let Ok(()) = self.terminal.resize(area);
        self.draw();
    }

    /// Fits again where the window or its density is another one now.
    pub fn fit_if_changed(&mut self) {
        let room = room(&self.window, &self.document, self.advance);
        let changed = (Cells::of(room), room.density) != (self.cells, self.density);
        if changed || palette(&self.window, &self.kept) != self.palette {
            self.fit();
        }
    }

    /// One event, and all that follows from it.
    pub fn handle(&mut self, input: Input) {
        self.app.handle(input);
        self.after();
    }

    /// A key of the keyboard; true when the screens have taken it.
    pub fn key(&mut self, key: Key) -> bool {
        // Without a meaning here it is the browser's: Tab goes on to the next element.
        let keys = self.app.keys();
        if matches!(key, Key::Tab) && keys.message(key).is_none() {
            return false;
        }
        self.handle(Input::Key(key));
        true
    }

    /// The hidden field has changed.
    pub fn typed(&mut self) {
        for key in self.field.changes() {
            self.app.handle(Input::Key(key));
        }
        self.after();
    }

    /// A tap or a click, in CSS pixels from the corner of the canvas.
    pub fn tap(&mut self, x: f64, y: f64) {
        self.hears = false;
        let (x, y) = self.cells.at(x * self.density, y * self.density);
        self.handle(Input::Click { x, y });
    }

    /// A button among the words.
    pub fn choose(&mut self, button: &Element) {
        if let Some(msg) = self.words.chosen(button) {
            self.hears = true;
            self.app.update(msg);
            self.after();
        }
    }

    /// The middle of the area that means the same as the button at this place, in CSS pixels.
    pub fn place_of(&self, place: usize) -> Option<[f64; 2]> {
        let area = self.app.area_of(self.words.msg(place)?)?;
        let middle = |from: u16, cells: u16, dots: f64| {
            (f64::from(from) + f64::from(cells) / 2.0) * dots / self.density
        };
        Some([
            middle(area.x, area.width, self.cells.wide),
            middle(area.y, area.height, self.cells.high),
        ])
    }

    /// Opens a sighting file.
    ///
    /// # Errors
    /// One sentence.
    pub fn open_file(&mut self, name: &str, text: &str) -> Result<(), String> {
        let expert = self.app.piece().expert().clone();
        let Opened { app, taken } = chores::open(&expert, theme(self.palette), name, text)?;
        self.app = own::furnished(app, &self.kept);
        self.taken = Some(taken);
        self.fit();
        self.after();
        Ok(())
    }

    /// The piece on the table, and what was made of the file it came from.
    pub fn piece(&self) -> (&Piece, Option<&Taken>) {
        (self.app.piece(), self.taken.as_ref())
    }

    /// The rules, and the stock book.
    pub fn book(&mut self) -> (Arc<Expert>, &mut dyn Store) {
        (self.app.piece().expert().clone(), &mut self.clerk)
    }

    /// Takes the user's own terms of selling from a settings file, and keeps it; says how it went.
    pub fn set_terms(&mut self, text: &str) -> String {
        match own::take_terms(&mut self.app, &self.kept, text) {
            Ok(said) => said,
            Err(why) => format!("Nothing has changed: {why}."),
        }
    }

    /// A settings file to write one's own terms into.
    pub fn settings(&self) -> String {
        own::settings(&self.app.piece().expert().base, &self.kept)
    }

    /// Colours from now on: `dark`, `light`, or as the system has them.
    pub fn set_colours(&mut self, name: &str) {
        match name {
            "dark" | "light" => drop(self.kept.set(COLOURS, name)),
            _ => self.kept.forget(COLOURS),
        }
        self.fit();
    }

    /// Height of a row in CSS pixels.
    pub fn row(&self) -> f64 {
        self.cells.high / self.density
    }

    /// True while a line is typed into the hidden field.
    pub fn writes(&self) -> bool {
        self.app.keys().writes != Writes::Nothing
    }

    fn after(&mut self) {
        if std::mem::take(&mut self.app.done) {
            // A page can't close itself: it begins anew.
            let expert = self.app.piece().expert().clone();
            self.app = own::furnished(App::new(expert, theme(self.palette)), &self.kept);
            self.fit();
        }
        if let Some(save) = self.app.wanted() {
            let went = self.save(&save);
            self.app.saved(went);
        }
        self.app.deliver(&mut |ask| self.clerk.answer(ask));
        match draft::write(&self.app) {
            Some(text) => drop(self.kept.set(DRAFT, &text)),
            None => self.kept.forget(DRAFT),
        }
        self.draw();
        self.say();
        let place = self.app.popup().map_or("", |popup| popup.title());
        if self.field.follow(self.app.keys().writes, place) {
            // The keyboard goes; keys still arrive without a focus.
            let _ = match self.hears {
                true => self.words.read_on(true),
                false => self.canvas.focus(),
            };
        }
    }

    fn save(&self, save: &Save) -> Result<String, String> {
        let (name, text) = (JsValue::from_str(&save.name), JsValue::from_str(&save.text));
        let went = self.saver.call2(&JsValue::NULL, &name, &text);
        went.map(|_| "your downloads".to_owned())
            .map_err(|_| "The browser takes no file.".to_owned())
    }

    /// The same frame in words.
    fn say(&mut self) {
        let said = self.app.in_words();
        if let Err(why) = self.words.show(said, self.app.notice(), self.hears) {
            web_sys::console::error_1(&why);
        }
    }

    fn draw(&mut self) {
        let mut shown = None;
        let app = &self.app;
        let Ok(_) = self.terminal.draw(|frame| shown = Some(app.draw(frame)));
        if let Some(shown) = shown {
            self.app.drawn(shown);
        }
    }
}

/// Colours as chosen, else as the system has them.
fn palette(window: &Window, kept: &Kept) -> Palette {
    match kept.get(COLOURS).as_deref() {
        Some("dark") => return Palette::DARK,
        Some("light") => return Palette::LIGHT,
        _ => {}
    }
    let light = window.match_media("(prefers-color-scheme: light)");
    match light {
        Ok(Some(query)) if query.matches() => Palette::LIGHT,
        _ => Palette::DARK,
    }
}

fn theme(palette: Palette) -> Theme {
    if palette == Palette::LIGHT {
        Theme::okabe_ito_on_light()
    } else {
        Theme::okabe_ito()
    }
}

fn room(window: &Window, document: &Document, advance: f64) -> Room {
    let length = |value: Result<JsValue, JsValue>| value.ok().and_then(|v| v.as_f64());
    let mut width = length(window.inner_width()).unwrap_or(WINDOW.0);
    let mut height = length(window.inner_height()).unwrap_or(WINDOW.1);
    // A keyboard takes its room from the visual viewport; a pinch makes that smaller too, and must
    // change nothing.
    if let Some(seen) = window.visual_viewport() {
        width = width.min((seen.width() * seen.scale()).round());
        height = height.min((seen.height() * seen.scale()).round());
    }
    let finger = window.match_media("(pointer: coarse)");
    Room {
        width,
        height,
        density: window.device_pixel_ratio().max(0.5),
        letters: letters(window, document).unwrap_or(LETTERS),
        advance,
        finger: matches!(finger, Ok(Some(query)) if query.matches()),
    }
}

/// Size of letters of the page's root, which the user sets in browser or system.
fn letters(window: &Window, document: &Document) -> Option<f64> {
    let root: HtmlElement = document.document_element()?.dyn_into().ok()?;
    let style = window.get_computed_style(&root).ok()??;
    let size = style.get_property_value("font-size").ok()?;
    size.strip_suffix("px")?.parse().ok()
}
