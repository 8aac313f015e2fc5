//! How far one can go, for people and in short lines.

use super::Look;
use super::places::clean;
use super::theme::Theme;
use super::words::count;
use crate::remedy::reach::{LiftsLevel, Limit, NailServes, Reach, Serves, Stitches, Tally};
use owo_colors::OwoColorize;
use std::io::{self, Write};

/// Writes everything of all models as tables.
pub(super) fn write(out: &mut dyn Write, all: &[Reach], look: Look) -> io::Result<()> {
    let theme = Theme::new(look);
    for (n, reach) in all.iter().enumerate() {
        if n > 0 {
            writeln!(out)?;
        }
        let head = format!("{}, tried in {}", reach.model, count(reach.sizes, "size"));
        writeln!(out, "{}", clean(&head).style(theme.word()))?;
        for machine in reach.stitches.chunk_by(|a, b| a.machine == b.machine) {
            let title = title(&machine[0]);
            table(out, theme, &title, STITCHES, &stitches(machine))?;
        }
        table(out, theme, "nails that serve, in how many sizes", NAILS, &nails(reach))?;
        table(out, theme, "lifts that level, in how many sizes", LIFTS, &lifts(reach))?;
        writeln!(out, "\n  {} tried", count(reach.trials, "draft"))?;
    }
    Ok(())
}

fn title(first: &Stitches) -> String {
    let locks = first.locks.map(|locks| format!(" and locks through {} mm", rounded(locks))).unwrap_or_default();
    let (machine, sews) = (&first.machine, rounded(first.sews));
    format!("thickest outsole on {machine}, which sews {sews} mm{locks}: base and lugs together, mm")
}

/// mm with two decimals.
fn rounded(mm: f64) -> String {
    let text = format!("{mm:.2}");
    if text == "-0.00" { "0.00".to_owned() } else { text }
}

const STITCHES: &[&str] = &["outer", "midsole", "slip", "passes", "nominal", "stocked", "limit", "least is left in"];
const NAILS: &[&str] = &["where", "nail", "length", "passes", "tight", "no"];
const LIFTS: &[&str] = &["lifts", "cap", "passes", "tight", "no", "sanded off, mm"];

fn stitches(machine: &[Stitches]) -> Vec<Vec<String>> {
    let row = |it: &Stitches| {
        let least = it.lap.as_ref().map_or_else(|| it.size.to_string(), |lap| format!("{}, {lap}", it.size));
        let slip = it.slip.clone().unwrap_or_else(|| "none".to_owned());
        let (passes, nominal) = (rounded(it.passes), rounded(it.nominal));
        vec![it.outer.clone(), it.midsole.clone(), slip, passes, nominal, outsoles(it), by(it.limit).to_owned(), least]
    };
    machine.iter().map(row).collect()
}

/// The machine's limit that leaves less.
fn by(limit: Limit) -> &'static str {
    match limit {
        Limit::Sews => "sews",
        Limit::Locks => "locks",
    }
}

/// `lug-low passes, lug-heavy no`
fn outsoles(it: &Stitches) -> String {
    let serving = it.outsoles.iter().filter(|(_, serves)| *serves != Serves::No);
    let said: Vec<String> = serving.map(|(name, serves)| format!("{name} {}", serves.name())).collect();
    if said.is_empty() { "none serves".to_owned() } else { said.join(", ") }
}

fn tallied(tally: Tally) -> [String; 3] {
    [tally.passes, tally.tight, tally.refused].map(|count| if count == 0 { "-".to_owned() } else { count.to_string() })
}

/// Those that serve in some size; a place where none does says so.
fn nails(reach: &Reach) -> Vec<Vec<String>> {
    let serves = |it: &NailServes| it.sizes.passes + it.sizes.tight > 0;
    let mut rows = Vec::new();
    for here in reach.nails.chunk_by(|a, b| a.place == b.place) {
        if !here.iter().any(serves) {
            rows.push([&here[0].place.to_string(), "none serves", "-", "-", "-", "-"].map(str::to_owned).to_vec());
        }
        for it in here.iter().filter(|it| serves(it)) {
            let mut row = vec![it.place.to_string(), it.nail.clone(), it.length.clone()];
            row.extend(tallied(it.sizes));
            rows.push(row);
        }
    }
    rows
}

fn lifts(reach: &Reach) -> Vec<Vec<String>> {
    let row = |it: &LiftsLevel| {
        let mut row = vec![format!("{} of {}", it.count, it.lift), it.cap.clone()];
        row.extend(tallied(it.sizes));
        row.push(format!("{} to {}", rounded(it.sanded.0), rounded(it.sanded.1)));
        row
    };
    reach.lifts.iter().map(row).collect()
}

/// Columns as wide as what stands in them; nothing where there are no rows.
fn table(out: &mut dyn Write, theme: Theme, title: &str, heads: &[&str], rows: &[Vec<String>]) -> io::Result<()> {
    if rows.is_empty() {
        return Ok(());
    }
    let width = |column: usize| {
        let cells = rows.iter().map(|row| row[column].chars().count());
        cells.max().unwrap_or(0).max(heads[column].len())
    };
    let widths: Vec<usize> = (0..heads.len()).map(width).collect();
    let line = |cells: &mut dyn Iterator<Item = &str>| {
        let padded: Vec<String> = cells.zip(&widths).map(|(cell, width)| format!("{cell:width$}")).collect();
        clean(padded.join("  ").trim_end()).into_owned()
    };
    writeln!(out, "\n  {title}")?;
    writeln!(out, "    {}", line(&mut heads.iter().copied()).style(theme.faint()))?;
    for row in rows {
        writeln!(out, "    {}", line(&mut row.iter().map(String::as_str)))?;
    }
    Ok(())
}

/// One line for each thing tried.
pub(super) fn short(out: &mut dyn Write, all: &[Reach]) -> io::Result<()> {
    for reach in all {
        let model = &reach.model;
        for it in &reach.stitches {
            let slip = it.slip.as_deref().unwrap_or("no slip");
            let (passes, nominal) = (rounded(it.passes), rounded(it.nominal));
            let said = format!(
                "{}, {}, {}, {slip}: {passes} mm passes, {nominal} mm nominal, limit: {}",
                it.machine,
                it.outer,
                it.midsole,
                by(it.limit)
            );
            writeln!(out, "{}", clean(&format!("{model}: outsole: {said}; {} [{}]", outsoles(it), it.size)))?;
        }
        for it in &reach.nails {
            let Tally { passes, tight, refused } = it.sizes;
            let said = format!("{} {}: {passes} pass, {tight} tight, {refused} no", it.nail, it.length);
            writeln!(out, "{}", clean(&format!("{model}: {}: {said}", it.place)))?;
        }
        for it in &reach.lifts {
            let Tally { passes, tight, refused } = it.sizes;
            let said = format!("{} of {}, {}: {passes} pass, {tight} tight, {refused} no", it.count, it.lift, it.cap);
            writeln!(out, "{}", clean(&format!("{model}: lifts: {said}")))?;
        }
    }
    Ok(())
}
