//! The British designs registry: diamonds, registered numbers, and days of the calendar.
//!
//! Pure: knows no files, screens, clock or threads. Tables are data from `rules/marks/registry.ron`.
//!
//! | file | what |
//! |---|---|
//! | `calendar` | days and runs of days |
//! | `tables` | letters, lists and classes, and what decoding gives |
//! | `corners` | the corners of a diamond and its layout |
//! | `diamond` | corners to dates and back |
//! | `diamond_words` | what is said of a diamond |
//! | `numbers` | registered numbers to years |

pub mod calendar;
pub mod corners;
pub mod diamond;
mod diamond_words;
pub mod numbers;
pub mod tables;
