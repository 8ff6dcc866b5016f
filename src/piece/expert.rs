//! The rule base with its engine.

use std::fmt;
use std::sync::OnceLock;

use crate::core::grid::Year;
use crate::core::market::Market;
use crate::rulebase::RuleBase;
use crate::rulebase::engine::Engine;
use crate::rulebase::ids::{Id, SettingId};
use crate::rulebase::market::market;
use crate::rulebase::problem::Problem;
use crate::rulebase::source::SourceFile;

/// Everything that stays the same from piece to piece.
#[derive(Debug)]
pub struct Expert {
    pub base: RuleBase,
    pub engine: Engine,
    /// One a setting, worked out when first asked for.
    markets: Markets,
}

/// Says nothing of what is kept: that depends on who asked before.
struct Markets(Vec<OnceLock<Market>>);

impl fmt::Debug for Markets {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("Markets")
    }
}

impl Expert {
    /// Compiles a checked rule base; `present` is the newest year a piece can have been made.
    pub fn new(base: RuleBase, present: Year) -> Expert {
        let engine = Engine::new(&base, present);
        Expert {
            markets: Markets((0..engine.priors.len()).map(|_| OnceLock::new()).collect()),
            base,
            engine,
        }
    }

    /// What turns up in a setting.
    pub fn market(&self, setting: SettingId) -> &Market {
        let work_out = || {
            market(
                &self.base,
                &self.engine.model,
                &self.base.settings[setting.index()],
            )
        };
        self.markets.0[setting.index()].get_or_init(work_out)
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
