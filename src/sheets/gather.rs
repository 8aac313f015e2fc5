//! Documents of one model put together: one file a station over all sizes, or one file for all. And pages picked out.

use super::paper::{Document, Heading, Level, Op, Page};

/// What the sheets of several sizes are put together by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Gathering {
    /// One station over all sizes; its name, and its title in the outline.
    Station(String, String),
    /// All sizes, station by station within each.
    All,
}

/// The sheets of several sizes as one document, `None` if there are none. Each size comes with its name; what the
/// documents say of themselves, and what they carry, is the first one's, but for the title and the keywords.
#[must_use]
pub fn gather(title: String, parts: Vec<(String, Document)>, by: &Gathering) -> Option<Document> {
    let mut parts = parts.into_iter();
    let (size, first) = parts.next()?;
    let mut whole = Document { title, pages: Vec::new(), drawings: Vec::new(), ..first.clone() };
    for (size, part) in std::iter::once((size, first)).chain(parts) {
        let base = whole.drawings.len();
        whole.pages.extend(part.pages.into_iter().map(|page| gathered(page, &size, by, base)));
        whole.drawings.extend(part.drawings);
        let new: Vec<String> = part.keywords.into_iter().filter(|word| !whole.keywords.contains(word)).collect();
        whole.keywords.extend(new);
    }
    if let (Gathering::Station(_, station), Some(page)) = (by, whole.pages.first_mut()) {
        page.headings.insert(0, Heading::part(station.clone()));
    }
    Some(whole)
}

/// A page in its new place: its label and headings say what the file's name does not.
fn gathered(mut page: Page, size: &str, by: &Gathering, base: usize) -> Page {
    move_drawings(&mut page.ops, base);
    match by {
        Gathering::All => page.label = format!("{size} {}", page.label),
        Gathering::Station(name, _) => {
            page.label = page.label.replacen(name.as_str(), size, 1);
            let sheet = page.headings.iter().any(|heading| heading.level == Level::Sheet);
            page.headings = if sheet { vec![Heading::sheet(size)] } else { Vec::new() };
        }
    }
    page
}

/// Shared drawings follow those of the documents before.
fn move_drawings(ops: &mut [Op], base: usize) {
    for op in ops {
        match op {
            Op::Place { drawing, .. } => *drawing += base,
            Op::Clip { ops, .. } => move_drawings(ops, base),
            _ => {}
        }
    }
}

/// Keeps the pages whose numbers, from 1, are wanted. A heading whose page goes stands at the next page that is kept
/// and belongs to it.
pub fn keep(document: &mut Document, wanted: impl Fn(usize) -> bool) {
    let mut kept = Vec::new();
    let mut waiting: Vec<Heading> = Vec::new();
    for (n, mut page) in (1..).zip(std::mem::take(&mut document.pages)) {
        for heading in std::mem::take(&mut page.headings) {
            waiting.retain(|known| known.level < heading.level);
            waiting.push(heading);
        }
        if wanted(n) {
            page.headings = std::mem::take(&mut waiting);
            kept.push(page);
        }
    }
    document.pages = kept;
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(label: &str, headings: &[Heading]) -> Page {
        Page { label: label.to_owned(), headings: headings.to_vec(), ..Page::default() }
    }

    fn document(size: &str) -> Document {
        let lasting = [Heading::part(format!("scree-8 {size}")), Heading::sheet("Lasting")];
        let pages = vec![page("lasting", &lasting), page("lasting +", &[]), page("edge", &[Heading::sheet("Edge")])];
        Document { pages, ..Document::default() }
    }

    fn outline(document: &Document) -> Vec<(&str, Vec<&str>)> {
        document
            .pages
            .iter()
            .map(|page| (page.label.as_str(), page.headings.iter().map(|it| it.title.as_str()).collect()))
            .collect()
    }

    #[test]
    fn a_heading_waits_for_the_next_page_that_is_kept() {
        let mut picked = document("9 D");
        keep(&mut picked, |n| n == 2);
        assert_eq!(outline(&picked), [("lasting +", vec!["scree-8 9 D", "Lasting"])]);
        let mut picked = document("9 D");
        keep(&mut picked, |n| n == 3);
        assert_eq!(outline(&picked), [("edge", vec!["scree-8 9 D", "Edge"])]);
    }

    #[test]
    fn labels_and_headings_say_what_the_name_of_the_file_does_not() {
        let parts = || ["9 D", "9 E"].map(|size| (size.to_owned(), document(size))).to_vec();
        let all = gather("scree-8".to_owned(), parts(), &Gathering::All).expect("pages");
        assert_eq!(outline(&all)[3], ("9 E lasting", vec!["scree-8 9 E", "Lasting"]));
        let by = Gathering::Station("lasting".to_owned(), "Lasting".to_owned());
        let parts = parts().into_iter().map(|(size, mut part)| {
            part.pages.truncate(2);
            (size, part)
        });
        let station = gather("scree-8 lasting".to_owned(), parts.collect(), &by).expect("pages");
        let known = [("9 D", vec!["Lasting", "9 D"]), ("9 D +", vec![]), ("9 E", vec!["9 E"]), ("9 E +", vec![])];
        assert_eq!(outline(&station), known);
    }

    #[test]
    fn shared_drawings_keep_to_their_pages() {
        use super::super::paper::{Drawing, Point};
        let part = |wide: f64| {
            let ops = vec![Op::Place { drawing: 0, at: Point::new(1.0, 1.0) }];
            let drawings = vec![Drawing { width: wide, ..Drawing::default() }];
            Document { pages: vec![Page { ops, ..Page::default() }], drawings, ..Document::default() }
        };
        let parts = vec![("9 D".to_owned(), part(1.0)), ("9 E".to_owned(), part(2.0))];
        let all = gather(String::new(), parts, &Gathering::All).expect("pages");
        let Op::Place { drawing, .. } = all.pages[1].ops[0] else { panic!("it places a drawing") };
        assert!((all.drawings[drawing].width - 2.0).abs() < f64::EPSILON);
    }
}
