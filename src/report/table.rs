//! Figures for people: a table for each model and size, by section of the boot.

use super::Look;
use super::number::datum;
use super::places::clean;
use super::run::Run;
use super::theme::Theme;
use crate::build::Figure;
use crate::check::{Figured, ModelChecked, SizeChecked};
use owo_colors::OwoColorize;
use std::io::{self, Write};

/// The widest that a column of words becomes.
const WIDEST: usize = 48;

/// One row: the key behind its section, what it is, and the value.
struct Row {
    section: String,
    key: String,
    label: String,
    value: String,
}

/// Writes every figure of every model in every size.
pub(super) fn write(out: &mut dyn Write, run: &Run<'_>, figured: &[Vec<Figured>], look: Look) -> io::Result<()> {
    let theme = Theme::new(look);
    let models = run.checked.models.iter().zip(figured);
    let builds = models.flat_map(|(model, sizes)| sizes.iter().map(move |size| (model, size)));
    for (n, (model, size)) in builds.enumerate() {
        if n > 0 {
            writeln!(out)?;
        }
        writeln!(out, "{}", clean(&heading(model, &size.checked)).style(theme.word()))?;
        let rows: Vec<Row> = size.figures.iter().map(row).collect();
        sections(out, &rows, theme)?;
    }
    Ok(())
}

/// `scree-8, revision 3, in 9 D: Scree, 8 inch`
fn heading(model: &ModelChecked, size: &SizeChecked) -> String {
    let revision = model.revision.map(|revision| format!(", revision {revision}")).unwrap_or_default();
    let title = if model.title.is_empty() { String::new() } else { format!(": {}", model.title) };
    let refused = if size.refused { " (refused)" } else { "" };
    format!("{}{revision}, in {}{title}{refused}", model.name, size.size)
}

fn row(figure: &Figure) -> Row {
    let (section, key) = figure.key.split_once('.').unwrap_or((&figure.key, ""));
    Row {
        section: clean(section).into_owned(),
        key: clean(key).into_owned(),
        label: clean(&figure.label).into_owned(),
        value: clean(&datum(&figure.datum, figure.unit.name())).into_owned(),
    }
}

fn sections(out: &mut dyn Write, rows: &[Row], theme: Theme) -> io::Result<()> {
    let (key, label) = (column(rows, |row| &row.key), column(rows, |row| &row.label));
    let mut names: Vec<&str> = Vec::new();
    for row in rows {
        if !names.contains(&row.section.as_str()) {
            names.push(&row.section);
        }
    }
    for section in names {
        writeln!(out, "\n  {}", section.style(theme.word()))?;
        for row in rows.iter().filter(|row| row.section == section) {
            let name = format!("{:key$}", row.key);
            writeln!(out, "    {}  {:label$}  {}", name.style(theme.faint()), row.label, row.value)?;
        }
    }
    Ok(())
}

/// How wide a column is: as its longest words, but for the few very long ones.
fn column(rows: &[Row], of: impl Fn(&Row) -> &String) -> usize {
    rows.iter().map(|row| of(row).chars().count()).filter(|width| *width <= WIDEST).max().unwrap_or(0)
}
