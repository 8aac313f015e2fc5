//! The slots and clauses of a statement: what stands in each, what is missing, what is too much.

use super::{Context, Reader, first_words, skip_to_word};
use crate::finding::{FaultName, Finding};
use crate::language::near::nearest;
use crate::language::statement::{Clause, Given, Hole, Slot, Statement};
use crate::language::token::Row;
use crate::language::tree::Leaf;
use crate::language::value::{Taken, missing};
use crate::language::vocabulary::{BlockDef, Carries, ClauseDef, SlotDef, SlotKind, StatementDef};
use crate::source::Span;

impl<'t> Reader<'t> {
    pub(super) fn slots(
        &mut self,
        row: &mut Row<'t>,
        defs: &'static [SlotDef],
        context: &Context<'_>,
        word: Span,
        hole: &mut Option<Hole>,
    ) -> Vec<Slot> {
        let mut slots = Vec::with_capacity(defs.len());
        for (n, def) in defs.iter().enumerate() {
            if let Some(hole) = *hole {
                slots.push(Slot { given: Given::Hole(hole), span: word });
                continue;
            }
            let next = defs.get(n + 1).map_or::<&[&str], _>(&[], first_words);
            let context = &Context { next, bounds: def.bounds, last: n + 1 == defs.len(), ..*context };
            let slot = match self.slot(row, def, context) {
                Taken::Value(value, span) => Slot { given: Given::Value(value), span },
                Taken::Nothing if def.optional => Slot { given: Given::Absent, span: word.after() },
                Taken::Nothing => {
                    if let Some(finding) = word_for_name(row, def, context) {
                        slots.push(self.hole(finding, hole));
                        continue;
                    }
                    let finding = self.nothing_there(row, def, context, word);
                    if matches!(def.kind, SlotKind::Text) {
                        // A text that lacks its quotes, not a statement that happens to start with that word.
                        row.next_if(Leaf::Word);
                    }
                    self.hole(finding, hole)
                }
                Taken::Fault(finding) => self.hole(*finding, hole),
            };
            slots.push(slot);
        }
        if hole.is_some() {
            skip_to_word(row, context);
        }
        slots
    }

    pub(super) fn hole(&mut self, finding: Finding, hole: &mut Option<Hole>) -> Slot {
        let span = finding.span().unwrap_or(Span { source: self.source, start: 0, end: 0 });
        let made = Hole { fault: finding.name, span };
        *hole = Some(made);
        self.findings.push(finding);
        Slot { given: Given::Hole(made), span }
    }

    /// Nothing fills a slot: what the fault is, given what stands there instead.
    pub(super) fn nothing_there(&self, row: &Row<'t>, def: &SlotDef, context: &Context<'_>, word: Span) -> Finding {
        let is_name = matches!(def.kind, SlotKind::Name(_) | SlotKind::Names(_) | SlotKind::New(_) | SlotKind::Free);
        if let Some(finding) = before_value(row, def, context) {
            return finding;
        }
        let finding = missing(def, context.word, word);
        match row.peek() {
            Some(token) if is_name && token.leaf == Leaf::Text => {
                finding.help(format!("a name has no quotes: `{}`", token.text.trim_matches('"')))
            }
            Some(token) if is_name && token.leaf == Leaf::Number => {
                finding.help("a name starts with a small letter, such as `bonded-138`")
            }
            Some(token)
                if matches!(def.kind, SlotKind::Text)
                    && matches!(token.text, "'" | "“" | "”" | "„" | "‘" | "’" | "«") =>
            {
                finding.help("a text stands between straight double quotes: `\"…\"`")
            }
            Some(token) if matches!(def.kind, SlotKind::Text) && token.leaf == Leaf::Word => {
                finding.help(format!("put it in quotes: `\"{}\"`", token.text))
            }
            None if is_name => match &row.comment {
                Some(comment) if comment.text[1..].trim_start().starts_with(|c: char| c.is_ascii_digit()) => {
                    finding.help("`#` starts a comment; write the name under which it is stocked, such as `bonded-138`")
                }
                _ => finding,
            },
            _ => finding,
        }
    }

    pub(super) fn clauses(&mut self, row: &mut Row<'t>, block: &'static BlockDef, statement: &mut Statement) {
        let def = statement.def;
        while let Some(token) = row.peek() {
            let word = row.word();
            let known = word.and_then(|word| def.clause(word));
            let near = || {
                let word = word.filter(|word| block.statement(word).is_none())?;
                nearest(word, def.clauses.iter().map(|clause| clause.word)).and_then(|near| def.clause(near))
            };
            let Some(clause) = known.or_else(near) else {
                if word.is_some_and(|word| block.statement(word).is_some()) {
                    return;
                }
                self.unexpected(row, block, Some(def), statement.hole.is_some());
                continue;
            };
            if known.is_none() {
                let message = format!("`{}` is no clause of `{}`", token.text, def.word);
                let finding = Finding::fault(FaultName::WORD_UNKNOWN, token.span, message);
                self.findings
                    .push(finding.says(format!("taken as `{}`", clause.word)).help(format!("write `{}`", clause.word)));
            }
            row.at += 1;
            if statement.clause(clause.word).is_some() {
                let message = format!("`{}` stands twice in one `{}`", clause.word, def.word);
                let finding = Finding::fault(FaultName::STATEMENT_TWICE, token.span, message);
                let first = statement.clause(clause.word).map_or(token.span, |first| first.word);
                self.findings.push(finding.also(first, "the first").help("delete one of them"));
            }
            let context =
                Context { word: clause.word, block, statement: def, single: true, next: &[], bounds: None, last: true };
            let mut hole = None;
            let slots = self.slots(row, clause.slots, &context, token.span, &mut hole);
            statement.hole = statement.hole.or(hole);
            statement.clauses.push(Clause { def: clause, word: token.span, slots });
        }
    }

