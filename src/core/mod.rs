//! The engine: exact inference over kind × place × year, and what can be said about the result.
//!
//! Pure arithmetic on the standard library: no files, screens, clock, threads or random source,
//! and no rule texts. Clues and findings are numbers here; `rulebase` gives them names.
//!
//! Notation used in comments: `k` kind, `l` place, `y` year, `h = (k, l, y)` one hypothesis,
//! `f` a finding, `ε` the chance that a finding is misread, `m` how many clues of a family have
//! been answered, `δ` the family's dependence, `λ = m^(−δ)` its damping.
//!
//! | file | what |
//! |---|---|
//! | `grid` | ids and the only flat index of (kind, place, year) |
//! | `curve` | piecewise linear heights over years |
//! | `table` | how often each finding of a clue is met at each hypothesis |
//! | `likelihood` | how likely an observation is, misreading included |
//! | `predictive` | how likely each answer of a clue is, whatever else is known |
//! | `kept_powers` | likelihoods to a power that were worked out before |
//! | `observation` | the ordered list of findings |
//! | `model` | clues, families, gates and grid together |
//! | `scaling` | sums of many cells, and cells that sum to 1 |
//! | `product` | many factors multiplied into all cells at once |
//! | `posterior` | prior × evidence, marginals, and the same with other evidence |
//! | `interval` | shortest bands, quantiles, EDTF text |
//! | `bulk/` | many pieces one after another, with only what a table prints |
//! | `question` | which look tells most per second |
//! | `told` | what a look is expected to tell |
//! | `joint` | what is known now with every answer of a look, summed as `told` needs it |
//! | `read_bins` | the years that may be read at a dated clue, in bins |
//! | `surprisal` | Σ p · log2 p, many at a time |
//! | `foreseen` | what each finding of a look would make of kinds and years |
//! | `left_out` | the evidence without one finding |
//! | `at_odds` | findings the others make very unlikely |
//! | `explanation` | decibans per finding, what sets the ends |
//! | `sensitivity` | the fewest changed findings that would change the answer |
//! | `eras` | when a finding is seen, over years |
//! | `leaning` | which kinds and years each finding speaks for |
//! | `market` | how many pieces of each kind, age and look turn up |
//! | `rarity` | how much of the market is commoner than this piece |
//! | `seeded` | a generator that the seed handed in decides |

pub mod at_odds;
pub mod bulk;
pub mod curve;
pub mod eras;
pub mod explanation;
pub mod foreseen;
pub mod grid;
pub mod interval;
mod joint;
mod kept_powers;
pub mod leaning;
pub mod left_out;
pub mod likelihood;
pub mod market;
pub mod model;
pub mod observation;
pub mod posterior;
mod predictive;
pub mod product;
pub mod question;
pub mod rarity;
mod read_bins;
mod scaling;
pub mod seeded;
pub mod sensitivity;
mod surprisal;
pub mod table;
pub mod told;
