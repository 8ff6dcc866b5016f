//! Pictures of findings as files for handouts.

use anyhow::{Context, Result};

use super::timeline::escape;
use crate::picture::{Picture, draw};
use crate::say::drill::DRAWN;

/// The line by which an SVG of this program is known.
pub const MARKER: &str = "<!-- a picture drawn by printseam -->";

/// The picture as PNG.
///
/// # Errors
/// None in practice: the encoder writes to memory.
pub fn png(picture: &Picture) -> Result<Vec<u8>> {
    let mut out = Vec::new();
    let size = |pixels: usize| u32::try_from(pixels).context("a picture too large");
    let mut encoder = png::Encoder::new(&mut out, size(picture.width)?, size(picture.height)?);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header().context("PNG")?;
    writer.write_image_data(&picture.rgb).context("PNG")?;
    writer.finish().context("PNG")?;
    Ok(out)
}

/// The picture as an address that holds it all, for pages that need no other file.
///
/// # Errors
/// As `png`.
fn data_address(picture: &Picture) -> Result<String> {
    Ok(format!("data:image/png;base64,{}", base64(&png(picture)?)))
}

/// Example drawn where a page shows one.
const EXAMPLE: u64 = 1;

/// The picture in an SVG with a name and a description for those who can't see it. Its pixels are kept
/// as pixels: brush streaks and clouding have no outlines.
///
/// # Errors
/// As `png`.
pub fn svg(picture: &Picture, name: &str) -> Result<String> {
    let (width, height) = (picture.width, picture.height);
    let size =
        format!(" xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\"");
    Ok(format!("{MARKER}\n{}\n", element(picture, name, &size)?))
}

/// The picture of a finding (`edge=soft`) as a part of a page, where there is one.
///
/// # Errors
/// As `png`.
pub fn in_page(finding: &str, name: &str) -> Result<Option<String>> {
    let drawn = finding.split_once('=');
    let drawn = drawn.and_then(|(clue, finding)| draw(clue, finding, EXAMPLE));
    drawn.map(|picture| element(&picture, name, "")).transpose()
}

fn element(picture: &Picture, name: &str, size: &str) -> Result<String> {
    let (width, height) = (picture.width, picture.height);
    Ok(format!(
        "<svg{size} role=\"img\" viewBox=\"0 0 {width} {height}\">\n<title>{}</title>\n\
         <desc>{DRAWN}</desc>\n<image width=\"{width}\" height=\"{height}\" href=\"{}\"/>\n</svg>",
        escape(name),
        data_address(picture)?
    ))
}

/// Base 64 with padding (RFC 4648).
fn base64(bytes: &[u8]) -> String {
    const SIGNS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut out = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let byte = |i: usize| u32::from(three.get(i).copied().unwrap_or(0));
        let bits = byte(0) << 16 | byte(1) << 8 | byte(2);
        for i in 0..4 {
            let sign = SIGNS[(bits >> (18 - 6 * i)) as usize & 63];
            out.push(if i <= three.len() {
                char::from(sign)
            } else {
                '='
            });
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::base64;

    /// The vectors of RFC 4648, section 10.
    #[test]
    fn base64_is_that_of_the_standard() {
        let vectors = [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ];
        for (bytes, text) in vectors {
            assert_eq!(base64(bytes.as_bytes()), text);
        }
    }
}
