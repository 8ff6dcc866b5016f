//! Events of the browser, each handed to the page.

use std::cell::RefCell;
use std::rc::Rc;

use printseam::internals::screens::state::input::{Input, Key};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{
    ClipboardEvent, Element, Event, EventTarget, HtmlCanvasElement, KeyboardEvent, MouseEvent,
    PointerEvent, WheelEvent, Window,
};

use crate::keys::key;
use crate::page::{Page, element};

/// The page, shared by all who listen.
pub type Shared = Rc<RefCell<Page>>;

/// A turn of a wheel in CSS pixels that is one step; smaller ones add up (common practice, no source).
const TURN: f64 = 40.0;

/// Has a function called at every event of a name, for as long as the page lives.
pub fn on<E: JsCast>(
    target: &EventTarget,
    name: &str,
    mut then: impl FnMut(E) + 'static,
) -> Result<(), JsValue> {
    let listener = Closure::<dyn FnMut(Event)>::new(move |event: Event| {
        if let Ok(event) = event.dyn_into() {
            then(event);
        }
    });
    target.add_event_listener_with_callback(name, listener.as_ref().unchecked_ref())?;
    listener.forget();
    Ok(())
}

/// Does something with the page, unless it is just doing something else.
fn with(page: &Shared, what: impl FnOnce(&mut Page)) {
    if let Ok(mut page) = page.try_borrow_mut() {
        what(&mut page);
    }
}

/// Listens to everything.
///
/// # Errors
/// When the browser refuses a listener, or an element is missing.
pub fn listen(window: &Window, page: &Shared) -> Result<(), JsValue> {
    let document = window
        .document()
        .ok_or_else(|| JsValue::from_str("no document"))?;
    let canvas: HtmlCanvasElement = element(&document, "screen")?;
    let field: EventTarget = element(&document, "field")?;
    keyboard(&document, page)?;
    pointer(&canvas, page)?;
    let shared = page.clone();
    on(&field, "input", move |_: Event| with(&shared, Page::typed))?;
    let words: EventTarget = element(&document, "words")?;
    let shared = page.clone();
    on(&words, "click", move |event: Event| {
        let button = event.target().and_then(|t| t.dyn_into::<Element>().ok());
        if let Some(button) = button {
            with(&shared, |page| page.choose(&button));
        }
    })?;
    let shared = page.clone();
    on(window, "resize", move |_: Event| {
        with(&shared, Page::fit_if_changed);
    })?;
    if let Some(seen) = window.visual_viewport() {
        let shared = page.clone();
        on(&seen, "resize", move |_: Event| {
            with(&shared, Page::fit_if_changed);
        })?;
    }
    for query in ["(prefers-color-scheme: light)", "(pointer: coarse)"] {
        if let Some(media) = window.match_media(query)? {
            let shared = page.clone();
            on(&media, "change", move |_: Event| {
                with(&shared, Page::fit_if_changed);
            })?;
        }
    }
    // Letters may have grown while another tab was in front.
    let shared = page.clone();
    on(&document, "visibilitychange", move |_: Event| {
        with(&shared, Page::fit_if_changed);
    })
}

fn keyboard(document: &EventTarget, page: &Shared) -> Result<(), JsValue> {
    let shared = page.clone();
    on(document, "keydown", move |event: KeyboardEvent| {
        let order = event.ctrl_key() || event.meta_key() || event.alt_key();
        let composing = event.is_composing();
        let ours = !elsewhere(&event);
        let Some(key) = key(&event.key(), order).filter(|_| ours && !composing) else {
            return;
        };
        with(&shared, |page| {
            // Letters go into the field and come from there, as a phone's do.
            if page.writes() && matches!(key, Key::Char(_) | Key::Backspace) {
                return;
            }
            if page.key(key) {
                event.prevent_default();
            }
        });
    })?;
    let shared = page.clone();
    on(document, "paste", move |event: ClipboardEvent| {
        if elsewhere(&event) {
            return;
        }
        let text = event.clipboard_data().and_then(|d| d.get_data("text").ok());
        if let Some(text) = text {
            event.prevent_default();
            with(&shared, |page| page.handle(Input::Paste(text)));
        }
    })
}

/// True for what was meant for a button or the menu.
fn elsewhere(event: &Event) -> bool {
    let target = event.target().and_then(|t| t.dyn_into::<Element>().ok());
    let within = target.map(|t| t.closest("button, dialog"));
    matches!(within, Some(Ok(Some(_))))
}

fn pointer(canvas: &HtmlCanvasElement, page: &Shared) -> Result<(), JsValue> {
    let shared = page.clone();
    on(canvas, "click", move |event: MouseEvent| {
        with(&shared, |page| {
            page.tap(f64::from(event.offset_x()), f64::from(event.offset_y()));
        });
    })?;
    let (shared, mut turned) = (page.clone(), 0.0);
    on(canvas, "wheel", move |event: WheelEvent| {
        turned += match event.delta_mode() {
            WheelEvent::DOM_DELTA_LINE => event.delta_y() * TURN,
            _ => event.delta_y(),
        };
        with(&shared, |page| turn(page, &mut turned, TURN));
    })?;
    // A finger that is drawn over the canvas takes the text with it.
    let drawn: Rc<RefCell<Option<(i32, f64, f64)>>> = Rc::default();
    let from = drawn.clone();
    on(canvas, "pointerdown", move |event: PointerEvent| {
        let finger = event.pointer_type() != "mouse" && event.is_primary();
        *from.borrow_mut() = finger.then(|| (event.pointer_id(), f64::from(event.client_y()), 0.0));
    })?;
    let (shared, from) = (page.clone(), drawn.clone());
    on(canvas, "pointermove", move |event: PointerEvent| {
        let mut from = from.borrow_mut();
        let Some((id, y, moved)) = from.as_mut() else {
            return;
        };
        if *id == event.pointer_id() {
            *moved += *y - f64::from(event.client_y());
            *y = f64::from(event.client_y());
            with(&shared, |page| {
                let row = page.row();
                turn(page, moved, row);
            });
        }
    })?;
    for end in ["pointerup", "pointercancel"] {
        let from = drawn.clone();
        on(canvas, end, move |_: PointerEvent| {
            from.borrow_mut().take();
        })?;
    }
    Ok(())
}

/// Hands on whole steps of a way; what is left of it stays.
fn turn(page: &mut Page, way: &mut f64, step: f64) {
    while way.abs() >= step {
        let down = *way > 0.0;
        *way -= if down { step } else { -step };
        page.handle(Input::Wheel { down });
    }
}
