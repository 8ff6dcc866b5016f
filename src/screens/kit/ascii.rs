//! A frame for a terminal that knows no letters but ASCII: every other one is put by the nearest, one
//! cell for one, so that nothing moves.

use ratatui::buffer::Buffer;

/// Letters a terminal can show.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Letters {
    /// UTF-8.
    #[default]
    All,
    Ascii,
}

/// So many of a braille sign's eight dots, as dark as they are together (common practice, no source).
const DOTS: [char; 9] = [' ', '.', '.', ':', ':', '+', '+', '#', '#'];

/// Puts every cell in ASCII.
pub fn spell(frame: &mut Buffer) {
    for cell in &mut frame.content {
        let symbol = cell.symbol();
        if !symbol.is_ascii() {
            let first = symbol.chars().next().map_or(' ', nearest);
            cell.set_char(first);
        }
    }
}

/// The ASCII letter that looks most like it; a question mark for what nothing looks like.
fn nearest(letter: char) -> char {
    match letter {
        c if c.is_ascii() => c,
        '─' | '━' | '═' | '–' | '—' | '╌' | '┄' => '-',
        '│' | '┃' | '║' | '┊' | '┆' | '╎' => '|',
        '┌' | '┐' | '└' | '┘' | '├' | '┤' | '┬' | '┴' | '┼' | '╞' | '╡' | '╭' | '╮' | '╰' | '╯' => {
            '+'
        }
        '╱' => '/',
        '╲' => '\\',
        // Heights and shades, the darker the fuller.
        '█' | '▇' | '▓' => '#',
        '▆' | '▅' => '=',
        '▄' | '▃' | '▒' => '-',
        '▂' | '▁' | '░' | '·' | '…' => '.',
        // A picture's dots, the darker the more of them.
        c @ '\u{2800}'..='\u{28ff}' => DOTS[(c as u32 - 0x2800).count_ones() as usize],
        '●' | '○' | '◦' => 'o',
        '•' | '✓' | '★' | '◆' => '*',
        '≠' => '!',
        '×' => 'x',
        '↑' | '▲' => '^',
        '↓' | '▼' => 'v',
        '←' | '◀' => '<',
        '→' | '▶' => '>',
        '’' | '‘' => '\'',
        '“' | '”' => '"',
        '\u{a0}' => ' ',
        'é' | 'è' | 'ê' => 'e',
        'á' | 'à' | 'ä' | 'â' => 'a',
        'ö' | 'ó' | 'ô' => 'o',
        'ü' | 'ú' | 'û' => 'u',
        'ç' => 'c',
        'ß' => 's',
        _ => '?',
    }
}

#[cfg(test)]
mod tests {
    use super::spell;
    use ratatui::buffer::Buffer;

    #[test]
    fn every_cell_is_ascii_and_none_moves() {
        let mut frame = Buffer::with_lines(["┌ What if? ─┐", "│▁▃▅█ 80 % ▼│", "青花 É … ok"]);
        let width = frame.area.width;
        spell(&mut frame);
        assert_eq!(frame.area.width, width);
        let rows: Vec<String> = frame
            .content
            .chunks(usize::from(width))
            .map(|row| row.iter().map(|cell| cell.symbol()).collect())
            .collect();
        assert!(rows.concat().is_ascii(), "{rows:?}");
        assert_eq!(rows[0], "+ What if? -+");
        assert_eq!(rows[1], "|.-=# 80 % v|");
        assert!(rows[2].ends_with(". ok  "), "{rows:?}");
    }

    #[test]
    fn a_picture_is_darker_where_it_has_more_dots() {
        let mut frame = Buffer::with_lines(["\u{2800}⠁⠇⠷⣿"]);
        spell(&mut frame);
        let row: String = frame.content.iter().map(|cell| cell.symbol()).collect();
        assert_eq!(row, " .:+#");
    }
}
