//! printseam: how an old printed plate was decorated, about when, how rare, and why.

pub mod case;
pub mod core;
pub mod marks;
pub mod prove;
pub mod rulebase;
pub mod words;
