//! The square code of a sheet: what it says, and how it is drawn.
//!
//! It says in plain text what tells a sheet from any other, so that any reader of such codes shows it without this
//! program: `HOBNAIL 1; scree-8; r3; us-men 9.5 EE; 1a2b-3c4d-5e6f`. A card adds what is its own behind that.

use super::paper::{Ink, Op, Paint, Point};
use qrcodegen::{QrCode, QrCodeEcc};
use std::collections::BTreeMap;

/// How every text of a code begins: the name and the version of its form.
const FORM: &str = "HOBNAIL 1";

/// What parts are parted by.
const BETWEEN: &str = "; ";

/// What a code says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CodeText {
    /// The model's name.
    pub model: String,
    /// Its revision, if it has one.
    pub revision: Option<u32>,
    /// The size system, as spelt in the language.
    pub system: String,
    /// The size: `9.5 EE`
    pub size: String,
    /// The fingerprint.
    pub fingerprint: String,
    /// What a card adds: its batch, its pair.
    pub more: Vec<String>,
}

impl CodeText {
    /// The text of the code.
    #[must_use]
    pub fn text(&self) -> String {
        let revision = self.revision.map_or("r-".to_owned(), |revision| format!("r{revision}"));
        let size = format!("{} {}", self.system, self.size);
        let plain = |text: &str| text.replace(';', ",");
        let parts = [FORM.to_owned(), plain(&self.model), revision, size, self.fingerprint.clone()];
        parts.into_iter().chain(self.more.iter().map(|it| plain(it))).collect::<Vec<_>>().join(BETWEEN)
    }

    /// What a text says, if it is one of a code.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let mut parts = text.trim().split(BETWEEN);
        let mut next = || parts.next().map(str::to_owned);
        if next()? != FORM {
            return None;
        }
        let (model, revision, size, fingerprint) = (next()?, next()?, next()?, next()?);
        let revision = match revision.strip_prefix('r')? {
            "-" => None,
            number => Some(number.parse().ok()?),
        };
        let (system, size) = size.split_once(' ')?;
        let (system, size) = (system.to_owned(), size.to_owned());
        Some(Self { model, revision, system, size, fingerprint, more: parts.map(str::to_owned).collect() })
    }
}

/// A code of `side` mm, its top left corner at `at`; nothing stands nearer than four modules. Modules of one figure are
/// drawn as one outline, so that no viewer shows seams between them.
pub(super) fn draw(text: &str, at: Point, side: f64) -> Vec<Op> {
    let Some(code) = modules(text) else { return Vec::new() };
    let module = side / f64::from(code.size());
    let place = |(x, y): (i32, i32)| Point::new(at.x + f64::from(x) * module, at.y + f64::from(y) * module);
    let rings = outlines(&code).into_iter().map(|ring| ring.into_iter().map(place).collect()).collect();
    vec![Op::Polygon { rings, paint: Paint::fill(Ink::BLACK) }]
}

/// The modules; none if the text is longer than any code holds.
fn modules(text: &str) -> Option<QrCode> {
    QrCode::encode_text(text, QrCodeEcc::Medium).ok()
}

type Corner = (i32, i32);

/// The outlines of all dark figures, corner by corner; a figure's holes are outlines of their own.
fn outlines(code: &QrCode) -> Vec<Vec<Corner>> {
    let mut edges = edges(code);
    let mut rings = Vec::new();
    while let Some((&start, _)) = edges.first_key_value() {
        let mut ring: Vec<Corner> = Vec::new();
        let mut here = start;
        while let Some(next) = step(&mut edges, here) {
            ring.push(here);
            here = next;
        }
        rings.push(turns(&ring));
    }
    rings
}

/// Edges of dark modules against light ones, dark on their right, by where they begin.
fn edges(code: &QrCode) -> BTreeMap<Corner, Vec<Corner>> {
    let mut edges: BTreeMap<Corner, Vec<Corner>> = BTreeMap::new();
    for (x, y) in (0..code.size()).flat_map(|y| (0..code.size()).map(move |x| (x, y))) {
        if !code.get_module(x, y) {
            continue;
        }
        let sides = [
            ((x, y - 1), (x, y), (x + 1, y)),
            ((x + 1, y), (x + 1, y), (x + 1, y + 1)),
            ((x, y + 1), (x + 1, y + 1), (x, y + 1)),
            ((x - 1, y), (x, y + 1), (x, y)),
        ];
        for ((beside_x, beside_y), from, to) in sides {
            if !code.get_module(beside_x, beside_y) {
                edges.entry(from).or_default().push(to);
            }
        }
    }
    edges
}

/// Takes an edge that begins at a corner, and gives where it ends.
fn step(edges: &mut BTreeMap<Corner, Vec<Corner>>, from: Corner) -> Option<Corner> {
    let ends = edges.get_mut(&from)?;
    let end = ends.pop();
    if ends.is_empty() {
        edges.remove(&from);
    }
    end
}

/// A ring without the corners that lie between two in one line.
fn turns(ring: &[Corner]) -> Vec<Corner> {
    let count = ring.len();
    let along = |from: Corner, to: Corner| (to.0 - from.0, to.1 - from.1);
    let turn = |n: &usize| {
        let (before, here, after) = (ring[(n + count - 1) % count], ring[*n], ring[(n + 1) % count]);
        along(before, here) != along(here, after)
    };
    (0..count).filter(turn).map(|n| ring[n]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said() -> CodeText {
        CodeText {
            model: "scree-8".to_owned(),
            revision: Some(3),
            system: "us-men".to_owned(),
            size: "9.5 EE".to_owned(),
            fingerprint: "1a2b-3c4d-5e6f".to_owned(),
            more: Vec::new(),
        }
    }

    #[test]
    fn what_is_said_is_read_again() {
        assert_eq!(said().text(), "HOBNAIL 1; scree-8; r3; us-men 9.5 EE; 1a2b-3c4d-5e6f");
        let more = vec!["batch May, first".to_owned(), "pair 3/12".to_owned()];
        for text in [said(), CodeText { revision: None, ..said() }, CodeText { more, ..said() }] {
            assert_eq!(CodeText::read(&text.text()), Some(text));
        }
        assert_eq!(CodeText::read("HOBNAIL 2; scree-8; r3; us-men 9.5 EE; 1a2b-3c4d-5e6f"), None);
        assert_eq!(CodeText::read("HOBNAIL 1; scree-8; three"), None);
        assert_eq!(CodeText::read("1a2b-3c4d-5e6f"), None);
    }

    /// Even-odd, as the page fills them.
    fn inside(rings: &[Vec<Corner>], x: f64, y: f64) -> bool {
        let crossings = rings.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1))).filter(|(a, b)| {
            let (low, high) = (a.1.min(b.1), a.1.max(b.1));
            a.0 == b.0 && f64::from(a.0) > x && f64::from(low) < y && y < f64::from(high)
        });
        crossings.count() % 2 == 1
    }

    #[test]
    fn the_outlines_fill_the_dark_modules_and_no_others() {
        let code = modules(&said().text()).expect("it is short enough");
        let rings = outlines(&code);
        for (x, y) in (-1..=code.size()).flat_map(|y| (-1..=code.size()).map(move |x| (x, y))) {
            let filled = inside(&rings, f64::from(x) + 0.5, f64::from(y) + 0.5);
            assert_eq!(filled, code.get_module(x, y), "{x} {y}");
        }
    }
}
