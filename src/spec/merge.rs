//! Variants: what a model has after everything that it is `like` was laid under it.

use crate::finding::{FaultName, Finding};
use crate::language::vocabulary::BlockDef;
use crate::language::{Body, Given, Hole, Statement, StatementKey, Value};
use crate::source::{Provenance, Span};

/// A statement in force, with how it came there and its block merged.
#[derive(Clone, Debug)]
pub struct InForce {
    /// The statement; its own `block` is not to be used.
    pub statement: Statement,
    /// How it came into force.
    pub provenance: Provenance,
    /// Its block in force.
    pub block: Option<Merged>,
}

/// A block in force.
#[derive(Clone, Debug)]
pub struct Merged {
    /// Its kind.
    pub def: &'static BlockDef,
    /// Where a statement that is missing would go: the `{` of the block (of the parent, if only it wrote one).
    pub open: Span,
    /// What stands in it.
    pub statements: Vec<InForce>,
    /// A fault that may have taken any statement of it.
    pub unread: Option<Hole>,
}

impl Merged {
    /// A block as written, with nothing under it.
    pub(super) fn written(body: &Body, findings: &mut Vec<Finding>) -> Merged {
        for removal in &body.removals {
            findings.push(nothing_to_remove(&removal.key, removal.span));
        }
        let statements = body.statements.iter().map(|statement| InForce {
            statement: shallow(statement),
            provenance: Provenance::Written,
            block: statement.block.as_ref().map(|body| Merged::written(body, findings)),
        });
        Merged { def: body.def, open: body.open, statements: statements.collect(), unread: body.unread }
    }

    /// This block as a variant inherits it through the `like` at `like`.
    pub(super) fn inherited(mut self, like: Span) -> Merged {
        for statement in &mut self.statements {
            statement.provenance = Provenance::Inherited(like);
            statement.block = statement.block.take().map(|block| block.inherited(like));
        }
        self
    }

    /// This block with `body` laid over it.
    pub(super) fn overlaid(mut self, body: &Body, findings: &mut Vec<Finding>) -> Merged {
        self.open = body.open;
        self.unread = body.unread.or(self.unread);
        for removal in &body.removals {
            let before = self.statements.len();
            self.statements.retain(|known| !removes(&removal.key, &known.statement.key()));
            if self.statements.len() == before {
                findings.push(nothing_to_remove(&removal.key, removal.span));
            }
        }
        for statement in &body.statements {
            self.lay(statement, findings);
        }
        self
    }

    fn lay(&mut self, statement: &Statement, findings: &mut Vec<Finding>) {
        let key = statement.key();
        let at = self.statements.iter().position(|known| known.statement.key() == key);
        let under = at.map(|at| self.statements.remove(at));
        let block = match (&statement.block, under) {
            (Some(body), Some(InForce { statement: known, block: Some(block), .. }))
                if same_kind(statement, &known) =>
            {
                Some(block.overlaid(body, findings))
            }
            (Some(body), _) => Some(Merged::written(body, findings)),
            (None, _) => None,
        };
        let laid = InForce { statement: shallow(statement), provenance: Provenance::Written, block };
        match at {
            Some(at) => self.statements.insert(at, laid),
            None => self.statements.push(laid),
        }
    }

    /// The first statement of that word.
    #[must_use]
    pub fn find(&self, word: &str) -> Option<&InForce> {
        self.statements.iter().find(|known| known.statement.def.word == word)
    }
}

/// A statement without its block: the merged one counts.
fn shallow(statement: &Statement) -> Statement {
    Statement {
        def: statement.def,
        word: statement.word,
        span: statement.span,
        slots: statement.slots.clone(),
        clauses: statement.clauses.clone(),
        hole: statement.hole,
        block: None,
    }
}

/// A changed fixed word (`forefoot nailed` for `forefoot sewn`) replaces the block.
fn same_kind(over: &Statement, under: &Statement) -> bool {
    let word = |statement: &Statement| {
        statement.slots.iter().find_map(|slot| match &slot.given {
            Given::Value(Value::Word(word)) => Some(*word),
            _ => None,
        })
    };
    word(over) == word(under)
}

fn removes(removal: &StatementKey, known: &StatementKey) -> bool {
    removal.word == known.word && (removal.first.is_none() && known.first.is_none() || removal.first == known.first)
}

fn nothing_to_remove(key: &StatementKey, span: Span) -> Finding {
    Finding::fault(FaultName::WITHOUT_NOTHING, span, format!("there is no `{key}` to remove"))
        .help("`without` removes what was inherited through `like`; delete the line, or name what is there")
}
