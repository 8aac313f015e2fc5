//! Drawings read back out of the PDF: what is measured on the paper, by the scale that is printed, is the JSON's figure.

use crate::common::memory::{Memory, Only};
use crate::common::printed::{Printed, Wanted, print_of};
use hobnail::sheets::Station;
use hobnail::sheets::paper::Op;
use lopdf::content::Content;
use lopdf::{Dictionary, Document, Object, ObjectId};

const MM: f64 = 25.4 / 72.0;
const SIZES: [&str; 3] = ["6 C", "9 D", "14 E"];

/// A path as it was drawn, mm from the bottom left corner of the page; y runs up.
struct Drawn {
    points: Vec<(f64, f64)>,
    pen: f64,
}

impl Drawn {
    fn span(&self, of: impl Fn(&(f64, f64)) -> f64) -> (f64, f64) {
        let values = self.points.iter().map(of);
        values.fold((f64::MAX, f64::MIN), |(lo, hi), value| (lo.min(value), hi.max(value)))
    }

    fn wide(&self) -> f64 {
        let (left, right) = self.span(|point| point.0);
        right - left
    }
}

fn number(object: &Object) -> f64 {
    object.as_float().map_or(0.0, f64::from)
}

/// Every straight path of a page, those in its forms too.
fn drawn(pdf: &Document, page: ObjectId) -> Vec<Drawn> {
    let resources = pdf.get_dictionary(page).and_then(|page| pdf.dereference(page.get(b"Resources")?)?.1.as_dict());
    let forms = resources.and_then(|resources| pdf.dereference(resources.get(b"XObject")?)?.1.as_dict()).ok();
    let mut all = Vec::new();
    paths(pdf, &pdf.get_page_content(page), forms, (0.0, 0.0), &mut all);
    all
}

/// The straight paths of content that is moved by `origin`, mm.
fn paths(pdf: &Document, content: &[u8], forms: Option<&Dictionary>, origin: (f64, f64), all: &mut Vec<Drawn>) {
    let content = Content::decode(content).expect("content can be read");
    let (mut pen, mut moved) = (MM, origin);
    let mut kept = Vec::new();
    for operation in &content.operations {
        let of = |n: usize| number(&operation.operands[n]) * MM;
        match operation.operator.as_str() {
            "q" => kept.push((pen, moved)),
            "Q" => (pen, moved) = kept.pop().expect("what is restored was saved"),
            "cm" => moved = (moved.0 + of(4), moved.1 + of(5)),
            "w" => pen = of(0),
            "m" => all.push(Drawn { points: vec![(moved.0 + of(0), moved.1 + of(1))], pen }),
            "l" => {
                let path = all.last_mut().expect("a path begins");
                path.points.push((moved.0 + of(0), moved.1 + of(1)));
            }
            "Do" => {
                let name = operation.operands[0].as_name().expect("a form's name");
                let form = forms.expect("forms").get(name).and_then(|form| pdf.dereference(form)).expect("a form").1;
                let form = form.as_stream().expect("a stream");
                paths(pdf, &form.decompressed_content().expect("content"), forms, moved, all);
            }
            _ => {}
        }
    }
}

/// What is drawn on the page whose text has `title`, and the scales that the title says.
fn found(printed: &Printed, title: &str) -> Option<(Vec<Drawn>, Vec<f64>)> {
    let pdf = Document::load_mem(&printed.bytes).expect("the PDF can be read");
    let (page, text) = pdf.get_pages().into_iter().find_map(|(n, page)| {
        let text = pdf.extract_text(&[n]).expect("the text can be extracted");
        text.contains(title).then_some((page, text))
    })?;
    let said = text.lines().find(|line| line.contains(title)).expect("the title is a line");
    Some((drawn(&pdf, page), scales_of(said)))
}

/// The scales that a title says: paper by boot.
fn scales_of(said: &str) -> Vec<f64> {
    let words: Vec<&str> = said.split_whitespace().collect();
    // The next label may follow without a space.
    let leading = |word: &str| word.split(|c: char| !c.is_ascii_digit()).next().unwrap_or_default().parse::<f64>().ok();
    let ratio = |three: &[&str]| Some(three[0].parse::<f64>().ok()? / leading(three[2])?);
    words.windows(3).filter(|three| three[1] == ":").filter_map(ratio).collect()
}

