//! The rule base with its engine.

use crate::core::grid::Year;
use crate::rulebase::RuleBase;
use crate::rulebase::engine::Engine;
use crate::rulebase::problem::Problem;
use crate::rulebase::source::SourceFile;

/// Everything that stays the same from piece to piece.
#[derive(Debug)]
pub struct Expert {
    pub base: RuleBase,
    pub engine: Engine,
}

impl Expert {
    /// Compiles a checked rule base; `present` is the newest year a piece can have been made.
    pub fn new(base: RuleBase, present: Year) -> Expert {
        let engine = Engine::new(&base, present);
        Expert { base, engine }
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
