//! Text to findings: the wording of marks, lines of notes, and dates as people write them.
//!
//! Pure: knows no files, screens, clock or threads, and of the engine only its ids, years and
//! degrees of sureness. Phrases and words are data from the rule files.
//!
//! | file | what |
//! |---|---|
//! | `fold` | text to comparable words that keep their place |
//! | `lexicon` | phrases with what each stands for |
//! | `vocabulary` | the words of the rule files, ready to listen with |
//! | `matcher` | phrases in words that may be misread; generic |
//! | `choose` | which reading gets which words |
//! | `mark` | the phrase book and what a mark says |
//! | `reads` | what a phrase of a mark leads to |
//! | `follow` | years, numbers and corners beside the words of a mark |
//! | `written_diamond` | diamonds written out in a text |
//! | `notes` | lines of notes in trade words |
//! | `ear_words` | the words a line is listened to with, in one spelling |
//! | `phrases` | a line cut into phrases, with denials, hedges and quotes |
//! | `belongs` | which thing a colour or picture is of |
//! | `judged` | what becomes of each thing heard |
//! | `sizes` | measures in a line |
//! | `hearings` | what a line of notes gives, and what its readers pass on |
//! | `opinion` | kinds and years the writer takes for right |
//! | `one_per_clue` | what counts where a clue is answered twice, and what gave way |
//! | `search` | words typed to find something |
//! | `dates/` | years, periods and ages as people write them |

mod belongs;
pub mod choose;
pub mod dates;
pub mod ear_words;
pub mod fold;
mod follow;
pub mod hearings;
mod judged;
pub mod lexicon;
pub mod mark;
pub mod matcher;
pub mod notes;
pub mod one_per_clue;
pub mod opinion;
mod phrases;
mod reads;
pub mod search;
mod sizes;
pub mod vocabulary;
mod written_diamond;
