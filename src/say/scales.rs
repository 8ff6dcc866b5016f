//! Words for chance (IPCC) and for support (ENFSI), always used with the number beside.

/// The two scales by name, said where their words stand.
pub const NAMED: &str = "Words for chance: IPCC likelihood scale (Mastrandrea et al. 2010). Words for \
    support: ENFSI verbal scale on the likelihood ratio (2015); ten decibans are ten to one.";

/// IPCC AR5/AR6 likelihood scale (Mastrandrea et al. 2010, "Guidance note for lead authors of the
/// IPCC Fifth Assessment Report", table 1; from memory, "likely" = 66–100 % seen). The narrowest
/// term that fits is used.
pub fn chance(p: f64) -> &'static str {
    match p {
        p if p >= 0.99 => "virtually certain",
        p if p >= 0.90 => "very likely",
        p if p >= 0.66 => "likely",
        p if p >= 0.33 => "about as likely as not",
        p if p > 0.10 => "unlikely",
        p if p > 0.01 => "very unlikely",
        _ => "exceptionally unlikely",
    }
}

/// ENFSI Guideline for Evaluative Reporting in Forensic Science (2015), verbal scale on the
/// likelihood ratio (from memory; four of its levels seen in a teaching glossary).
/// `decibans` = 10·log10 of the ratio; the sign is the caller's "for" or "against".
pub fn support(decibans: f64) -> &'static str {
    let ratio = 10f64.powf(decibans.abs() / 10.0);
    match ratio {
        r if r < 2.0 => "no support",
        r if r < 10.0 => "weak support",
        r if r < 100.0 => "moderate support",
        r if r < 1_000.0 => "moderately strong support",
        r if r < 10_000.0 => "strong support",
        r if r < 1_000_000.0 => "very strong support",
        _ => "extremely strong support",
    }
}

/// A probability as a whole percentage that never claims 0 or 100.
pub fn percent(p: f64) -> String {
    match 100.0 * p {
        x if x < 1.0 => "under 1 %".to_owned(),
        x if x > 99.0 => "over 99 %".to_owned(),
        x => format!("{x:.0} %"),
    }
}

/// A name with its chance in words and number.
pub fn likely(name: &str, p: f64) -> String {
    format!("{name}: {} ({})", chance(p), percent(p))
}
