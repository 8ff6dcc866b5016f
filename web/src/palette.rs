//! Colours of the page. The screens name roles; what the browser paints them with stands here.

use ratatui::style::{Color, Modifier};

/// Red, green and blue.
pub type Rgb = [u8; 3];

/// What faint text keeps of its colour; the rest is the ground's (common practice, no source; contrast is
/// tested below).
const FAINT: f64 = 0.72;

/// Paper and ink.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Palette {
    pub ground: Rgb,
    pub ink: Rgb,
}

impl Palette {
    pub const DARK: Palette = Palette {
        ground: [0x10, 0x13, 0x16],
        ink: [0xec, 0xea, 0xe6],
    };
    pub const LIGHT: Palette = Palette {
        ground: [0xff, 0xff, 0xff],
        ink: [0x1a, 0x1a, 0x1a],
    };

    /// What a cell is painted with: ground, then ink.
    pub fn of(&self, fg: Color, bg: Color, modifier: Modifier) -> (Rgb, Rgb) {
        let (mut ink, mut ground) = (rgb(fg).unwrap_or(self.ink), rgb(bg).unwrap_or(self.ground));
        if modifier.contains(Modifier::DIM) {
            ink = mixed(ink, ground, FAINT);
        }
        if modifier.contains(Modifier::REVERSED) {
            std::mem::swap(&mut ink, &mut ground);
        }
        (ground, ink)
    }
}

/// So much of the first, the rest of the second.
pub fn mixed(first: Rgb, second: Rgb, share: f64) -> Rgb {
    let channel = |i: usize| {
        let mix = share * f64::from(first[i]) + (1.0 - share) * f64::from(second[i]);
        mix.round() as u8
    };
    [channel(0), channel(1), channel(2)]
}

/// As CSS writes it.
pub fn css([r, g, b]: Rgb) -> String {
    format!("#{r:02x}{g:02x}{b:02x}")
}

/// The colour named, where it is no wish for the usual one. The values of the sixteen are xterm's, from
/// memory; the themes of the page use none of them but white and black.
fn rgb(colour: Color) -> Option<Rgb> {
    Some(match colour {
        Color::Rgb(r, g, b) => [r, g, b],
        Color::Black => [0, 0, 0],
        Color::Red => [205, 0, 0],
        Color::Green => [0, 205, 0],
        Color::Yellow => [205, 205, 0],
        Color::Blue => [0, 0, 238],
        Color::Magenta => [205, 0, 205],
        Color::Cyan => [0, 205, 205],
        Color::Gray => [229, 229, 229],
        Color::White => [255, 255, 255],
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::{Palette, Rgb};
    use printseam::internals::screens::theme::Theme;
    use ratatui::style::{Color, Modifier};

    /// Contrast (W3C, WCAG 2.1).
    fn contrast(a: Rgb, b: Rgb) -> f64 {
        let luminance = |c: Rgb| {
            let linear = |c: u8| match f64::from(c) / 255.0 {
                c if c <= 0.04045 => c / 12.92,
                c => ((c + 0.055) / 1.055).powf(2.4),
            };
            0.2126 * linear(c[0]) + 0.7152 * linear(c[1]) + 0.0722 * linear(c[2])
        };
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn every_role_stands_out_from_the_ground() {
        let themes = [
            (Palette::DARK, Theme::okabe_ito()),
            (Palette::LIGHT, Theme::okabe_ito_on_light()),
        ];
        for (palette, theme) in themes {
            for style in [
                theme.heading,
                theme.instruction,
                theme.quiet,
                theme.key,
                theme.chosen,
                theme.bar,
                theme.band,
                theme.era,
                theme.caution,
                theme.word,
            ] {
                let fg = style.fg.unwrap_or(Color::Reset);
                for reversed in [Modifier::empty(), Modifier::REVERSED] {
                    let modifier = style.add_modifier | reversed;
                    let (ground, ink) = palette.of(fg, Color::Reset, modifier);
                    assert!(contrast(ground, ink) >= 4.5, "{palette:?} {style:?}");
                }
            }
        }
    }
}
