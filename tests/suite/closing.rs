//! Seams of the upper put together at random and worked out again in plain words: where each row runs, what it goes
//! through, how strong a fold must be, which skiver does a skive best, and what is left between the holes of a facing.
//!
//! The oracle knows what is written, and nothing of the tool but figures.

use crate::common::chance::Chance;
use crate::common::memory::Only;
use crate::common::trial;
use crate::common::trial::{built, figures, number, spread, trial};
use hobnail::build::{Datum, Figures};
use hobnail::finding::{Finding, Severity};

/// Lowest, middle and greatest thickness, mm.
type Thick = [f64; 3];

const SEWN: &str = "pitch 8 spi; thread bonded-138; needle 130 Nm; on post-bed";
/// A row that is not told where to run: the house's distance from an edge.
const INSIDE_EDGES: f64 = 2.0;

fn tenths(chance: &mut Chance, from: usize, to: usize) -> f64 {
    f64::from(u32::try_from(from + chance.below(to - from + 1)).expect("few")) / 10.0
}

fn yes(chance: &mut Chance) -> bool {
    chance.below(2) == 0
}

fn close(what: &str, found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-6, "{what}: {found}, worked out {expected}");
}

fn same(what: &str, figures: &Figures, key: &str, expected: Thick) {
    let found = spread(figures, key);
    for (found, expected) in [found.lo, found.nominal, found.hi].into_iter().zip(expected) {
        close(&format!("{what}: {key}"), found, expected);
    }
}

fn times(thick: Thick, many: f64) -> Thick {
    thick.map(|of| of * many)
}

