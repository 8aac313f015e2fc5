//! The pages that `--pages` asks for.

/// Pages that are asked for, by their numbers from 1: `1-3,7`, `5-`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Pages(Vec<(usize, usize)>);

impl Pages {
    /// Reads `1-3,7`.
    pub fn parse(text: &str) -> Result<Self, String> {
        let ranges: Option<Vec<(usize, usize)>> = text.split(',').map(|part| range(part.trim())).collect();
        let ranges = ranges.ok_or_else(|| format!("`{text}` names no pages; write `7`, `1-3,7` or `5-`"))?;
        match ranges.iter().find(|(from, to)| from > to) {
            Some((from, to)) => Err(format!("`{from}-{to}` is upside down; write the smaller number first")),
            None => Ok(Self(ranges)),
        }
    }

    /// Whether a page is asked for.
    pub fn wants(&self, page: usize) -> bool {
        self.0.iter().any(|(from, to)| (*from..=*to).contains(&page))
    }
}

fn range(text: &str) -> Option<(usize, usize)> {
    let number = |text: &str| text.trim().parse().ok().filter(|number: &usize| *number > 0);
    match text.split_once('-') {
        None => number(text).map(|page| (page, page)),
        Some((from, "")) => number(from).map(|from| (from, usize::MAX)),
        Some((from, to)) => Some((number(from)?, number(to)?)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pages_however_they_are_written() {
        let wanted = |text: &str| {
            let pages = Pages::parse(text).expect("pages");
            (1..=9).filter(|page| pages.wants(*page)).collect::<Vec<usize>>()
        };
        assert_eq!(wanted("1-3,7"), [1, 2, 3, 7]);
        assert_eq!(wanted(" 8- , 2"), [2, 8, 9]);
        assert_eq!(wanted("4"), [4]);
    }

    #[test]
    fn what_names_no_pages_is_said() {
        for text in ["", "0", "1,,2", "-3", "first", "1-2-3"] {
            let said = Pages::parse(text).expect_err("no pages");
            assert_eq!(said, format!("`{text}` names no pages; write `7`, `1-3,7` or `5-`"));
        }
        assert_eq!(Pages::parse("7-3").expect_err("no pages"), "`7-3` is upside down; write the smaller number first");
    }
}
