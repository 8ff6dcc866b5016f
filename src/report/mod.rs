//! Reports to take away: the same verdict and sentences as text and JSON.

pub mod challenge;
pub mod json;
pub mod text;
