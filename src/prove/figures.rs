//! Figures of a report as text.

pub(super) fn score(x: Option<f64>) -> String {
    x.map_or("–".to_owned(), |x| format!("{x:.3}"))
}

pub(super) fn share(x: Option<f64>) -> String {
    x.map_or("–".to_owned(), |x| format!("{:.0} %", 100.0 * x))
}

pub(super) fn signed(x: Option<f64>) -> String {
    x.map_or("–".to_owned(), |x| format!("{x:+.1}"))
}

pub(super) fn years(x: Option<f64>) -> String {
    x.map_or("–".to_owned(), |x| format!("{x:.1}"))
}
