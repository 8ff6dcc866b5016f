//! One piece on the table: rule base, setting, findings so far, and the verdict they give.
//!
//! | file | what |
//! |---|---|
//! | `expert` | the rule base with its engine, shared by all cases |
//! | `intake` | marks and notes to findings |
//! | `notation` | "clue=finding?" to an entry and back |
//! | `sighting_file` | sighting files |
//! | `trial` | one finding flipped: before and after side by side |
//! | `verdict` | everything the engine answers, by id, ready for any front end |

pub mod expert;
pub mod intake;
pub mod notation;
pub mod sighting_file;
pub mod trial;
pub mod verdict;

use std::sync::Arc;

use crate::core::grid::ClueId;
use crate::core::model::Station;
use crate::core::observation::{Evidence, Observation};
use crate::rulebase::ids::{Id, SettingId};
use expert::Expert;
use verdict::Verdict;

/// A consultation: findings are added, changed and taken back; the verdict follows at once.
#[derive(Clone, Debug)]
pub struct Piece {
    expert: Arc<Expert>,
    setting: SettingId,
    evidence: Evidence,
    /// Earlier settings and evidence, for undo.
    history: Vec<(SettingId, Evidence)>,
    verdict: Verdict,
}

impl Piece {
    /// A piece of which nothing has been seen. A setting beyond the list counts as the last.
    pub fn new(expert: Arc<Expert>, setting: SettingId) -> Piece {
        let setting = listed(&expert, setting);
        let evidence = Evidence::new();
        let verdict = Verdict::new(&expert, setting, &evidence, None);
        Piece {
            expert,
            setting,
            evidence,
            history: Vec::new(),
            verdict,
        }
    }

    /// The rule base and engine.
    pub fn expert(&self) -> &Arc<Expert> {
        &self.expert
    }

    /// The setting.
    pub fn setting(&self) -> SettingId {
        self.setting
    }

    /// The findings so far.
    pub fn evidence(&self) -> &Evidence {
        &self.evidence
    }

    /// The verdict on the findings so far.
    pub fn verdict(&self) -> &Verdict {
        &self.verdict
    }

    /// Adds or changes one finding.
    pub fn say(&mut self, entry: Observation) {
        self.say_all(&[entry]);
    }

    /// Adds or changes several findings in one undoable step.
    pub fn say_all(&mut self, entries: &[Observation]) {
        self.change(|evidence| entries.iter().for_each(|e| evidence.say(*e)));
    }

    /// Takes back what was said of a clue.
    pub fn forget(&mut self, clue: ClueId) {
        self.change(|evidence| {
            evidence.forget(clue);
        });
    }

    /// Starts over with the same setting; can be undone.
    pub fn clear(&mut self) {
        self.change(|evidence| *evidence = Evidence::new());
    }

    /// Takes back the last change; false when there is none.
    pub fn undo(&mut self) -> bool {
        let Some((setting, earlier)) = self.history.pop() else {
            return false;
        };
        self.setting = setting;
        self.evidence = earlier;
        self.weigh();
        true
    }

    /// Moves the piece to another setting; can be undone.
    pub fn set_setting(&mut self, setting: SettingId) {
        let setting = listed(&self.expert, setting);
        if setting != self.setting {
            self.history.push((self.setting, self.evidence.clone()));
            self.setting = setting;
            self.weigh();
        }
    }

    /// The station the last look was made at.
    pub fn station(&self) -> Option<Station> {
        station_of(&self.expert, &self.evidence)
    }

    fn change(&mut self, change: impl FnOnce(&mut Evidence)) {
        let before = self.evidence.clone();
        change(&mut self.evidence);
        if self.evidence != before {
            self.history.push((self.setting, before));
            self.weigh();
        }
    }

    fn weigh(&mut self) {
        let at = self.station();
        self.verdict = Verdict::new(&self.expert, self.setting, &self.evidence, at);
    }
}

/// A setting that the rule base has.
fn listed(expert: &Expert, setting: SettingId) -> SettingId {
    let last = expert.engine.priors.len() - 1;
    SettingId::at(setting.index().min(last)).unwrap_or_default()
}

/// The station of the last entry.
pub fn station_of(expert: &Expert, evidence: &Evidence) -> Option<Station> {
    let last = evidence.entries().last()?;
    Some(expert.engine.model.clue(last.clue).station)
}
