//! Questions made from the rule base and a seed. Each is `None` when the rule base has nothing to
//! make it of.

use std::sync::Arc;

use super::hidden::{Eyes, Hidden};
use super::item::{ANSWERS, Item, Picture};
use crate::core::grid::{ClueId, FindingId, KindId};
use crate::core::model::Station;
use crate::core::observation::{Evidence, Observation};
use crate::core::seeded::Seeded;
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::piece::intake::{Told, intake};
use crate::rulebase::definitions::{Asks, Practice};
use crate::rulebase::ids::{SettingId, ids};

/// Pieces drawn in search of one that suits the question: of a misfit about one in a hundred and twenty
/// does (4 of 100 searches found none among 400), so that none in 4,000 is as good as never.
const TRIES: u64 = 4_000;

/// Looks at a piece in the questions on a whole piece, and through the loupe alone
/// (common practice, no source).
const LOOKS: usize = 5;
const LOUPE_LOOKS: usize = 2;

/// The findings must put one side at least this far ahead for the question to be fair
/// (common practice, no source).
const CLEAR: f64 = 0.9;

/// Findings that say what is not there, or nothing in particular, are no question.
const NO_PICTURE: [&str; 3] = ["none", "other", "present"];

/// Name the finding: of any clue, or of those of the loupe.
pub fn which(expert: &Expert, seed: u64) -> Option<Item> {
    let mut stream = Seeded::new(seed);
    let all = findings(expert);
    let &(clue, finding) = stream.one_of(&all)?;
    which_of(expert, clue, finding, seed)
}

/// All findings that can be shown.
fn findings(expert: &Expert) -> Vec<(ClueId, FindingId)> {
    let stations = [Station::Loupe, Station::Back, Station::Glaze];
    let clues = ids::<ClueId>(expert.base.clues.len());
    let clues = clues.filter(|c| stations.contains(&expert.base.clue(*c).station));
    let of = |c: ClueId| ids::<FindingId>(expert.base.clue(c).findings.len()).map(move |f| (c, f));
    let named = |(c, f): &(ClueId, FindingId)| {
        let finding = expert.base.finding(*c, *f);
        !NO_PICTURE.contains(&finding.id.as_str()) && !finding.because.is_empty()
    };
    clues.flat_map(of).filter(named).collect()
}

/// Name this finding.
pub fn which_of(expert: &Expert, clue: ClueId, finding: FindingId, seed: u64) -> Option<Item> {
    let mut stream = Seeded::part(seed, 1);
    let count = expert.base.clue(clue).findings.len();
    let mut others: Vec<FindingId> = ids(count).filter(|f| *f != finding).collect();
    stream.shuffle(&mut others);
    others.truncate(ANSWERS - 1);
    let mut answers = [vec![finding], others].concat();
    stream.shuffle(&mut answers);
    let picture = Picture {
        clue,
        finding,
        seed,
    };
    (answers.len() > 1).then_some(Item::Which { picture, answers })
}

/// Printed or painted? What two looks through the loupe show of a drawn piece.
pub fn printed(expert: &Arc<Expert>, seed: u64) -> Option<Item> {
    let (model, [printed, painted]) = (&expert.engine().model, &expert.base.printed_or_painted);
    let setting = expert.base.neutral();
    let mut wanted = Seeded::part(seed, 2);
    let is_printed = wanted.share() < 0.5;
    let side = if is_printed { printed } else { painted };
    (0..TRIES).find_map(|n| {
        let piece_seed = Seeded::part(seed, 10 + n).number();
        let prior = &expert.engine().priors[setting];
        let hidden = Hidden::draw(model, prior, piece_seed, Eyes::Perfect)?;
        if !side.contains(&hidden.kind) {
            return None;
        }
        let mut stream = Seeded::part(piece_seed, 1);
        let mut looks: Vec<ClueId> = model
            .clue_ids()
            .filter(|c| model.clue(*c).station == Station::Loupe)
            .collect();
        stream.shuffle(&mut looks);
        let seen = hidden.seen(model, &looks, LOUPE_LOOKS);
        let piece = Piece::new(expert.clone(), setting, seen);
        let ahead =
            share_of(&piece, side) / (share_of(&piece, printed) + share_of(&piece, painted));
        (ahead >= CLEAR).then_some(Item::Printed {
            piece,
            printed: is_printed,
        })
    })
}

