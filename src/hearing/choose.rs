//! Who gets which words when several readings want the same.

use std::ops::Range;

use super::fold::{Nature, Word};

/// Something that wants words for itself.
#[derive(Clone, Debug)]
pub struct Candidate<T> {
    pub words: Range<usize>,
    pub worth: i32,
    pub what: T,
}

/// Gives each word to the best claim on it. Claims of equal worth on the very same words are
/// all kept and marked `true`: the text does not decide between them.
pub fn choose<T>(mut claims: Vec<Candidate<T>>, words: usize) -> Vec<(Candidate<T>, bool)> {
    claims.sort_by(|a, b| {
        (b.worth, a.words.start, a.words.end).cmp(&(a.worth, b.words.start, b.words.end))
    });
    let mut taken = vec![false; words];
    let mut out: Vec<(Candidate<T>, bool)> = Vec::new();
    for claim in claims {
        if let Some((last, tied)) = out.last_mut()
            && last.worth == claim.worth
            && last.words == claim.words
        {
            *tied = true;
            out.push((claim, true));
            continue;
        }
        if claim.words.clone().any(|i| taken[i]) {
            continue;
        }
        claim.words.clone().for_each(|i| taken[i] = true);
        out.push((claim, false));
    }
    out.sort_by_key(|(claim, _)| (claim.words.start, claim.words.end));
    out
}

/// Runs of words that no claim took, none across a line end; a blanked name stands alone.
pub fn left_over(text: &[Word], taken: &[Range<usize>]) -> Vec<Range<usize>> {
    let mut free = vec![true; text.len()];
    for range in taken {
        range.clone().for_each(|i| free[i] = false);
    }
    let mut out: Vec<Range<usize>> = Vec::new();
    for i in (0..text.len()).filter(|&i| free[i]) {
        let name = text[i].nature == Nature::Name;
        match out.last_mut() {
            Some(run)
                if run.end == i
                    && text[i].line == text[run.start].line
                    && !name
                    && text[run.start].nature != Nature::Name =>
            {
                run.end = i + 1;
            }
            _ => out.push(i..i + 1),
        }
    }
    out
}
