//! Boots drawn at random from what varies, against the shares that the tool prints.
//!
//! Each source of variation is drawn once a boot, as a normal with sigma of a third of its half spread, cut nowhere; a
//! boot's stack is summed plainly at the printed place. A smaller number of boots is written as texts of exact
//! thickness and built.

use crate::common::chance::Chance;
use crate::common::memory;
use crate::common::memory::{Memory, Only};
use crate::common::trial::{check, figures, number, spread, trial};
use hobnail::build::Figures;
use hobnail::finding::{Finding, Severity};
use rayon::prelude::*;

const OZ: f64 = 25.4 / 64.0;
const BOOTS: u32 = 100_000;
const SEWS: f64 = 19.0;

/// Something that varies: nominal, half spread, how often it counts in the sum.
type Source = (f64, f64, f64);

/// 6..7 oz.
const OUTER: (f64, f64) = (6.5 * OZ, 0.5 * OZ);
const BASE: Source = (4.5, 0.3, 1.0);
const LUG: Source = (3.0, 0.2, 1.0);

#[expect(clippy::cast_precision_loss, reason = "31 bits fit")]
fn normal(chance: &mut Chance) -> f64 {
    const MANY: usize = 1 << 30;
    let mut even = || (chance.below(MANY) as f64 + 0.5) / MANY as f64;
    (-2.0 * even().ln()).sqrt() * (std::f64::consts::TAU * even()).cos()
}

fn drawn(chance: &mut Chance, sources: &[Source]) -> Vec<f64> {
    sources.iter().map(|(nominal, half, _)| nominal + half / 3.0 * normal(chance)).collect()
}

fn summed(sources: &[Source], values: &[f64]) -> f64 {
    sources.iter().zip(values).map(|((.., counts), value)| counts * value).sum()
}

/// The share of boots over the limit, and of pairs of which one is.
fn simulated(seed: u64, sources: &[Source], limit: f64) -> (f64, f64) {
    let mut chance = Chance::new(seed);
    let (mut boots, mut pairs) = (0_u32, 0_u32);
    for _ in 0..BOOTS / 2 {
        let over = [0, 1].map(|_| {
            let values = drawn(&mut chance, sources);
            summed(sources, &values) > limit
        });
        boots += over.iter().map(|over| u32::from(*over)).sum::<u32>();
        pairs += u32::from(over[0] || over[1]);
    }
    (f64::from(boots) / f64::from(BOOTS), f64::from(pairs) / f64::from(BOOTS / 2))
}

fn tight(boot: &Memory, rule: &str) -> Finding {
    let (loaded, checked) = check(boot, &Only("9 D"));
    let found = checked.findings.iter().find(|it| it.name == rule && it.severity == Severity::Tight);
    found.cloned().unwrap_or_else(|| panic!("{rule} is not tight:\n{}", memory::lines(&loaded, &checked.findings)))
}

/// `estimate: 8.1 % of boots and 15.5 % of pairs fail`, as shares.
fn printed(finding: &Finding) -> (f64, f64) {
    let note = finding.notes.iter().find_map(|note| note.strip_prefix("estimate: ")).expect("it has an estimate");
    let share =
        |text: &str| text.split(" %").next().and_then(|text| text.parse::<f64>().ok()).expect("a share") / 100.0;
    let (boots, pairs) = note.split_once(" of boots and ").expect("boots and pairs");
    (share(boots), share(pairs))
}

/// The printed shares are those of 100,000 boots, within four standard errors and the rounding of the print.
fn holds(boot: &Memory, rule: &str, seed: u64, sources: &[Source], limit: f64) {
    const ROUNDED: f64 = 0.000_51;
    let (boots, pairs) = printed(&tight(boot, rule));
    assert!((pairs - (1.0 - (1.0 - boots) * (1.0 - boots))).abs() < 2.5 * ROUNDED, "{boots} and {pairs}");
    let (drawn_boots, drawn_pairs) = simulated(seed, sources, limit);
    let error = |p: f64, n: u32| (p * (1.0 - p) / f64::from(n)).sqrt();
    for (what, printed, drawn, n) in [("boots", boots, drawn_boots, BOOTS), ("pairs", pairs, drawn_pairs, BOOTS / 2)] {
        let most = 4.0 * error(printed, n) + ROUNDED;
        assert!((printed - drawn).abs() <= most, "{rule}: {printed} of {what} printed, {drawn} drawn, within {most}");
    }
    assert!(boots > 0.005 && boots < 0.5, "{boots}: a share worth drawing");
}

