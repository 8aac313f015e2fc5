//! A last whose outline is drawn as an SVG path, against the closed form of an ellipse.

use crate::common::memory::{Memory, Only, lines};
use hobnail::build::Datum;
use hobnail::finding::Severity;
use kurbo::{Ellipse, Shape};

const TELLER: &str = "specs/lasts/teller.hob";
const SCREE: &str = "specs/models/scree-8.hob";

/// The demo shop with the teller's outline in other words.
fn outlined(words: &str) -> Memory {
    let demo = Memory::demo();
    let text = demo.text(TELLER).to_owned();
    let start = text.find("  outline {").expect("the last has an outline");
    let end = start + text[start..].find("\n  }").expect("it is closed") + 4;
    demo.with(TELLER, format!("{}  outline {{ {words} }}{}", &text[..start], &text[end..]))
}

/// Perimeter of an ellipse. Source: S. Ramanujan, Modular equations and approximations to pi (1914): its error here is
/// far under a thousandth of a mm.
fn perimeter(a: f64, b: f64) -> f64 {
    let h = ((a - b) / (a + b)).powi(2);
    std::f64::consts::PI * (a + b) * (1.0 + 3.0 * h / (10.0 + (4.0 - 3.0 * h).sqrt()))
}

#[test]
fn an_ellipse_has_its_perimeter_and_its_area() {
    let path = Ellipse::new((138.0, 0.0), (138.0, 45.0), 0.0).to_path(1e-5).to_svg();
    let (loaded, checked) = outlined(&format!("path \"{path}\"")).check(&[SCREE], &Only("9 D"));
    let faults: Vec<_> =
        checked.findings.iter().filter(|finding| finding.severity == Severity::Fault).cloned().collect();
    assert_eq!(lines(&loaded, &faults), "");
    let sizes = checked.figured(&checked.models[0]);
    let number = |key: &str| match sizes[0].figures.get(key).map(|figure| &figure.datum) {
        Some(Datum::Number(value)) => *value,
        other => panic!("{key}: {other:?}"),
    };
    let (length, area) = (number("last.feather"), number("last.area"));
    assert!((length - perimeter(138.0, 45.0)).abs() < 0.02, "{length} mm");
    assert!((area - std::f64::consts::PI * 13.8 * 4.5).abs() < 0.02, "{area} cm2");
}

#[test]
fn what_is_no_outline_is_said_at_the_path() {
    for (words, said) in [
        ("path \"M 0 0 L\"", "this is no outline: this is no SVG path"),
        ("path \"M 0 0 C 0 45 270 45 270 0 C 270 -45 0 -45 0 0 Z\"", "the path runs from 0.00 to 270.00 mm"),
        ("path \"M 0 0 C 0 45 276 45 276 0 C 276 20 0 20 0 0 Z\"", "doesn't cross once on each side"),
        ("path \"M 0 0 C 0 45 276 45 276 0 C 276 -45 0 -45 0 0 Z\"; at 5 % inside 20 mm outside 20 mm", "not both"),
    ] {
        let (loaded, faults) = outlined(words).faults(&[SCREE]);
        let all = lines(&loaded, &faults);
        assert!(faults.len() == 1 && all.contains(said), "{words}:\n{all}");
    }
}
