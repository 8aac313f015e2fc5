//! What a pair takes of what the demo does not have: seams put together otherwise, layers that cover some of the bottom,
//! blanks that do not grow, leather whose shares are not said. Worked out again in plain words.

use crate::common::chance::Chance;
use crate::common::trial;
use crate::common::trial::{built, figures, number, refused, trial};
use hobnail::build::{Datum, Figures, GradedLast};
use hobnail::geometry::Path;
use kurbo::Point;

const OUNCE: f64 = 25.4 / 64.0;

fn close(what: &str, found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-6 * expected.abs().max(1.0), "{what}: {found}, worked out {expected}");
}

fn near(what: &str, found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{what}: {found}, worked out {expected}");
}

/// A trial whose seams, stays, collar and facing are put together otherwise than the demo's.
fn otherwise(upper: &str) -> Figures {
    let band = if upper.contains("part collar-band") { "" } else { "part collar-band { of thin };" };
    let declared = "upper-leather thin { substance 3 oz }\nupper-leather thick { substance 7 oz }\n";
    let parts = "part vamp { of thick }; part tongue { of thin }; part quarter { of thick }";
    let memory = trial(declared, &format!("  upper {{ {parts}; {band} {upper} }}"));
    figures(&memory, "10 E")
}

/// The thread of one seam: rows of stitches of `2 p + 2 t`, and a tail of 150 mm each.
fn locked(figures: &Figures, long: f64, rows: f64, spi: f64, thickness: f64) -> f64 {
    let length = long * number(figures, "last.stick") / 283.0;
    let stitches = (length * spi / 25.4).round();
    rows * (stitches * 2.0 * (length / stitches + thickness) + 150.0) / 1000.0
}

#[test]
fn thread_of_seams_put_together_otherwise() {
    const SEWN: &str = "pitch 8 spi; thread bonded-138; needle 130 Nm";
    let (thin, thick) = (3.0 * OUNCE, 7.0 * OUNCE);
    let side = |parts: &str| {
        format!("seam side {{ joins {parts}; allowance 6 mm; rubbed-flat; long 100 mm; rows 2; {SEWN}; on post-bed }}")
    };
    let strip = format!(
        "stay strip {{ of collar-band; covers-seam side; wide 24 mm; loop 20 mm; long 100 mm; rows 2 first 2 mm apart 20 mm; {SEWN}; on \
         post-bed }}"
    );
    let thread = |figures: &Figures, seam: &str| number(figures, &format!("takes.seam.{seam}.thread"));
    // Of two parts both count; of one part, itself and its like.
    for (parts, both, under) in [
        ("vamp, tongue", thick + thin, thick),
        ("tongue, vamp", thick + thin, thick),
        ("tongue", 2.0 * thin, thin),
        ("vamp", 2.0 * thick, thick),
    ] {
        let figures = otherwise(&format!("{}; {strip}", side(parts)));
        close(parts, thread(&figures, "seam.side"), locked(&figures, 100.0, 2.0, 8.0, both));
        close(parts, thread(&figures, "stay.strip"), locked(&figures, 100.0, 2.0, 8.0, thin + under));
    }
    // A collar that is not folded lies once.
    let folded = otherwise("");
    close("collar", thread(&folded, "collar"), locked(&folded, 290.0, 1.0, 9.0, 2.0 * thin + thick));
    let raw = otherwise("collar collar-band { without folded }; part collar-band { of thin; without folded }");
    close("raw collar", thread(&raw, "collar"), locked(&raw, 290.0, 1.0, 9.0, thin + thick));
    // A facing alone, with itself turned in, and with another part behind it. A whole size up its edge is 2 mm longer.
    let facing = |rows: f64, thickness: f64| {
        let stitches = (177.0_f64 * 8.0 / 25.4).round();
        2.0 * rows * (stitches * 2.0 * (177.0 / stitches + thickness) + 150.0) / 1000.0
    };
    for (backing, thickness) in
        [("", thick), ("facing { backing }", 2.0 * thick), ("facing { backing tongue }", thick + thin)]
    {
        let figures = otherwise(backing);
        close(backing, thread(&figures, "facing-rows"), facing(2.0, thickness));
        close(backing, trial::spread(&figures, "facing-rows.thickest").nominal, thickness);
    }
    for rows in [1, 3] {
        let said = format!(
            "facing {{ rows {rows} at 3 mm apart 9 mm pitch 8 spi thread bonded-138 needle 130 Nm sewn-on post-bed }}"
        );
        let figures = otherwise(&said);
        close(&said, thread(&figures, "facing-rows"), facing(f64::from(rows), thick));
    }
}

