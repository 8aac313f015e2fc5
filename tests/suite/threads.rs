//! Thread of the sole's rows and the forefoot's, by the stitch that the machine makes, against sums by hand.
//!
//! Class 301: `2 p + 2 t` a stitch; class 101: `3 p + 2 t`, all from the needle, no bobbin. Source: textile calculation
//! teaching texts (2 + 2 T S and 3 + 2 T S per inch). Tails of 250 mm on the sole's rows and 150 on others: common practice, no source.

use crate::common::memory::Memory;
use crate::common::trial::{count, figures, number, trial};
use hobnail::build::Figures;

/// Leather and midsole under all of the rows, mm: every stitch goes through as much.
const THICK: f64 = 3.0 + 5.0;

/// Rows through an outer of one piece and a midsole, on a machine that makes this stitch.
fn sewn(stitch: &str, differs: &str) -> Figures {
    let stock = "upper-leather cloth { substance 3 mm }\nsole-leather card { substances 5 mm }";
    let model = format!(
        "  upper {{ part whole {{ of cloth; pieces 1; area 7 dm2 }}; turned-out whole }}\n\
         \x20 bottom {{ layer midsole {{ of card 5 mm }}; sole sewn {{ through midsole; {differs} }} }}"
    );
    let memory = trial(stock, &model);
    let shop = memory.text("specs/shop.hob").replacen("makes lockstitch", &format!("makes {stitch}"), 1);
    figures(&with_shop(&memory, shop), "9 D")
}

fn with_shop(memory: &Memory, shop: String) -> Memory {
    memory.with("specs/shop.hob", shop)
}

fn close(what: &str, found: f64, by_hand: f64) {
    assert!((found - by_hand).abs() < 1e-9, "{what}: {found}, by hand {by_hand}");
}

/// Stitches of a row, those over its own start included, and their length.
fn row(found: &Figures, n: u32) -> (f64, f64) {
    let key = |what: &str| format!("sole.row-{n}.{what}");
    let over = found.get(&key("overlap")).map_or(0, |_| count(found, &key("overlap")));
    let stitches = f64::from(u32::try_from(count(found, &key("stitches")) + over).expect("a few"));
    (stitches, number(found, &key("pitch")))
}

#[test]
fn sole_rows_take_what_their_machine_s_stitch_takes() {
    for differs in ["", "all-round"] {
        let (lock, chain) = (sewn("lockstitch", differs), sewn("chainstitch", differs));
        let (mut of_lock, mut of_chain) = (0.0, 0.0);
        for n in [1, 2] {
            let key = |what: &str| format!("sole.row-{n}.{what}");
            let (stitches, p) = row(&lock, n);
            close("needle", number(&lock, &key("needle-thread")), stitches * (p + THICK) / 1000.0);
            close("bobbin", number(&lock, &key("bobbin-thread")), stitches * (p + THICK) / 1000.0);
            assert_eq!(row(&chain, n), (stitches, p), "the rows are the same");
            close("needle", number(&chain, &key("needle-thread")), stitches * (3.0 * p + 2.0 * THICK) / 1000.0);
            assert!(chain.get(&key("bobbin-thread")).is_none(), "a chainstitch has no bobbin");
            of_lock += stitches * (2.0 * p + 2.0 * THICK) / 1000.0;
            of_chain += stitches * (3.0 * p + 2.0 * THICK) / 1000.0;
        }
        // Two boots, two rows each, 250 mm of tails a row.
        close("a pair", number(&lock, "sole.thread-pair"), 2.0 * of_lock + 4.0 * 0.25);
        close("a pair", number(&chain, "sole.thread-pair"), 2.0 * of_chain + 4.0 * 0.25);
        close("all", number(&chain, "takes.thread.bonded-346.total"), 2.0 * of_chain + 4.0 * 0.25);
        close("bobbin", number(&chain, "takes.thread.bonded-346.bobbin"), 0.0);
        for key in ["sole.bobbin", "sole.rows-a-bobbin"] {
            assert!(lock.get(key).is_some() && chain.get(key).is_none(), "{key}");
        }
    }
}

#[test]
fn every_row_has_its_tails() {
    let found = figures(&trial("", ""), "9 D");
    // Insole 8 iron, lining 2.75 oz and midsole 12 iron; class 101, and 150 mm.
    let thick = 20.0 * 25.4 / 48.0 + 2.75 * 25.4 / 64.0;
    let (stitches, p) = (count(&found, "forefoot.stitches"), number(&found, "forefoot.true-pitch"));
    let stitches = f64::from(u32::try_from(stitches).expect("a few"));
    let by_hand = stitches * (3.0 * p + 2.0 * thick) / 1000.0 + 0.15;
    close("forefoot", number(&found, "forefoot.thread-used"), by_hand);
    close("a pair", number(&found, "takes.thread.bonded-277.total"), 2.0 * by_hand);
    close("its tails", number(&found, "takes.thread.bonded-277.tails"), 0.3);
    close("the sole's", number(&found, "takes.thread.bonded-346.tails"), 1.0);
}

#[test]
fn the_house_says_how_long_tails_are() {
    let memory = trial("", "");
    let shop =
        memory.text("specs/shop.hob").replacen("house {", "house {\n    sole-tails 100 mm\n    tails 40 mm\n", 1);
    let found = figures(&with_shop(&memory, shop), "9 D");
    close("the sole's", number(&found, "takes.thread.bonded-346.tails"), 0.4);
    close("the forefoot's", number(&found, "takes.thread.bonded-277.tails"), 0.08);
}