fn nominal(printed: &Printed, key: &str) -> f64 {
    let figure = &printed.json["models"][0]["sizes"][0]["figures"][key];
    let value = figure["nominal"].as_f64().or_else(|| figure["value"].as_f64());
    value.unwrap_or_else(|| panic!("{key} is no number: {figure}"))
}

fn each(station: Station, check: impl Fn(&Printed, &str) -> bool) {
    let mut checked = 0;
    for size in SIZES {
        let stations = [station];
        let wanted = Wanted { stations: &stations, bytes: true, ..Wanted::default() };
        for printed in print_of(&Memory::demo(), &Only(size), &wanted) {
            checked += usize::from(check(&printed, &format!("{} {size}", printed.name)));
        }
    }
    assert!(checked >= 6, "only {checked} drawings were found");
}

#[test]
fn the_stack_s_profile_is_as_high_as_the_stack() {
    each(Station::SoleStitching, |printed, name| {
        let Some((drawn, scales)) = found(printed, "Stack along the way") else { return false };
        let [along, up] = scales[..] else { panic!("{name}: two scales, not {scales:?}") };
        let row = printed.json["models"][0]["sizes"][0]["figures"]["stack.row"]["value"].as_u64().expect("a row");
        let length = nominal(printed, &format!("sole.row-{row}.length"));
        let whole = |path: &&Drawn| (path.wide() / along - length).abs() < 0.1 / along;
        // The curve is drawn with the boldest pen of those that run over the whole way.
        let curve = drawn.iter().filter(whole).max_by(|a, b| a.pen.total_cmp(&b.pen)).expect("the curve");
        let (_, top) = curve.span(|point| point.1);
        let (least, _) = curve.span(|point| point.1);
        let flat = drawn.iter().filter(whole).filter(|path| path.points.len() == 2).map(|path| path.points[0].1);
        let table = flat.filter(|y| *y < least).fold(f64::MIN, f64::max);
        let height = (top - table) / up;
        let stack = nominal(printed, "stack.worst");
        assert!((height - stack).abs() < 0.1, "{name}: {height} drawn, {stack} computed");
        true
    });
}

#[test]
fn the_heel_is_as_high_at_the_back_as_its_gauge() {
    each(Station::Heeling, |printed, name| {
        let Some((drawn, scales)) = found(printed, "Heel from the side") else { return false };
        let [scale] = scales[..] else { panic!("{name}: one scale, not {scales:?}") };
        let upright = |path: &&Drawn| path.points.len() == 2 && path.wide() < 0.01 && path.pen < 0.2;
        let mut dimensions: Vec<&Drawn> = drawn.iter().filter(upright).collect();
        dimensions.sort_by(|a, b| a.points[0].0.total_cmp(&b.points[0].0));
        let gauges = ["gauge-before", "gauge-after", "gauge-after-breast", "gauge-before-breast"];
        assert_eq!(dimensions.len(), gauges.len(), "{name}");
        for (dimension, gauge) in dimensions.iter().zip(gauges) {
            let (bottom, top) = dimension.span(|point| point.1);
            let gauge = nominal(printed, &format!("heel.{gauge}"));
            assert!(((top - bottom) / scale - gauge).abs() < 0.1, "{name}: {} drawn, {gauge}", (top - bottom) / scale);
        }
        let (bottom, top) = dimensions[1].span(|point| point.1);
        // The gauge of the level base is that of the hatched layers: their outermost corners at the back lie at its ends.
        // They reach to the finished edge: behind the heel point lie lining (2.5 to 3 oz), outer (6 to 7 oz; the cairn's 7
        // to 8) and the heel's turnout of 4 mm.
        let outer = if name.starts_with("cairn") { 7.5 } else { 6.5 };
        let behind = (2.75 + outer) * 25.4 / 64.0 + 4.0;
        let length = (nominal(printed, "heel.length") + behind) * scale;
        // Other drawings on the page are as wide: the layers lie beside the dimension.
        let beside =
            |path: &&Drawn| path.span(|point| point.1).0 < top + 0.05 && path.span(|point| point.1).1 > bottom - 0.05;
        let wide = |path: &&Drawn| path.points.len() >= 4 && (path.wide() - length).abs() < 0.1;
        let layers: Vec<&Drawn> = drawn.iter().filter(beside).filter(wide).collect();
        assert!(layers.len() >= 4, "{name}: {} layers reach to the finished edge", layers.len());
        // From the seat's breast to its back the level base rises by the drop, and by as much again in proportion behind.
        let (drop, needed) = (nominal(printed, "heel.drop"), nominal(printed, "heel.needed"));
        let worked = needed + drop * behind / nominal(printed, "heel.length");
        let gauge = nominal(printed, "heel.gauge-after");
        assert!((gauge - worked).abs() < 0.006, "{name}: {gauge} at the edge, worked out {worked}");
        let back = layers.iter().map(|path| path.span(|point| point.0).0).fold(f64::MAX, f64::min);
        for end in [bottom, top] {
            let corner = |point: &(f64, f64)| (point.0 - back).abs() < 0.05 && (point.1 - end).abs() < 0.05;
            assert!(layers.iter().any(|path| path.points.iter().any(corner)), "{name}: no layer ends at {end}");
        }
        true
    });
}

