//! What holds for any text: nothing is lost, nothing panics, and no figure is not a number.

use crate::common::memory::{Memory, Only, not_finite};
use hobnail::check::check;
use hobnail::language::read;
use hobnail::language::tree::parse;
use hobnail::language::vocabulary::{SlotKind, blocks};
use hobnail::measure::Unit;
use hobnail::source::{Source, SourceId};
use proptest::prelude::*;
use proptest::sample::select;

const SCREE: &str = "specs/models/scree-8.hob";

fn joined(text: &str) -> String {
    let mut leaves = Vec::new();
    parse(text).tree.leaves(&mut leaves);
    let mut at = 0;
    let piece = |(_, range): &(_, std::ops::Range<u32>)| {
        assert_eq!(range.start, at, "leaves follow each other");
        at = range.end;
        &text[range.start as usize..range.end as usize]
    };
    leaves.iter().map(piece).collect()
}

fn reads(text: &str) {
    let source = Source::decode("a.hob".into(), "a.hob".into(), text.as_bytes());
    let reading = read(&source, SourceId(0));
    for finding in &reading.findings {
        for label in &finding.labels {
            assert!(text.get(label.span.range()).is_some(), "{finding:?} stands on no characters");
        }
        assert!(!finding.message.is_empty());
    }
}

/// Words, units, marks and white space of the language.
fn tokens() -> Vec<String> {
    let mut tokens: Vec<String> = Vec::new();
    for block in blocks() {
        for statement in block.statements {
            tokens.push(statement.word.to_owned());
            tokens.extend(statement.clauses.iter().map(|clause| clause.word.to_owned()));
            for slot in statement.slots {
                if let SlotKind::Choice(words) = slot.kind {
                    tokens.extend(words.iter().take(3).map(|word| (*word).to_owned()));
                }
            }
        }
    }
    tokens.sort();
    tokens.dedup();
    tokens.extend(Unit::ALL.iter().map(|unit| unit.name().to_owned()));
    let marks =
        ["{", "}", "{", "}", ";", "\n", "\n", ",", "..", "+-", "±", "\"", "#", "\"text\"", "\u{feff}", "\0", "\r\n"];
    let numbers =
        ["0", "1", "9.5", "1/2", "1/0", "4 1/2", "½", "10½", "999999999", "0.000000001", "99999999999999999999"];
    let names =
        ["vamp", "teller", "bonded-138", "without", "like", "D", "2E", "us-men", "to", "by", "Xy", "-", "…", "/"];
    for list in [&marks[..], &numbers[..], &names[..]] {
        for _ in 0..6 {
            tokens.extend(list.iter().map(|token| (*token).to_owned()));
        }
    }
    tokens
}

fn soup() -> impl Strategy<Value = String> {
    let glue = select(vec!["", " ", " ", " ", "\n"]);
    prop::collection::vec((select(tokens()), glue), 0..80)
        .prop_map(|pairs| pairs.into_iter().map(|(token, glue)| token + glue).collect())
}

fn checks(memory: &Memory) {
    let loaded = memory.load(&[SCREE]);
    assert_eq!(not_finite(&check(&loaded, &Only("9 D"))), None);
}

/// A demo file with some bytes gone or put in; the places are shares of the file.
fn worn(text: &str, wear: &[(f64, usize, String)]) -> Vec<u8> {
    let mut bytes = text.as_bytes().to_vec();
    for (place, gone, put) in wear {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            clippy::cast_precision_loss,
            reason = "a place"
        )]
        let at = (place * bytes.len() as f64) as usize;
        let at = at.min(bytes.len());
        let end = (at + gone).min(bytes.len());
        bytes.splice(at..end, put.bytes());
    }
    bytes
}

fn wear() -> impl Strategy<Value = Vec<(f64, usize, String)>> {
    let put = prop_oneof![
        3 => Just(String::new()),
        2 => select(tokens()),
        1 => any::<char>().prop_map(|c| c.to_string()),
        1 => "[0-9]{1,9}",
    ];
    prop::collection::vec((0.0..1.0_f64, prop_oneof![Just(0_usize), 1..4_usize, 1..60_usize], put), 1..6)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_has_a_tree_that_keeps_it(text in any::<String>()) {
        prop_assert_eq!(joined(&text), text);
    }

    #[test]
    fn any_soup_has_a_tree_that_keeps_it(text in soup()) {
        prop_assert_eq!(joined(&text), text);
    }

    #[test]
    fn any_text_is_read(text in any::<String>()) {
        reads(&text);
    }

    #[test]
    fn any_soup_is_read(text in soup()) {
        reads(&text);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_soup_is_checked(text in soup()) {
        let memory = Memory::new().with(SCREE, text);
        checks(&memory);
    }

    #[test]
    fn worn_files_are_checked(
        file in select(vec![SCREE, "specs/stock.hob", "specs/shop.hob", "specs/lasts/teller.hob"]),
        wear in wear(),
    ) {
        let demo = Memory::demo();
        checks(&demo.with(file, worn(demo.text(file), &wear)));
    }
}