/// What a layer is said to cover, and what it then takes of one boot, mm2: by slices of the outline that it is cut to.
struct Piece {
    covers: &'static str,
    breadth: Option<f64>,
    tucked: Option<f64>,
}

impl Piece {
    fn random(chance: &mut Chance) -> Self {
        let mut whole = |from: u32, to: usize| f64::from(from + u32::try_from(chance.below(to)).expect("few"));
        let (breadth, tucked) = (whole(20, 30), whole(0, 60));
        Self {
            covers: ["all", "forepart", "waist", "seat"][chance.below(4)],
            breadth: (chance.below(2) == 0).then_some(breadth),
            tucked: (chance.below(2) == 0).then_some(tucked),
        }
    }

    fn text(&self) -> String {
        let breadth = self.breadth.map(|breadth| format!("; breadth {breadth} mm")).unwrap_or_default();
        let ends = self.tucked.map(|behind| format!("; ends tucked {behind} mm")).unwrap_or_default();
        format!("covers {}{breadth}{ends}", self.covers)
    }

    fn covers(&self, last: &GradedLast, joints: [(f64, f64); 2], x: f64, y: f64) -> bool {
        // The joint line runs from the feather at one joint to the feather at the other.
        let [(x0, y0), (x1, y1)] = joints;
        let before_joint = x <= x0 + (x1 - x0) * (y - y0) / (y1 - y0);
        let zone = match self.covers {
            "forepart" => !before_joint,
            "waist" => x >= last.breast && before_joint,
            "seat" => x <= last.breast,
            _ => true,
        };
        zone && self.tucked.is_none_or(|behind| x >= last.breast - behind)
    }

    fn area(&self, last: &GradedLast, outline: &[Point]) -> f64 {
        const SLICE: f64 = 0.2;
        const GRAIN: f64 = 0.2;
        let middle = |x: f64| last.feather.breadth_at(x).map_or(0.0, |across| (across.inside - across.outside) / 2.0);
        let across = |x: f64| last.feather.breadth_at(x).expect("a joint is on the bottom");
        let (inside, outside) = (last.joint_inside, last.joint_outside);
        let joints = [(inside, across(inside).inside), (outside, -across(outside).outside)];
        let ends = outline.iter().map(|point| point.x);
        let (back, toe) = (ends.clone().fold(f64::MAX, f64::min), ends.fold(f64::MIN, f64::max));
        let slices = |from: f64, to: f64| {
            let mut at = from + SLICE / 2.0;
            std::iter::from_fn(move || {
                at += SLICE;
                (at - SLICE < to).then_some(at - SLICE)
            })
        };
        if let Some(breadth) = self.breadth {
            // A strip as long as the zone is along the middle of the bottom.
            let strip = slices(0.0, last.bottom).filter(|x| self.covers(last, joints, *x, middle(*x)));
            return strip.map(|_| SLICE * breadth).sum();
        }
        let mut area = 0.0;
        for x in slices(back, toe) {
            let crossings = (0..outline.len()).filter_map(|n| {
                let (a, b) = (outline[n], outline[(n + 1) % outline.len()]);
                ((a.x < x) != (b.x < x)).then(|| a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x))
            });
            let (low, high) = crossings.fold((f64::MAX, f64::MIN), |(low, high), y| (low.min(y), high.max(y)));
            let mut y = low + GRAIN / 2.0;
            while y < high {
                area += if self.covers(last, joints, x, y) { SLICE * GRAIN } else { 0.0 };
                y += GRAIN;
            }
        }
        area
    }
}

