//! Output that can't command the terminal: control characters in texts, rules and file names come
//! out as U+FFFD. Every command writes through here, so none has to think of it.

use std::io::{Result, Write};

const INSTEAD: &[u8] = "\u{fffd}".as_bytes();

/// First byte of the UTF-8 form of the control characters U+0080 to U+009F (and of others).
const LEAD: u8 = 0xc2;

/// A writer that lets lines and tabs through, but no other control character.
pub(super) struct Clean<'a> {
    out: &'a mut dyn Write,
    /// `LEAD` came last and waits for the byte that tells what it belongs to.
    held: bool,
}

impl<'a> Clean<'a> {
    pub(super) fn new(out: &'a mut dyn Write) -> Clean<'a> {
        Clean { out, held: false }
    }
}

impl Write for Clean<'_> {
    fn write(&mut self, bytes: &[u8]) -> Result<usize> {
        let mut clean = Vec::with_capacity(bytes.len());
        for &byte in bytes {
            if std::mem::take(&mut self.held) {
                if (0x80..=0x9f).contains(&byte) {
                    clean.extend(INSTEAD);
                    continue;
                }
                clean.push(LEAD);
            }
            match byte {
                LEAD => self.held = true,
                b'\n' | b'\t' | b' '..=0x7e | 0x80.. => clean.push(byte),
                _ => clean.extend(INSTEAD),
            }
        }
        self.out.write_all(&clean)?;
        Ok(bytes.len())
    }

    fn flush(&mut self) -> Result<()> {
        self.out.flush()
    }
}
