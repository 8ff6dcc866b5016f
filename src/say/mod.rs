//! Facts in, sentences out: every sentence the program says about a piece is written here, once.
//!
//! Nothing here infers: what is said has been worked out by `core`, `piece` or `claim`. The screens,
//! the text, Markdown and HTML reports and the JSON all take their words from here.
//!
//! | file | the fact it words |
//! |---|---|
//! | `names` | names of clues and kinds within a sentence |
//! | `scales` | chances and strengths, with their published scales |
//! | `observation` | what was seen |
//! | `taken` | what was made of all that was told |
//! | `plain` | the verdict in three lines for a picker |
//! | `opinion` | what somebody takes it to be, beside what is seen |
//! | `card` | what a shelf card tells a buyer |
//! | `odds` | odds and strength as people say them |
//! | `setting_effect` | what the place of the find adds to what is seen |
//! | `headline` | the verdict in one sentence |
//! | `band` | bands of years, first and last year |
//! | `rarity` | how uncommon the piece is |
//! | `weight` | what a finding did |
//! | `leaning` | what a finding speaks for and against |
//! | `at_odds` | a finding the others make unlikely |
//! | `turning` | what would change the answer |
//! | `look` | why a look is proposed, and why to stop |
//! | `account` | the verdict as a whole: rests on, against, would change, next |
//! | `claim`, `claim_read` | a guess put to the findings; what was understood of it |
//! | `shelf` | buy it or leave it, and why |
//! | `drill`, `round`, `asked`, `progress` | questions of drills and why; how an answer and a round went; a piece asked look by look; how a learner stands |
//! | `trial` | before and after a trial change |
//! | `registration` | what a diamond or a registered number says, and why it is not possible |
//! | `caution` | cautions where they matter |
//! | `origin` | where figures come from |
//! | `glossary` | trade words within a sentence |

pub mod account;
pub mod asked;
pub mod at_odds;
pub mod band;
pub mod card;
pub mod caution;
pub mod claim;
pub mod claim_read;
pub mod drill;
pub mod glossary;
pub mod headline;
pub mod leaning;
pub mod look;
pub mod names;
pub mod observation;
pub mod odds;
pub mod opinion;
pub mod origin;
pub mod plain;
pub mod progress;
pub mod rarity;
pub mod registration;
pub mod round;
pub mod scales;
pub mod setting_effect;
pub mod shelf;
pub mod taken;
pub mod trial;
pub mod turning;
pub mod weight;
