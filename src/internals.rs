//! What tests, benches, the program itself and a browser front need beyond the documented exports.
//!
//! Nothing here is promised: it changes as the rooms change.

pub mod buy {
    pub use crate::buy::*;
}
pub mod claim {
    pub use crate::claim::*;
}
pub mod core {
    pub use crate::core::*;
}
pub mod hearing {
    pub use crate::hearing::*;
}
pub mod learn {
    pub use crate::learn::*;
}
#[cfg(feature = "terminal")]
pub mod lot {
    pub use crate::lot::*;
}
pub mod picture {
    pub use crate::picture::*;
}
pub mod piece {
    pub use crate::piece::*;
}
#[cfg(feature = "tables")]
pub mod prove {
    pub use crate::prove::*;
}
pub mod registry {
    pub use crate::registry::*;
}
pub mod report {
    pub use crate::report::*;
}
pub mod rulebase {
    pub use crate::rulebase::*;
}
pub mod say {
    pub use crate::say::*;
}
pub mod screens {
    pub use crate::screens::*;
}
#[cfg(feature = "terminal")]
pub mod cli {
    pub use crate::cli::*;
}
#[cfg(feature = "terminal")]
pub mod setup {
    pub use crate::setup::*;
}
pub mod stock {
    pub use crate::stock::*;
}
