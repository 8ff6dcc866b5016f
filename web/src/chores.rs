//! What the page's menu does: files out and in, what is kept, colours. The browser's own part of it, to
//! choose a file and to offer one, is in `page/menu.js`.

use std::sync::Arc;

use printseam::internals::piece::intake::{self, Taken};
use printseam::internals::piece::sighting_file;
use printseam::internals::report::json;
use printseam::internals::screens::app::App;
use printseam::internals::screens::theme::Theme;
use printseam::internals::stock::entry::Entry;
use printseam::internals::stock::incoming::plan;
use printseam::internals::stock::store::{Change, Store, Trouble};
use printseam::internals::stock::{file, objects, table};
use printseam::{Expert, Piece, SourceFile};

/// A piece read from a file, with what was made of it.
pub struct Opened {
    pub app: App,
    pub taken: Taken,
}

/// Opens a sighting file, as `printseam FILE` does.
///
/// # Errors
/// One sentence: what is wrong with it, and where.
pub fn open(expert: &Arc<Expert>, theme: Theme, name: &str, text: &str) -> Result<Opened, String> {
    let file = SourceFile {
        name: name.to_owned(),
        text: text.to_owned(),
    };
    let sighting =
        sighting_file::read(&expert.base, &file).map_err(|problem| problem.to_string())?;
    let told = intake::Told {
        sighting: Some(&sighting),
        ..intake::Told::default()
    };
    let taken = intake::intake(expert, &told).map_err(|e| e.to_string())?;
    let setting = sighting.setting.unwrap_or_default();
    let app = App::of_file(expert.clone(), theme, setting, &taken);
    Ok(Opened { app, taken })
}

/// The verdict as `judge --json` gives it, with what was told where the piece came from a file.
pub fn verdict(piece: &Piece, taken: Option<&Taken>) -> String {
    let same = taken.filter(|t| t.evidence == *piece.evidence());
    let nothing = Taken::default();
    json::judged(piece, same.unwrap_or(&nothing)).to_string()
}

/// Everything in the book that was not removed, as a table or as objects.
///
/// # Errors
/// The book's.
pub fn export(book: &mut dyn Store, as_table: bool) -> Result<String, Trouble> {
    let held = book.all()?.into_iter().filter(|h| h.removed_on.is_none());
    let entries: Vec<Entry> = held.map(|h| h.entry).collect();
    Ok(match as_table {
        true => table::write(&entries),
        false => objects::write(&entries),
    })
}

/// Takes in what the book has not yet; says how it went. With a bad row, or a piece the book has in
/// another way, nothing of the file is taken.
///
/// # Errors
/// One sentence: why nothing was taken.
pub fn import(expert: &Arc<Expert>, book: &mut dyn Store, bytes: &[u8]) -> Result<String, String> {
    let nothing = |why: String| format!("Nothing was taken in: {why}.");
    let rows = file::read(bytes).map_err(|problems| nothing(problems.join("; ")))?;
    let held = book.all().map_err(|e| nothing(e.to_string()))?;
    let plan = plan(expert, rows, held);
    if let Some((place, problems)) = plan.bad.first() {
        return Err(nothing(format!("{place}: {}", problems.join("; "))));
    }
    if let Some(other) = plan.conflicts.first() {
        let (place, id) = (&other.place, &other.entry.id);
        let why = format!("{place} tells piece {id} otherwise than the stock book");
        return Err(nothing(why));
    }
    let (new, same) = (plan.new.len(), plan.same);
    let changes = plan.new.into_iter().map(Change::New).collect();
    book.write(changes).map_err(|e| nothing(e.to_string()))?;
    Ok(format!("Taken in: {new}; {same} were there already."))
}

#[cfg(test)]
mod tests {
    use super::{export, import, open, verdict};
    use printseam::internals::screens::theme::Theme;
    use printseam::internals::stock::entry::Entry;
    use printseam::internals::stock::id::EntryId;
    use printseam::internals::stock::memory::Memory;
    use printseam::internals::stock::store::{Change, Store};
    use printseam::{Expert, Year};
    use std::sync::Arc;

    #[test]
    fn a_book_goes_out_and_comes_in_the_same_and_only_once() {
        let expert = Arc::new(Expert::shipped(Year(2026)).unwrap());
        let mut book = Memory::new();
        let entry = Entry {
            id: EntryId::from_bits(7),
            quantity: 1,
            title: "=Willow; \"chipped\"".to_owned(),
            ..Entry::default()
        };
        book.write(vec![Change::New(entry)]).unwrap();
        for as_table in [true, false] {
            let text = export(&mut book, as_table).unwrap();
            let mut other = Memory::new();
            let said = import(&expert, &mut other, text.as_bytes()).unwrap();
            assert_eq!(said, "Taken in: 1; 0 were there already.");
            assert_eq!(other.all().unwrap(), book.all().unwrap());
            let said = import(&expert, &mut other, text.as_bytes()).unwrap();
            assert_eq!(said, "Taken in: 0; 1 were there already.");
        }
        let bad = import(&expert, &mut book, b"{\"format\":2}").unwrap_err();
        assert!(bad.starts_with("Nothing was taken in: format 2"), "{bad}");
    }

    #[test]
    fn what_a_file_told_is_in_the_verdict_until_something_else_is_seen() {
        let expert = Arc::new(Expert::shipped(Year(2026)).unwrap());
        let text = "(format: 1, notes: \"dark blue willow\", saw: [\"edge=clouded\"])";
        let opened = open(&expert, Theme::mono(), "a.ron", text).unwrap();
        let piece = opened.app.piece();
        assert!(verdict(piece, Some(&opened.taken)).contains("\"text\":\"willow\""));
        let other = piece.without(piece.evidence().observations()[0].clue);
        assert!(!verdict(&other, Some(&opened.taken)).contains("\"text\":\"willow\""));
        assert!(open(&expert, Theme::mono(), "a.ron", "(format: 1").is_err());
    }
}
