//! Every sentence the program says about a verdict, written once.
//!
//! The screens, the text, Markdown and HTML reports and the JSON all take their words from here.
//!
//! | file | what |
//! |---|---|
//! | `challenge` | a guess put to the findings |
//! | `outlook` | why a look is proposed, and what each finding would lead to |
//! | `summary` | bands, ends and rarity |
//! | `scales` | words for chance and for support, with their published scales |
//! | `reasons` | what a finding did, what is at odds, why to stop, what would change the answer |

pub mod challenge;
pub mod outlook;
pub mod reasons;
pub mod scales;
pub mod summary;
