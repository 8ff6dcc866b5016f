//! What everything is drawn with; nothing here knows the screens or what lies on the table.
//!
//! | file | what |
//! |---|---|
//! | `theme` | roles and their styles |
//! | `wrap` | text to lines, measured in cells |
//! | `rows` | rows of text with what a click on them means |
//! | `said` | a frame in words, for those who hear a screen |
//! | `canvas` | a buffer rows are put on |
//! | `ascii` | the same for a terminal that knows no other letters |
//! | `picture` | pictures in rows of characters |
//! | `columns` | years to columns of a picture |

pub mod ascii;
pub(super) mod canvas;
pub(super) mod columns;
pub(super) mod picture;
pub(super) mod rows;
pub mod said;
pub mod theme;
pub(super) mod wrap;