/// The texts of a figure.
fn keys<'p>(printed: &'p Printed, starts: &str, ends: &str) -> Vec<&'p str> {
    let figures = printed.json["models"][0]["sizes"][0]["figures"].as_object().expect("figures");
    figures.keys().map(String::as_str).filter(|key| key.starts_with(starts) && key.ends_with(ends)).collect()
}

#[test]
fn each_lap_is_as_wide_as_it_is_and_as_thick_as_both_parts_under_each_row() {
    each(Station::Closing, |printed, name| {
        let mut laps = keys(printed, "lap.", ".wide");
        laps.retain(|key| !key.contains(".skive."));
        for key in &laps {
            let lap = key.trim_end_matches(".wide");
            let title = lap.replacen('.', " ", 1).replacen('.', " over ", 1);
            // The name stands in the tables as well, without a scale.
            let pdf = Document::load_mem(&printed.bytes).expect("the PDF can be read");
            let found = pdf.get_pages().into_iter().find_map(|(n, page)| {
                let text = pdf.extract_text(&[n]).expect("the text can be extracted");
                let said = text.lines().find(|line| line.contains(&title) && line.contains("scale"))?.to_owned();
                Some((drawn(&pdf, page), said))
            });
            let (drawn, said) = found.unwrap_or_else(|| panic!("{name}: no drawing of {lap}"));
            let [scale] = scales_of(&said)[..] else { panic!("{name}: one scale in {said}") };
            let wide = nominal(printed, key) * scale;
            let dimensions = drawn.iter().filter(|path| path.points.len() == 2 && path.pen < 0.2);
            let dimension = dimensions.filter(|path| (path.wide() - wide).abs() < 0.05).count();
            assert!(dimension > 0, "{name}: no line is as long as {lap} is wide");
            // Every row is a bold line through both parts, 1.2 mm longer at each end.
            for (n, row) in keys(printed, &format!("{lap}.row-"), ".stack").into_iter().enumerate() {
                let stack = nominal(printed, row) * scale + 2.4;
                let lines = drawn.iter().filter(|path| path.points.len() == 2 && path.pen > 0.65 && path.wide() < 0.01);
                let mut high = lines.map(|path| path.span(|point| point.1)).map(|(bottom, top)| top - bottom);
                assert!(high.any(|high| (high - stack).abs() < 0.05), "{name}: row {} of {lap}: {stack}", n + 1);
            }
        }
        !laps.is_empty()
    });
}

