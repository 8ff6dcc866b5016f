//! Buy it or leave it: what a piece may sell for, how long that takes, and the most to pay.
//!
//! Pure: no files, clock or threads; sales and today's date are handed in.
//!
//! | file | what |
//! |---|---|
//! | `money` | whole minor units of an ISO 4217 currency, how they are read, written and rounded |
//! | `terms` | where pieces are sold and what that costs |
//! | `own_terms` | the user's own of them as a text |
//! | `student_t` | Student's t distribution |
//! | `regression` | Bayesian linear regression, normal-inverse-gamma prior |
//! | `waiting` | time to sell: exponential, gamma prior, unsold pieces censored |
//! | `condition` | what is wrong with a piece |
//! | `appearance` | what of a piece its price depends on, by the posterior |
//! | `design` | the same as a row of numbers for the regression |
//! | `sale` | what was sold, for how much, and when |
//! | `price_model` | guesses and sales together: the price and the wait of a piece |
//! | `mean_exp` | the mean of an exponential over a hundred points, without a hundred exponentials |
//! | `outlook` | price, net, chance of a loss and most to pay in one channel |
//! | `shelf` | the advice |
//! | `deciding_look` | the cheap look that is worth more than it costs |

pub mod appearance;
pub mod condition;
mod deciding_look;
mod design;
pub mod mean_exp;

pub mod money;
pub mod outlook;
pub mod own_terms;
pub mod price_model;
pub mod regression;
pub mod sale;
pub mod shelf;
pub mod student_t;
pub mod terms;
pub mod waiting;

pub use money::{Currency, Money};
pub use price_model::PriceModel;
pub use sale::Sale;
pub use shelf::{Advice, Gist, ShelfAnswer, gist, shelf};
pub use terms::Terms;
