//! The four corners of a diamond as read, and which layout they fit.

use serde::Serialize;

use super::tables::Layout;

/// Names of the corners in the order they are given.
pub const NAMES: [&str; 4] = ["top", "right", "bottom", "left"];

/// What a corner holds.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub enum Corner {
    /// Nothing can be read.
    Unread,
    Letter(char),
    /// Digits, `None` for an unreadable one; one or two of them.
    Number(Vec<Option<u8>>),
    /// Neither a letter nor a number.
    Other(String),
}

/// What a corner means in a layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum CornerMeaning {
    Year,
    Month,
    Day,
    /// Which entry of that day; says nothing of the date.
    Parcel,
}

impl CornerMeaning {
    /// True for the parts that are letters.
    pub fn is_letter(self) -> bool {
        matches!(self, CornerMeaning::Year | CornerMeaning::Month)
    }
}

/// What stands at top, right, bottom and left (corner table of the facts; two published pages).
pub fn parts(layout: Layout) -> [CornerMeaning; 4] {
    match layout {
        Layout::Second => [
            CornerMeaning::Day,
            CornerMeaning::Year,
            CornerMeaning::Month,
            CornerMeaning::Parcel,
        ],
        Layout::First | Layout::Number => [
            CornerMeaning::Year,
            CornerMeaning::Day,
            CornerMeaning::Parcel,
            CornerMeaning::Month,
        ],
    }
}

/// The four corners.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Corners(pub [Corner; 4]);

impl Corners {
    /// Reads "top,right,bottom,left".
    ///
    /// # Errors
    /// How many corners were found, when they are not four.
    pub fn read(text: &str) -> Result<Corners, usize> {
        let parts: Vec<&str> = text.split([',', ';']).collect();
        match parts.as_slice() {
            [top, right, bottom, left] => Ok(Corners([
                corner(top),
                corner(right),
                corner(bottom),
                corner(left),
            ])),
            _ => Err(parts.len()),
        }
    }

    /// The index of the corner of a part, and what stands there.
    pub fn at(&self, layout: Layout, part: CornerMeaning) -> (usize, &Corner) {
        let i = parts(layout).iter().position(|&p| p == part).unwrap_or(0);
        (i, &self.0[i])
    }

    /// Corners that do not fit a layout: (index, part expected there).
    pub fn misfits(&self, layout: Layout) -> Vec<(usize, CornerMeaning)> {
        parts(layout)
            .into_iter()
            .enumerate()
            .filter(|&(i, part)| match &self.0[i] {
                Corner::Unread => false,
                Corner::Letter(_) => !part.is_letter(),
                Corner::Number(_) => part.is_letter(),
                Corner::Other(_) => true,
            })
            .collect()
    }

    /// True when no corner can be read.
    pub fn blank(&self) -> bool {
        self.0.iter().all(|c| *c == Corner::Unread)
    }
}

fn corner(text: &str) -> Corner {
    let text = text.trim().trim_end_matches('.');
    if text.chars().all(|c| c == '?') {
        return Corner::Unread;
    }
    let mut chars = text.chars();
    if let (Some(letter), None) = (chars.next(), chars.next())
        && letter.is_ascii_alphabetic()
    {
        return Corner::Letter(letter.to_ascii_uppercase());
    }
    let digits: Option<Vec<Option<u8>>> = text
        .chars()
        .map(|c| match c {
            '?' => Some(None),
            '0'..='9' => Some(Some(c as u8 - b'0')),
            _ => None,
        })
        .collect();
    match digits {
        Some(digits) if digits.len() <= 3 => Corner::Number(digits),
        _ => Corner::Other(text.chars().take(20).filter(|c| !c.is_control()).collect()),
    }
}

/// True when a number corner can be this number.
pub fn can_be(digits: &[Option<u8>], number: u8) -> bool {
    // A zero painted before a single figure is allowed: 05 is 5.
    let value = usize::from(number);
    let mut rest = value;
    for digit in digits.iter().rev() {
        let figure = rest % 10;
        if digit.is_some_and(|d| usize::from(d) != figure) {
            return false;
        }
        rest /= 10;
    }
    // An unreadable leading figure must be one: "?2" is 12 or 22, not 2.
    let leading_unread = digits.len() > 1 && digits.first() == Some(&None);
    rest == 0 && !(leading_unread && value < 10usize.pow(digits.len() as u32 - 1))
}

/// The number as written, `?` for what can't be read.
pub fn written(digits: &[Option<u8>]) -> String {
    digits
        .iter()
        .map(|d| d.map_or('?', |d| char::from(b'0' + d)))
        .collect()
}
