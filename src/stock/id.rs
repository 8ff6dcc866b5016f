//! Names of entries: ten letters and figures, random enough to be nobody else's on any machine.

use std::fmt;

/// Letters and figures that are not taken for one another when written on a ticket.
const ALPHABET: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";

/// Ten times five bits: of a million entries on all machines two are named alike in one case of two
/// thousand (n² / 2⁵¹), and a book refuses the second.
const LENGTH: usize = 10;

/// Shortest beginning that names an entry (common practice, no source).
const SHORTEST: usize = 3;

/// The name of one entry.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EntryId(String);

impl EntryId {
    /// From fifty of the bits handed in.
    pub fn from_bits(bits: u64) -> EntryId {
        let letter = |i: usize| char::from(ALPHABET[((bits >> (5 * i)) & 31) as usize]);
        EntryId((0..LENGTH).map(letter).collect())
    }

    /// The name of a row that has none, from all it holds (FNV-1a, 64 bits): the same row gets the
    /// same name however often it is read. `times`: how often it stood in the file before.
    pub fn from_text(text: &str, times: usize) -> EntryId {
        let bytes = text.bytes().chain(times.to_le_bytes());
        let hash = bytes.fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
            (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
        });
        EntryId::from_bits(hash ^ (hash >> 32))
    }

    /// Reads a whole name.
    pub fn read(text: &str) -> Option<EntryId> {
        let whole = text.len() == LENGTH && text.bytes().all(|b| ALPHABET.contains(&b));
        whole.then(|| EntryId(text.to_owned()))
    }

    /// Reads what a person types: a whole name or a beginning long enough to mean something.
    ///
    /// # Errors
    /// One line when no entry can be meant.
    pub fn beginning(typed: &str) -> Result<String, String> {
        let typed = typed.trim().to_ascii_lowercase();
        let fits = (SHORTEST..=LENGTH).contains(&typed.len())
            && typed.bytes().all(|b| ALPHABET.contains(&b));
        fits.then_some(typed.clone()).ok_or_else(|| {
            format!(
                "'{}' names no piece: write its id, or at least the first {SHORTEST} letters of it; printseam stock list shows them",
                crate::piece::notation::printable(&typed)
            )
        })
    }

    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for EntryId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::EntryId;

    #[test]
    fn a_name_is_read_back_and_differs_by_every_bit_used() {
        let ids: Vec<EntryId> = (0..50).map(|i| EntryId::from_bits(1 << i)).collect();
        for (i, id) in ids.iter().enumerate() {
            assert_eq!(EntryId::read(id.as_str()).as_ref(), Some(id));
            assert!(!ids[..i].contains(id));
        }
        assert_eq!(EntryId::read("short"), None);
        assert_eq!(EntryId::read("ABCDEFGHJK"), None);
        assert!(EntryId::beginning("ab").is_err());
        assert_eq!(EntryId::beginning(" ABc").unwrap(), "abc");
    }

    #[test]
    fn a_row_is_named_by_what_it_holds() {
        assert_eq!(EntryId::from_text("a", 0), EntryId::from_text("a", 0));
        assert_ne!(EntryId::from_text("a", 0), EntryId::from_text("a", 1));
        assert_ne!(EntryId::from_text("a", 0), EntryId::from_text("b", 0));
    }
}