/// The scree with a midsole of that thickness.
fn midsole(nominal: f64, tolerance: f64, upper: &str) -> Memory {
    let stock = format!("sole-leather card {{ substances {nominal} mm; tolerance {tolerance} mm }}");
    trial(&stock, &format!("{upper}  bottom {{ layer midsole {{ of card {nominal} mm }} }}"))
}

#[test]
fn a_tight_stack_under_a_flat_lap() {
    // 2.580 + 1.0 + 7.7 + 7.5 = 18.78
    let sources = [(OUTER.0, OUTER.1, 1.0), (1.0, 0.25, 1.0), (7.7, 0.265, 1.0), BASE, LUG];
    holds(&midsole(7.7, 0.265, ""), "jaw/sole-stack", 1, &sources, SEWS);
}

/// A taper of 24 mm in a lap of 16: where the vamp is whole, the quarter is half way up.
const SLOPE: &str =
    "  upper { lap vamp over quarter { skive quarter { edge wide 24 mm to 1.0 mm +- 0.3 mm; without in-turnout } } }\n";

#[test]
fn a_tight_stack_on_a_slope() {
    // 2.580 + (1.0 + 2.580) / 2 + 6.9 + 7.5
    let sources = [(OUTER.0, OUTER.1, 1.0), (1.0, 0.3, 0.5), (OUTER.0, OUTER.1, 0.5), (6.9, 0.265, 1.0), BASE, LUG];
    let boot = midsole(6.9, 0.265, SLOPE);
    let nominal: f64 = sources.iter().map(|(nominal, _, counts)| nominal * counts).sum();
    let found = spread(&figures(&boot, "9 D"), "stack.jaw").nominal;
    assert!((found - nominal).abs() < 1e-6, "{found} where the simulation has {nominal}");
    holds(&boot, "jaw/sole-stack", 2, &sources, SEWS);
}

/// Both parts from one hide: what varies is drawn once.
fn one_hide(boot: &Memory) -> Memory {
    let stock = boot.text("specs/stock.hob").replacen("substance 6..7 oz", "substance 6..7 oz\n  one-hide", 1);
    boot.with("specs/stock.hob", stock)
}

#[test]
fn a_tight_stack_of_one_hide() {
    let sources = [(OUTER.0, OUTER.1, 1.5), (1.0, 0.3, 0.5), (6.9, 0.265, 1.0), BASE, LUG];
    holds(&one_hide(&midsole(6.9, 0.265, SLOPE)), "jaw/sole-stack", 3, &sources, SEWS);
}

#[test]
fn a_tight_heel() {
    // Given 19.05, needed 20 + 7.5 - 2.580 - 6.12.
    let cap = "cap other { thickness 6.12 mm +- 0.3 mm; blanks us-men 5..14 }";
    let boot = trial(cap, "  heel { cap other; without nailed }");
    // What the base is short by.
    let sources = [
        (20.0, 0.0, 1.0),
        BASE,
        LUG,
        (OUTER.0, OUTER.1, -1.0),
        (6.12, 0.3, -1.0),
        (3.0 * 6.35, 0.0, -1.0),
        (0.0, 0.5, -1.0),
    ];
    holds(&boot, "heel/height", 4, &sources, 0.0);
}

/// A part sewn to its like: one piece if a foot has one of it or all is cut from one hide, else two.
#[test]
fn a_tight_seam_of_a_part_and_its_like() {
    let (slab, sews) = ((3.9, 0.2), 8.0);
    let (together, apart) = ([(slab.0, slab.1, 2.0)], [(slab.0, slab.1, 1.0); 2]);
    let cases: [(u32, &str, &[Source]); 4] =
        [(1, "", &together), (2, "", &apart), (2, "one-hide", &together), (1, "one-hide", &together)];
    for (seed, (pieces, hide, sources)) in (50..).zip(cases) {
        let stock = format!("upper-leather slab {{ substance {} mm +- {} mm; {hide} }}", slab.0, slab.1);
        let seam = "joins strap; allowance 3 mm; rows 1; pitch 8 spi; thread bonded-138; needle 130 Nm; on post-bed";
        let upper = format!("part strap {{ of slab; pieces {pieces}; area 1 dm2 }}; seam end {{ {seam} }}");
        holds(&trial(&stock, &format!("  upper {{ {upper} }}")), "upper/sews", seed, sources, sews);
    }
}

