//! Reports to take away: the same verdict and sentences as text and JSON.

pub mod challenge;
#[cfg(feature = "pages")]
pub mod html;
pub mod json;
pub mod markdown;
pub mod sheet;
pub mod shelf;
pub mod svg;
pub mod text;
