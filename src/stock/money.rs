//! Amounts: whole minor units of a currency, never a fraction of one.

use std::fmt;

/// Currencies whose minor unit is the unit itself (ISO 4217, list one, minor unit 0).
const WHOLE: [&str; 15] = [
    "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV",
    "XAF", "XPF",
];

/// Currencies of a thousand minor units (ISO 4217, list one, minor unit 3).
const THOUSANDTHS: [&str; 7] = ["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"];

/// Signs people write for a currency; a dollar is taken for that of the USA (common practice, no
/// source).
const SIGNS: [(char, &str); 3] = [('$', "USD"), ('£', "GBP"), ('€', "EUR")];

/// Largest amount taken, in minor units: more is a slip of the finger (common practice, no source).
const MOST: i64 = 100_000_000_000;

/// Three letters of ISO 4217. Which codes exist is not checked: the list changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Currency([u8; 3]);

impl Default for Currency {
    fn default() -> Currency {
        Currency(*b"USD")
    }
}

impl Currency {
    /// A code in capitals or small letters.
    pub fn new(code: &str) -> Option<Currency> {
        let letters: [u8; 3] = code.as_bytes().try_into().ok()?;
        let all = letters.iter().all(u8::is_ascii_alphabetic);
        all.then(|| Currency(letters.map(|b| b.to_ascii_uppercase())))
    }

    /// The code in capitals.
    pub fn code(&self) -> &str {
        // Only letters are ever put in.
        std::str::from_utf8(&self.0).unwrap_or_default()
    }

    /// Decimal places of the minor unit.
    pub fn places(&self) -> u32 {
        match self.code() {
            code if WHOLE.contains(&code) => 0,
            code if THOUSANDTHS.contains(&code) => 3,
            _ => 2,
        }
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code())
    }
}

/// An amount in minor units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Money {
    pub minor: i64,
    pub currency: Currency,
}

impl Money {
    /// The amount without its currency: "12.50", "-3.00", "1200" for a currency without cents.
    pub fn amount(&self) -> String {
        let places = self.currency.places();
        let unit = 10_u64.pow(places);
        let (sign, minor) = (
            if self.minor < 0 { "-" } else { "" },
            self.minor.unsigned_abs(),
        );
        match places {
            0 => format!("{sign}{minor}"),
            _ => {
                let (whole, part) = (minor / unit, minor % unit);
                format!("{sign}{whole}.{part:0width$}", width = places as usize)
            }
        }
    }

    /// Reads an amount: "12", "12.5", "12,50", "£12.50", "12.50 EUR". `usual` where no currency is
    /// written.
    ///
    /// # Errors
    /// One line when it is no amount, is below nothing or has more decimals than the currency.
    pub fn read(text: &str, usual: Currency) -> Result<Money, String> {
        let shown = || crate::piece::notation::printable(text);
        let no_amount = || {
            format!(
                "'{}' is no amount: write 12 or 12.50, with a currency such as EUR where it is not {usual}",
                shown()
            )
        };
        let (figures, currency) = parts(text.trim(), usual).ok_or_else(no_amount)?;
        let (whole, part) = figures.split_once(['.', ',']).unwrap_or((figures, ""));
        let digits = |t: &str| t.bytes().all(|b| b.is_ascii_digit());
        if whole.is_empty() || !digits(whole) || !digits(part) {
            return Err(no_amount());
        }
        let places = currency.places() as usize;
        if part.len() > places {
            return Err(format!(
                "'{}': {currency} has {places} decimal places",
                shown()
            ));
        }
        let minor: i64 = format!("{whole}{part:0<places$}")
            .parse()
            .unwrap_or(i64::MAX);
        if minor > MOST {
            return Err(format!(
                "'{}' is more than this program reckons with",
                shown()
            ));
        }
        Ok(Money { minor, currency })
    }
}

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

/// An amount in `weights.len()` parts that add up to it to the last minor unit, by weight; equal
/// where all weights are 0. What rounding leaves over goes to the largest remainders, the first of
/// equal ones first.
pub fn shares(minor: i64, weights: &[u64]) -> Vec<i64> {
    let all: i128 = weights.iter().map(|w| i128::from(*w)).sum();
    let equal = vec![1; weights.len()];
    let (weights, all) = match all {
        0 => (&equal[..], weights.len() as i128),
        _ => (weights, all),
    };
    let exact = |w: &u64| i128::from(minor) * i128::from(*w);
    let mut parts: Vec<i64> = weights
        .iter()
        .map(|w| exact(w).div_euclid(all) as i64)
        .collect();
    let left = minor - parts.iter().sum::<i64>();
    let mut order: Vec<usize> = (0..weights.len()).collect();
    order.sort_by_key(|i| std::cmp::Reverse(exact(&weights[*i]).rem_euclid(all)));
    for i in order.into_iter().take(usize::try_from(left).unwrap_or(0)) {
        parts[i] += 1;
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::{Currency, Money, shares};

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
            ".5",
            "99999999999999",
        ] {
            assert!(read(text).is_err(), "{text}");
        }
    }

    #[test]
    fn parts_add_up_to_the_last_minor_unit() {
        assert_eq!(shares(1000, &[1, 1, 1]), [334, 333, 333]);
        assert_eq!(shares(1000, &[0, 0]), [500, 500]);
        assert_eq!(shares(1001, &[2, 1, 7]), [200, 100, 701]);
        assert_eq!(shares(0, &[3, 4]), [0, 0]);
        for minor in 0..200 {
            let parts = shares(minor, &[3, 1, 4, 1, 5]);
            assert_eq!(parts.iter().sum::<i64>(), minor);
        }
    }
}