/// A boot of those thicknesses exactly: vamp, quarter's flat, midsole, base, lug.
fn exact(values: &[f64]) -> Figures {
    let [vamp, flat, midsole, base, lug] = values else { panic!("five thicknesses") };
    let stock = format!(
        "upper-leather hide {{ substance {vamp:.6} mm }}
         upper-leather other {{ substance {} mm }}
         sole-leather card {{ substances {midsole:.6} mm }}
         outsole tread {{ base {base:.6} mm; lug {lug:.6} mm; blanks us-men 5..14 }}",
        OUTER.0
    );
    let differs = format!(
        "  upper {{
            part quarter {{ of other; pieces 2; area 3.5 dm2 }}
            part vamp {{ of hide; pieces 1; area 4.4 dm2 }}
            lap vamp over quarter {{ skive quarter {{ in-turnout flat to {flat:.6} mm }} }}
          }}
          bottom {{ layer midsole {{ of card {midsole:.6} mm }}; layer outsole {{ of tread }} }}"
    );
    figures(&trial(&stock, &differs), "9 D")
}

#[test]
fn boots_drawn_and_built() {
    let sources = [(OUTER.0, OUTER.1, 1.0), (1.0, 0.25, 1.0), (7.7, 0.265, 1.0), BASE, LUG];
    (0..100_u64).into_par_iter().for_each(|boot| {
        let values = drawn(&mut Chance::new(100 + boot), &sources);
        let (built, sum) = (spread(&exact(&values), "stack.jaw"), summed(&sources, &values));
        assert!((built.nominal - sum).abs() < 1e-5, "boot {boot}: {} built, {sum} summed of {values:?}", built.nominal);
        assert!(built.hi - built.lo < 1e-9, "nothing of an exact boot varies: {built:?}");
    });
}

/// What passes does so with every source at any end of its spread.
#[test]
fn a_passing_boot_passes_at_all_corners() {
    let sources = [(OUTER.0, OUTER.1, 1.0), (1.0, 0.25, 1.0), (6.35, 25.4 / 96.0, 1.0), BASE, LUG];
    let demo = spread(&figures(&trial("", ""), "9 D"), "stack.jaw");
    assert!(demo.hi <= SEWS);
    let corners: Vec<f64> = (0..32_u32)
        .into_par_iter()
        .map(|corner| {
            let end =
                |(n, (nominal, half, _)): (usize, &Source)| nominal + if corner >> n & 1 == 1 { *half } else { -half };
            let values: Vec<f64> = sources.iter().enumerate().map(end).collect();
            number(&exact(&values), "stack.off-the-lap").max(spread(&exact(&values), "stack.jaw").hi)
        })
        .collect();
    let most = corners.iter().copied().fold(0.0, f64::max);
    let least = corners.iter().copied().fold(f64::MAX, f64::min);
    assert!(
        most <= SEWS && (most - demo.hi).abs() < 1e-5 && (least - demo.lo).abs() < 1e-5,
        "{least} to {most}, {demo:?}"
    );
}

/// 6..7 oz lying double: 0.132 as one piece, 0.094 as two.
#[test]
fn an_outer_that_lies_double() {
    let bare = "  upper { lap vamp over quarter { without skive quarter; without skive vamp } }\n";
    let boot = midsole(6.0, 0.0, bare);
    for (boot, sigma) in [(one_hide(&boot), 0.132), (boot, 0.094)] {
        let found = figures(&boot, "9 D");
        let mut outer = found.get("stack.worst").and_then(|figure| figure.sum.clone()).expect("it is a sum");
        outer.terms.retain(|term| term.what.names().any(|name| name == "oil-tan"));
        assert_eq!(outer.terms.len(), 2, "{outer:?}");
        assert!((outer.sigma() - sigma).abs() < 0.0005, "{} where {sigma} is right", outer.sigma());
    }
}

/// What lies under ball and seat is one piece: its tolerance moves no heel.
#[test]
fn a_shared_midsole_leaves_the_heel_alone() {
    let block = |tolerance: f64| {
        let figures = figures(&midsole(6.35, tolerance, ""), "9 D");
        let sum = figures.get("heel.block").and_then(|figure| figure.sum.clone()).expect("it is a sum");
        (spread(&figures, "heel.block"), sum.sigma())
    };
    let ((exact, exact_sigma), (loose, loose_sigma)) = (block(0.0), block(1.0));
    assert_eq!(exact, loose);
    assert!((exact_sigma - loose_sigma).abs() < 1e-12);
    let own = ((0.3_f64 / 3.0).powi(2) + (0.2_f64 / 3.0).powi(2) + (OUTER.1 / 3.0).powi(2)).sqrt();
    assert!((exact_sigma - own).abs() < 1e-9, "{exact_sigma} where outsole and quarter make {own}");
}
