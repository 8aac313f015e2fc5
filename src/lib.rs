//! Hobnail, a compiler for stitch-down boot constructions.
//!
//! The rooms stand in the order in which a text passes through them; each imports only rooms above it.
#![warn(clippy::disallowed_methods, clippy::disallowed_types, clippy::print_stdout, clippy::print_stderr)]

pub mod build;
pub mod check;
pub mod cli;
pub mod finding;
pub mod geometry;
pub mod language;
pub mod measure;
pub mod remedy;
pub mod report;
pub mod rules;
pub mod sheets;
pub mod source;
pub mod spec;
