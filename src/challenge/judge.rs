//! A claim against the findings.
//!
//! A claim is a set of cells: its kinds × its years. Three numbers decide:
//! * p = P(claim | findings);
//! * share = p / greatest P of any claim of the same make: one kind if kinds are named, and the same
//!   number of years. Dates are claimed narrowly or widely; the share is fair to both.
//! * weight = 10·log10 of the odds for the claim, after − before the findings (decibans): what the
//!   findings alone say, so that nothing is ruled out for merely being rare.

use super::claim::Claim;
use super::settle;
use super::years::ABOUT_YEARS;
use crate::case::Case;
use crate::core::axes::{Axes, KindId, PlaceId, Year};
use crate::core::eras::{era, scaled};
use crate::core::evidence::{Entry, Evidence};
use crate::core::explain::End;
use crate::core::model::Model;
use crate::core::posterior::{Posterior, Weighing};

/// How a claim stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Answer {
    Supported,
    Possible,
    HardToSupport,
    RuledOut,
}

/// Supported: at least half as probable as the best claim of its make, which is no support against
/// it on the ENFSI scale (a ratio under 2).
pub const SUPPORTED: f64 = 0.5;

/// Possible: within a ratio of 5 of the best, so weak support against it at most (ENFSI: under 10).
/// Five, not ten, because wide bands are the rule: on the known pieces of `tests/data` it keeps nine
/// catalogued dates in ten and sends off more of the wrong ones.
pub const POSSIBLE: f64 = 0.2;

/// Ruled out: a hundred times less probable than the best, moderately strong support against it,
/// and the findings themselves weigh at least 10 decibans against it.
pub const RULED_OUT: f64 = 0.01;

/// Decibans the findings must weigh against a claim before it is ruled out: a ratio of 10, where
/// moderate support begins on the ENFSI scale.
pub const AGAINST: f64 = -10.0;

/// Nothing on a plate tells its date closer than a decade: fewer years are judged as ten
/// (common practice, no source).
pub const LEAST_YEARS: i16 = 10;

/// Less of everything made than this is nothing.
const NEVER_MADE: f64 = 1e-12;

/// Years a soft end gives way.
const SOFT: i16 = 5;

/// A finding contradicts the claim when it is ten times commoner in its best years
/// (ENFSI: moderate support).
const CONTRADICTS: f64 = 0.1;

/// A finding that speaks against the claim.
#[derive(Clone, Debug)]
pub struct Hurt {
    pub entry: Entry,
    /// What the claim's odds lose by it, in decibans, negative.
    pub decibans: f64,
    /// First and last year in which the finding is at least a tenth as common as at its commonest,
    /// when that leaves out all the years claimed.
    pub era: Option<(Year, Year)>,
}

/// The claim nearest to the guess that stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    pub kind: KindId,
    /// False when the guess names no kind: then any kind counts.
    pub of_kind: bool,
    pub from: Year,
    pub to: Year,
    pub p: f64,
}

/// A finding that the guess takes for granted, beside what was seen.
#[derive(Clone, Debug)]
pub struct Granted {
    pub words: String,
    pub entry: Entry,
    pub seen: Option<Entry>,
}

/// How the claim stands against the findings.
#[derive(Clone, Debug)]
pub struct Challenge {
    pub claim: Claim,
    pub answer: Answer,
    /// Years judged: the claim's, softened and widened.
    pub from: Year,
    pub to: Year,
    pub p: f64,
    pub share: f64,
    /// Decibans; 0 without findings.
    pub weight: f64,
    /// Worst first.
    pub hurts: Vec<Hurt>,
    /// What in the guess contradicts the guess itself.
    pub own: Vec<Hurt>,
    pub granted: Vec<Granted>,
    pub place_p: Option<(PlaceId, f64)>,
    pub earliest: End,
    pub latest: End,
    pub nearest: Nearest,
    pub look: Option<crate::core::question::Look>,
    /// No finding speaks.
    pub nothing_seen: bool,
    /// As far as the rules know, nothing of the kind was made in those years.
    pub never_made: bool,
}

impl Challenge {
    /// True when the answer to the guess is no.
    pub fn refuted(&self) -> bool {
        self.answer == Answer::RuledOut
    }
}

/// The cells of a claim.
#[derive(Clone, Debug)]
pub(super) struct Cells {
    pub kinds: Vec<KindId>,
    pub from: Year,
    pub to: Year,
}

impl Cells {
    pub fn has(&self, kind: KindId) -> bool {
        self.kinds.is_empty() || self.kinds.contains(&kind)
    }

    /// The probabilities of the claim's cells; everything else 0.
    pub fn only(&self, axes: &Axes, cells: &[f64]) -> Vec<f64> {
        let mut out = vec![0.0; cells.len()];
        let (first, last) = (axes.offset(self.from), axes.offset(self.to));
        let (Some(first), Some(last)) = (first, last) else {
            return out;
        };
        for (pair, (kind, _)) in axes.pairs().iter().enumerate() {
            if self.has(*kind) {
                let at = axes.cells_of(pair).start;
                out[at + first..=at + last].copy_from_slice(&cells[at + first..=at + last]);
            }
        }
        out
    }

