//! Sheets held against the present sources, for people and as short lines.

use super::Look;
use super::number::datum;
use super::places::clean;
use super::theme::Theme;
use super::words::count;
use crate::build::{COMPUTATION, Datum};
use crate::check::{Compared, Difference, Recorded, Standing};
use crate::finding::Severity;
use owo_colors::OwoColorize;
use std::io::{self, Write};

/// A sheet or a fingerprint that was given, with what became of it.
#[derive(Clone, Debug)]
pub struct Verified {
    /// The path as it was given, or the fingerprint.
    pub given: String,
    /// The builds that it was printed for, compared; or words for why it can't be read.
    pub builds: Result<Vec<(Recorded, Compared)>, String>,
}

/// How much there is of everything.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Builds that are as they were printed.
    pub matching: usize,
    /// Builds that are not, and fingerprints that no build has.
    pub differing: usize,
    /// Sheets that can't be read.
    pub unread: usize,
}

/// Counts it all.
#[must_use]
pub fn tally(all: &[Verified]) -> Tally {
    let mut tally = Tally::default();
    for it in all {
        match &it.builds {
            Err(_) => tally.unread += 1,
            Ok(builds) if builds.is_empty() => tally.differing += 1,
            Ok(builds) => {
                let matching = builds.iter().filter(|(_, now)| matches(now)).count();
                tally.matching += matching;
                tally.differing += builds.len() - matching;
            }
        }
    }
    tally
}

fn matches(now: &Compared) -> bool {
    now.standing == Standing::Matches
}

/// For people: a line a build, under it a table of the figures that differ.
pub(super) fn write(out: &mut dyn Write, all: &[Verified], look: Look) -> io::Result<()> {
    let theme = Theme::new(look);
    for it in all {
        match &it.builds {
            Err(why) => writeln!(out, "{}: {}", clean(&it.given).style(theme.word()), clean(why))?,
            Ok(builds) if builds.is_empty() => {
                writeln!(out, "{}: no build of the files given has this fingerprint", clean(&it.given))?;
            }
            Ok(builds) => {
                for (was, now) in builds {
                    build(out, &it.given, was, now, theme)?;
                }
            }
        }
    }
    writeln!(out, "{}", summary(tally(all)))
}

fn build(out: &mut dyn Write, given: &str, was: &Recorded, now: &Compared, theme: Theme) -> io::Result<()> {
    let head = format!("{given}: {} in {}", was.model, was.size);
    let word = if matches(now) { theme.word() } else { theme.head(Severity::Tight) };
    writeln!(out, "{} {}", clean(&head).style(theme.word()), verdict(was, now).style(word))?;
    for note in notes(was, now) {
        writeln!(out, "  {note}")?;
    }
    if let Standing::Differs(differences) = &now.standing {
        table(out, differences, theme)?;
    }
    Ok(())
}

fn verdict(was: &Recorded, now: &Compared) -> String {
    match &now.standing {
        Standing::Matches => "matches".to_owned(),
        Standing::Differs(all) if all.is_empty() && was.figures.is_some() => "differs, in no figure".to_owned(),
        Standing::Differs(all) if all.is_empty() => "differs".to_owned(),
        Standing::Differs(all) => format!("differs in {}", count(all.len(), "figure")),
        Standing::NoModel => "is in none of the files given".to_owned(),
        Standing::NoSize => "is no longer made".to_owned(),
        Standing::Lost => "can't be compared: a fault in the files took what is needed".to_owned(),
    }
}

/// What must be known beside the verdict.
fn notes(was: &Recorded, now: &Compared) -> Vec<String> {
    let mut notes = Vec::new();
    if let Some(other) = now.other_computation {
        let present = COMPUTATION;
        notes.push(format!("printed by computation {other}, this program has {present}: print it again in any case"));
    }
    // Where every figure is known, the revision is one of them.
    let alone = was.part || was.figures.is_none();
    if alone && now.standing != Standing::NoModel && was.revision != now.revision {
        let said = |revision: Option<u32>| revision.map_or("none".to_owned(), |revision| revision.to_string());
        notes.push(format!("revision: printed {}, now {}", said(was.revision), said(now.revision)));
    }
    let other = |present: &&String| !was.part && **present != was.fingerprint;
    if let Some(present) = now.fingerprint.as_ref().filter(other) {
        notes.push(format!("fingerprint: printed {}, now {present}", was.fingerprint));
    }
    if forged(was, now) {
        notes.push("the figures that it carries are not those of its fingerprint".to_owned());
    }
    if now.refused {
        notes.push("the build is refused now: `hobnail check` says why".to_owned());
    }
    notes
}

