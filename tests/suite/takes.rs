//! What a pair takes, worked out again in plain words from public figures and lines, in every size of the demo shop.

use crate::common::memory::{Memory, Only};
use hobnail::build::{Build, Datum, Figures, Plan};
use hobnail::check::{AllSizes, Checked};
use hobnail::finding::Severity;
use hobnail::geometry::{Path, Rail, Straight};
use hobnail::measure::to_f64;
use kurbo::{Point, Vec2};
use rayon::prelude::*;

const MODELS: [&str; 3] = ["specs/models/cairn-10.hob", "specs/models/muster-10.hob", "specs/models/scree-8.hob"];

fn number(figures: &Figures, key: &str) -> f64 {
    match figures.get(key).map(|figure| &figure.datum) {
        Some(Datum::Number(number)) => *number,
        Some(Datum::Count(count)) => f64::from(u32::try_from(*count).expect("a small count")),
        other => panic!("{key} is {other:?}"),
    }
}

fn text<'f>(figures: &'f Figures, key: &str) -> &'f str {
    match figures.get(key).map(|figure| &figure.datum) {
        Some(Datum::Text(text)) => text,
        other => panic!("{key} is {other:?}"),
    }
}

fn close(what: &str, found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-6 * expected.abs().max(1.0), "{what}: {found}, worked out {expected}");
}

fn near(what: &str, found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{what}: {found}, worked out {expected}");
}

