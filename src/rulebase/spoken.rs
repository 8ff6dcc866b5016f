//! The last step of loading: the spoken forms of all findings, ready to read notes with.

use super::base::RuleBase;
use super::ids::{ClueId, FindingId, ids};
use crate::core::observation::Sure;
use crate::hearing::notes::Spoken;

/// All spoken forms. One that ends in `?` (or `??`) is a word people use for what they take the
/// piece to be rather than for what they saw: it is heard as unsure (or a guess).
pub(super) fn spoken(base: &RuleBase) -> Spoken<(ClueId, FindingId, Sure)> {
    let mut out = Vec::new();
    for (c, clue) in ids(base.clues.len()).zip(&base.clues) {
        for (f, finding) in ids(clue.findings.len()).zip(&clue.findings) {
            for (end, sure) in [("", Sure::Sure), ("?", Sure::Unsure), ("??", Sure::Guess)] {
                let forms = finding.spoken.iter().filter_map(|form| {
                    let words = form.trim_end_matches('?');
                    (&form[words.len()..] == end).then(|| words.to_owned())
                });
                let forms: Vec<String> = forms.collect();
                if !forms.is_empty() {
                    out.push((forms, (c, f, sure)));
                }
            }
        }
    }
    Spoken::new(out, &base.vocabulary)
}