#[test]
fn a_layer_takes_what_it_covers_of_its_outline() {
    let mut chance = Chance::new(17);
    for _ in 0..24 {
        let (filler, slip) = (Piece::random(&mut chance), Piece::random(&mut chance));
        let size = ["9 D", "6 C", "14 EE"][chance.below(3)];
        let stock = "sole-leather card { substances 2 mm; yield 80 % }\nadhesive paste { for soles; open 1..2 minutes; set 1 hours }\n";
        let layers = format!(
            "layer filler {{ of card 2 mm; {}; bonded neoprene }}; layer slip {{ of slip-sheet; {}; bonded paste }}",
            filler.text(),
            slip.text(),
        );
        let memory = trial(stock, &format!("  bottom {{ {layers} }}"));
        let found = &figures(&memory, size);
        built(&memory, size, |build| {
            let (lines, last) = (build.lines.as_ref().expect("lines"), build.last.as_ref().expect("last"));
            let feather = last.feather.flatten(0.0, last.feather.period(), 0.01);
            let uncut = lines.uncut.flatten(0.0, lines.uncut.period(), 0.01);
            let known = |key: &str| found.get(key).map(|_| number(found, key));
            for (role, piece, outline, glue) in
                [("filler", &filler, &feather, "neoprene"), ("slip", &slip, &uncut, "paste")]
            {
                let dm2 = piece.area(last, outline) / 10_000.0;
                let net = number(found, &format!("takes.layer.{role}.net"));
                near(&format!("{role} {} in {size}", piece.text()), net, 2.0 * dm2, 0.02 + 0.002 * dm2);
                close(role, number(found, &format!("takes.adhesive.{glue}.{role}.faces")), 2.0 * net);
                let gross = known(&format!("takes.layer.{role}.gross"));
                assert_eq!(gross.is_some(), role == "filler", "only leather is pressed");
                if let Some(gross) = gross {
                    close(role, gross, net / 0.8);
                }
            }
            assert!(known("takes.adhesive.neoprene.filler.weight").is_some(), "coats and coverage are said");
            assert!(known("takes.adhesive.paste.slip.weight").is_none(), "neither is said");
        });
    }
}

#[test]
fn what_a_part_takes_grows_in_length_and_girth_and_by_its_pieces() {
    for (size, longer, rounder) in [("9 D", 0.0, 0.0), ("6 C", -3.0, -4.0), ("14 EE", 5.0, 7.0)] {
        for pieces in [1_u32, 2, 5] {
            let memory = trial("", &format!("  upper {{ part vamp {{ pieces {pieces}; area 4 dm2 }} }}"));
            let found = figures(&memory, size);
            // A size is a third of an inch of stick length, size and width a quarter of girth each.
            let stick = (283.0 + longer * 25.4 / 3.0) / 283.0;
            let girth = (248.0 + rounder * 25.4 / 4.0) / 248.0;
            close(size, number(&found, "last.stick") / 283.0, stick);
            close(size, number(&found, "last.ball") / 248.0, girth);
            let area = 4.0 * stick * girth;
            close(size, number(&found, "part.vamp.area"), area);
            close(size, number(&found, "part.vamp.pair"), 2.0 * f64::from(pieces) * area);
        }
    }
}

#[test]
fn leather_whose_shares_are_not_said_is_known_as_far_as_it_is_said() {
    let with = |said: &str| {
        let stock = format!("upper-leather calf {{ substance 6..7 oz; {said} }}");
        figures(&trial(&stock, "  upper { part vamp { of calf; zone prime; area 4 dm2 } }"), "9 D")
    };
    let key = |what: &str| format!("takes.leather.calf.{what}");
    for (said, gross, hides) in [
        ("hide 20 sqft", None, None),
        ("hide 20 sqft; cuts prime 50 %", Some(16.0), None),
        ("cuts prime 50 %; of-hide prime 40 %", Some(16.0), None),
        ("hide 20 sqft; of-hide prime 40 %", None, None),
        ("hide 20 sqft; cuts prime 50 %; of-hide prime 40 %", Some(16.0), Some(16.0 / (20.0 * 3.048 * 3.048 * 0.4))),
        ("hide 20 sqft; cuts second 50 %; of-hide second 40 %", None, None),
    ] {
        let found = with(said);
        let known = |what: &str| found.get(&key(what)).map(|_| number(&found, &key(what)));
        close(said, number(&found, &key("prime.net")), 8.0);
        for (what, wanted) in [("prime.gross", gross), ("prime.hides", hides), ("hides", hides)] {
            assert_eq!(known(what).is_some(), wanted.is_some(), "{what} with {said}");
            known(what).into_iter().zip(wanted).for_each(|(found, wanted)| close(said, found, wanted));
        }
    }
}

