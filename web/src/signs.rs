//! Signs that are drawn as rectangles and not as letters: bars, shades, lines and dots must meet those
//! of the next cell, which the letters of a font do only at the row height it was made for.

/// A rectangle within a cell, in shares of its width and height: left, top, right, bottom.
pub type Part = [f64; 4];

/// Half the thickness of a line, in shares of a cell's width (common practice, no source).
const THIN: f64 = 0.07;

/// Signs made of lines: the arms that go left, right, up and down.
const LINES: [(char, [bool; 4]); 11] = [
    ('─', [true, true, false, false]),
    ('│', [false, false, true, true]),
    ('┌', [false, true, false, true]),
    ('┐', [true, false, false, true]),
    ('└', [false, true, true, false]),
    ('┘', [true, false, true, false]),
    ('├', [false, true, true, true]),
    ('┤', [true, false, true, true]),
    ('┬', [true, true, false, true]),
    ('┴', [true, true, true, false]),
    ('┼', [true, true, true, true]),
];

/// Bits of the dots of a braille sign, column by column (Unicode, Braille Patterns).
const DOTS: [[u32; 4]; 2] = [[0x01, 0x02, 0x04, 0x40], [0x08, 0x10, 0x20, 0x80]];

/// The rectangles of a sign and how much of the ink covers them; `None` = a letter. `shape`: the
/// height of a cell over its width.
pub fn parts(sign: char, shape: f64) -> Option<(Vec<Part>, f64)> {
    let whole = [0.0, 0.0, 1.0, 1.0];
    Some(match sign {
        ' ' => (Vec::new(), 1.0),
        '█' => (vec![whole], 1.0),
        '▀' => (vec![[0.0, 0.0, 1.0, 0.5]], 1.0),
        // Lower eighths.
        '▁'..='▇' => {
            let eighths = f64::from(sign as u32 - '▁' as u32 + 1);
            (vec![[0.0, 1.0 - eighths / 8.0, 1.0, 1.0]], 1.0)
        }
        '░' => (vec![whole], 0.25),
        '▒' => (vec![whole], 0.5),
        '▓' => (vec![whole], 0.75),
        '\u{2800}'..='\u{28ff}' => (dots(sign as u32 - 0x2800), 1.0),
        _ => {
            let (_, arms) = LINES.iter().find(|(line, _)| *line == sign)?;
            (lines(*arms, shape), 1.0)
        }
    })
}

fn lines([left, right, up, down]: [bool; 4], shape: f64) -> Vec<Part> {
    let (across, along) = (THIN, THIN / shape);
    let mut out = Vec::new();
    if left || right {
        let from = if left { 0.0 } else { 0.5 - across };
        let to = if right { 1.0 } else { 0.5 + across };
        out.push([from, 0.5 - along, to, 0.5 + along]);
    }
    if up || down {
        let from = if up { 0.0 } else { 0.5 - along };
        let to = if down { 1.0 } else { 0.5 + along };
        out.push([0.5 - across, from, 0.5 + across, to]);
    }
    out
}

/// Dots as the eight parts of a cell: pictures have no gaps then.
fn dots(bits: u32) -> Vec<Part> {
    let mut out = Vec::new();
    for (column, bit_rows) in DOTS.iter().enumerate() {
        for (row, bit) in bit_rows.iter().enumerate() {
            if bits & bit != 0 {
                let (x, y) = (column as f64 / 2.0, row as f64 / 4.0);
                out.push([x, y, x + 0.5, y + 0.25]);
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::parts;

    /// Share of the cell that a sign covers.
    fn covered(sign: char) -> f64 {
        let (parts, _) = parts(sign, 2.0).unwrap();
        parts.iter().map(|[l, t, r, b]| (r - l) * (b - t)).sum()
    }

    #[test]
    fn signs_cover_what_their_names_say() {
        assert_eq!(covered(' '), 0.0);
        for (eighths, sign) in "▁▂▃▄▅▆▇█".chars().enumerate() {
            assert!(
                (covered(sign) - (eighths + 1) as f64 / 8.0).abs() < 1e-9,
                "{sign}"
            );
        }
        for bits in 0..256_u32 {
            let sign = char::from_u32(0x2800 + bits).unwrap();
            assert_eq!(covered(sign), f64::from(bits.count_ones()) / 8.0, "{sign}");
        }
        assert_eq!(parts('a', 2.0), None);
    }

    #[test]
    fn lines_reach_the_edge_they_go_to_and_no_other() {
        for (sign, edges) in [
            ('─', [1, 0, 1, 0]),
            ('│', [0, 1, 0, 1]),
            ('┌', [0, 0, 1, 1]),
            ('┤', [1, 1, 0, 1]),
        ] {
            let (parts, _) = parts(sign, 2.0).unwrap();
            let reached = |edge: usize, at: f64| parts.iter().any(|p| p[edge] == at);
            let all = [
                reached(0, 0.0),
                reached(1, 0.0),
                reached(2, 1.0),
                reached(3, 1.0),
            ];
            assert_eq!(all.map(u8::from), edges, "{sign}");
        }
    }
}
