//! Every sentence the program says about a verdict, written once.
//!
//! The screens, the text, Markdown and HTML reports and the JSON all take their words from here.
//!
//! | file | what |
//! |---|---|
//! | `scales` | words for chance and for support, with their published scales |
//! | `reasons` | what a finding did, what is at odds, why to stop, what would change the answer |

pub mod reasons;
pub mod scales;
