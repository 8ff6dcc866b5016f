//! How many figures rest on what: every weight with its curve counts as one figure.

use super::base::RuleBase;
use super::counted::of_case;
use super::definitions::{Clue, Standing};
use super::ids::{ClueId, Id, SourceId, ids};

/// Counts of figures.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Origins {
    /// Figures that name each source, in the rule base's order.
    pub by_source: Vec<usize>,
    pub published: usize,
    pub common_practice: usize,
    pub from_memory: usize,
    /// Figures of all these that known pieces are counted into as well.
    pub counted: usize,
}

impl Origins {
    /// One sentence with counts and shares.
    pub fn words(&self) -> String {
        let all = (self.published + self.common_practice + self.from_memory).max(1);
        let share = |n: usize| 100.0 * n as f64 / all as f64;
        let counted = match self.counted {
            0 => String::new(),
            n => format!("; known pieces are counted into {n} ({:.0} %)", share(n)),
        };
        format!(
            "{all} figures: {} ({:.0} %) have a published source for their dates, {} ({:.0} %) are \
             from memory, {} ({:.0} %) common practice, no source{counted}",
            self.published,
            share(self.published),
            self.from_memory,
            share(self.from_memory),
            self.common_practice,
            share(self.common_practice)
        )
    }
}

/// Counts the figures of kinds, settings, families, kernels, findings and market.
///
/// A figure counts as published when any of its sources is, else as from memory when any is:
/// published dates under an estimated height are the usual case, and the guide says so.
pub fn origins(base: &RuleBase) -> Origins {
    let mut out = Origins {
        by_source: vec![0; base.sources.len()],
        published: 0,
        common_practice: 0,
        from_memory: 0,
        counted: 0,
    };
    let mut count = |figures: usize, sources: &[SourceId]| {
        for s in sources {
            out.by_source[s.index()] += figures;
        }
        let best = sources.iter().map(|s| base.sources[*s].status);
        let has = |status: Standing| best.clone().any(|s| s == status);
        if has(Standing::Published) {
            out.published += figures;
        } else if has(Standing::FromMemory) {
            out.from_memory += figures;
        } else {
            out.common_practice += figures;
        }
    };
    for kind in &base.kinds {
        count(kind.made.len(), &kind.sources);
    }
    for setting in base.kinds_of_place() {
        // The curve, its spread and the doubt of it.
        count(3 + setting.factors.len(), &setting.sources);
    }
    for country in &base.countries {
        count(country.factors.len(), &country.sources);
    }
    for family in &base.families {
        count(1, &family.sources);
    }
    for kernel in &base.kernels {
        count(1, &kernel.sources);
    }
    for clue in &base.clues {
        for finding in &clue.findings {
            for case in &finding.cases {
                let own = [&case.sources, &finding.sources, &clue.sources];
                let used = own.into_iter().find(|s| !s.is_empty());
                count(1, used.map_or(&[], |s| s));
            }
        }
    }
    if let Some(prices) = &base.prices {
        prices.factors().for_each(|f| count(1, &f.sources));
        prices.ages.iter().for_each(|a| count(1, &a.sources));
    }
    for feature in &base.market {
        let shares = feature
            .cases
            .iter()
            .map(|c| c.weights.iter().filter(|x| **x > 0.0).count());
        count(shares.sum(), &feature.sources);
    }
    out.counted = counted(base);
    out
}

/// Frequencies whose finding was seen, or might have been, on at least one counted piece.
fn counted(base: &RuleBase) -> usize {
    let of = |(id, clue): (ClueId, &Clue)| -> usize {
        let findings = 0..clue.findings.len();
        let cases = findings.flat_map(|f| (0..clue.findings[f].cases.len()).map(move |c| (f, c)));
        cases
            .filter(|(f, c)| of_case(&base.counted, id, clue, *f, *c).1.round() >= 1.0)
            .count()
    };
    ids(base.clues.len()).zip(&base.clues).map(of).sum()
}
