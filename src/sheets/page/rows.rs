//! Figures as rows of a label and a value.

use super::super::words::{self, Word};
use super::{Item, Sheets};
use crate::build::Identity;

impl Sheets<'_> {
    /// A figure as a row.
    pub(in crate::sheets) fn figure(&mut self, of: impl Into<Identity>) -> Option<Item> {
        self.figure_of("", of)
    }

    /// A figure as a row, its label behind a name of what it belongs to.
    pub(in crate::sheets) fn figure_of(&mut self, whose: &str, of: impl Into<Identity>) -> Option<Item> {
        let figure = self.job.figures.of(&of.into())?;
        let value = self.voice().line(figure);
        self.note(figure, &value);
        let label = words::figure(figure, self.job.lang);
        let label = if whose.is_empty() { label } else { format!("{whose}: {label}") };
        Some(Item::Row { label, value })
    }

    /// Figures under a heading, those that there are; nothing if there are none.
    pub(in crate::sheets) fn listed<I: Into<Identity>>(
        &mut self,
        heading: Word,
        all: impl IntoIterator<Item = I>,
    ) -> Vec<Item> {
        let rows: Vec<Item> = all.into_iter().filter_map(|of| self.figure(of)).collect();
        self.headed(heading, rows)
    }

    /// Items under a heading; nothing if there are none.
    pub(in crate::sheets) fn headed(&self, heading: Word, items: Vec<Item>) -> Vec<Item> {
        if items.is_empty() {
            return items;
        }
        let mut all = vec![Item::Heading(self.word(heading).to_owned())];
        all.extend(items);
        all
    }

    /// Items in two columns under a heading across the page.
    pub(in crate::sheets) fn grouped(&mut self, heading: Word, items: &[Item]) {
        if !items.is_empty() {
            self.heading(self.word(heading));
            self.balanced(items);
        }
    }
}