    /// P(claim), and P(not claim), each summed by itself so that neither is lost to rounding.
    fn sides(&self, axes: &Axes, cells: &[f64]) -> (f64, f64) {
        let mut sides = (0.0, 0.0);
        for (pair, (kind, _)) in axes.pairs().iter().enumerate() {
            for (offset, p) in cells[axes.cells_of(pair)].iter().enumerate() {
                let year = axes.year(offset);
                if self.has(*kind) && (self.from..=self.to).contains(&year) {
                    sides.0 += p;
                } else {
                    sides.1 += p;
                }
            }
        }
        sides
    }

    fn log_odds(&self, axes: &Axes, cells: &[f64]) -> f64 {
        let (for_it, against) = self.sides(axes, cells);
        10.0 * (for_it.max(f64::MIN_POSITIVE) / against.max(f64::MIN_POSITIVE)).log10()
    }
}

/// Puts a claim to the findings.
pub fn challenge(case: &Case, claim: Claim) -> Challenge {
    let (expert, evidence) = (case.expert(), case.evidence());
    let model = &expert.engine.model;
    let axes = &model.axes;
    let prior = &expert.engine.priors[case.setting()];
    let cells = cells(axes, &claim);
    let weighing = Weighing::new(model, prior, evidence);
    let after = weighing.posterior();
    let stands = Standing::new(axes, prior.cells(), after, &cells);

    let mut own_words = Evidence::new();
    claim.findings.iter().for_each(|(_, e)| own_words.say(*e));
    let own_weighing = Weighing::new(model, prior, &own_words);
    let own_stands = Standing::new(axes, prior.cells(), own_weighing.posterior(), &cells);
    let nothing_seen = weighing.voices().is_empty();
    let never_made = cells.sides(axes, prior.cells()).0 < NEVER_MADE;
    let seen_says = stands.answer(weighing.voices().len());
    // A guess contradicts itself by what it takes for granted, not by being rare.
    let own_says = match own_weighing.voices().len() {
        n if n > 0 && own_stands.weight <= AGAINST => own_stands.answer(n),
        _ => Answer::Supported,
    };
    let answer = match never_made {
        true => seen_says.max(own_says).max(Answer::HardToSupport),
        false => seen_says.max(own_says),
    };

    let account = &case.verdict().explanation;
    let nearest = nearest(axes, after, &cells, seen_says);
    let place_p = claim
        .place
        .map(|l| (l, after.places(axes)[usize::from(l.0)]));
    Challenge {
        answer,
        never_made,
        from: cells.from,
        to: cells.to,
        p: stands.p,
        share: stands.share,
        weight: stands.weight,
        hurts: hurts(model, &weighing, &cells),
        own: if own_says > Answer::Possible {
            hurts(model, &own_weighing, &cells)
        } else {
            Vec::new()
        },
        granted: claim
            .findings
            .iter()
            .map(|(words, entry)| Granted {
                words: words.clone(),
                entry: *entry,
                seen: evidence.of(entry.clue).copied(),
            })
            .collect(),
        place_p,
        earliest: account.earliest,
        latest: account.latest,
        look: settle::look(model, evidence, after, &cells, &nearest),
        nearest,
        nothing_seen,
        claim,
    }
}

/// The claim's years, softened, widened to ten and cut to the grid.
fn cells(axes: &Axes, claim: &Claim) -> Cells {
    let bare = claim
        .to
        .zip(claim.from)
        .is_some_and(|(t, f)| t - f == 2 * ABOUT_YEARS);
    let soft = if claim.about && !bare { SOFT } else { 0 };
    let (first, last) = (axes.first().0, axes.last().0);
    let mut from = claim.from.map_or(first, |y| y - soft).clamp(first, last);
    let mut to = claim.to.map_or(last, |y| y + soft).clamp(first, last);
    let lacking = (LEAST_YEARS - (to - from + 1)).max(0);
    from = (from - lacking / 2).max(first);
    to = (to + (lacking + 1) / 2).min(last);
    Cells {
        kinds: claim.kinds.clone(),
        from: Year(from),
        to: Year(to),
    }
}

struct Standing {
    p: f64,
    share: f64,
    weight: f64,
}

impl Standing {
    fn new(axes: &Axes, prior: &[f64], after: &Posterior, cells: &Cells) -> Standing {
        let width = usize::try_from(cells.to.0 - cells.from.0).unwrap_or(0) + 1;
        let p = cells.sides(axes, after.cells()).0;
        let best = if cells.kinds.is_empty() {
            best_run(&after.years(axes), width)
        } else {
            (0..axes.kinds() as u8)
                .map(|k| best_run(&after.years_where(axes, |kind, _| kind == KindId(k)), width))
                .fold(p, f64::max)
        };
        Standing {
            p,
            share: if best > 0.0 { p / best } else { 1.0 },
            weight: cells.log_odds(axes, after.cells()) - cells.log_odds(axes, prior),
        }
    }