/// Fingerprint and figures of one computation change together, or one of them was changed by hand.
fn forged(was: &Recorded, now: &Compared) -> bool {
    let Standing::Differs(differences) = &now.standing else { return false };
    let same = now.fingerprint.as_ref() == Some(&was.fingerprint);
    was.figures.is_some() && !was.part && now.other_computation.is_none() && same != differences.is_empty()
}

/// One line of the table.
struct Row {
    key: String,
    label: String,
    then: String,
    now: String,
}

fn table(out: &mut dyn Write, differences: &[Difference], theme: Theme) -> io::Result<()> {
    if differences.is_empty() {
        return Ok(());
    }
    let head = Row { key: String::new(), label: String::new(), then: "printed".to_owned(), now: "now".to_owned() };
    let rows: Vec<Row> = std::iter::once(head).chain(differences.iter().map(row)).collect();
    let wide = |of: fn(&Row) -> &String| rows.iter().map(|row| of(row).chars().count()).max().unwrap_or(0);
    let (key, label, then) = (wide(|row| &row.key), wide(|row| &row.label), wide(|row| &row.then));
    for row in &rows {
        let name = format!("{:key$}", row.key);
        writeln!(out, "  {}  {:label$}  {:then$}  {}", name.style(theme.faint()), row.label, row.then, row.now)?;
    }
    Ok(())
}

fn row(it: &Difference) -> Row {
    let words = |text: &str| clean(text).into_owned();
    let (then, now) = sides(it);
    Row { key: words(&it.key), label: words(&it.label), then: words(&then), now: words(&now) }
}

/// What was printed and what is now; where both would read the same, with every digit that tells them apart.
fn sides(it: &Difference) -> (String, String) {
    let side = |value: &Option<Datum>, unit: &str| value.as_ref().map_or("–".to_owned(), |value| datum(value, unit));
    let (then, now) = (side(&it.then, &it.units.0), side(&it.now, &it.units.1));
    if then != now {
        return (then, now);
    }
    let exact = |value: &Option<Datum>| value.as_ref().map_or(String::new(), exactly);
    (exact(&it.then), exact(&it.now))
}

/// Every number to a millionth.
fn exactly(datum: &Datum) -> String {
    let all = |values: &[f64]| values.iter().map(|value| format!("{value:.6}")).collect::<Vec<_>>().join(" / ");
    match datum {
        Datum::Number(value) => all(&[*value]),
        Datum::Count(count) => count.to_string(),
        Datum::Spread(spread) => all(&[spread.lo, spread.nominal, spread.hi]),
        Datum::Window(window) => all(&[window.lo, window.hi]),
        Datum::Text(text) => text.clone(),
        Datum::Texts(texts) => texts.join(", "),
        Datum::Numbers(values) => all(values),
    }
}

fn summary(tally: Tally) -> String {
    let mut parts = Vec::new();
    for (number, what) in [(tally.matching, "matching"), (tally.differing, "differing"), (tally.unread, "not read")] {
        if number > 0 {
            parts.push(format!("{number} {what}"));
        }
    }
    parts.join(", ")
}

/// `given: model, size: key: printed -> now`, a line a figure; one line for a build of which there is no more to say.
pub(super) fn short(out: &mut dyn Write, all: &[Verified]) -> io::Result<()> {
    for it in all {
        match &it.builds {
            Err(why) => writeln!(out, "{}: {}", clean(&it.given), clean(why))?,
            Ok(builds) if builds.is_empty() => writeln!(out, "{}: no build", clean(&it.given))?,
            Ok(builds) => {
                for (was, now) in builds {
                    short_build(out, &it.given, was, now)?;
                }
            }
        }
    }
    Ok(())
}

fn short_build(out: &mut dyn Write, given: &str, was: &Recorded, now: &Compared) -> io::Result<()> {
    let head = format!("{given}: {}, {}", was.model, was.size);
    writeln!(out, "{}: {}", clean(&head), verdict(was, now))?;
    let Standing::Differs(differences) = &now.standing else { return Ok(()) };
    for it in differences {
        let (then, printed) = sides(it);
        writeln!(out, "{}: {}: {} -> {}", clean(&head), clean(&it.key), clean(&then), clean(&printed))?;
    }
    Ok(())
}
