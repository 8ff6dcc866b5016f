//! Lines found by words, narrowed down and put in order.

use std::cmp::Ordering;

use super::entry::Stage;
use super::line::Line;
use super::totals::Totals;
use crate::hearing::fold;
use crate::registry::calendar::Date;

/// What a list is asked for. The default is everything that was not removed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Query {
    /// Words, every one of which must occur, whole or in part; with a slip of one letter where
    /// nothing has them as typed.
    pub words: String,
    /// Empty: every stage.
    pub stages: Vec<Stage>,
    /// Beginning of a kind's id.
    pub kind: String,
    /// Beginning of a channel.
    pub channel: String,
    pub added_on: Option<Date>,
    pub sort: Sort,
    pub descending: bool,
    /// Lines passed over, and at most given.
    pub skip: usize,
    pub take: usize,
}

impl Default for Query {
    fn default() -> Query {
        Query {
            words: String::new(),
            stages: Vec::new(),
            kind: String::new(),
            channel: String::new(),
            added_on: None,
            sort: Sort::Added,
            descending: false,
            skip: 0,
            take: usize::MAX,
        }
    }
}

/// What a list is ordered by; equals stand in the order they were added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sort {
    /// The order they were added in.
    Added,
    Title,
    Kind,
    /// First year of the band.
    Years,
    Paid,
    Asking,
    Sold,
}

impl Sort {
    pub const ALL: [(Sort, &str); 7] = [
        (Sort::Added, "added"),
        (Sort::Title, "title"),
        (Sort::Kind, "kind"),
        (Sort::Years, "years"),
        (Sort::Paid, "paid"),
        (Sort::Asking, "asking"),
        (Sort::Sold, "sold"),
    ];

    pub fn named(name: &str) -> Option<Sort> {
        Sort::ALL
            .iter()
            .find(|(_, n)| *n == name)
            .map(|(sort, _)| *sort)
    }
}

/// Lines found, and what they add up to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Listing {
    /// Those asked for, in order.
    pub lines: Vec<Line>,
    /// How many were found in all.
    pub found: usize,
    /// True when a slip of one letter had to be forgiven.
    pub nearly: bool,
    pub totals: Totals,
}

/// Answers a query from all lines, given in the order they were added.
pub fn list(all: impl IntoIterator<Item = Line>, query: &Query) -> Listing {
    let narrowed: Vec<Line> = all.into_iter().filter(|line| fits(line, query)).collect();
    let words = fold::plain(&query.words);
    let exactly = |line: &Line| words.iter().all(|w| line.search.contains(w.as_str()));
    let nearly = |line: &Line| words.iter().all(|w| nearly_in(&line.search, w));
    let exact = narrowed.iter().any(exactly);
    let mut found: Vec<Line> = match exact {
        true => narrowed.into_iter().filter(exactly).collect(),
        false => narrowed.into_iter().filter(nearly).collect(),
    };
    match (query.sort, query.descending) {
        (Sort::Added, false) => {}
        (Sort::Added, true) => found.reverse(),
        (sort, descending) => found.sort_by(|a, b| compare(a, b, sort, descending)),
    }
    let totals = Totals::of(&found);
    let count = found.len();
    Listing {
        lines: found
            .into_iter()
            .skip(query.skip)
            .take(query.take)
            .collect(),
        found: count,
        nearly: !exact && count > 0 && !words.is_empty(),
        totals,
    }
}

fn fits(line: &Line, query: &Query) -> bool {
    (query.stages.is_empty() || query.stages.contains(&line.stage))
        && line.kind.starts_with(&query.kind)
        && line.channel.starts_with(&query.channel)
        && (query.added_on.is_none() || query.added_on == line.added)
}

fn compare(a: &Line, b: &Line, sort: Sort, down: bool) -> Ordering {
    let text = |t: &str| Some(t.to_lowercase()).filter(|t| !t.is_empty());
    match sort {
        Sort::Added => Ordering::Equal,
        Sort::Title => missing_last(text(&a.title), text(&b.title), down),
        Sort::Kind => missing_last(text(&a.kind), text(&b.kind), down),
        Sort::Years => missing_last(a.years, b.years, down),
        Sort::Paid => missing_last(a.paid, b.paid, down),
        Sort::Asking => missing_last(a.asking, b.asking, down),
        Sort::Sold => missing_last(a.sold_on, b.sold_on, down),
    }
}

/// What is missing comes last, whichever way round.
fn missing_last<T: Ord>(a: Option<T>, b: Option<T>, down: bool) -> Ordering {
    match (a, b) {
        (Some(a), Some(b)) if down => b.cmp(&a),
        (Some(a), Some(b)) => a.cmp(&b),
        (a, b) => a.is_none().cmp(&b.is_none()),
    }
}

/// True when a word of the text is the one typed but for one slip: a letter too much, too few, other,
/// or two the wrong way round. Short words must be right.
fn nearly_in(text: &str, word: &str) -> bool {
    text.contains(word) || (word.len() > 3 && text.split(' ').any(|w| one_slip(w, word)))
}

fn one_slip(a: &str, b: &str) -> bool {
    let (a, b) = (a.as_bytes(), b.as_bytes());
    if a.len().abs_diff(b.len()) > 1 {
        return false;
    }
    let same = a.iter().zip(b).take_while(|(x, y)| x == y).count();
    let (rest_a, rest_b) = (&a[same..], &b[same..]);
    match (rest_a, rest_b) {
        ([], _) | (_, []) => true,
        ([_, a @ ..], [_, b @ ..]) if rest_a.len() == rest_b.len() => {
            let swapped = rest_a.len() > 1
                && rest_a[0] == rest_b[1]
                && rest_a[1] == rest_b[0]
                && rest_a[2..] == rest_b[2..];
            a == b || swapped
        }
        ([_, a @ ..], b) if rest_a.len() > rest_b.len() => a == b,
        (a, [_, b @ ..]) => a == b,
    }
}

#[cfg(test)]
mod tests {
    use super::one_slip;

    #[test]
    fn one_slip_is_forgiven_and_two_are_not() {
        for near in [
            "willow", "wilow", "willlow", "wollow", "wlilow", "willo", "xwillow",
        ] {
            assert!(one_slip("willow", near), "{near}");
        }
        for far in ["wllo", "wolloe", "wiillo0w", "welloww", ""] {
            assert!(!one_slip("willow", far), "{far}");
        }
    }
}