#[test]
fn a_sock_that_lies_at_the_heel_takes_what_lies_behind_the_breast() {
    let stock = "upper-leather kid { substance 2 oz }";
    for how in ["full", "heel"] {
        let memory = trial(stock, &format!("  finish {{ sock-lining {how} of kid }}"));
        let found = &figures(&memory, "9 D");
        built(&memory, "9 D", |build| {
            let last = build.last.as_ref().expect("last");
            let feather = last.feather.flatten(0.0, last.feather.period(), 0.01);
            // A shoelace sum over what lies behind the breast, which the line cuts straight.
            let behind = |x: f64| if how == "full" { x } else { x.min(last.breast) };
            let turn = |n: usize| {
                let (a, b) = (feather[n], feather[(n + 1) % feather.len()]);
                behind(a.x) * b.y - behind(b.x) * a.y
            };
            let wanted = ((0..feather.len()).map(turn).sum::<f64>() / 2.0).abs();
            near(how, number(found, "takes.leather.kid.prime.net"), 2.0 * wanted / 10_000.0, 0.002);
        });
    }
}

#[test]
fn blanks_that_do_not_grow_serve_all_sizes_or_none() {
    let with = |blanks: &str, size: &'static str| {
        let stock = format!("outsole slab {{ base 4 mm; blanks us-men 5..14 measured 9 {blanks} }}");
        let memory = trial(&stock, "  bottom { layer outsole { of slab } }");
        let found = figures(&memory, size);
        let chosen = match found.get("takes.blank.outsole.size").map(|figure| &figure.datum) {
            Some(Datum::Text(size)) => Some(size.clone()),
            _ => None,
        };
        assert_eq!(refused(&memory, size, "stock/blank"), chosen.is_none(), "{blanks} in {size}");
        chosen
    };
    let same = "grade-length 0 mm grade-breadth 0 mm";
    assert_eq!(with(&format!("long 400 mm wide 300 mm {same}"), "9 D").as_deref(), Some("9"));
    assert_eq!(with(&format!("long 400 mm wide 300 mm {same}"), "14 EE").as_deref(), Some("14"));
    assert_eq!(with(&format!("long 400 mm wide 60 mm {same}"), "9 D"), None);
    assert_eq!(with(&format!("long 60 mm wide 300 mm {same}"), "9 D"), None);
    // One that grows only in length, and is wide enough, or not.
    let longer = "grade-length 10 mm grade-breadth 0 mm";
    let stub = with(&format!("long 190 mm wide 300 mm {longer}"), "9 D");
    let size: f64 = stub.expect("a larger one serves").parse().expect("a whole size");
    // How far the outline reaches does not ask which outsole lies there.
    let needs = number(&figures(&trial("", ""), "9 D"), "takes.blank.outsole.long");
    assert!(190.0 + 10.0 * (size - 9.0) >= needs && 190.0 + 10.0 * (size - 10.0) < needs, "{size} for {needs}");
    assert_eq!(with(&format!("long 190 mm wide 60 mm {longer}"), "9 D"), None);
}

#[test]
fn a_forefoot_that_is_nailed_takes_no_thread() {
    let sewn = figures(&trial("", ""), "9 D");
    assert!(sewn.get("forefoot.stitches").is_some() && sewn.get("takes.thread.bonded-277.total").is_some());
    let nailed = figures(&trial("", "  bottom { forefoot nailed { inside-feather 10 mm; pitch 5 spi } }"), "9 D");
    assert!(nailed.get("forefoot.stitches").is_none() && nailed.get("takes.thread.bonded-277.total").is_none());
}

