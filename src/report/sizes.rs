//! A set of sizes in few words: `8 to 10 C D E, 10.5 C`.

use crate::measure::{Exact, Size, Width};
use std::collections::BTreeMap;

/// The sizes of `holds`, which lie in `run`, as briefly as can be without naming one that doesn't hold.
pub(super) fn compact(holds: &[Size], run: &[Size]) -> String {
    let mut numbers: Vec<Exact> = run.iter().chain(holds).map(|size| size.number).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let (by_number, by_width) = (by_number(holds, &numbers), by_width(holds, &numbers));
    let shorter = if by_width.len() < by_number.len() { by_width } else { by_number };
    shorter.join(", ")
}

/// Neighbouring numbers that hold in the same widths, together.
fn by_number(holds: &[Size], numbers: &[Exact]) -> Vec<String> {
    let widths: Vec<Vec<Width>> = numbers.iter().map(|number| widths_of(holds, *number)).collect();
    let mut pieces = Vec::new();
    let mut from = 0;
    while from < numbers.len() {
        let same = widths[from..].iter().take_while(|set| **set == widths[from]).count();
        if !widths[from].is_empty() {
            let names: Vec<&str> = widths[from].iter().map(|width| width.name()).collect();
            pieces.push(format!("{} {}", range(numbers[from], numbers[from + same - 1]), names.join(" ")));
        }
        from += same;
    }
    pieces
}

/// Widths that hold in the same numbers, together.
fn by_width(holds: &[Size], numbers: &[Exact]) -> Vec<String> {
    let mut widths: Vec<Width> = Vec::new();
    for size in holds {
        if !widths.contains(&size.width) {
            widths.push(size.width);
        }
    }
    let mut names: BTreeMap<(usize, String), Vec<&str>> = BTreeMap::new();
    for width in widths {
        let mut ranges = ranges_of(holds, width, numbers);
        for (n, range) in ranges.drain(..).enumerate() {
            names.entry((n, range)).or_default().push(width.name());
        }
    }
    let mut pieces: Vec<(usize, String)> =
        names.into_iter().map(|((n, range), names)| (n, format!("{range} {}", names.join(" ")))).collect();
    pieces.sort_by_key(|(n, _)| *n);
    pieces.into_iter().map(|(_, piece)| piece).collect()
}

fn widths_of(holds: &[Size], number: Exact) -> Vec<Width> {
    let mut widths: Vec<Width> = holds.iter().filter(|size| size.number == number).map(|size| size.width).collect();
    widths.sort_unstable();
    widths.dedup();
    widths
}

fn ranges_of(holds: &[Size], width: Width, numbers: &[Exact]) -> Vec<String> {
    let has = |number: &Exact| holds.iter().any(|size| size.width == width && size.number == *number);
    let runs = numbers.chunk_by(|a, b| has(a) == has(b));
    runs.filter(|run| run.first().is_some_and(has)).map(|run| range(run[0], run[run.len() - 1])).collect()
}

fn range(from: Exact, to: Exact) -> String {
    let (first, last) = (Size::number_text(from), Size::number_text(to));
    if from == to { first } else { format!("{first} to {last}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::System;

    fn sizes(texts: &[&str]) -> Vec<Size> {
        texts.iter().filter_map(|text| Size::parse(text, System::UsMen)).collect()
    }

    fn grid(numbers: &[&str], widths: &[&str]) -> Vec<Size> {
        let texts = numbers.iter().flat_map(|number| widths.iter().map(move |width| format!("{number} {width}")));
        texts.filter_map(|text| Size::parse(&text, System::UsMen)).collect()
    }

    #[test]
    fn a_block_of_sizes_is_one_piece() {
        let run = grid(&["7", "8", "9", "10", "11"], &["C", "D", "E"]);
        assert_eq!(compact(&grid(&["8", "9", "10"], &["C", "D", "E"]), &run), "8 to 10 C D E");
        assert_eq!(compact(&sizes(&["9 D"]), &run), "9 D");
    }

    #[test]
    fn a_number_between_that_does_not_hold_is_not_named() {
        let run = grid(&["8", "8.5", "9"], &["D"]);
        assert_eq!(compact(&sizes(&["8 D", "9 D"]), &run), "8 D, 9 D");
    }

    #[test]
    fn the_shorter_of_both_ways() {
        let run = grid(&["8", "9", "10"], &["C", "D", "E"]);
        assert_eq!(compact(&sizes(&["8 C", "8 D", "9 C", "10 C"]), &run), "8 C D, 9 to 10 C");
        let staggered = sizes(&["8 C", "8 E", "9 C", "9 D", "9 E", "10 C", "10 E"]);
        assert_eq!(compact(&staggered, &run), "8 to 10 C E, 9 D");
    }
}
