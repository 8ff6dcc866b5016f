//! Figures of a report as text.

pub fn score(x: Option<f64>) -> String {
    x.map_or("–".to_owned(), |x| format!("{x:.3}"))
}

pub fn share(x: Option<f64>) -> String {
    x.map_or("–".to_owned(), |x| format!("{:.0} %", 100.0 * x))
}

pub fn signed(x: Option<f64>) -> String {
    x.map_or("–".to_owned(), |x| format!("{x:+.1}"))
}
