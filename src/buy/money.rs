//! Money: whole minor units (cents, pence, yen) of a currency by its ISO 4217 code.
//!
//! Amounts that are worked out are rounded to the nearest minor unit, halves away from zero; what
//! is the most to pay is rounded down, never up.

use std::fmt;

use crate::piece::notation::printable;

/// Currencies without minor units, and those of three digits, by ISO 4217 (from memory); all others
/// have two.
const NO_DIGITS: &[&str] = &[
    "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND",
    "VUV", "XAF", "XOF", "XPF",
];
const THREE_DIGITS: &[&str] = &["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"];

/// Signs people write for a currency; a dollar is taken for that of the USA (common practice, no
/// source).
const SIGNS: [(char, &str); 3] = [('$', "USD"), ('£', "GBP"), ('€', "EUR")];

/// Largest amount that is read, in minor units: more is a slip of the finger (common practice, no
/// source).
const MOST: i64 = 100_000_000_000;

/// A currency by its ISO 4217 code. Which codes exist is not checked: the list changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Currency([u8; 3]);

impl Default for Currency {
    fn default() -> Currency {
        Currency::DOLLAR
    }
}

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

    /// The amount without its currency: "12.50", "-3.00"; "1200" of a currency without cents.
    pub fn amount(&self) -> String {
        let sign = if self.minor < 0 { "-" } else { "" };
        let per_major = self.currency.minor_per_major().unsigned_abs();
        let minor = self.minor.unsigned_abs();
        let (whole, part) = (minor / per_major, minor % per_major);
        match self.currency.digits() as usize {
            0 => format!("{sign}{whole}"),
            digits => format!("{sign}{whole}.{part:0digits$}"),
        }
    }

    /// Reads an amount: `12`, `12.5`, `12,50`, `£12.50`, `12.50 EUR`; never negative. `usual` where
    /// no currency is written.
    ///
    /// # Errors
    /// What is wrong with it, in one line.
    pub fn read(text: &str, usual: Currency) -> Result<Money, String> {
        let shown = || printable(text);
        let no_amount = || {
            format!(
                "'{}' is no amount: write 12 or 12.50, with a currency such as EUR where it is not {usual}",
                shown()
            )
        };
        let (figures, currency) = parts(text.trim(), usual).ok_or_else(no_amount)?;
        let (whole, part) = figures.split_once(['.', ',']).unwrap_or((figures, ""));
        let only_figures = |t: &str| t.bytes().all(|b| b.is_ascii_digit());
        if whole.len() + part.len() == 0 || !only_figures(whole) || !only_figures(part) {
            return Err(no_amount());
        }
        let digits = currency.digits() as usize;
        if part.len() > digits {
            let shown = shown();
            return Err(format!("'{shown}': {currency} has {digits} decimal places"));
        }
        let minor = format!("{whole}{part:0<digits$}");
        let minor: i64 = minor.parse().unwrap_or(i64::MAX); // too long to hold
        if minor > MOST {
            let shown = shown();
            return Err(format!("'{shown}' is more than this program reckons with"));
        }
        Ok(Money { minor, currency })
    }

    /// Reads an amount that must be of this currency.
    ///
    /// # Errors
    /// What is wrong with it, in one line.
    pub fn read_in(text: &str, currency: Currency) -> Result<Money, String> {
        let money = Money::read(text, currency)?;
        if money.currency == currency {
            return Ok(money);
        }
        Err(format!("{money}: write what is asked in {currency}"))
    }
}

/// "12.50 USD", with as many decimal places as the currency has.
impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.amount(), self.currency)
    }
}

/// Figures and currency, whichever way round they are written.
fn parts(text: &str, usual: Currency) -> Option<(&str, Currency)> {
    for (sign, code) in SIGNS {
        let rest = text.strip_prefix(sign).or_else(|| text.strip_suffix(sign));
        if let Some(rest) = rest {
            return Some((rest.trim(), Currency::new(code)?));
        }
    }
    let letters = |c: char| c.is_ascii_alphabetic();
    let (before, after) = (
        text.trim_start_matches(letters),
        text.trim_end_matches(letters),
    );
    match (text.len() - before.len(), text.len() - after.len()) {
        (0, 0) => Some((text, usual)),
        (3, 0) => Some((before.trim(), Currency::new(&text[..3])?)),
        (0, 3) => Some((after.trim(), Currency::new(&text[after.len()..])?)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::{Currency, Money};

    fn read(text: &str) -> Result<String, String> {
        Money::read(text, Currency::default()).map(|m| m.to_string())
    }

    #[test]
    fn amounts_are_read_as_people_write_them() {
        for (text, money) in [
            ("12", "12.00 USD"),
            ("12.5", "12.50 USD"),
            ("12,05", "12.05 USD"),
            ("£12.50", "12.50 GBP"),
            ("3 €", "3.00 EUR"),
            ("1200 JPY", "1200 JPY"),
            ("kwd 1.234", "1.234 KWD"),
            ("0", "0.00 USD"),
            (".5", "0.50 USD"),
        ] {
            assert_eq!(read(text).unwrap(), money, "{text}");
        }
        for text in [
            "",
            "x",
            "-3",
            "1.234",
            "1 JPY.5",
            "12 pounds",
            "1.2.3",
            ".",
            "99999999999999",
        ] {
            assert!(read(text).is_err(), "{text}");
        }
    }
}
