//! The rule base with its engine.

use std::fmt;
use std::sync::OnceLock;

use crate::core::grid::Year;
use crate::core::market::Market;
use crate::hearing::notes::Spoken;
use crate::rulebase::RuleBase;
use crate::rulebase::engine::Engine;
use crate::rulebase::ids::{Id, SettingId};
use crate::rulebase::market::market;
use crate::rulebase::problem::Problem;
use crate::rulebase::source::SourceFile;
use crate::rulebase::spoken::spoken;

/// Everything that stays the same from piece to piece.
#[derive(Debug)]
pub struct Expert {
    pub base: RuleBase,
    /// The newest year a piece can have been made.
    present: Year,
    /// Worked out when first asked for, as the markets are: the first screen needs neither.
    engine: Kept<Engine>,
    spoken: Kept<Spoken>,
    /// One a setting.
    markets: Vec<Kept<Market>>,
}

/// Says nothing of what is kept: that depends on who asked before.
struct Kept<T>(OnceLock<T>);

impl<T> fmt::Debug for Kept<T> {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("Kept")
    }
}

impl Expert {
    /// Takes a checked rule base; `present` is the newest year a piece can have been made.
    pub fn new(base: RuleBase, present: Year) -> Expert {
        Expert {
            markets: base
                .settings
                .iter()
                .map(|_| Kept(OnceLock::new()))
                .collect(),
            base,
            present,
            engine: Kept(OnceLock::new()),
            spoken: Kept(OnceLock::new()),
        }
    }

    /// The newest year a piece can have been made.
    pub fn present(&self) -> Year {
        self.present
    }

    /// The engine's tables and priors.
    pub fn engine(&self) -> &Engine {
        let work_out = || Engine::new(&self.base, self.present);
        self.engine.0.get_or_init(work_out)
    }

    /// How findings are said in a line of notes.
    pub fn spoken(&self) -> &Spoken {
        self.spoken.0.get_or_init(|| spoken(&self.base))
    }

    /// What turns up in a setting.
    pub fn market(&self, setting: SettingId) -> &Market {
        let work_out = || {
            market(
                &self.base,
                &self.engine().model,
                &self.base.settings[setting.index()],
            )
        };
        self.markets[setting.index()].0.get_or_init(work_out)
    }

    /// Loads rule files and compiles them, or gives all problems.
    ///
    /// # Errors
    /// All problems of all files.
    pub fn load(files: &[SourceFile], present: Year) -> Result<Expert, Vec<Problem>> {
        Ok(Expert::new(RuleBase::load(files)?, present))
    }

    /// The rule base built into the program.
    ///
    /// # Errors
    /// As `load`; a test holds that the shipped files have no problem.
    pub fn shipped(present: Year) -> Result<Expert, Vec<Problem>> {
        Ok(Expert::new(RuleBase::shipped()?, present))
    }
}
