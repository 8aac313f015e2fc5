//! The vocabulary tests itself.

use super::{BlockDef, Carries, Key, Need, SlotDef, SlotKind, StatementDef, blocks};
use crate::language::read_as;
use crate::source::SourceId;

fn each(check: impl Fn(&'static BlockDef, &'static StatementDef)) {
    for block in blocks() {
        for statement in block.statements {
            check(block, statement);
        }
    }
}

#[test]
fn every_word_has_a_page_and_two_examples() {
    each(|block, statement| {
        let name = format!("{} / {}", block.name, statement.word);
        assert!(!statement.says.is_empty(), "{name} says nothing");
        assert!(!statement.example.is_empty() && !statement.fails.is_empty(), "{name} lacks an example");
    });
}

#[test]
fn every_example_passes_and_every_counterexample_is_one_fault() {
    let wrong = std::cell::RefCell::new(Vec::new());
    each(|block, statement| {
        let name = format!("{} / {}", block.name, statement.word);
        let good = read_as(statement.example, SourceId(0), block);
        if !good.findings.is_empty() || good.body.statements.len() != 1 {
            wrong.borrow_mut().push(format!("{name}: `{}` gives {:?}", statement.example, good.findings));
        }
        let bad = read_as(statement.fails, SourceId(0), block);
        if bad.findings.len() != 1 {
            wrong.borrow_mut().push(format!("{name}: `{}` gives {:?}", statement.fails, bad.findings));
        }
    });
    assert!(wrong.borrow().is_empty(), "{}", wrong.borrow().join("\n"));
}

#[test]
fn no_word_is_both_statement_and_clause_in_one_block() {
    each(|block, statement| {
        for clause in statement.clauses {
            assert!(block.statement(clause.word).is_none(), "{}: `{}`", block.name, clause.word);
        }
    });
}

#[test]
fn words_of_a_block_differ_and_keys_by_name_start_with_one() {
    for block in blocks() {
        let mut words: Vec<&str> = block.statements.iter().map(|statement| statement.word).collect();
        words.sort_unstable();
        let all = words.len();
        words.dedup();
        assert_eq!(words.len(), all, "{}", block.name);
    }
    each(|block, statement| {
        if statement.key == Key::First {
            let first = statement.slots.first().map(|slot| slot.kind);
            assert!(first.is_some(), "{} / {}", block.name, statement.word);
        }
    });
}

#[test]
fn every_default_reads_as_its_statement() {
    each(|block, statement| {
        if let Need::Default(text) = statement.need {
            let reading = read_as(&format!("{} {text}", statement.word), SourceId(0), block);
            assert_eq!(reading.findings, [], "{} / {}", block.name, statement.word);
        }
    });
}

#[test]
fn a_choice_offers_no_word_twice() {
    each(|block, statement| {
        for slot in statement.slots.iter().chain(statement.clauses.iter().flat_map(|clause| clause.slots)) {
            if let SlotKind::Choice(words) | SlotKind::Choices(words) = slot.kind {
                let mut sorted = words.to_vec();
                sorted.sort_unstable();
                sorted.dedup();
                assert_eq!(sorted.len(), words.len(), "{} / {}", block.name, statement.word);
            }
        }
        if let Carries::Block(inner) = statement.carries {
            assert!(!inner.statements.is_empty(), "{}", inner.name);
        }
    });
}

/// Every slot of a statement and of its clauses.
fn slots(statement: &'static StatementDef) -> impl Iterator<Item = &'static SlotDef> {
    statement.slots.iter().chain(statement.clauses.iter().flat_map(|clause| clause.slots))
}

#[test]
fn a_mark_is_in_a_unit_that_its_value_takes_and_stands_there_once() {
    each(|block, statement| {
        let name = format!("{} / {}", block.name, statement.word);
        for slot in slots(statement) {
            for (n, (unit, (above, below))) in slot.marks.iter().enumerate() {
                assert!(*above > 0 && *below > 0, "{name}");
                assert!(slot.marks[n + 1..].iter().all(|(other, _)| other != unit), "{name} is set twice in {unit:?}");
                let taken = match (slot.kind, unit) {
                    (SlotKind::Count, unit) => unit.is_none(),
                    (SlotKind::Amount(kind, _) | SlotKind::ValueOrPairs(_, kind), Some(unit)) => kind.takes(*unit),
                    _ => false,
                };
                assert!(taken, "{name} takes no {unit:?}");
            }
        }
    });
}

#[test]
fn what_is_never_moved_first_can_be_moved() {
    each(|block, statement| {
        let stuck = slots(statement).any(|slot| slot.never_first.is_some() && slot.marks.is_empty());
        assert!(!stuck, "{} / {}", block.name, statement.word);
    });
}
