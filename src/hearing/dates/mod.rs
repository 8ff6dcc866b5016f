//! Years as people write them: "1890s", "c. 1840-60", "Victorian", "over a hundred years old", EDTF.
//!
//! | file | what |
//! |---|---|
//! | `words` | the words of dates, periods and ages, from the rule files |
//! | `tokens` | a text cut into words, numbers and dashes |
//! | `span` | years as understood, and parts of them |
//! | `reader` | what every reader of years looks at |
//! | `unit` | one year, decade, century or period as named |
//! | `age` | years told as an age |
//! | `years` | units and ranges of them, in plain or EDTF writing |

mod age;
mod reader;
pub mod span;
pub mod tokens;
mod unit;
pub mod words;
pub mod years;
