//! Output that can't command the terminal or a page: control characters and those that turn the
//! direction of writing, in texts, rules and file names, come out as U+FFFD. Every command writes
//! through here, so none has to think of it.

use std::io::{Result, Write};

use crate::piece::notation::commands;

const INSTEAD: &[u8] = "\u{fffd}".as_bytes();

/// A writer that lets lines and tabs through, but nothing else that commands.
pub(super) struct Clean<'a> {
    out: &'a mut dyn Write,
    /// The beginning of a character that may command, waiting for the byte that tells.
    held: Vec<u8>,
}

impl<'a> Clean<'a> {
    pub(super) fn new(out: &'a mut dyn Write) -> Clean<'a> {
        Clean {
            out,
            held: Vec::new(),
        }
    }
}

/// True for bytes that one more byte can make into a character that commands: U+0080 to U+009F,
/// U+202A to U+202E, U+2066 to U+2069.
fn begins(bytes: &[u8]) -> bool {
    matches!(bytes, [0xc2] | [0xe2] | [0xe2, 0x80 | 0x81])
}

impl Write for Clean<'_> {
    fn write(&mut self, bytes: &[u8]) -> Result<usize> {
        let mut clean = Vec::with_capacity(bytes.len());
        for &byte in bytes {
            self.held.push(byte);
            if begins(&self.held) {
                continue;
            }
            let whole = std::str::from_utf8(&self.held);
            let commanding = whole.is_ok_and(|s| s.chars().all(|c| commands(c) && !passes(c)));
            if commanding {
                clean.extend(INSTEAD);
                self.held.clear();
                continue;
            }
            // What was held commands nothing; the last byte may begin anew.
            self.held.pop();
            clean.append(&mut self.held);
            self.held.push(byte);
            if !begins(&self.held) {
                clean.append(&mut self.held);
            }
        }
        self.out.write_all(&clean)?;
        Ok(bytes.len())
    }

    fn flush(&mut self) -> Result<()> {
        self.out.flush()
    }
}

/// Ends of lines and tabs.
fn passes(c: char) -> bool {
    c == '\n' || c == '\t'
}

/// A whole text as it may be written into a file that people open.
pub(super) fn cleaned(text: &str) -> String {
    let clean = |c| match commands(c) && !passes(c) {
        true => '\u{fffd}',
        false => c,
    };
    text.chars().map(clean).collect()
}

#[cfg(test)]
mod tests {
    use super::{Clean, cleaned};
    use std::io::Write;

    #[test]
    fn what_commands_comes_out_as_a_question_and_all_else_as_it_was() {
        let texts = [
            ("plain, line\nby\tline", "plain, line\nby\tline"),
            ("\u{1b}[31m \u{9b}2J", "\u{fffd}[31m \u{fffd}2J"),
            ("a\u{202e}b\u{2069}", "a\u{fffd}b\u{fffd}"),
            (
                "§ é – “ ” … ▁█ 青花 \u{200d}",
                "§ é – “ ” … ▁█ 青花 \u{200d}",
            ),
            ("\u{a0}\u{2030}\u{2065}", "\u{a0}\u{2030}\u{2065}"),
        ];
        for (text, wanted) in texts {
            assert_eq!(cleaned(text), wanted);
            // However the bytes come.
            for at_once in [1, 2, 3, 64] {
                let mut out = Vec::new();
                let mut clean = Clean::new(&mut out);
                for part in text.as_bytes().chunks(at_once) {
                    clean.write_all(part).unwrap();
                }
                assert_eq!(
                    String::from_utf8(out).unwrap(),
                    wanted,
                    "{at_once} bytes at once"
                );
            }
        }
    }
}
