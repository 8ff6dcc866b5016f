//! What was offered, where, and what became of it.

use super::appearance::Appearance;
use super::money::Money;
use crate::registry::calendar::Date;

/// One piece that was put up for sale.
#[derive(Clone, Debug, PartialEq)]
pub struct Sale {
    /// The piece as it was known.
    pub appearance: Appearance,
    /// Id of the channel.
    pub channel: String,
    /// The day it was put up.
    pub listed: Date,
    /// When it sold and for how much, before costs; `None` while it waits.
    pub sold: Option<(Date, Money)>,
}
