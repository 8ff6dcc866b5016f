//! Many pieces judged together: a table in, the same table with the answers out.
//!
//! | file | what |
//! |---|---|
//! | `columns` | what each column of the table holds, and what the answers' columns are called |
//! | `row` | one row to a piece and its answers |
//! | `answers` | tables and JSON of the answers |
//! | `stream` | rows in, a block at a time over all cores, answers out in the same order |
//! | `mean_date` | the mean date of a lot by two ways of counting |

pub mod answers;
pub mod columns;
pub mod mean_date;
pub mod row;
pub mod stream;