fn share_of(piece: &Piece, kinds: &[KindId]) -> f64 {
    let all = piece.judgement().kinds.iter();
    all.filter(|(k, _)| kinds.contains(k)).map(|(_, p)| p).sum()
}

/// Spot the misfit: a drawn piece of which one finding has been changed for one the others make very
/// unlikely.
pub fn misfit(expert: &Arc<Expert>, setting: SettingId, seed: u64) -> Option<Item> {
    let model = &expert.engine().model;
    (0..TRIES).find_map(|n| {
        let piece_seed = Seeded::part(seed, 10 + n).number();
        let prior = &expert.engine().priors[setting];
        let hidden = Hidden::draw(model, prior, piece_seed, Eyes::Perfect)?;
        let mut stream = Seeded::part(piece_seed, 1);
        let mut looks: Vec<ClueId> = model.clue_ids().collect();
        stream.shuffle(&mut looks);
        let seen = hidden.seen(model, &looks, LOOKS);
        let answers: Vec<ClueId> = seen.observations().iter().map(|o| o.clue).collect();
        let odd = *stream.one_of(&answers)?;
        let count = expert.base.clue(odd).findings.len();
        let fresh: Vec<FindingId> = ids(count).collect();
        let changed = Observation::finding(odd, *stream.one_of(&fresh)?);
        let piece = Piece::new(expert.clone(), setting, seen).with(changed);
        // One finding only, or the question has two answers; and at odds with others, not merely rare.
        let fair = answers.len() == LOOKS
            && matches!(piece.at_odds(), [only]
                if only.observation.clue == odd && !only.against.is_empty())
            && piece
                .evidence()
                .observations()
                .iter()
                .all(|o| model.speaks(o, piece.evidence()));
        fair.then_some(Item::Misfit {
            piece,
            answers,
            odd,
        })
    })
}

/// A practice item of a lesson.
pub fn practice(expert: &Arc<Expert>, lesson: usize, item: usize, seed: u64) -> Option<Item> {
    let practice = expert.base.lessons.get(lesson)?.practice.get(item)?;
    let piece = described(expert, practice);
    let mut stream = Seeded::part(seed, 3);
    let at = (lesson, item);
    Some(match &practice.asks {
        Asks::Kind(kinds) => Item::Kind {
            at,
            piece,
            mark: practice.mark.clone(),
            right: *kinds.first()?,
            answers: shuffled(&mut stream, kinds),
        },
        Asks::Years(spans) => {
            // Runs of years are easier to read in order of time.
            let mut answers = spans.clone();
            answers.sort_unstable();
            Item::Made {
                at,
                piece,
                mark: practice.mark.clone(),
                right: *spans.first()?,
                answers,
            }
        }
        Asks::RarerThan(other) => {
            let other = piece.cleared().with_all(observations(other));
            let right = stream.below(2);
            let answers = match right {
                0 => [piece, other],
                _ => [other, piece],
            };
            Item::Rarer { at, answers, right }
        }
    })
}

/// The piece of a practice item, judged where every year counts alike; rarity, where most is sold.
fn described(expert: &Arc<Expert>, practice: &Practice) -> Piece {
    let setting = match practice.asks {
        Asks::RarerThan(_) => SettingId::default(),
        Asks::Kind(_) | Asks::Years(_) => expert.base.neutral(),
    };
    let saw: Vec<Observation> = observations(&practice.saw).collect();
    let told = Told {
        mark: &practice.mark,
        saw: &saw,
        ..Told::default()
    };
    // Only a registration given by itself is ever refused, and none is given.
    let evidence = intake(expert, &told).map_or_else(|_| Evidence::new(), |taken| taken.evidence);
    Piece::new(expert.clone(), setting, evidence)
}

fn observations(saw: &[(ClueId, FindingId)]) -> impl Iterator<Item = Observation> {
    saw.iter().map(|(c, f)| Observation::finding(*c, *f))
}

fn shuffled<T: Clone>(stream: &mut Seeded, all: &[T]) -> Vec<T> {
    let mut out = all.to_vec();
    stream.shuffle(&mut out);
    out
}
