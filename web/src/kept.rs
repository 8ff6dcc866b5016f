//! What the page keeps in the browser's own storage: texts by name, on this device alone.

use web_sys::{Storage, Window};

/// The browser's storage; where it refuses one, nothing is kept and nothing is found.
#[derive(Clone)]
pub struct Kept(Option<Storage>);

/// All names begin so: other pages of the same server have names too.
const OURS: &str = "printseam.";

impl Kept {
    pub fn of(window: &Window) -> Kept {
        Kept(window.local_storage().ok().flatten())
    }

    /// The text of this name.
    pub fn get(&self, name: &str) -> Option<String> {
        let storage = self.0.as_ref()?;
        storage.get_item(&format!("{OURS}{name}")).ok().flatten()
    }

    /// Keeps a text in place of the one there; false when there is no room for it.
    pub fn set(&self, name: &str, text: &str) -> bool {
        let storage = self.0.as_ref();
        storage.is_some_and(|s| s.set_item(&format!("{OURS}{name}"), text).is_ok())
    }

    /// Forgets it.
    pub fn forget(&self, name: &str) {
        if let Some(storage) = &self.0 {
            // What can't be taken out was not there.
            let _ = storage.remove_item(&format!("{OURS}{name}"));
        }
    }
}