#[test]
fn each_skive_is_as_wide_and_leaves_as_much_as_is_asked() {
    each(Station::Skiving, |printed, name| {
        let Some((drawn, scales)) = found(printed, "Skives cut across") else { return false };
        let [scale] = scales[..] else { panic!("{name}: one scale, not {scales:?}") };
        let mut skives: Vec<(f64, f64)> = Vec::new();
        for key in keys(printed, "lap.", ".edge") {
            let wide = key.replace(".edge", ".wide");
            skives.push((nominal(printed, &wide), nominal(printed, key)));
        }
        for key in keys(printed, "lap.", ".flat") {
            let lap = key.split(".skive.").next().expect("a lap");
            skives.push((nominal(printed, &format!("{lap}.wide")), nominal(printed, key)));
        }
        // A skive is drawn with what lies behind it, 6 mm; the squares of the code are smaller. Its outline clips its hatch
        // and is drawn once more.
        let shown = |path: &&Drawn| path.points.len() >= 5 && path.wide() > 7.0 * scale;
        let mut rings: Vec<&Drawn> = drawn.iter().filter(shown).collect();
        rings.dedup_by(|a, b| a.points == b.points);
        assert_eq!(rings.len(), skives.len(), "{name}");
        for (wide, left) in skives {
            let fits = |ring: &&&Drawn| {
                let (edge, _) = ring.span(|point| point.0);
                let (floor, top) = ring.span(|point| point.1);
                let at = |x: f64, y: f64| {
                    ring.points.iter().any(|point| (point.0 - x).abs() < 0.05 && (point.1 - y).abs() < 0.05)
                };
                at(edge, floor + left * scale) && at(edge + wide * scale, top)
            };
            assert!(rings.iter().find(fits).is_some(), "{name}: no skive {wide} wide to {left}");
        }
        true
    });
}

#[test]
fn the_margins_are_drawn_from_the_feather_line_and_every_place_is_numbered() {
    each(Station::Lasting, |printed, name| {
        let Some((drawn, scales)) = found(printed, "Drafting order") else { return false };
        let [scale] = scales[..] else { panic!("{name}: one scale, not {scales:?}") };
        let outline = drawn
            .iter()
            .filter(|path| path.points.len() > 40)
            .max_by(|a, b| a.wide().total_cmp(&b.wide()))
            .expect("an outline");
        let bottom = nominal(printed, "last.bottom") * scale;
        assert!((outline.wide() - bottom).abs() < 0.1, "{name}: {} drawn, {bottom}", outline.wide());
        let (heel, toe) = outline.span(|point| point.0);
        let lines: Vec<&Drawn> = drawn.iter().filter(|path| path.points.len() == 2 && path.pen < 0.2).collect();
        let runs = |from: f64, to: f64| {
            lines.iter().any(|path| {
                let (left, right) = path.span(|point| point.0);
                (left - from).abs() < 0.1 && (right - to).abs() < 0.1
            })
        };
        let margin = |place: &str| nominal(printed, &format!("lasting.margin-{place}")) * scale;
        assert!(runs(toe, toe + margin("toe")), "{name}: the toe's margin");
        assert!(runs(heel - margin("heel"), heel), "{name}: the heel's margin");
        let joints = lines.iter().filter(|path| {
            let (bottom, top) = path.span(|point| point.1);
            path.wide() < 0.01 && (top - bottom - margin("joints")).abs() < 0.05
        });
        assert_eq!(joints.count(), 2, "{name}: the joints' margins");
        true
    });
}

/// The feather line is drawn by chords that stray 0.05 mm from it, and numbers are rounded in the PDF.
const CHORD: f64 = 0.07;

#[test]
fn the_nails_of_the_heel_stand_inside_the_feather_as_many_and_as_far_as_is_said() {
    each(Station::Heeling, |printed, name| {
        let pages = &printed.laid.document.pages;
        let titled = |op: &Op| matches!(op, Op::Text(text) if text.content.starts_with("Nails of base and cap"));
        let Some(page) = pages.iter().find(|page| page.ops.iter().any(titled)) else { return false };
        let long = |op: &&Op| matches!(op, Op::Polyline { points, pen } if points.len() > 20 && pen.width > 0.5);
        let Some(Op::Polyline { points: edge, .. }) = page.ops.iter().find(long) else { panic!("{name}: no outline") };
        // The first thin line inside it is the feather line.
        let thin = |op: &&Op| matches!(op, Op::Polyline { points, pen } if points.len() > 20 && pen.width < 0.3);
        let Some(Op::Polyline { points: feather, .. }) = page.ops.iter().find(thin) else {
            panic!("{name}: no feather")
        };
        let inside = nominal(printed, "heel-nails.inside-feather");
        let mut counted = 0;
        for op in &page.ops {
            let Op::Circle { centre, radius, .. } = op else { continue };
            if (radius - 1.3).abs() > 1e-9 {
                continue;
            }
            let off = feather.windows(2).map(|pair| {
                let (along, to) =
                    ((pair[1].x - pair[0].x, pair[1].y - pair[0].y), (centre.x - pair[0].x, centre.y - pair[0].y));
                let share = ((along.0 * to.0 + along.1 * to.1) / along.0.hypot(along.1).powi(2)).clamp(0.0, 1.0);
                (to.0 - along.0 * share).hypot(to.1 - along.1 * share)
            });
            let off = off.fold(f64::MAX, f64::min);
            // The key's own signs stand below the heel; the nails across stand deeper inside.
            if centre.y < edge.iter().map(|point| point.y).fold(0.0, f64::max) {
                counted += u32::from(off < inside + CHORD);
                assert!(off > inside - CHORD, "{name}: a nail {off} inside the feather, not {inside}");
            }
        }
        assert!((f64::from(counted) - nominal(printed, "heel-nails.count")).abs() < 1e-9, "{name}: {counted} nails");
        true
    });
}

