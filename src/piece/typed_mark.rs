//! The words of a mark: typed once, they answer what would else be asked word by word.

use super::expert::Expert;
use crate::core::grid::ClueId;
use crate::core::model::{Gate, Station};
use crate::core::observation::{Evidence, Observation, Origin};
use crate::core::question::follows_cant_tell;
use crate::rulebase::RuleBase;

/// Seconds to turn the piece up, read a mark and type its words (common practice, no source).
pub const MARK_SECONDS: f64 = 15.0;

/// True for a clue that the words or figures of a mark answer. The year of a registration or of a
/// code is none: it has to be looked up first.
pub fn in_words(base: &RuleBase, clue: ClueId) -> bool {
    let rules = base.clue(clue);
    let by_word = |clue: ClueId| base.clue(clue).absent_from_whole_mark.is_some();
    let read = rules.dated.is_some() && !rules.gate.iter().any(|clause| by_word(clause.clue));
    rules.station == Station::Mark && !rules.gate.is_empty() && (by_word(clue) || read)
}

/// True when the mark was typed, or could not be read.
pub fn was_typed(evidence: &Evidence) -> bool {
    let typed = |o: &Observation| o.origin == Origin::Mark;
    evidence.observations().iter().any(typed)
}

/// The clues that typing the mark would answer, once it is known that there is one: by the way it
/// was made, or by a word that struck the eye. None once it was typed.
pub fn words_to_type(expert: &Expert, evidence: &Evidence) -> Vec<ClueId> {
    if was_typed(evidence) {
        return Vec::new();
    }
    let model = &expert.engine().model;
    let words = || model.clue_ids().filter(|id| in_words(&expert.base, *id));
    let glimpsed = words().any(|id| evidence.of(id).is_some());
    let open = |id: &ClueId| match model.gate(*id, evidence) {
        Gate::Open => true,
        Gate::Waiting => glimpsed,
        Gate::Closed => false,
    };
    // Whoever could not tell how the mark was made can't read it either.
    let plain = |id: &ClueId| !follows_cant_tell(model.clue(*id), evidence);
    let unsaid = words().filter(|id| evidence.of(*id).is_none());
    unsaid.filter(open).filter(plain).collect()
}

/// What is known of those clues when the mark can't be read.
pub fn unread(expert: &Expert, evidence: &Evidence) -> Vec<Observation> {
    let words = words_to_type(expert, evidence).into_iter();
    let unread = |clue| Observation::cant_tell(clue).from(Origin::Mark);
    words.map(unread).collect()
}
