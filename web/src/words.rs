//! The screens in words: headings, sentences and buttons made from what the frame says, for those who
//! hear a page, and for letters of any size. What is new is said at once; the rest is found by reading.

use printseam::internals::screens::kit::said::Said;
use printseam::internals::screens::state::msg::Msg;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Document, Element, HtmlElement};

/// Names the place of a button among all that is said.
const PLACE: &str = "data-place";

/// The part of the page that has the words, and what stands in it.
pub struct Words {
    document: Document,
    list: HtmlElement,
    /// Read out as soon as it changes.
    news: Element,
    shown: Vec<Said>,
}

impl Words {
    pub fn new(document: Document, list: HtmlElement, news: Element) -> Words {
        Words {
            document,
            list,
            news,
            shown: Vec::new(),
        }
    }

    /// What choosing the button at this place means.
    pub fn chosen(&self, button: &Element) -> Option<Msg> {
        self.msg(button.get_attribute(PLACE)?.parse().ok()?)
    }

    /// The same by its place.
    pub fn msg(&self, place: usize) -> Option<Msg> {
        self.shown.get(place)?.msg
    }

    /// Shows this, and says the notice. Whoever reads here, `reads`, goes on at what is new.
    pub fn show(&mut self, said: Vec<Said>, notice: &str, reads: bool) -> Result<(), JsValue> {
        if said != self.shown {
            let asked = heading(&said) != heading(&self.shown);
            self.shown = said;
            self.write()?;
            if reads {
                self.read_on(asked)?;
            }
        }
        if self.news.text_content().as_deref() != Some(notice) {
            self.news.set_text_content(Some(notice));
        }
        Ok(())
    }

    /// The focus goes to what is new: the heading, or the item the cursor is on.
    pub fn read_on(&self, asked: bool) -> Result<(), JsValue> {
        let marked = self.list.query_selector("[aria-current]")?;
        let to = match marked {
            Some(marked) if !asked => Some(marked),
            _ => self.list.query_selector("#asked")?,
        };
        if let Some(to) = to {
            to.unchecked_into::<HtmlElement>().focus()?;
        }
        Ok(())
    }

    fn write(&self) -> Result<(), JsValue> {
        self.list.set_text_content(None);
        let mut items: Option<Element> = None;
        let asked = heading(&self.shown);
        for (place, said) in self.shown.iter().enumerate() {
            if said.msg.is_none() {
                items = None;
                let heading = asked == Some((place, said.text.as_str()));
                let name = if said.heading { "h2" } else { "p" };
                let line = self.document.create_element(name)?;
                line.set_text_content(Some(&said.text));
                if heading {
                    line.set_id("asked");
                    line.set_attribute("tabindex", "-1")?;
                }
                self.list.append_child(&line)?;
                continue;
            }
            let list = match &items {
                Some(list) => list.clone(),
                None => {
                    let list = self.document.create_element("ul")?;
                    self.list.append_child(&list)?;
                    items.insert(list).clone()
                }
            };
            let item = self.document.create_element("li")?;
            let button = self.document.create_element("button")?;
            button.set_text_content(Some(&said.text));
            button.set_attribute("type", "button")?;
            button.set_attribute(PLACE, &place.to_string())?;
            if said.chosen {
                button.set_attribute("aria-current", "true")?;
            }
            item.append_child(&button)?;
            list.append_child(&item)?;
        }
        Ok(())
    }
}

/// What is asked or shown: the second heading, below the line that says how far one has come, or that
/// line itself.
fn heading(said: &[Said]) -> Option<(usize, &str)> {
    let mut headings = said.iter().enumerate().filter(|(_, s)| s.heading);
    let first = headings.next()?;
    let (place, said) = headings.next().unwrap_or(first);
    Some((place, &said.text))
}