    /// A token that nothing wants: reported (unless `quiet`) with the rest up to the next word that starts something.
    pub(super) fn unexpected(&mut self, row: &mut Row<'t>, block: &BlockDef, def: Option<&StatementDef>, quiet: bool) {
        let Some(first) = row.peek() else { return };
        row.at += 1;
        let mut span = first.span;
        while let Some(token) = row.peek() {
            let starts = token.leaf == Leaf::Word
                && (block.statement(token.text).is_some() || def.is_some_and(|def| def.clause(token.text).is_some()));
            if starts {
                break;
            }
            row.at += 1;
            span = span.to(token.span);
        }
        if quiet {
            return;
        }
        let shown = &self.text[span.range()];
        let (name, message) = if let Some(def) = def {
            (FaultName::SHAPE_UNEXPECTED, format!("`{shown}` is not wanted after `{}`", def.word))
        } else {
            (FaultName::SHAPE_UNEXPECTED, format!("a statement starts with a word, not with `{shown}`"))
        };
        self.findings.push(Finding::fault(name, span, message));
    }

    pub(super) fn missing_clauses(&mut self, statement: &mut Statement) {
        if statement.hole.is_some() {
            return;
        }
        let def = statement.def;
        let lacking: Vec<&ClauseDef> =
            def.clauses.iter().filter(|clause| clause.needed && statement.clause(clause.word).is_none()).collect();
        let Some(first) = lacking.first() else { return };
        let words: Vec<&str> = lacking.iter().map(|clause| clause.word).collect();
        let message = format!("`{}` needs `{}`", def.word, words.join("` and `"));
        let finding = Finding::fault(FaultName::VALUE_MISSING, statement.word, message)
            .help(format!("`{}` says {}; such as `{}`", first.word, first.says, def.example));
        let slot = self.hole(finding, &mut statement.hole);
        drop(slot);
    }
}

/// A word that starts a statement stands, with nothing behind it, where a name belongs: it was meant as the name.
fn word_for_name(row: &mut Row<'_>, def: &SlotDef, context: &Context<'_>) -> Option<Finding> {
    if !matches!(def.kind, SlotKind::Name(_) | SlotKind::Names(_) | SlotKind::Free) || row.peek_at(1).is_some() {
        return None;
    }
    let token = row.peek().filter(|token| token.leaf == Leaf::Word)?;
    let starts = context.block.statement(token.text)?;
    if starts.slots.iter().all(|slot| slot.optional) || matches!(starts.carries, Carries::Block(_)) {
        return None;
    }
    row.at += 1;
    let message = format!("`{}` is a word of the language here and can't be a name", token.text);
    Some(
        Finding::fault(FaultName::NAME_IS_WORD, token.span, message)
            .help("write the name that it has, or give it another"),
    )
}

/// Something stands between a word and its number: `wide = 16 mm`, `wide about 16 mm`, `wide .5 mm`.
fn before_value(row: &Row<'_>, def: &SlotDef, context: &Context<'_>) -> Option<Finding> {
    let wants = matches!(
        def.kind,
        SlotKind::Amount(..) | SlotKind::List(_) | SlotKind::Count | SlotKind::ValueOrPairs(..) | SlotKind::Sizes
    );
    let (first, second) = (row.peek()?, row.peek_at(1)?);
    if !wants || second.leaf != Leaf::Number || context.starts(first.text) {
        return None;
    }
    if first.text == "." && second.touches {
        let finding =
            Finding::fault(FaultName::VALUE_SHAPE, first.span.to(second.span), "a decimal starts with a digit");
        return Some(finding.help(format!("write `0.{}`", second.text)));
    }
    let message = format!("`{}` stands between `{}` and its value", first.text, context.word);
    Some(Finding::fault(FaultName::SHAPE_UNEXPECTED, first.span, message).help("delete it"))
}

/// The statement of `block` that starts with a choice of which `word` is one.
pub(super) fn chooses(block: &BlockDef, word: &str) -> Option<&'static str> {
    let first = |statement: &&StatementDef| match statement.slots.first().map(|slot| slot.kind) {
        Some(SlotKind::Choice(words)) => words.contains(&word),
        _ => false,
    };
    block.statements.iter().find(first).map(|statement| statement.word)
}