#[test]
fn the_nail_with_least_to_spare_is_drawn_as_long_and_as_deep_as_it_is() {
    each(Station::Heeling, |printed, name| {
        let pages = &printed.laid.document.pages;
        let title = |op: &Op| match op {
            Op::Text(text) if text.content.starts_with("Nail with least to spare") => {
                Some((text.at.y, text.content.clone()))
            }
            _ => None,
        };
        let found = pages.iter().find_map(|page| page.ops.iter().find_map(title).map(|said| (page, said)));
        let Some((page, (under, said))) = found else { return false };
        let [scale] = scales_of(&said)[..] else { panic!("{name}: no scale in {said}") };
        // What is drawn after the title, in its order: the layers from the ground up, then the nail.
        let drawing = page.ops.iter().skip_while(|op| title(op).is_none());
        let mut rings = Vec::new();
        let (mut nail, mut texts) = (None, Vec::new());
        for op in drawing {
            match op {
                Op::Hatched { rings: ring, .. } => rings.push(ring[0].clone()),
                Op::Polygon { rings: ring, .. } if ring[0].len() == 5 => nail = nail.or(Some(ring[0].clone())),
                Op::Text(text) if text.at.y > under => texts.push(text.content.clone()),
                _ => {}
            }
        }
        let nail = nail.unwrap_or_else(|| panic!("{name}: no nail"));
        let floor = rings.iter().flatten().map(|point| point.y).fold(f64::MIN, f64::max);
        let said = texts.iter().find(|text| text.contains("from the heel")).expect("where it stands");
        let place = said.split(", ").find(|part| ["back", "sides", "breast"].contains(part)).expect("a place");
        let stage = said.strip_prefix("stage ").and_then(|rest| rest.split(',').next());
        let prefix = stage.map_or("base".to_owned(), |stage| format!("stage-{stage}"));
        let length = nominal(printed, &format!("heel-nails.{prefix}-{place}"));
        let (head, tip) = (nail[0], nail[2]);
        let middle = f64::midpoint(nail[0].x, nail[4].x);
        let drawn = (tip.x - middle).hypot(tip.y - head.y) / scale;
        assert!((drawn - length).abs() < 0.05, "{name}: a nail of {drawn} drawn, {length} driven");
        let sunk = (floor - head.y) / scale;
        let number = |text: &str| text.split_whitespace().find_map(|word| word.parse::<f64>().ok());
        let said_sunk = texts.iter().find_map(|text| number(text.strip_prefix("sunk ")?)).expect("how deep it is sunk");
        assert!((sunk - said_sunk).abs() < 0.06, "{name}: sunk {sunk} drawn, {said_sunk} said");
        // Midsole and insole lie in every heel: as thick as the figure of the boot says.
        for role in ["midsole", "insole"] {
            let start = format!("{role} ");
            let said = texts.iter().find_map(|text| number(text.strip_prefix(&start)?));
            let Some(said) = said else { continue };
            let tall = |ring: &Vec<hobnail::sheets::paper::Point>| (ring[3].y - ring[0].y) / scale;
            assert!(rings.iter().any(|ring| (tall(ring) - said).abs() < 0.06), "{name}: no layer {role} of {said}");
        }
        true
    });
}
