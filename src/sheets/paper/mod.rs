//! Paper: pages as plain data in millimetres, and the bytes of a PDF made of them.
//!
//! The lowest part of `sheets`. It knows lines, letters and hatches; it knows no boots,
//! no stations and no words of its own, and it touches no file and no clock.
#![expect(missing_docs, reason = "plain data: fields and variants say themselves, units stand with their types")]
#![expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_wrap,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "glyphs, pages and points are counted in thousands, and PDF numbers are single floats"
)]

mod art;
mod boxes;
mod brush;
mod catalog;
mod content;
mod curve;
mod draw;
mod error;
mod face;
mod font;
mod hatch;
mod measure;
mod objects;
mod ops;
mod read;
mod write;

#[cfg(test)]
mod tests;

pub use boxes::{TextBox, text_boxes};
pub use error::Error;
pub use face::{Style, Typefaces};
pub use hatch::{Hatch, Strokes, segments};
pub use measure::{fit, lacks, lines_in, width_mm, wrap};
pub use ops::{
    Anchor, Dash, Drawing, Heading, Ink, Level, Op, Page, PageSize, Paint, Paper, Path, Pen, Point, Step, Text,
};
pub use read::{About, Unread, about, attached, is_pdf};
pub use write::{Attachment, Document, write, write_all};