/// A stitch of class 101 takes `3 p + 2 t`, all of it from the needle, and each row its tails.
#[test]
fn a_seam_that_is_sewn_with_a_chainstitch() {
    let vamp = "rows 3 first 2 mm apart 3.5 mm; pitch 5 spi; thread bonded-277; needle 200 Nm; on horn-stitcher";
    let found = figures(&trial("", &format!("  upper {{ lap vamp over quarter {{ {vamp} }} }}")), "9 D");
    let stitches = (320.0_f64 * 5.0 / 25.4).round();
    let thickness = 2.0 * 6.5 * OUNCE;
    let (needle, tails) = (stitches * (3.0 * 320.0 / stitches + 2.0 * thickness) / 1000.0, 0.15);
    close("a boot", number(&found, "takes.seam.lap.vamp.quarter.thread"), 3.0 * (needle + tails));
    // A pair, with the forefoot's row, which is of the same thread.
    let forefoot = 2.0 * number(&found, "forefoot.thread-used");
    close("a pair", number(&found, "takes.thread.bonded-277.total"), 2.0 * 3.0 * (needle + tails) + forefoot);
}

#[test]
fn a_hide_gives_whole_pairs() {
    // Two of 4 dm2, half of it wasted.
    for (hide, pairs) in [(32.0, 2), (31.9, 1), (33.0, 2), (48.0, 3), (16.0, 1), (15.9, 0)] {
        let shares = "cuts prime 50 %; of-hide prime 100 %";
        let stock = format!("upper-leather calf {{ substance 6..7 oz; hide {hide} dm2; {shares} }}");
        let found =
            figures(&trial(&stock, "  upper { part vamp { of calf; zone prime; pieces 1; area 4 dm2 } }"), "9 D");
        assert_eq!(trial::count(&found, "takes.leather.calf.pairs"), pairs, "{hide} dm2");
    }
}

#[test]
fn an_outsole_that_is_tucked_under_the_heel_needs_a_longer_blank() {
    let long = |ends: &str| {
        let memory = trial("", &format!("  bottom {{ layer outsole {{ ends {ends} }} }}"));
        number(&figures(&memory, "9 D"), "takes.blank.outsole.long")
    };
    let at_breast = long("at-breast");
    close("tucked", long("tucked 20 mm"), at_breast + 20.0);
    close("not at all", long("tucked 0 mm"), at_breast);
}

#[test]
fn nails_of_nearly_one_length_are_counted_apart() {
    let stock = "nail spike { lengths 22.0, 22.3 mm; shank 1.8 mm; weight 400 }";
    let heel = "heel { nailed { base spike back 22.3 mm, breast 22.0 mm } }";
    let found = figures(&trial(stock, &format!("  {heel}")), "9 D");
    let counted: Vec<(f64, f64)> = found
        .iter()
        .filter(|figure| figure.key.starts_with("takes.nails.spike."))
        .filter_map(|figure| figure.key.strip_suffix(".count"))
        .map(|key| (number_of(&found, &format!("{key}.count")), number(&found, &format!("{key}.weight"))))
        .collect();
    assert_eq!(counted.len(), 2, "{counted:?}");
    for (count, grams) in counted {
        // 400 to the kilogram.
        close("weight", grams, count * 1000.0 / 400.0);
    }
}

fn number_of(figures: &Figures, key: &str) -> f64 {
    f64::from(u32::try_from(trial::count(figures, key)).expect("a small count"))
}

#[test]
fn pieces_of_which_there_are_none_are_not_counted() {
    for (differs, gone, kept) in [
        ("facing { without eyelets }", "eyelets", "hooks"),
        ("facing { eyelets 0 of brass-eyelet apart 18 mm }", "eyelets", "hooks"),
        ("facing { hooks 0 of brass-hook apart 20 mm }", "hooks", "eyelets"),
    ] {
        let found = figures(&trial("", &format!("  upper {{ {differs} }}")), "9 D");
        assert!(found.get(&format!("takes.pieces.{gone}.count")).is_none(), "{differs}");
        assert!(found.get(&format!("takes.pieces.{kept}.count")).is_some(), "{differs}");
    }
}