/// Runs `look` over every size of every demo model.
fn each(look: impl Fn(&Build<'_>, &Figures) + Sync) {
    assert!(each_of(&Memory::demo(), &MODELS, look) >= 4);
}

/// Runs `look` over every size of some models, and counts them.
fn each_of(memory: &Memory, paths: &[&str], look: impl Fn(&Build<'_>, &Figures) + Sync) -> usize {
    let (_, checked) = memory.check(paths, &AllSizes);
    for model in &checked.models {
        let world = &checked.worlds[model.place.0];
        let plan = Plan::new(&world.models[model.place.1], world.shop.as_ref().expect("the demo has a shop"));
        let sizes = checked.figured(model);
        assert_eq!(sizes.len(), 60);
        sizes.par_iter().for_each(|sized| look(&plan.build(sized.checked.size), &sized.figures));
    }
    checked.models.len()
}

/// `hide`, then prime and second: of a hide, and net over gross when cutting.
type Leather = (&'static str, f64, [(f64, f64); 2]);

/// The stock's leathers as the shelf has them: sqft, shares.
const LEATHERS: [Leather; 5] = [
    ("oil-tan", 22.0, [(0.45, 0.72), (0.40, 0.65)]),
    ("oil-tan-heavy", 22.0, [(0.45, 0.70), (0.40, 0.63)]),
    ("lining-leather", 14.0, [(0.50, 0.75), (0.40, 0.70)]),
    ("tongue-leather", 18.0, [(0.45, 0.72), (0.45, 0.66)]),
    ("collar-leather", 14.0, [(0.50, 0.75), (0.40, 0.70)]),
];

#[test]
fn leather_by_zone_and_hide() {
    each(|_, figures| {
        for (name, sqft, shares) in LEATHERS {
            let mut most: f64 = 0.0;
            for (zone, (of_hide, cuts)) in ["prime", "second"].into_iter().zip(shares) {
                let mut net = 0.0;
                for figure in
                    figures.iter().filter(|figure| figure.key.starts_with("part.") && figure.key.ends_with(".pair"))
                {
                    let part = figure.key.trim_end_matches(".pair");
                    if text(figures, &format!("{part}.of")) == name && text(figures, &format!("{part}.zone")) == zone {
                        net += number(figures, &figure.key);
                    }
                }
                if name == "lining-leather" && zone == "prime" {
                    net += 2.0 * number(figures, "last.area") / 100.0;
                }
                if net == 0.0 {
                    continue;
                }
                let key = |what: &str| format!("takes.leather.{name}.{zone}.{what}");
                close(&key("net"), number(figures, &key("net")), net);
                close(&key("gross"), number(figures, &key("gross")), net / cuts);
                // A square foot is 304.8 mm square.
                let hides = net / cuts / (sqft * 3.048 * 3.048 * of_hide);
                close(&key("hides"), number(figures, &key("hides")), hides);
                most = most.max(hides);
            }
            if most > 0.0 {
                let key = format!("takes.leather.{name}.hides");
                close(&key, number(figures, &key), most);
            }
        }
    });
}

/// The area of what of a polygon lies toeward of `x`, by cutting each edge there.
fn area_from(points: &[Point], x: f64) -> f64 {
    let mut kept: Vec<Point> = Vec::new();
    for (n, &to) in points.iter().enumerate() {
        let from = points[(n + points.len() - 1) % points.len()];
        if (from.x < x) != (to.x < x) {
            kept.push(from.lerp(to, (x - from.x) / (to.x - from.x)));
        }
        if to.x >= x {
            kept.push(to);
        }
    }
    let turn = |n: usize| {
        let (a, b) = (kept[n], kept[(n + 1) % kept.len()]);
        a.x * b.y - a.y * b.x
    };
    ((0..kept.len()).map(turn).sum::<f64>() / 2.0).abs()
}

/// A strip of breadth 30 along the middle of the bottom, from the breast to the joint line, in slices.
fn strip(build: &Build<'_>) -> f64 {
    // 22 broad on the centre line, from 20 behind the breast to 12 behind the place where it first meets the joint line.
    let last = build.last.as_ref().expect("the last is graded");
    let meets = |y: f64| {
        let xs = (0..200_000).map(|n| last.joint_outside + f64::from(n) * 0.001);
        xs.take_while(|x| last.joint_line.signed(Point::new(*x, y)) <= 0.0).last().expect("it does")
    };
    let front = meets(-11.0).min(meets(11.0)) - 12.0;
    22.0 * (front - (last.breast - 20.0))
}

#[test]
fn the_bottom_and_its_bonds() {
    each(|build, figures| {
        let (lines, last) = (build.lines.as_ref().expect("lines"), build.last.as_ref().expect("last"));
        let feather = area_from(&last.feather.flatten(0.0, last.feather.period(), 0.001), -1e9);
        let uncut = lines.uncut.flatten(0.0, lines.uncut.period(), 0.001);
        let whole = area_from(&uncut, -1e9);
        // dm2 for a pair.
        let pair = |mm2: f64| 2.0 * mm2 / 10_000.0;
        near("insole", number(figures, "takes.layer.insole.net"), pair(feather), 0.002);
        close("insole", number(figures, "takes.layer.insole.gross"), number(figures, "takes.layer.insole.net") / 0.72);
        near("midsole", number(figures, "takes.layer.midsole.net"), pair(whole), 0.002);
        close(
            "midsole",
            number(figures, "takes.layer.midsole.gross"),
            number(figures, "takes.layer.midsole.net") / 0.70,
        );
        let shank = number(figures, "takes.layer.shank.net");
        near("shank", shank, pair(strip(build)), 0.01);
        close("shank", number(figures, "takes.layer.shank.gross"), shank / 0.70);
        close("pad", number(figures, "takes.layer.pad.net"), shank);
        assert!(figures.get("takes.layer.pad.gross").is_none(), "sheet rubber states no yield");
        // A cemented outsole is fitted to the edge when it is trimmed, 4 mm nearer than where it was cut from.
        let trimmed = lines.edge.beside(1.0);
        let trimmed = trimmed.flatten(0.0, trimmed.period(), 0.001);
        let cemented = build.model.name == "cairn-10";
        let outsole = area_from(if cemented { &trimmed } else { &uncut }, last.breast);
        near("outsole", number(figures, "takes.adhesive.neoprene.outsole.faces"), 2.0 * pair(outsole), 0.004);
        let has_slip = figures.get("takes.layer.slip.net").is_some();
        assert_eq!(has_slip, build.model.name == "cairn-10");
        let layers = ["filler", "shank", "pad", "midsole", "slip", "outsole"];
        let mut faces = 0.0;
        for layer in layers.into_iter().filter(|layer| has_slip || *layer != "slip") {
            let of = number(figures, &format!("takes.adhesive.neoprene.{layer}.faces"));
            // Two coats of 180 g/m2.
            close(layer, number(figures, &format!("takes.adhesive.neoprene.{layer}.weight")), of / 100.0 * 2.0 * 180.0);
            faces += of;
        }
        // Each wedge, each lift and the cap is joined to what lies over it, behind the breast, on the edge as it is trimmed.
        let joints = if build.model.name == "muster-10" { 7.0 } else { 4.0 };
        let heel = area_from(&trimmed, -1e9) - area_from(&trimmed, last.breast);
        let base = number(figures, "takes.adhesive.neoprene.base.faces");
        near("heel", base, joints * 2.0 * pair(heel), 0.004 * joints);
        close("heel", number(figures, "takes.adhesive.neoprene.base.weight"), base / 100.0 * 2.0 * 180.0);
        faces += base;
        close("neoprene", number(figures, "takes.adhesive.neoprene.weight"), faces / 100.0 * 360.0);
    });
}

/// A lining that says what it is cemented in with counts as the strip that is turned in over the insole: here worked out as
/// what lies between the feather line and a line of points moved inward from it, ahead of or behind the station.
#[test]
fn the_strip_of_a_lining_that_is_cemented_in() {
    let bonded = "use \"models/cairn-10.hob\"\nmodel trial like cairn-10 {\n  revision 1\n  upper {
        lasted-in vamp-lining to 42 % bonded latex; lasted-in quarter-lining from 42 % bonded latex }\n}\n";
    let memory = Memory::demo().with("specs/trial.hob", bonded);
    let models = each_of(&memory, &["specs/trial.hob"], |build, figures| {
        let last = build.last.as_ref().expect("last");
        let feather = last.feather.flatten(0.0, last.feather.period(), 0.001);
        let all = feather.len();
        let inner: Vec<Point> = (0..all)
            .map(|n| {
                let along = feather[(n + 1) % all] - feather[(n + all - 1) % all];
                let across = Vec2::new(-along.y, along.x) / along.hypot() * 15.0;
                let (one, other) = (feather[n] + across, feather[n] - across);
                if last.feather.contains(one) { one } else { other }
            })
            .collect();
        let beyond = |x: f64| area_from(&feather, x) - area_from(&inner, x);
        let ahead = beyond(0.42 * last.bottom);
        let mut weight = 0.0;
        for (lining, strip) in [("vamp-lining", ahead), ("quarter-lining", beyond(-1e9) - ahead)] {
            // Two faces of each of two boots, in dm2.
            let faces = number(figures, &format!("takes.adhesive.latex.lasted-in.{lining}.faces"));
            near(lining, faces, 4.0 * strip / 10_000.0, 0.005 * faces);
            // One coat of 120 g/m2.
            let grams = number(figures, &format!("takes.adhesive.latex.lasted-in.{lining}.weight"));
            close(lining, grams, faces / 100.0 * 120.0);
            weight += grams;
        }
        close("latex", number(figures, "takes.adhesive.latex.weight"), weight);
        // The stock says 2 to 10 minutes: nobody else says how long it stays open.
        assert_eq!(text(figures, "upper.lasted-in.vamp-lining.bonded"), "latex");
        let open = figures.get("route.dwell.cement-lining.open").expect("it waits");
        assert_eq!(open.datum, Datum::Window(hobnail::measure::Window { lo: 2.0, hi: 10.0 }));
    });
    assert_eq!(models, 1);
}

#[test]
fn blanks_hold_the_outline_and_the_next_smaller_one_does_not_or_is_too_small() {
    each(|build, figures| {
        let lines = build.lines.as_ref().expect("lines");
        let breast = lines.last.breast;
        let outline = |rail: &hobnail::geometry::Rail| rail.flatten(0.0, rail.period(), 0.001);
        // What is sewn through is cut away with the rest; a cemented outsole and the cap go on when that is done.
        let cemented = build.model.name == "cairn-10";
        let (uncut, trimmed) = (outline(&lines.uncut), outline(&lines.edge.beside(1.0)));
        let points = if cemented { &trimmed } else { &uncut };
        let most = |list: &[Point], pick: fn(&Point) -> f64| list.iter().map(pick).fold(f64::NEG_INFINITY, f64::max);
        let ahead: Vec<Point> = points.iter().copied().filter(|point| point.x >= breast).collect();
        let behind: Vec<Point> = trimmed.iter().copied().filter(|point| point.x < breast).collect();
        let breadth = |list: &[Point]| most(list, |point| point.y) + most(list, |point| -point.y);
        let outsole = (most(&ahead, |point| point.x) - breast, breadth(&ahead));
        let cap = (breast + most(&behind, |point| -point.x), breadth(&behind));
        let inch = 25.4;
        for (what, needs, long, wide) in [
            ("outsole", outsole, (240.0, inch / 4.0), (130.0, inch / 12.0)),
            ("cap", cap, (90.0, inch / 8.0), (108.0, inch / 12.0)),
        ] {
            near(what, number(figures, &format!("takes.blank.{what}.long")), needs.0, 0.05);
            near(what, number(figures, &format!("takes.blank.{what}.wide")), needs.1, 0.3);
            let holds = |size: f64| {
                long.0 + (size - 9.0) * long.1 >= number(figures, &format!("takes.blank.{what}.long"))
                    && wide.0 + (size - 9.0) * wide.1 >= number(figures, &format!("takes.blank.{what}.wide"))
            };
            let size: f64 = text(figures, &format!("takes.blank.{what}.size")).parse().expect("a whole size");
            let own = to_f64(build.size.number);
            assert!((5.0..=14.0).contains(&size) && size >= own && holds(size), "{what}: {size} for {own}");
            assert!(size - 1.0 < own || !holds(size - 1.0), "{what}: {} would do for {own}", size - 1.0);
        }
    });
}

/// Seams by their key: length of a row in 9 D, rows, stitches per inch, thread.
type Row = (&'static str, f64, f64, f64, &'static str);

fn rows_of(model: &str) -> [Row; 6] {
    let ten = !model.starts_with("scree");
    let or = |eight: f64, ten_inch: f64| if ten { ten_inch } else { eight };
    let back: Row = if model == "cairn-10" {
        ("seam.back", 240.0, 1.0, 8.0, "bonded-138")
    } else {
        ("seam.back", or(190.0, 240.0), 1.0, 9.0, "bonded-69")
    };
    [
        back,
        ("stay.back-stay", or(150.0, 200.0), 4.0, 8.0, "bonded-138"),
        ("gusset.tongue", or(340.0, 440.0), 2.0, 8.0, "bonded-138"),
        ("lap.counter-cover.quarter", 260.0, 2.0, 8.0, "bonded-138"),
        ("lap.vamp.quarter", 320.0, 3.0, 8.0, "bonded-138"),
        ("collar", 290.0, 1.0, 9.0, "bonded-69"),
    ]
}

#[test]
fn thread_by_row_and_name() {
    const OUNCE: f64 = 25.4 / 64.0;
    each(|build, figures| {
        let model = build.model.name.as_str();
        let outer = if model == "cairn-10" { 7.5 } else { 6.5 } * OUNCE;
        let base_stick = if model == "muster-10" { 280.0 } else { 283.0 };
        let mut of_thread = [("bonded-69", 0.0), ("bonded-138", 0.0)];
        for (seam, long, rows, spi, thread) in rows_of(model) {
            let thickness = match seam {
                "gusset.tongue" => 3.25 * OUNCE + outer,
                "collar" => 2.0 * 2.5 * OUNCE + outer,
                _ => 2.0 * outer,
            };
            let length = long * number(figures, "last.stick") / base_stick;
            let stitches = (length * spi / 25.4).round();
            let metres = rows * (stitches * 2.0 * (length / stitches + thickness) + 150.0) / 1000.0;
            close(seam, number(figures, &format!("takes.seam.{seam}.stitches")), stitches);
            close(seam, number(figures, &format!("takes.seam.{seam}.thread")), metres);
            of_thread.iter_mut().filter(|(name, _)| *name == thread).for_each(|(_, sum)| *sum += 2.0 * metres);
        }
        // Both facings of a boot, which grow by 2 mm a size, not by the last's length.
        let sizes = to_f64(build.size.number) - 9.0;
        let length = if model.starts_with("scree") { 175.0 } else { 213.0 } + 2.0 * sizes;
        let stitches = (length * 8.0 / 25.4).round();
        let metres = 2.0 * 2.0 * (stitches * 2.0 * (length / stitches + outer) + 150.0) / 1000.0;
        close("facing", number(figures, "takes.seam.facing-rows.stitches"), stitches);
        close("facing", number(figures, "takes.seam.facing-rows.thread"), metres);
        of_thread[1].1 += 2.0 * metres;
        for (thread, metres) in of_thread {
            close(thread, number(figures, &format!("takes.thread.{thread}.total")), metres);
            close(thread, number(figures, &format!("takes.thread.{thread}.bought")), 1.15 * metres);
        }
        let row = |n: u32, what: &str| number(figures, &format!("sole.row-{n}.{what}-thread"));
        let key = |what: &str| format!("takes.thread.bonded-346.{what}");
        close("needle", number(figures, &key("needle")), 2.0 * (row(1, "needle") + row(2, "needle")));
        close("bobbin", number(figures, &key("bobbin")), 2.0 * (row(1, "bobbin") + row(2, "bobbin")));
        // 250 mm a row, two rows a boot.
        close("tails", number(figures, &key("tails")), 1.0);
        close("soles", number(figures, &key("total")), number(figures, "sole.thread-pair"));
        let forefoot = 2.0 * number(figures, "forefoot.thread-used");
        close("forefoot", number(figures, "takes.thread.bonded-277.total"), forefoot);
        close("forefoot", number(figures, "takes.thread.bonded-277.tails"), 0.3);
    });
}

fn sum_of(figures: &Figures, prefix: &str) -> f64 {
    let counts = figures.iter().filter(|figure| figure.key.starts_with(prefix) && figure.key.ends_with(".count"));
    counts.map(|figure| number(figures, &figure.key)).sum()
}

#[test]
fn nails_and_pieces_by_count() {
    each(|build, figures| {
        let clinching = sum_of(figures, "takes.nails.clinching.");
        close("clinching", clinching, 2.0 * (number(figures, "waist.nails") + number(figures, "seat.nails")));
        let lines = build.lines.as_ref().expect("lines");
        // The base: 6 mm inside the feather line to 8 mm behind the breast, half an inch apart, and two across; in a second
        // stage one less in the ring. The cap: a quarter of an inch inside the edge, in the spaces of its line.
        let spaces = |rail: &Rail| {
            let behind = rail.stretches_before(&Straight::square_at(lines.last.breast - 8.0));
            let length: f64 = behind.iter().map(|(from, to)| rail.length_between(*from, *to)).sum();
            (length / 12.7).floor()
        };
        let ring = spaces(&Rail::constant(&lines.last.feather, -6.0)) + 1.0;
        let stages = if build.model.name == "muster-10" { 2.0 } else { 1.0 };
        let base = if stages > 1.0 { ring + ring - 1.0 + 2.0 } else { ring + 2.0 };
        close("base", sum_of(figures, "takes.nails.heel-nail."), 2.0 * base);
        close("cap", sum_of(figures, "takes.nails.cap-nail."), 2.0 * spaces(&lines.edge.beside(-6.35)));
        let (lifts, wedges) = if stages > 1.0 { (8.0, 4.0) } else { (4.0, 2.0) };
        let (eyelets, hooks) = if build.model.name.starts_with("scree") { (20.0, 16.0) } else { (24.0, 20.0) };
        for (what, count) in [
            ("lifts", lifts),
            ("wedges", wedges),
            ("cap", 2.0),
            ("outsole", 2.0),
            ("counter", 2.0),
            ("puff", 2.0),
            ("eyelets", eyelets),
            ("hooks", hooks),
            ("laces", 2.0),
        ] {
            close(what, number(figures, &format!("takes.pieces.{what}.count")), count);
        }
    });
}

fn figures_of(demo: &Memory) -> Figures {
    let path = "specs/models/scree-8.hob";
    let (_, checked) = demo.check(&[path], &Only("9 D"));
    first(&checked)
}

fn first(checked: &Checked) -> Figures {
    let model = checked.models.iter().find(|model| model.name == "scree-8").expect("the model is there");
    checked.figured(model).into_iter().next().expect("it is built").figures
}

#[test]
fn what_the_stock_says_moves_what_is_taken() {
    let demo = Memory::demo();
    let before = figures_of(&demo);
    let after = |old: &str, new: &str| {
        let text = demo.text("specs/stock.hob");
        assert!(text.contains(old), "{old}");
        figures_of(&demo.with("specs/stock.hob", text.replacen(old, new, 1)))
    };
    for (old, new, key, times) in [
        ("yield 70 %", "yield 35 %", "takes.layer.midsole.gross", 2.0),
        ("cuts prime 72 %", "cuts prime 36 %", "takes.leather.oil-tan.prime.gross", 2.0),
        ("second 40 %", "second 20 %", "takes.leather.oil-tan.hides", 2.0),
        ("hide 22 sqft", "hide 11 sqft", "takes.leather.oil-tan.hides", 2.0),
        ("coats 2", "coats 3", "takes.adhesive.neoprene.weight", 1.5),
        ("coverage 180", "coverage 90", "takes.adhesive.neoprene.weight", 0.5),
    ] {
        let after = after(old, new);
        close(new, number(&after, key), times * number(&before, key));
    }
    let weighed = after("7/8 in;  shank 1.8 mm;  clinches }", "7/8 in;  shank 1.8 mm;  clinches;  weight 1000 }");
    let nails = number(&weighed, "takes.nails.clinching.4.5-8.count");
    close("weight", number(&weighed, "takes.nails.clinching.4.5-8.weight"), nails);
    let bought = demo.text("specs/shop.hob").replace("house {", "house {\n    thread-waste 20 %");
    let bought = figures_of(&demo.with("specs/shop.hob", bought));
    let key = "takes.thread.bonded-346";
    close("waste", number(&bought, &format!("{key}.bought")), 1.2 * number(&before, &format!("{key}.total")));
}

#[test]
fn a_seam_without_a_length_leaves_its_thread_unknown() {
    let demo = Memory::demo();
    let path = "specs/models/scree-8.hob";
    let unsaid = demo.with(path, demo.text(path).replacen("long 320 mm;  ", "", 1));
    let figures = figures_of(&unsaid);
    assert!(figures.get("takes.thread.bonded-138.total").is_none());
    let Some(Datum::Texts(unknown)) = figures.get("takes.thread.bonded-138.unknown").map(|figure| &figure.datum) else {
        panic!("it is said that it is not known");
    };
    assert_eq!(unknown, &["lap.vamp.quarter"]);
    assert!(figures.get("takes.thread.bonded-69.total").is_some(), "other threads are known");
}

#[test]
fn a_blank_that_is_exactly_as_wide_serves_and_a_hair_less_does_not() {
    let demo = Memory::demo();
    let path = "specs/models/scree-8.hob";
    let wide = number(&figures_of(&demo), "takes.blank.outsole.wide");
    let with = |wide: f64| {
        let stock = demo.text("specs/stock.hob").replacen(
            "blanks us-men 5..14 measured 9 long 240 mm wide 130 mm",
            &format!("blanks us-men 5..9 measured 9 long 240 mm wide {wide:.9} mm"),
            1,
        );
        let (_, checked) = demo.with("specs/stock.hob", stock).check(&[path], &Only("9 D"));
        checked.findings.iter().any(|it| it.severity == Severity::Refused && it.name == "stock/blank")
    };
    assert!(!with(wide + 1e-7) && with(wide - 0.01));
}
