//! printseam
