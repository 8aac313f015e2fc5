//! Figures as rows of a label and a value.

use super::super::words::{self, Word};
use super::{Item, Sheets};

impl Sheets<'_> {
    /// A figure as a row.
    pub(in crate::sheets) fn figure(&mut self, key: &str) -> Option<Item> {
        self.figure_of("", key)
    }

    /// A figure as a row, its label behind a name of what it belongs to.
    pub(in crate::sheets) fn figure_of(&mut self, of: &str, key: &str) -> Option<Item> {
        let figure = self.job.figures.get(key)?;
        let value = self.voice().line(figure);
        self.note(figure, &value);
        let label = words::figure(figure, self.job.lang);
        let label = if of.is_empty() { label } else { format!("{of}: {label}") };
        Some(Item::Row { label, value })
    }

    /// Figures under a heading, those that there are; nothing if there are none.
    pub(in crate::sheets) fn listed(&mut self, heading: Word, keys: &[&str]) -> Vec<Item> {
        let rows: Vec<Item> = keys.iter().filter_map(|key| self.figure(key)).collect();
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
