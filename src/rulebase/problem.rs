//! What is wrong with a rule file: where, what, what was allowed, what to do.

use std::fmt;

/// One problem. Sorted by place.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    pub file: String,
    /// From 1.
    pub line: usize,
    /// From 1, in characters.
    pub col: usize,
    /// What is wrong and what was allowed.
    pub message: String,
    /// Name of the check, kebab-case; each is explained in `rules/README.md`.
    pub code: &'static str,
    /// What to do.
    pub help: String,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{}:{}:{}: {} [{}]",
            self.file, self.line, self.col, self.message, self.code
        )?;
        if !self.help.is_empty() {
            write!(f, "\n  help: {}", self.help)?;
        }
        Ok(())
    }
}

/// The nearest of the allowed names, when one is near enough to be a slip of the pen.
pub fn nearest<'a>(name: &str, allowed: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    near(name, allowed, 1).into_iter().next()
}

/// Up to `most` allowed names that resemble `name`, the nearest first.
pub fn near<'a>(
    name: &str,
    allowed: impl IntoIterator<Item = &'a str>,
    most: usize,
) -> Vec<&'a str> {
    let mut close: Vec<(f64, &str)> = allowed
        .into_iter()
        .map(|a| {
            let inside = a.len() >= 3 && name.len() >= 3 && (a.contains(name) || name.contains(a));
            let likeness = strsim::jaro_winkler(name, a).max(if inside { 0.86 } else { 0.0 });
            (likeness, a)
        })
        .filter(|(likeness, _)| *likeness > 0.78)
        .collect();
    close.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(b.1)));
    close.dedup_by(|a, b| a.1 == b.1);
    close.into_iter().take(most).map(|(_, a)| a).collect()
}
