//! Words for chance and support, and decibans, against the published tables they are taken from.

use printseam::words::scales::{chance, percent, support};

/// IPCC AR5/AR6 terms with their lower bounds (Mastrandrea et al. 2010, table 1; from memory).
/// The narrowest term that fits is used, so each holds from its bound up to the next.
#[test]
fn chance_follows_the_ipcc_scale() {
    let table = [
        (0.995, "virtually certain"),
        (0.99, "virtually certain"),
        (0.95, "very likely"),
        (0.90, "very likely"),
        (0.89, "likely"),
        (0.66, "likely"),
        (0.65, "about as likely as not"),
        (0.33, "about as likely as not"),
        (0.32, "unlikely"),
        (0.11, "unlikely"),
        (0.10, "very unlikely"),
        (0.02, "very unlikely"),
        (0.01, "exceptionally unlikely"),
        (0.0, "exceptionally unlikely"),
    ];
    for (p, word) in table {
        assert_eq!(chance(p), word, "{p}");
    }
}

/// ENFSI 2015 verbal scale by likelihood ratio (from memory; levels from 10 to 10,000 seen in a
/// teaching glossary). 10 dB = a ratio of 10, 20 dB = 100 (Jaynes, Probability Theory, ch. 4).
#[test]
fn support_follows_the_enfsi_scale() {
    let table = [
        (1.0, "no support"),
        (1.9, "no support"),
        (2.1, "weak support"),
        (9.0, "weak support"),
        (11.0, "moderate support"),
        (99.0, "moderate support"),
        (101.0, "moderately strong support"),
        (999.0, "moderately strong support"),
        (1_001.0, "strong support"),
        (9_999.0, "strong support"),
        (10_001.0, "very strong support"),
        (999_999.0, "very strong support"),
        (1_000_001.0, "extremely strong support"),
    ];
    for (ratio, word) in table {
        let decibans = 10.0 * f64::log10(ratio);
        assert_eq!(support(decibans), word, "for {ratio}");
        assert_eq!(support(-decibans), word, "against {ratio}");
    }
}

#[test]
fn a_percentage_never_claims_certainty() {
    assert_eq!(percent(0.0), "under 1 %");
    assert_eq!(percent(1.0), "over 99 %");
    assert_eq!(percent(0.425), "42 %");
}
