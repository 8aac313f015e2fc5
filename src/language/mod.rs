//! Text to lossless tree, and the vocabulary that gives it meaning.

pub mod tree;
