//! Lasts: a graded outline station by station, as long as the bottom has grown and as broad as seat and tread say; and
//! the room that the last leaves to the sole's rows.

use crate::common::memory::Memory;
use crate::common::trial::{LastText, built, figures, judged, number, refused, trial};
use hobnail::build::GradedLast;
use hobnail::geometry::Path;
use hobnail::rules::Moves;

/// The teller's outline as its file has it: percent of the bottom, half-breadths inside and outside, mm.
const TELLER: [(f64, f64, f64); 15] = [
    (2.0, 17.6, 17.6),
    (5.0, 25.2, 25.4),
    (10.0, 30.2, 30.6),
    (16.0, 31.7, 32.0),
    (26.0, 31.2, 32.4),
    (36.0, 28.6, 33.4),
    (45.0, 27.6, 35.6),
    (54.0, 30.2, 39.4),
    (62.0, 35.4, 43.0),
    (70.0, 40.2, 44.0),
    (78.0, 40.6, 41.2),
    (86.0, 36.8, 35.4),
    (92.0, 30.2, 28.8),
    (96.0, 23.0, 21.8),
    (98.5, 14.9, 14.3),
];

fn graded<T>(size: &'static str, look: impl FnOnce(&GradedLast) -> T) -> T {
    let last = LastText {
        more: "tread 84 mm;  seat-breadth 64 mm",
        by_size: "stick 8 mm; ball 6 mm; tread 3 mm; seat-breadth 0.8 mm",
        ..LastText::default()
    };
    let boot = last.boot("us-men 5..14 widths C, D, E, EE");
    built(&boot, size, |build| look(build.last.as_ref().expect("a last")))
}

#[test]
fn each_station_is_as_broad_as_seat_and_tread_have_grown() {
    for (size, sizes, widths) in
        [("9 D", 0.0, 0.0), ("6 D", -3.0, 0.0), ("14 D", 5.0, 0.0), ("9 EE", 0.0, 2.0), ("12 C", 3.0, -1.0)]
    {
        graded(size, |last| {
            let bottom = 276.0 + 8.0 * sizes;
            // A width is a twelfth and a sixteenth of an inch.
            let tread = (84.0 + 3.0 * sizes + widths * 25.4 / 12.0) / 84.0;
            let seat = (64.0 + 0.8 * sizes + widths * 25.4 / 16.0) / 64.0;
            for (percent, inside, outside) in TELLER {
                let x = percent / 100.0 * bottom;
                // From the seat's growth at the heel evenly to the tread's at that side's joint, and no further.
                let grown = |joint: f64| seat + (tread - seat) * (percent / joint).min(1.0);
                let found = last.feather.breadth_at(x).expect("it is on the bottom");
                for (side, found, expected) in
                    [("inside", found.inside, inside * grown(70.0)), ("outside", found.outside, outside * grown(62.0))]
                {
                    assert!(
                        (found - expected).abs() < 1e-6,
                        "{size} at {percent} % {side}: {found}, worked out {expected}"
                    );
                }
            }
            let toe = last.feather.flatten(0.0, last.feather.period(), 0.001).iter().map(|it| it.x).fold(0.0, f64::max);
            assert!((toe - bottom).abs() < 0.01, "{size}: the toe at {toe}");
            assert!(
                (last.bottom - bottom).abs() < 1e-9
                    && (last.length_factor - (283.0 + 8.0 * sizes) / 283.0).abs() < 1e-9
            );
            assert!((last.girth_factor - (248.0 + 6.0 * sizes + widths * 25.4 / 4.0) / 248.0).abs() < 1e-9, "{size}");
        });
    }
}

/// What the last leans out by comes off the room that each row has to the wall.
#[test]
fn a_wall_that_leans_out_takes_room_from_every_row() {
    let boot = |more: &str| LastText { more, ..LastText::default() }.boot("us-men 9 widths D");
    let room = |more: &str| [1, 2].map(|row| number(&figures(&boot(more), "9 D"), &format!("sole.row-{row}.wall")));
    let refuses = |more: &str| refused(&boot(more), "9 D", "rows/turnout");
    // Turnout 11, rows at 3.5 and 7 from the edge, and the machine needs 3.
    for (more, leans) in [("", 0.0), ("overhang 0.5 mm", 0.5), ("overhang 1 mm", 1.0), ("overhang 1.25 mm", 1.25)] {
        let found = room(more);
        assert!(
            (found[0] - (7.5 - leans)).abs() < 1e-9 && (found[1] - (4.0 - leans)).abs() < 1e-9,
            "{more}: {found:?}"
        );
        assert_eq!(refuses(more), leans > 1.0, "{more}");
    }
}

/// The rows' start is in full turnout to the very end of it.
#[test]
fn rows_start_at_the_latest_where_the_full_turnout_ends() {
    for (start, beyond) in [("15 mm", false), ("15.25 mm", true)] {
        let memory = trial("", "");
        let shop = memory.text("specs/shop.hob").replace("rows-start        12 mm", &format!("rows-start {start}"));
        assert_eq!(refused(&memory.with("specs/shop.hob", shop), "9 D", "rows/turnout"), beyond, "{start}");
    }
}

/// A row that starts behind the full turnout, which is least in the waist: neither at an end of the row nor at the toe.
#[test]
fn the_least_room_may_lie_in_the_waist() {
    let shop = |memory: &Memory| memory.text("specs/shop.hob").replace("rows-start        12 mm", "rows-start 35 mm");
    for (zones, least) in [
        ("at-forepart 11 mm at-waist 9 mm at-heel 12 mm", 9.0),
        ("at-forepart 11 mm at-waist 9 mm at-waist-inside 12 mm at-heel 12 mm", 9.0),
        ("at-forepart 11 mm at-waist 12 mm at-waist-inside 9 mm at-heel 12 mm", 9.0),
        ("at-forepart 10 mm at-waist 12 mm at-heel 12 mm", 10.0),
    ] {
        let memory = trial("", &format!("  bottom {{ turnout {zones} }}"));
        let shop = shop(&memory);
        let found = number(&figures(&memory.with("specs/shop.hob", shop), "9 D"), "sole.row-2.wall");
        assert!((found - (least - 7.0)).abs() < 1e-9, "{zones}: {found}");
    }
}

/// What is missed at one end moves the other way than what is missed at the other.
#[test]
fn what_is_too_much_is_to_be_less_and_what_is_too_little_more() {
    let moves = |rule: &str, declared: &str, differs: &str| {
        let judgements = built(&trial(declared, differs), "9 D", |build| judged(build, rule));
        let refused = judgements.iter().find(|it| it.margin < 0.0).unwrap_or_else(|| panic!("{differs}"));
        refused.levers[0].moves
    };
    // The guide goes from 2.5 to 12 mm, and the edge loses 1 mm.
    for (from_edge, wanted) in [("1 mm", Moves::Up), ("13 mm", Moves::Down)] {
        let sole = format!("  bottom {{ sole sewn {{ rows 1; from-edge {from_edge} }} }}");
        assert_eq!(moves("rows/guide", "", &sole), wanted, "{from_edge}");
    }
    // The press takes nails of 12 to 32 mm.
    for (length, wanted) in [("10 mm", Moves::Up), ("36 mm", Moves::Down)] {
        let stock = format!("nail spike {{ lengths {length}; shank 1.8 mm }}");
        let heel = format!("  heel {{ nailed {{ base spike {length} }} }}");
        assert_eq!(moves("heel/nailer", &stock, &heel), wanted, "{length}");
    }
}
