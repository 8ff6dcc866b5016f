//! Money: whole minor units (cents, pence, yen) of a currency by its ISO 4217 code.
//!
//! Amounts that are worked out are rounded to the nearest minor unit, halves away from zero; what
//! is the most to pay is rounded down, never up.

use std::fmt;

/// Currencies without minor units, and those of three digits, by ISO 4217 (from memory); all others
/// have two.
const NO_DIGITS: &[&str] = &[
    "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND",
    "VUV", "XAF", "XOF", "XPF",
];
const THREE_DIGITS: &[&str] = &["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"];

/// Largest amount that is read, in major units: more than any plate.
const MOST: i64 = 1_000_000_000_000;

/// A currency by its ISO 4217 code.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Currency([u8; 3]);

impl Currency {
    /// United States dollar.
    pub const DOLLAR: Currency = Currency(*b"USD");

    /// Three letters, in any case; `None` for anything else.
    pub fn new(code: &str) -> Option<Currency> {
        let letters: [u8; 3] = code.as_bytes().try_into().ok()?;
        let letters = letters.map(|b| b.to_ascii_uppercase());
        let all = letters.iter().all(u8::is_ascii_uppercase);
        all.then_some(Currency(letters))
    }

    /// The code in capital letters.
    pub fn code(&self) -> &str {
        std::str::from_utf8(&self.0).unwrap_or_default()
    }

    /// Decimal places of the minor unit.
    pub fn digits(&self) -> u32 {
        match self.code() {
            code if NO_DIGITS.contains(&code) => 0,
            code if THREE_DIGITS.contains(&code) => 3,
            _ => 2,
        }
    }

    fn minor_per_major(&self) -> i64 {
        10_i64.pow(self.digits())
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code())
    }
}

/// An amount, positive or negative.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Money {
    pub minor: i64,
    pub currency: Currency,
}

impl Money {
    /// The nearest minor unit to an amount in major units, halves away from zero.
    pub fn nearest(major: f64, currency: Currency) -> Money {
        Money::of(major, currency, f64::round)
    }

    /// The minor units an amount in major units holds whole.
    pub fn at_most(major: f64, currency: Currency) -> Money {
        // A millionth of a minor unit is what arithmetic may have lost.
        Money::of(major, currency, |minor| (minor + 1e-6).floor())
    }

    fn of(major: f64, currency: Currency, round: fn(f64) -> f64) -> Money {
        let minor = round(major * currency.minor_per_major() as f64);
        Money {
            minor: minor as i64, // saturates; no amount worked out here comes near
            currency,
        }
    }

    /// In major units.
    pub fn major(&self) -> f64 {
        self.minor as f64 / self.currency.minor_per_major() as f64
    }

    /// Reads `12`, `12.50` or `12,50`; never negative.
    ///
    /// # Errors
    /// What is wrong with it, in one line.
    pub fn read(text: &str, currency: Currency) -> Result<Money, String> {
        let text = text.trim();
        let refuse = |why: &str| Err(format!("write an amount such as 12 or 12.50: {why}"));
        let (whole, part) = match text.split_once(['.', ',']) {
            Some((whole, part)) => (whole, part),
            None => (text, ""),
        };
        let figures = |t: &str| t.bytes().all(|b| b.is_ascii_digit());
        if !(figures(whole) && figures(part)) || whole.len() + part.len() == 0 {
            return refuse("figures, with one point or comma before the cents");
        }
        let digits = currency.digits() as usize;
        if part.len() > digits {
            return refuse(&format!("{currency} has {digits} decimal places"));
        }
        let whole: i64 = match whole {
            "" => 0,
            whole => match whole.parse() {
                Ok(whole) if whole <= MOST => whole,
                _ => return refuse("too large"),
            },
        };
        let part = format!("{part:0<digits$}");
        let part: i64 = part.parse().unwrap_or(0); // empty without decimal places
        Ok(Money {
            minor: whole * currency.minor_per_major() + part,
            currency,
        })
    }
}

/// "12.50 USD", with as many decimal places as the currency has.
impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.minor < 0 { "-" } else { "" };
        let per_major = self.currency.minor_per_major().unsigned_abs();
        let (whole, part) = (
            self.minor.unsigned_abs() / per_major,
            self.minor.unsigned_abs() % per_major,
        );
        match self.currency.digits() as usize {
            0 => write!(f, "{sign}{whole} {}", self.currency),
            digits => write!(f, "{sign}{whole}.{part:0digits$} {}", self.currency),
        }
    }
}