    /// With no finding that speaks there is nothing for or against.
    fn answer(&self, findings: usize) -> Answer {
        if findings == 0 {
            Answer::Possible
        } else if self.share < RULED_OUT && self.weight <= AGAINST {
            Answer::RuledOut
        } else if self.share < POSSIBLE {
            Answer::HardToSupport
        } else if self.share < SUPPORTED {
            Answer::Possible
        } else {
            Answer::Supported
        }
    }
}

/// Greatest sum of any `width` years in a row.
fn best_run(p: &[f64], width: usize) -> f64 {
    p.windows(width.clamp(1, p.len()))
        .map(|w| w.iter().sum::<f64>())
        .fold(0.0, f64::max)
}

/// Findings without which the claim would stand better, worst first.
fn hurts(model: &Model, weighing: &Weighing, cells: &Cells) -> Vec<Hurt> {
    let axes = &model.axes;
    let whole = cells.log_odds(axes, weighing.posterior().cells());
    let mut out: Vec<Hurt> = (0..weighing.voices().len())
        .filter_map(|i| {
            let entry = weighing.voices()[i].entry;
            let rest = weighing.without(i);
            let decibans = whole - cells.log_odds(axes, rest.cells());
            (decibans < -1.0).then(|| Hurt {
                entry,
                decibans,
                era: contradiction(model, &rest, &entry, cells),
            })
        })
        .collect();
    out.sort_by(|a, b| {
        let by_weight = a.decibans.total_cmp(&b.decibans);
        by_weight.then(a.entry.clue.cmp(&b.entry.clue))
    });
    out
}

/// The finding's own years, if none of those claimed is among them.
fn contradiction(
    model: &Model,
    rest: &Posterior,
    entry: &Entry,
    cells: &Cells,
) -> Option<(Year, Year)> {
    let axes = &model.axes;
    let heights = scaled(era(model, rest.cells(), entry)?);
    let seen: Vec<Year> = heights
        .iter()
        .enumerate()
        .filter(|(_, h)| **h >= CONTRADICTS)
        .map(|(offset, _)| axes.year(offset))
        .collect();
    let apart = seen.iter().all(|y| !(cells.from..=cells.to).contains(y));
    let (first, last) = (*seen.first()?, *seen.last()?);
    apart.then_some((first, last))
}

/// The claim itself if it stands, else the same number of years moved as little as need be until
/// they do: of the kinds named if those can stand at all, else of the leading kind.
fn nearest(axes: &Axes, after: &Posterior, cells: &Cells, answer: Answer) -> Nearest {
    let all_years = cells.from == axes.first() && cells.to == axes.last();
    let likeliest = |kinds: &[KindId]| {
        let p = after.kinds(axes);
        let all: Vec<KindId> = (0..axes.kinds() as u8).map(KindId).collect();
        let among = if kinds.is_empty() { &all } else { kinds };
        among.iter().copied().fold(among[0], |best, k| {
            if p[usize::from(k.0)] > p[usize::from(best.0)] {
                k
            } else {
                best
            }
        })
    };
    let named = !cells.kinds.is_empty();
    if answer == Answer::Supported {
        return Nearest {
            kind: likeliest(&cells.kinds),
            of_kind: named,
            from: cells.from,
            to: cells.to,
            p: cells.sides(axes, after.cells()).0,
        };
    }
    let width = if all_years {
        30
    } else {
        usize::try_from(cells.to.0 - cells.from.0).unwrap_or(0) + 1
    };
    let width = width.min(axes.years());
    let leader = after.leading(axes).0;
    // The best any kind (or all of them, when none is named) does with so many years.
    let of =
        |kinds: &[KindId]| after.years_where(axes, |k, _| kinds.is_empty() || kinds.contains(&k));
    let best_of_leader = best_run(&of(&[leader]), width);
    let best_of_named = best_run(&of(&cells.kinds), width);
    let keep = !named || best_of_named >= SUPPORTED * best_of_leader;
    let kinds = if keep {
        cells.kinds.clone()
    } else {
        vec![leader]
    };
    let years = of(&kinds);
    let goal = SUPPORTED * best_run(&years, width).max(if named { best_of_leader } else { 0.0 });
    let wanted = axes.offset(cells.from).unwrap_or(0);
    let runs: Vec<f64> = years.windows(width).map(|w| w.iter().sum()).collect();
    let start = if all_years {
        (0..runs.len()).max_by(|a, b| runs[*a].total_cmp(&runs[*b]).then(b.cmp(a)))
    } else {
        (0..runs.len())
            .filter(|&i| runs[i] >= goal * (1.0 - 1e-9))
            .min_by_key(|&i| (i.abs_diff(wanted), i))
    };
    let start = start.unwrap_or(0);
    Nearest {
        kind: likeliest(&kinds),
        of_kind: named,
        from: axes.year(start),
        to: axes.year(start + width - 1),
        p: runs[start],
    }
}
