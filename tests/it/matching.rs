//! The matcher by itself, on forms made up for it.

use std::collections::BTreeSet;

use printseam::internals::hearing::fold::words;
use printseam::internals::hearing::matcher::Matcher;

/// The phrases that fit some of the text, each with its letters at fault.
fn hits(matcher: &Matcher<usize>, text: &str) -> Vec<(usize, usize)> {
    let found = matcher.hits(&words(text));
    found
        .iter()
        .map(|h| (*matcher.payload(h.phrase), h.wrong))
        .collect()
}

/// "Microwave ovens" is no misspelling of "not microwave ovens", though three letters are all it lacks.
#[test]
fn a_word_that_turns_a_form_round_must_stand_in_the_text() {
    let form = || Matcher::new([(vec!["not microwave ovens"], 0)]);
    let turning = form().with_negations(&BTreeSet::from(["not".to_owned()]));
    assert_eq!(hits(&form(), "microwave ovens"), [(0, 3)]);
    assert_eq!(hits(&turning, "microwave ovens"), []);
    assert_eq!(hits(&turning, "not microwave ovens"), [(0, 0)]);
    assert_eq!(hits(&turning, "not microwave ovans"), [(0, 1)]);
}

/// A word of four letters or more that some form has is not taken for a misspelling of another form's.
#[test]
fn a_known_word_is_no_misspelling_of_another() {
    let two = Matcher::new([(vec!["bone dishes"], 0), (vec!["cone dishes"], 1)]);
    assert_eq!(hits(&two, "cone dishes"), [(1, 0)]);
    assert_eq!(hits(&two, "bone dishes"), [(0, 0)]);
    let one = Matcher::new([(vec!["bone dishes"], 0)]);
    assert_eq!(hits(&one, "cone dishes"), [(0, 1)]);
}
