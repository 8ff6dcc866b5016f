//! Odds and strength as people say them, for the plain answer. `scales` has the published words.

/// Chances as they are said, with the probability each stands for. The nearest on the scale of log
/// odds is used, so a saying is never off by more than half a step (common practice, no source).
const SAYINGS: &[(f64, &str)] = &[
    (0.998, "as good as certain"),
    (0.99, "about 99 in 100"),
    (0.95, "about 19 in 20"),
    (0.9, "about 9 in 10"),
    (0.8, "about 4 in 5"),
    (0.75, "about 3 in 4"),
    (2.0 / 3.0, "about 2 in 3"),
    (0.6, "about 3 in 5"),
    (0.5, "about even"),
    (0.4, "about 2 in 5"),
    (1.0 / 3.0, "about 1 in 3"),
    (0.25, "about 1 in 4"),
    (0.2, "about 1 in 5"),
    (0.1, "about 1 in 10"),
    (0.05, "about 1 in 20"),
    (0.01, "about 1 in 100"),
    (0.002, "hardly any chance"),
];

/// Ratios as they are said, each up to the next one (common practice, no source).
const RATIOS: &[(f64, &str)] = &[
    (0.0, ""),
    (1.25, "a little"),
    (1.7, "about twice as"),
    (2.5, "about 3 times"),
    (4.0, "about 5 times"),
    (7.0, "about 10 times"),
    (14.0, "about 20 times"),
    (28.0, "about 40 times"),
    (70.0, "about 100 times"),
    (300.0, "hundreds of times"),
    (1_000.0, "thousands of times"),
];

/// "about 4 in 5" of a probability.
pub fn odds(p: f64) -> &'static str {
    let log_odds = |p: f64| (p.max(1e-9) / (1.0 - p).max(1e-9)).ln();
    let away = |stands_for: f64| (log_odds(stands_for) - log_odds(p)).abs();
    let nearest = SAYINGS
        .iter()
        .min_by(|a, b| away(a.0).total_cmp(&away(b.0)));
    nearest.map_or("", |(_, saying)| saying)
}

/// "makes flow blue about 10 times likelier", of a weight of evidence in decibans for the named kind.
pub fn strength(decibans: f64, name: &str) -> String {
    let ratio = 10f64.powf(decibans.abs() / 10.0);
    let saying = RATIOS.iter().rev().find(|(from, _)| ratio >= *from);
    match (saying.map_or("", |(_, saying)| saying), decibans > 0.0) {
        ("", _) => format!("says little about {name}"),
        ("about twice as", true) => format!("makes {name} about twice as likely"),
        ("about twice as", false) => format!("makes {name} about half as likely"),
        (times, true) => format!("makes {name} {times} likelier"),
        (times, false) => format!("makes {name} {times} less likely"),
    }
}

/// "as likely", "about 3 times likelier", of one probability against another that is no greater.
pub fn against(p: f64, other: f64) -> String {
    let ratio = p / other.max(f64::MIN_POSITIVE);
    match RATIOS.iter().rev().find(|(from, _)| ratio >= *from) {
        None | Some((_, "")) => "as likely".to_owned(),
        Some((_, "about twice as")) => "about twice as likely".to_owned(),
        Some((_, times)) => format!("{times} likelier"),
    }
}

#[cfg(test)]
mod tests {
    use super::{against, odds, strength};

    #[test]
    fn chances_are_said_by_the_nearest_saying() {
        for (p, said) in [
            (1.0, "as good as certain"),
            (0.82, "about 4 in 5"),
            (0.57, "about 3 in 5"),
            (0.42, "about 2 in 5"),
            (0.3, "about 1 in 3"),
            (0.0, "hardly any chance"),
        ] {
            assert_eq!(odds(p), said, "{p}");
        }
    }

    #[test]
    fn strength_has_a_side() {
        assert_eq!(strength(10.0, "it"), "makes it about 10 times likelier");
        assert_eq!(strength(-10.0, "it"), "makes it about 10 times less likely");
        assert_eq!(strength(3.0, "it"), "makes it about twice as likely");
        assert_eq!(strength(-3.0, "it"), "makes it about half as likely");
        assert_eq!(strength(0.5, "it"), "says little about it");
        assert_eq!(against(0.3, 0.28), "as likely");
        assert_eq!(against(0.6, 0.06), "about 10 times likelier");
    }
}
