//! The British designs registry: diamonds, registered numbers, and days of the calendar.
//!
//! Pure: knows no files, screens, clock or threads. Tables are data from `rules/marks/registry.ron`.
//!
//! | file | what |
//! |---|---|
//! | `calendar` | days and runs of days |
//! | `tables` | letters, lists and classes |
//! | `decoded` | what decoding gives, as facts |
//! | `corners` | the corners of a diamond and its layout |
//! | `diamond` | corners to dates |
//! | `impossible` | why no day fits a diamond |
//! | `numbers` | registered numbers to years |

pub mod calendar;
pub mod corners;
pub mod decoded;
pub mod diamond;
mod impossible;
pub mod numbers;
pub mod tables;
