//! The ladder of frequency: words half a power of ten (5 decibans) apart.

/// Words and their weights, the commonest first (design figures; common practice, no source).
pub const LADDER: [(&str, f64); 7] = [
    ("Typical", 100.0),
    ("Common", 30.0),
    ("Occasional", 10.0),
    ("Uncommon", 3.0),
    ("Rare", 1.0),
    ("Freak", 0.1),
    ("Never", 0.0),
];

/// The weight a ladder word or a bare number stands for.
pub fn weight(text: &str) -> Option<f64> {
    LADDER
        .iter()
        .find(|(word, _)| *word == text)
        .map(|(_, w)| *w)
        .or_else(|| text.parse().ok())
}
