//! Reports to take away: the same verdict and sentences as text, pages and JSON.

pub mod card;
pub mod challenge;
pub mod class_sheet;
pub mod guide;
pub mod guide_text;
pub mod handout;
#[cfg(feature = "pages")]
pub mod html;
pub mod json;
mod label;
pub mod lesson;
pub mod linked;
pub mod markdown;
#[cfg(feature = "pages")]
pub mod picture_file;
pub mod sheet;
pub mod shelf;
pub mod svg;
pub mod text;
mod timeline;
