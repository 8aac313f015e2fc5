//! Text to lossless tree, and the vocabulary that turns trees into typed statements.

mod near;
mod read;
pub mod reference;
mod statement;
mod token;
pub mod tree;
mod value;
pub mod vocabulary;

pub use near::{nearest, or_list};
pub use read::{Reading, read, read_as};
pub use statement::{At, Body, Clause, Given, Hole, Removal, SizeRange, Slot, Statement, StatementKey, Value};
