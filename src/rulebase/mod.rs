//! The rule base: RON files read, checked with places, and compiled for the engine.
//!
//! | file | what |
//! |---|---|
//! | `source` | file texts and values that know their line and column |
//! | `problem` | what is wrong, where, what was allowed; nearest names |
//! | `schema` | the files as written |
//! | `ladder` | words of frequency |
//! | `resolve`, `numbers` | names to indices, text to numbers; every problem noted |
//! | `load` | topic by topic, all problems at once |
//! | `load_glossary` | trade words |
//! | `schema_words`, `word_lists`, `load_words` | the words of notes, tickets and dates |
//! | `load_world`, `load_clues` | the topics: kinds, places, settings and so on; clues and market |
//! | `load_marks` | phrases and registration tables of marks, spoken forms |
//! | `origins` | how many figures rest on what |
//! | `informative` | refuses findings that change nothing |
//! | `definitions` | the checked rule base |
//! | `engine` | tables and priors for `core` |
//! | `shipped` | the files built into the program |

pub mod compile_marks;
pub mod definitions;
pub mod engine;
mod informative;
pub mod ladder;
pub mod load;
mod load_clues;
mod load_glossary;
mod load_marks;
mod load_words;
mod load_world;
mod numbers;
pub mod origins;
pub mod problem;
mod resolve;
mod schema;
pub mod schema_marks;
mod schema_words;
pub mod shipped;
pub mod source;
mod word_lists;

use crate::core::grid::{ClueId, FindingId};
use crate::core::observation::Sure;
use crate::hearing::mark::Phrasebook;
use crate::hearing::notes::Spoken;
use crate::hearing::vocabulary::Vocabulary;
use crate::registry::tables::Registry;
use definitions::{
    Caution, Clue, Family, Finding, Kernel, Kind, Place, RarityFeature, Setting, Source, Term,
};
use problem::Problem;
use source::SourceFile;

/// A checked rule base.
#[derive(Clone, Debug)]
pub struct RuleBase {
    /// Changes whenever any rule file changes: FNV-1a over names and texts, in hexadecimal.
    pub version: String,
    pub sources: Vec<Source>,
    pub kinds: Vec<Kind>,
    pub places: Vec<Place>,
    pub settings: Vec<Setting>,
    pub families: Vec<Family>,
    pub kernels: Vec<Kernel>,
    pub clues: Vec<Clue>,
    pub market: Vec<RarityFeature>,
    pub cautions: Vec<Caution>,
    pub glossary: Vec<Term>,
    /// Phrases of marks; empty without `marks/wording.ron`.
    pub wording: Phrasebook,
    /// Registration tables; empty without `marks/registry.ron`.
    pub registry: Registry,
    /// Words of notes, tickets and dates; without `words.ron` only the kinds' own names.
    pub vocabulary: Vocabulary,
    /// How findings are said in a line of notes.
    pub spoken: Spoken<(ClueId, FindingId, Sure)>,
}

impl RuleBase {
    /// Loads and checks files. All problems come back at once, sorted by place.
    pub fn load(files: &[SourceFile]) -> Result<RuleBase, Vec<Problem>> {
        load::load(files, load::Checking::Full)
    }

    /// The rule base built into the program.
    pub fn shipped() -> Result<RuleBase, Vec<Problem>> {
        load::load(&shipped::files(), load::Checking::Tested)
    }

    fn empty(files: &[SourceFile]) -> RuleBase {
        RuleBase {
            version: version(files),
            sources: Vec::new(),
            kinds: Vec::new(),
            places: Vec::new(),
            settings: Vec::new(),
            families: Vec::new(),
            kernels: Vec::new(),
            clues: Vec::new(),
            market: Vec::new(),
            cautions: Vec::new(),
            glossary: Vec::new(),
            wording: Phrasebook::new(Vec::new()),
            registry: Registry::default(),
            vocabulary: Vocabulary::default(),
            spoken: Spoken::new(Vec::<(Vec<String>, _)>::new(), &Vocabulary::default()),
        }
    }

    /// The clue with this id.
    pub fn clue_id(&self, id: &str) -> Option<ClueId> {
        let at = self.clues.iter().position(|c| c.id == id)?;
        Some(ClueId(at as u16))
    }

    /// The clue's texts.
    pub fn clue(&self, id: ClueId) -> &Clue {
        &self.clues[usize::from(id.0)]
    }

    /// A finding's texts.
    pub fn finding(&self, clue: ClueId, finding: FindingId) -> &Finding {
        &self.clue(clue).findings[usize::from(finding.0)]
    }

    /// The setting in which a claim is weighed when nobody says where the piece turned up.
    pub fn neutral(&self) -> usize {
        self.settings.iter().position(|s| s.neutral).unwrap_or(0)
    }

    /// The setting with this id, or the only one whose id begins so.
    pub fn setting(&self, name: &str) -> Option<usize> {
        let exact = self.settings.iter().position(|s| s.id == name);
        exact.or_else(|| {
            let mut begins = (0..self.settings.len())
                .filter(|&i| !name.is_empty() && self.settings[i].id.starts_with(name));
            begins.next().filter(|_| begins.next().is_none())
        })
    }

    /// The glossary entry with this id.
    pub fn term(&self, id: &str) -> Option<&Term> {
        self.glossary.iter().find(|t| t.id == id)
    }

    /// The kind with this id.
    pub fn kind_id(&self, id: &str) -> Option<usize> {
        self.kinds.iter().position(|k| k.id == id)
    }
}

fn version(files: &[SourceFile]) -> String {
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    for byte in files
        .iter()
        .flat_map(|f| f.name.bytes().chain([0]).chain(f.text.bytes()).chain([0]))
    {
        hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
    }
    format!("{hash:016x}")
}
