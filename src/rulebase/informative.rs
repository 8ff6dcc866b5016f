//! Refuses findings that change nothing: the same share at every kind, place and year.

use super::base::RuleBase;
use super::engine::shares;
use super::ids::{KindId, ids};
use super::problem::Check;
use super::resolve::Resolver;
use super::source::SourceFile;
use crate::core::grid::{FIRST_YEAR, Year};

/// Every how many years the shares are compared: short eras, such as the zones of 1945–49, count.
const STEP: usize = 4;

/// Checks the clue added last; `at` holds the slice of each finding's id.
pub(super) fn check(
    r: &mut Resolver,
    base: &RuleBase,
    file: &SourceFile,
    clue_at: &str,
    at: &[&str],
) {
    let Some(clue) = base.clues.last() else {
        return;
    };
    let n = clue.findings.len();
    let mut least = vec![f64::INFINITY; n];
    let mut most = vec![f64::NEG_INFINITY; n];
    for (k, kind) in ids::<KindId>(base.kinds.len()).zip(&base.kinds) {
        for made in &kind.made {
            for year in (FIRST_YEAR.0..2030).step_by(STEP) {
                let shares = shares(clue, k, made.place, Year(year));
                for (i, share) in shares.into_iter().enumerate() {
                    least[i] = least[i].min(share);
                    most[i] = most[i].max(share);
                }
            }
        }
    }
    let flat: Vec<usize> = (0..n).filter(|&i| most[i] - least[i] < 1e-6).collect();
    if flat.len() == n && n > 0 {
        let message = format!(
            "clue '{}' changes nothing: every finding is as frequent everywhere",
            clue.id
        );
        let help = "give at least one finding a case by kind, place or year";
        r.problem(file, clue_at, Check::ChangesNothing, message, help);
        return;
    }
    for i in flat {
        let message = format!(
            "finding '{}' changes nothing: it is as frequent everywhere",
            clue.findings[i].id
        );
        let help = "give it a case by kind, place or year, or drop it";
        r.problem(file, at[i], Check::ChangesNothing, message, help);
    }
}