fn and(a: Thick, b: Thick) -> Thick {
    [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

/// The parts that the seams are made of.
const PARTS: [&str; 5] = ["vamp", "quarter", "tongue", "collar-band", "stay-strip"];

/// Leathers of random substance, and how thick each part is.
fn leathers(chance: &mut Chance) -> (String, String, [Thick; 5]) {
    let (mut stock, mut parts, mut all) = (String::new(), String::new(), [[0.0; 3]; 5]);
    for (n, part) in PARTS.iter().enumerate() {
        let (least, more) = (tenths(chance, 17, 30), tenths(chance, 0, 6));
        stock += &format!("upper-leather hide-{n} {{ substance {least:.1}..{:.1} mm }}\n", least + more);
        parts += &format!("part {part} {{ of hide-{n} }}; ");
        all[n] = [least, least + more / 2.0, least + more];
    }
    (stock, parts, all)
}

/// How rows are written, and where they then run.
fn rows(chance: &mut Chance, most: usize) -> (String, Vec<f64>) {
    let many = 1 + chance.below(most);
    let first = yes(chance).then(|| tenths(chance, 10, 40));
    let apart = yes(chance).then(|| tenths(chance, 10, 60));
    let said = |word: &str, value: Option<f64>| value.map_or(String::new(), |value| format!(" {word} {value:.1} mm"));
    let text = format!("rows {many}{}{}", said("first", first), said("apart", apart));
    let mut at = first.unwrap_or(INSIDE_EDGES);
    let mut places = Vec::new();
    for _ in 0..many {
        places.push(at);
        at += apart.unwrap_or(INSIDE_EDGES);
    }
    (text, places)
}

#[test]
fn rows_run_where_they_are_written_and_go_through_what_lies_there() {
    let mut chance = Chance::new(11);
    let (mut within, mut clear, mut later) = (0, 0, 0);
    for _ in 0..60 {
        let (stock, parts, [vamp, quarter, tongue, band, strip]) = leathers(&mut chance);
        // A closed seam of one part and its like, or of two.
        let (joins, one, other) = [
            ("vamp", vamp, vamp),
            ("vamp, tongue", vamp, tongue),
            ("tongue, quarter", tongue, quarter),
            ("tongue", tongue, tongue),
        ][chance.below(4)];
        let (allowance, many, apart) = (tenths(&mut chance, 20, 90), 1 + chance.below(3), tenths(&mut chance, 5, 20));
        let said = if yes(&mut chance) { Some(apart) } else { None };
        let seam_rows = format!("rows {many}{}", said.map_or(String::new(), |apart| format!(" apart {apart:.1} mm")));
        let (stay_rows, stay_places) = rows(&mut chance, 4);
        let wide = tenths(&mut chance, 120, 300);
        let (gusset_rows, gusset_places) = rows(&mut chance, 3);
        let (collar_rows, collar_places) = rows(&mut chance, 2);
        let folded = yes(&mut chance);
        let fold = if folded { "" } else { "without folded; " };
        let lays_double = if folded { "" } else { "part collar-band { of hide-3; without folded }; " };
        let parts = if folded { parts } else { parts.replace("part collar-band { of hide-3 }; ", "") };
        let upper = format!(
            "{parts}{lays_double}\n    seam side {{ joins {joins}; allowance {allowance:.1} mm; rubbed-flat; long 90 mm; {seam_rows}; {SEWN} }}\n    \
             stay strip {{ of stay-strip; covers-seam side; wide {wide:.1} mm; loop 20 mm; long 90 mm; {stay_rows}; {SEWN} }}\n    \
             gusset tongue {{ {gusset_rows} }}\n    collar collar-band {{ {fold}{collar_rows} }}"
        );
        let found = figures(&trial(&stock, &format!("  upper {{ {upper} }}")), "9 D");
        // The first row at the allowance, the next nearer to the edge.
        let inward = said.unwrap_or(INSIDE_EDGES);
        for (k, steps) in (1..=many).zip([0.0, 1.0, 2.0]) {
            close(&upper, number(&found, &format!("seam.side.row-{k}.place")), allowance - steps * inward);
            same(&upper, &found, &format!("seam.side.row-{k}.stack"), and(one, other));
        }
        let thicker = if other[1] > one[1] { other } else { one };
        let mut nearest = f64::INFINITY;
        for (k, place) in (1..).zip(&stay_places) {
            let key = |what: &str| format!("stay.strip.row-{k}.{what}");
            close(&upper, number(&found, &key("place")), *place);
            close(&upper, number(&found, &key("inside")), place.min(wide - place));
            let from_seam = (place - wide / 2.0).abs();
            let under = if from_seam < allowance - 1e-9 { times(thicker, 2.0) } else { thicker };
            same(&upper, &found, &key("stack"), and(strip, under));
            if from_seam < allowance {
                within += 1;
            } else {
                clear += 1;
            }
            later += u32::from(from_seam < nearest && k > 1);
            nearest = nearest.min(from_seam);
        }
        close(&upper, number(&found, "stay.strip.clear"), nearest - allowance);
        for (k, place) in (1..).zip(&gusset_places) {
            close(&upper, number(&found, &format!("gusset.tongue.row-{k}.inside")), *place);
            same(&upper, &found, &format!("gusset.tongue.row-{k}.stack"), and(tongue, quarter));
        }
        let plies = if folded { 2.0 } else { 1.0 };
        for (k, place) in (1..).zip(&collar_places) {
            close(&upper, number(&found, &format!("collar.row-{k}.place")), *place);
            same(&upper, &found, &format!("collar.row-{k}.stack"), and(times(band, plies), quarter));
        }
        assert_eq!(found.get("collar.fold-needed").is_some(), folded, "{upper}");
        if folded {
            let last = collar_places.last().expect("a row") + INSIDE_EDGES;
            same(&upper, &found, "collar.fold-needed", and([last; 3], band));
        }
    }
    assert!(within > 20 && clear > 20 && later > 20, "{within} within the allowance, {clear} clear, {later} later");
}

/// What a skiver can do, mm; what is not said is no limit.
#[derive(Clone, Copy, Debug)]
struct Skiver {
    edge: Option<f64>,
    flat: Option<f64>,
    wide: Option<f64>,
    leather: Option<f64>,
}

impl Skiver {
    fn random(chance: &mut Chance) -> Self {
        let mut maybe = |from, to| (chance.below(4) > 0).then(|| tenths(chance, from, to));
        Self { edge: maybe(0, 12), flat: maybe(0, 4), wide: maybe(40, 300), leather: maybe(25, 50) }
    }

    fn text(&self, name: &str) -> String {
        let said =
            |word: &str, value: Option<f64>| value.map_or(String::new(), |value| format!(" {word} {value:.1} mm;"));
        let Self { edge, flat, wide, leather } = *self;
        let limits = [said("edge", edge), said("flat", flat), said("wide", wide), said("leather", leather)].concat();
        format!("  skiver {name} {{{} }}\n", limits.trim_end_matches(';'))
    }

    /// What is left of each limit by a skive that runs out to 1.0 over 12 mm, is held to 0.25, in leather of 7 oz.
    fn left(&self) -> Vec<(&'static str, f64)> {
        let seven_ounces = 7.0 * 25.4 / 64.0;
        let all = [
            ("edge", self.edge.map(|edge| 1.0 - edge)),
            ("width", self.wide.map(|wide| wide - 12.0)),
            ("flat", self.flat.map(|flat| 0.25 - flat)),
            ("leather", self.leather.map(|leather| leather - seven_ounces)),
        ];
        all.into_iter().filter_map(|(what, left)| Some((what, left?))).collect()
    }
}

#[test]
fn a_skive_is_held_against_the_skiver_that_leaves_most() {
    let mut chance = Chance::new(5);
    let mut taken = [0; 3];
    for _ in 0..60 {
        let skivers = [0; 3].map(|_| Skiver::random(&mut chance));
        let names = ["bell-skiver", "bench-knife", "knife"];
        let text: String = names.iter().zip(&skivers).map(|(name, skiver)| skiver.text(name)).collect();
        let memory = trial("", "");
        let shop = memory.text("specs/shop.hob");
        let from = shop.find("  skiver bell-skiver").expect("a skiver");
        let to = shop.find("  setter bench-setter").expect("a setter");
        let shop = format!("{}{text}{}", &shop[..from], &shop[to..]);
        let found = figures(&memory.with("specs/shop.hob", shop), "9 D");
        let least = |skiver: &Skiver| skiver.left().into_iter().map(|(_, left)| left).fold(f64::INFINITY, f64::min);
        // Of equal ones the first by name.
        let mut best = 0;
        for n in 1..3 {
            if least(&skivers[n]) > least(&skivers[best]) {
                best = n;
            }
        }
        taken[best] += 1;
        let Some(Datum::Text(name)) = found.get("lap.vamp.quarter.skive.quarter.skiver").map(|figure| &figure.datum)
        else {
            panic!("no skiver for {skivers:?}")
        };
        assert_eq!(name, names[best], "{skivers:?}");
        for what in ["edge", "width", "flat", "leather"] {
            let key = format!("lap.vamp.quarter.skive.quarter.skiver-{what}");
            let left = skivers[best].left().into_iter().find(|(name, _)| *name == what);
            assert_eq!(found.get(&key).is_some(), left.is_some(), "{key} of {skivers:?}");
            if let Some((_, left)) = left {
                close(&key, number(&found, &key), left);
            }
        }
    }
    assert!(taken.iter().all(|times| *times > 5), "{taken:?}");
}

#[test]
fn what_is_left_between_the_holes_of_a_facing() {
    let mut chance = Chance::new(3);
    let (mut at_the_top, mut at_the_end) = (0, 0);
    for _ in 0..60 {
        let (hooks, eyelets) = (chance.below(4), 1 + chance.below(5));
        let (of_hooks, of_eyelets) = (tenths(&mut chance, 120, 260), tenths(&mut chance, 120, 260));
        let (punch_hook, punch_eyelet) = (tenths(&mut chance, 30, 80), tenths(&mut chance, 30, 80));
        let (first, from_edge) = (tenths(&mut chance, 40, 200), tenths(&mut chance, 60, 160));
        let (row, rows_apart) = (tenths(&mut chance, 20, 40), tenths(&mut chance, 80, 240));
        let mut centres: Vec<(f64, f64)> = Vec::new();
        for (many, apart, punch) in [(hooks, of_hooks, punch_hook), (eyelets, of_eyelets, punch_eyelet)] {
            for _ in 0..many {
                let at = centres.last().map_or(first, |(above, _)| above + apart);
                centres.push((at, punch));
            }
        }
        let end = centres.last().expect("an eyelet").0 + tenths(&mut chance, 40, 200);
        let stock = format!("eyelet ring {{ punch {punch_eyelet:.1} mm }}\nhook claw {{ punch {punch_hook:.1} mm }}\n");
        let hooked = if hooks == 0 {
            "without hooks".to_owned()
        } else {
            format!("hooks {hooks} of claw apart {of_hooks:.1} mm")
        };
        let facing = format!(
            "facing {{ eyelets {eyelets} of ring apart {of_eyelets:.1} mm; {hooked}; first {first:.1} mm; from-edge {from_edge:.1} mm; long \
             {end:.2} mm grade 2 mm; rows 2 at {row:.1} mm apart {rows_apart:.1} mm pitch 8 spi thread bonded-138 needle 130 Nm sewn-on \
             post-bed }}"
        );
        let found = figures(&trial(&stock, &format!("  upper {{ {facing} }}")), "9 D");
        let least = |of: &dyn Fn(&(f64, f64)) -> f64| centres.iter().map(of).fold(f64::INFINITY, f64::min);
        close(&facing, number(&found, "facing.web-edge"), least(&|(_, punch)| from_edge - punch / 2.0));
        let to_row =
            |(_, punch): &(f64, f64)| (from_edge - row).abs().min((from_edge - row - rows_apart).abs()) - punch / 2.0;
        close(&facing, number(&found, "facing.web-row"), least(&to_row));
        let to_end = |(at, punch): &(f64, f64)| at.min(end - at) - punch / 2.0;
        close(&facing, number(&found, "facing.web-ends"), least(&to_end));
        let to_top = |(at, punch): &(f64, f64)| at - punch / 2.0;
        if least(&to_end) < least(&to_top) {
            at_the_end += 1;
        } else {
            at_the_top += 1;
        }
        assert_eq!(found.get("facing.web-holes").is_some(), centres.len() > 1, "{facing}");
        if let Some(between) =
            centres.windows(2).map(|pair| pair[1].0 - pair[0].0 - pair[0].1 / 2.0 - pair[1].1 / 2.0).reduce(f64::min)
        {
            close(&facing, number(&found, "facing.web-holes"), between);
        }
    }
    assert!(at_the_top > 10 && at_the_end > 10, "{at_the_top} at the top, {at_the_end} at the end");
}

/// A facing that is too thick or too thin for its hooks at nominal is refused, however far the other end of its spread is off.
#[test]
fn hooks_that_are_too_short_or_too_long_at_nominal_are_refused() {
    // The quarter is 2.58 +- 0.2.
    for (through, said) in [("2.50..2.55", "too thick"), ("2.60..2.65", "too thin")] {
        let stock = format!("hook claw {{ punch 4 mm; through {through} mm }}");
        let memory = trial(&stock, "  upper { facing { hooks 4 of claw apart 20 mm } }");
        let (_, checked) = trial::check(&memory, &Only("9 D"));
        let refused = |it: &&Finding| it.name == "hardware/through" && it.subject().contains("claw");
        let found = checked.findings.iter().find(refused).expect("it is said");
        assert_eq!(found.severity, Severity::Refused, "{through}: {}", found.message);
        assert!(found.message.contains(said), "{through}: {}", found.message);
    }
}

/// A lap that is lined is felt no step at: one that enters the turnout on either side, of an upper with a lining lasted in.
#[test]
fn a_lap_is_lined_if_it_enters_the_turnout_on_either_side() {
    for (enters, lined, covered) in [
        ("", "", false),
        ("enters-turnout outside 30 %", "", true),
        ("enters-turnout inside 30 %", "", true),
        ("enters-turnout outside 30 % inside 32 %", "", true),
        ("enters-turnout outside 30 %", "without lasted-in vamp-lining; without lasted-in quarter-lining;", false),
    ] {
        let upper = format!("{lined} lap counter-cover over quarter {{ {enters} }}");
        built(&trial("", &format!("  upper {{ {upper} }}")), "9 D", |build| {
            let lap =
                build.upper.laps.iter().find(|lap| lap.name.to_string().contains("counter-cover")).expect("the lap");
            assert_eq!(lap.covered, covered, "{upper}");
        });
    }
}

/// What ends exactly at a limit ends there: a row on the allowance's edge, a taper as wide as its lap, a facing of one hole.
#[test]
fn what_ends_exactly_there_does_not_reach_beyond() {
    const OUNCE: f64 = 25.4 / 64.0;
    let stay = |first: &str| {
        let upper = format!("stay back-stay {{ rows 1 first {first} }}");
        number(&figures(&trial("", &format!("  upper {{ {upper} }}")), "9 D"), "stay.back-stay.row-1.stack")
    };
    // The stay is 26 mm wide, the allowance under it 3 mm to each side: 10 and 16 mm from its edge.
    for (first, plies) in [("9.75 mm", 2.0), ("10 mm", 2.0), ("10.25 mm", 3.0), ("16 mm", 2.0)] {
        close(first, stay(first), plies * 6.5 * OUNCE);
    }
    // Four rows of which the last is at 10 mm, and a hair beyond it as a computer adds them.
    let rows = "stay back-stay { rows 4 first 1.9 mm apart 2.7 mm }";
    let found = figures(&trial("", &format!("  upper {{ {rows} }}")), "9 D");
    close(rows, spread(&found, "stay.back-stay.row-4.stack").nominal, 2.0 * 6.5 * OUNCE);
    for (wide, beyond) in [("16 mm", false), ("16.25 mm", true)] {
        let upper = format!("lap vamp over quarter {{ skive quarter {{ edge wide {wide} to 1.0 mm }} }}");
        built(&trial("", &format!("  upper {{ {upper} }}")), "9 D", |build| {
            let lap = build.upper.laps.iter().find(|lap| &*lap.name.top == "vamp").expect("the lap");
            let found = lap.beyond.as_ref().expect("it is built");
            assert_eq!(found.iter().any(|it| &*it.part == "quarter"), beyond, "{wide} in a lap of 16");
        });
    }
    // 1.01 and three times 5.65 are the whole 17.96, and a hair off it as a computer adds them.
    let (wide, rows) = ("wide 17.96 mm", "rows 4 first 1.01 mm apart 5.65 mm");
    let skives = "skive quarter { edge wide 1 mm to 0.3 mm }; without skive counter-cover";
    let upper = format!("lap counter-cover over quarter {{ {wide}; {skives}; {rows} }}");
    let found = figures(&trial("", &format!("  upper {{ {upper} }}")), "9 D");
    close("on the edge", spread(&found, "lap.counter-cover.quarter.row-4.stack").nominal, 6.5 * OUNCE + 0.3);
    for size in ["6 D", "9 D", "14 D"] {
        let facing = "facing { without hooks; eyelets 1 of brass-eyelet apart 18 mm }";
        let found = figures(&trial("", &format!("  upper {{ {facing} }}")), size);
        let Some(Datum::Numbers(centres)) = found.get("facing.centres").map(|figure| &figure.datum) else {
            panic!("no centres in {size}")
        };
        assert_eq!(centres, &[12.0], "{size}");
    }
}
