//! Roles and their styles. Colour only repeats what a sign or a word already says, so `mono`
//! loses nothing.

use ratatui::style::{Color, Modifier, Style};

/// One style for each role on the screens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Theme {
    /// The question, headings.
    pub heading: Style,
    /// How to look, what to type, what a key does: never fainter than what it is about.
    pub instruction: Style,
    /// Explanations beside the main text.
    pub quiet: Style,
    /// A key that can be pressed or tapped.
    pub key: Style,
    /// The line the cursor is on.
    pub chosen: Style,
    /// Bars and the year curve.
    pub bar: Style,
    /// The band and the middle year.
    pub band: Style,
    /// Eras of the findings.
    pub era: Style,
    /// What to be careful about.
    pub caution: Style,
    /// Laid over a trade word that the glossary explains.
    pub word: Style,
}

impl Theme {
    /// Without any colour, for `NO_COLOR` and for those who like it so.
    pub const fn mono() -> Theme {
        let plain = Style::new();
        Theme {
            heading: plain.add_modifier(Modifier::BOLD),
            instruction: plain,
            quiet: plain,
            key: plain.add_modifier(Modifier::BOLD),
            chosen: plain.add_modifier(Modifier::REVERSED),
            bar: plain,
            band: plain.add_modifier(Modifier::BOLD),
            era: plain,
            caution: plain.add_modifier(Modifier::BOLD),
            word: plain.add_modifier(Modifier::UNDERLINED),
        }
    }

    /// The sixteen colours every terminal has, as its owner has set them.
    pub const fn sixteen() -> Theme {
        Theme::coloured(Color::Cyan, Color::Cyan, Color::Magenta, Color::Magenta)
    }

    /// Colours that stay apart for colour-blind eyes (Okabe and Ito, "Color universal design",
    /// 2008; values from memory): sky blue, orange, reddish purple. For dark backgrounds.
    pub const fn okabe_ito() -> Theme {
        Theme::coloured(
            Color::Rgb(0x56, 0xb4, 0xe9),
            Color::Rgb(0x56, 0xb4, 0xe9),
            Color::Rgb(0xe6, 0x9f, 0x00),
            Color::Rgb(0xe6, 0x9f, 0x00),
        )
    }

    /// The same for light backgrounds: the palette's blue, and its vermilion made darker until it can
    /// be read.
    pub const fn okabe_ito_on_light() -> Theme {
        Theme::coloured(
            Color::Rgb(0x00, 0x72, 0xb2),
            Color::Rgb(0x00, 0x72, 0xb2),
            Color::Rgb(0xb8, 0x4e, 0x00),
            Color::Rgb(0xb8, 0x4e, 0x00),
        )
    }

    const fn coloured(key: Color, bar: Color, band: Color, caution: Color) -> Theme {
        let mono = Theme::mono();
        Theme {
            quiet: mono.quiet.add_modifier(Modifier::DIM),
            key: mono.key.fg(key),
            bar: mono.bar.fg(bar),
            band: mono.band.fg(band),
            caution: mono.caution.fg(caution),
            ..mono
        }
    }

    /// The theme with this name: `mono`, `16` or `rich`.
    pub fn named(name: &str) -> Option<Theme> {
        match name {
            "mono" => Some(Theme::mono()),
            "16" => Some(Theme::sixteen()),
            "rich" => Some(Theme::okabe_ito()),
            _ => None,
        }
    }
}

impl Default for Theme {
    fn default() -> Theme {
        Theme::sixteen()
    }
}

/// The theme named; else the usual one, or none at all where colour is not wanted.
pub fn theme_for(named: Option<&str>, no_colour: bool) -> Theme {
    match named.and_then(Theme::named) {
        Some(theme) => theme,
        None if no_colour => Theme::mono(),
        None => Theme::default(),
    }
}

#[cfg(test)]
mod tests {
    use super::Theme;
    use ratatui::style::{Color, Modifier, Style};

    /// Relative luminance (W3C, WCAG 2.1) of an sRGB colour.
    fn luminance(colour: Color) -> f64 {
        let Color::Rgb(r, g, b) = colour else {
            panic!("{colour:?}");
        };
        let linear = |c: u8| {
            let c = f64::from(c) / 255.0;
            if c <= 0.04045 {
                c / 12.92
            } else {
                ((c + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b)
    }

    #[test]
    fn rich_colours_stand_out_from_a_dark_background() {
        let theme = Theme::okabe_ito();
        for style in [theme.key, theme.bar, theme.band, theme.caution] {
            let contrast = (luminance(style.fg.unwrap()) + 0.05) / 0.05;
            assert!(contrast >= 4.5, "{style:?}: {contrast}");
        }
    }

    #[test]
    fn instructions_are_never_faint() {
        for theme in [Theme::mono(), Theme::sixteen(), Theme::okabe_ito()] {
            let style = theme.instruction;
            assert!(!style.add_modifier.contains(Modifier::DIM), "{style:?}");
            assert_eq!((style.fg, style.bg), (None, None));
        }
    }

    #[test]
    fn mono_has_no_colour_and_still_marks_the_cursor() {
        let Theme {
            heading,
            instruction,
            quiet,
            key,
            chosen,
            bar,
            band,
            era,
            caution,
            word,
        } = Theme::mono();
        for style in [
            heading,
            instruction,
            quiet,
            key,
            chosen,
            bar,
            band,
            era,
            caution,
            word,
        ] {
            assert_eq!((style.fg, style.bg), (None, None));
        }
        assert_eq!(chosen, Style::new().add_modifier(Modifier::REVERSED));
    }
}
