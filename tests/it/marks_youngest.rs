//! Which of several words that answer one clue speaks: the youngest, then the surest, then the first.

use printseam::internals::core::grid::{ClueId, FindingId};
use printseam::internals::core::observation::{Observed, Sure};
use printseam::internals::hearing::mark::{Reading, Recognised};
use printseam::internals::registry::tables::Standing;

/// A word with its finding, the years it is possible and usual from, and how surely it is read.
fn word(finding: u16, from: Option<i16>, usual_from: Option<i16>, sure: Sure) -> Recognised {
    Recognised {
        text: String::new(),
        span: (0, 0),
        phrase: String::new(),
        says: Some((ClueId(0), Observed::Finding(FindingId(finding)))),
        sure,
        from,
        usual_from,
        to: None,
        because: String::new(),
        origin: String::new(),
        standing: Standing::FromMemory,
    }
}

/// The finding of the word that speaks.
fn speaks(phrases: Vec<Recognised>) -> u16 {
    let reading = Reading {
        phrases,
        ..Reading::default()
    };
    let findings = reading.findings();
    assert_eq!(findings.len(), 1);
    match findings[0].seen {
        Observed::Finding(finding) => finding.0,
        ref other => panic!("{other:?}"),
    }
}

#[test]
fn a_word_is_as_old_as_its_use_and_not_as_its_first_possible_year() {
    use Sure::Sure;
    let old = word(1, Some(1800), Some(1900), Sure);
    let mid = word(2, Some(1850), None, Sure);
    let new = word(3, Some(1790), Some(1910), Sure);
    // Usual from 1900 is younger than possible from 1850, whichever stands first.
    assert_eq!(speaks(vec![old.clone(), mid.clone()]), 1);
    assert_eq!(speaks(vec![mid.clone(), old.clone()]), 1);
    assert_eq!(speaks(vec![new.clone(), old.clone(), mid.clone()]), 3);
    // A word without years is older than any.
    let undated = word(4, None, None, Sure);
    assert_eq!(speaks(vec![undated.clone(), mid.clone()]), 2);
    assert_eq!(speaks(vec![mid, undated]), 2);
}

#[test]
fn of_equally_young_words_the_surest_speaks_and_of_equally_sure_ones_the_first() {
    let read = |finding, sure| word(finding, None, Some(1900), sure);
    let (sure, unsure, guess) = (
        read(1, Sure::Sure),
        read(2, Sure::Unsure),
        read(3, Sure::Guess),
    );
    assert_eq!(speaks(vec![guess, unsure.clone()]), 2);
    assert_eq!(speaks(vec![unsure.clone(), sure]), 1);
    assert_eq!(speaks(vec![unsure, read(4, Sure::Unsure)]), 2);
}
