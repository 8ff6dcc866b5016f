//! Every sentence the program says about a verdict, written once.
//!
//! The screens, the text, Markdown and HTML reports and the JSON all take their words from here.
//!
//! | file | what |
//! |---|---|
//! | `account` | the verdict as a whole: rests on, against, would change, next |
//! | `challenge`, `understood` | a guess put to the findings; what was understood of it |
//! | `glossary` | trade words within a sentence |
//! | `outlook` | why a look is proposed, and what each finding would lead to |
//! | `reasons` | what a finding did, what is at odds, why to stop, what would change the answer |
//! | `registration` | what a diamond or a registered number says, and why it is not possible |
//! | `scales` | words for chance and for support, with their published scales |
//! | `summary` | bands, ends and rarity |
//! | `what_if` | before and after a trial change |

pub mod account;
pub mod challenge;
pub mod glossary;
pub mod outlook;
pub mod reasons;
pub mod registration;
pub mod scales;
pub mod summary;
pub mod understood;
pub mod what_if;
