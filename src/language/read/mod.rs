//! Tree to typed statements, by the vocabulary: finds every fault of a text in one pass, and gets past it.

mod slots;

use super::near::{all_nearest, nearest};
use super::statement::{Body, Given, Hole, Removal, Slot, Statement, StatementKey, Value};
use super::token::{Row, block_parts, odd, rows, strays, unclosed};
use super::tree::{Leaf, MAX_DEPTH, Node, parse};
use super::vocabulary::{BlockDef, Bounds, Carries, FILE, SlotDef, SlotKind, StatementDef, WITHOUT};
use crate::finding::{FaultName, Finding};
use crate::source::{Damage, Source, SourceId, Span};
use slots::chooses;

/// A text as the vocabulary understands it.
#[derive(Clone, Debug)]
pub struct Reading {
    /// What it says.
    pub body: Body,
    /// What is wrong with it.
    pub findings: Vec<Finding>,
}

/// Reads a text. Never fails: what cannot be understood is a finding and a hole.
#[must_use]
pub fn read(source: &Source, id: SourceId) -> Reading {
    let parsed = parse(&source.text);
    let mut reader = Reader::new(&source.text, id);
    let whole = Span { source: id, start: 0, end: parsed.tree.range.end };
    reader.damage(source.damage, whole);
    if let Some(at) = parsed.too_deep {
        let span = Span { source: id, start: at, end: at + 1 };
        let message = format!("blocks are nested more than {MAX_DEPTH} deep");
        reader.findings.push(Finding::fault(FaultName::LIMIT_DEPTH, span, message));
    }
    reader.odd_characters(&parsed.tree);
    reader.unclosed = unclosed(&parsed.tree);
    reader.hoists = reader.unclosed > 0;
    for span in strays(&parsed.tree, id) {
        reader.findings.push(
            Finding::fault(FaultName::SHAPE_STRAY_CLOSE, span, "this `}` closes nothing")
                .help("delete it, or open its block with `{`"),
        );
    }
    let rows = rows(&parsed.tree, id, &source.text);
    let (body, _) = reader.body(rows, &FILE, whole, whole.after(), &[]);
    reader.report_unclosed(&parsed.tree);
    Reading { body, findings: reader.findings }
}

/// Reads `text` as the inside of a block of kind `def` (examples of the vocabulary, default values).
#[must_use]
pub fn read_as(text: &str, id: SourceId, def: &'static BlockDef) -> Reading {
    let parsed = parse(text);
    let mut reader = Reader::new(text, id);
    let whole = Span { source: id, start: 0, end: parsed.tree.range.end };
    let rows = rows(&parsed.tree, id, text);
    let (body, _) = reader.body(rows, def, whole, whole.after(), &[]);
    Reading { body, findings: reader.findings }
}

/// What a slot is read in: the word that wants it and what could start next to it.
#[derive(Clone, Copy)]
pub(super) struct Context<'c> {
    pub word: &'c str,
    pub block: &'c BlockDef,
    pub statement: &'c StatementDef,
    /// The slot takes one value, no list.
    pub single: bool,
    /// Words that the slot after this one may start with.
    pub next: &'static [&'static str],
    /// What a value is held to.
    pub bounds: Option<Bounds>,
    /// No slot follows this one.
    pub last: bool,
}

impl Context<'_> {
    /// Whether a word starts a statement of the block or a clause of the statement.
    pub fn starts(&self, word: &str) -> bool {
        self.statement.clause(word).is_some() || self.block.statement(word).is_some()
    }
}

pub(super) struct Reader<'t> {
    text: &'t str,
    source: SourceId,
    pub findings: Vec<Finding>,
    /// Blocks that were never closed and not yet reported.
    unclosed: usize,
    /// Some block was left open, so rows may stand deeper than they belong.
    hoists: bool,
    /// Words of the block being read that stand in it somewhere.
    present: Vec<&'static str>,
}

impl<'t> Reader<'t> {
    fn new(text: &'t str, source: SourceId) -> Self {
        Self { text, source, findings: Vec::new(), unclosed: 0, hoists: false, present: Vec::new() }
    }

    fn damage(&mut self, damage: Option<Damage>, whole: Span) {
        let (span, message) = match damage {
            None => return,
            Some(Damage::NotUtf8(at)) => {
                let text = &self.text[at as usize..];
                let end = at + text.chars().next().map_or(0, |c| u32::try_from(c.len_utf8()).unwrap_or(1));
                (Span { start: at, end, ..whole }, "the file is not in UTF-8 from here on")
            }
            Some(Damage::Utf16) => (whole, "the file looks like UTF-16; nothing of it was read"),
        };
        self.findings.push(Finding::fault(FaultName::FILE_NOT_UTF8, span, message).help("save it as UTF-8"));
    }

    fn odd_characters(&mut self, tree: &Node) {
        let mut spans = Vec::new();
        odd(tree, self.source, self.text, &mut spans);
        for span in spans {
            let c = self.text[span.range()].chars().next().unwrap_or_default();
            let (what, help) = if c.is_control() {
                ("a control character", "delete it")
            } else {
                ("a space of another kind than the usual", "put an ordinary space in its place, or delete it")
            };
            let message = format!("{what} (U+{:04X}) stands in the text", u32::from(c));
            self.findings.push(Finding::fault(FaultName::FILE_CONTROL, span, message).help(help));
        }
    }

    /// The rows of one block. Rows that belong to an outer block, because this one was left open, come back.
    fn body(
        &mut self,
        rows: Vec<Row<'t>>,
        def: &'static BlockDef,
        span: Span,
        open: Span,
        outer: &[&'static BlockDef],
    ) -> (Body, Vec<Row<'t>>) {
        let mut body = Body { def, span, open, statements: Vec::new(), removals: Vec::new(), unread: None };
        let outside = std::mem::replace(&mut self.present, present(&rows, def));
        let back = self.rows(rows, &mut body, open, outer);
        self.present = outside;
        (body, back)
    }

    fn rows(&mut self, rows: Vec<Row<'t>>, body: &mut Body, open: Span, outer: &[&'static BlockDef]) -> Vec<Row<'t>> {
        let mut queue = std::collections::VecDeque::from(rows);
        while let Some(mut row) = queue.pop_front() {
            while row.at < row.tokens.len() || row.block.is_some() {
                if self.belongs_outside(&row, body.def, outer) {
                    self.report_open(open);
                    queue.push_front(row);
                    return queue.into();
                }
                let back = self.statement(&mut row, body, outer);
                for row in back.into_iter().rev() {
                    queue.push_front(row);
                }
            }
        }
        Vec::new()
    }

    /// In a text with an open block: a word that starts nothing here and something further out.
    fn belongs_outside(&self, row: &Row<'t>, def: &BlockDef, outer: &[&'static BlockDef]) -> bool {
        let Some(word) = row.word() else { return false };
        self.hoists && def.statement(word).is_none() && outer.iter().any(|block| block.statement(word).is_some())
    }

    fn report_open(&mut self, open: Span) {
        if self.unclosed == 0 {
            return;
        }
        self.unclosed -= 1;
        self.findings.push(
            Finding::fault(FaultName::SHAPE_UNCLOSED_BLOCK, open, "this `{` is never closed")
                .help("close it with `}` before what belongs outside of it"),
        );
    }

    /// Blocks that stayed open to the end and hoisted nothing.
    fn report_unclosed(&mut self, tree: &Node) {
        let mut opens = Vec::new();
        open_blocks(tree, self.source, &mut opens);
        for open in opens.into_iter().rev() {
            if self.findings.iter().any(|finding| finding.span() == Some(open)) {
                continue;
            }
            self.report_open(open);
        }
    }

    /// One statement at the cursor, into `body`; gives back rows of its block that belong to this one.
    fn statement(&mut self, row: &mut Row<'t>, body: &mut Body, outer: &[&'static BlockDef]) -> Vec<Row<'t>> {
        let Some(head) = row.peek() else { return self.lone_block(row, body, outer) };
        if head.leaf != Leaf::Word {
            self.unexpected(row, body.def, None, false);
            return Vec::new();
        }
        if head.text == WITHOUT && body.def.removable {
            self.removal(row, body);
            return Vec::new();
        }
        let Some(def) = self.recognise(row, body) else { return Vec::new() };
        row.at += 1;
        let mut statement = Statement {
            def,
            word: head.span,
            span: head.span,
            slots: Vec::new(),
            clauses: Vec::new(),
            hole: None,
            block: None,
        };
        let context = Context {
            word: def.word,
            block: body.def,
            statement: def,
            single: true,
            next: &[],
            bounds: None,
            last: true,
        };
        statement.slots = self.slots(row, def.slots, &context, head.span, &mut statement.hole);
        self.clauses(row, body.def, &mut statement);
        statement.span = head.span.to(row.last().unwrap_or(head.span));
        let back = self.carried(row, body.def, &mut statement, outer);
        self.keep(statement, body);
        back
    }

    /// The definition that the word at the cursor is, or is taken as. Reports and skips what is neither.
    fn recognise(&mut self, row: &mut Row<'t>, body: &mut Body) -> Option<&'static StatementDef> {
        let head = row.peek()?;
        if let Some(def) = body.def.statement(head.text) {
            return Some(def);
        }
        let lower = head.text.to_lowercase();
        if let Some(def) = body.def.statement(&lower) {
            let finding = Finding::fault(FaultName::WORD_CASE, head.span, format!("`{}` is written small", head.text));
            self.findings.push(finding.help(format!("write `{lower}`")));
            return Some(def);
        }
        if self.clause_alone(row, body) {
            return None;
        }
        let message = format!("`{}` is no statement of {}", head.text, block_name(body.def));
        let finding = Finding::fault(FaultName::WORD_UNKNOWN, head.span, message);
        if let Some(near) = self.meant(row, head.text, body.def) {
            self.findings.push(finding.says(format!("taken as `{near}`")).help(format!("write `{near}`")));
            return body.def.statement(near);
        }
        let known: Vec<&str> = body.def.statements.iter().map(|statement| statement.word).collect();
        body.unread = body.unread.or(Some(Hole { fault: finding.name, span: head.span }));
        self.findings.push(finding.help(format!("{} has {}", block_name(body.def), known.join(", "))));
        self.skip_statement(row, body.def);
        None
    }

    /// The word of `block` that is meant by one that it doesn't have: the nearest; of equally near ones, one that
    /// stands nowhere else in the block, and after which the rest of the row makes sense.
    fn meant(&mut self, row: &Row<'t>, word: &str, block: &'static BlockDef) -> Option<&'static str> {
        let near = all_nearest(word, block.statements.iter().map(|statement| statement.word));
        near.into_iter().min_by_key(|near| (self.present.contains(near), self.faults_as(row, near, block)))
    }

    /// How many faults the row has if its word is taken as `word`.
    fn faults_as(&mut self, row: &Row<'t>, word: &str, block: &'static BlockDef) -> usize {
        let (Some(def), Some(head)) = (block.statement(word), row.peek()) else { return usize::MAX };
        let mut row = row.clone();
        row.at += 1;
        let before = self.findings.len();
        let context =
            Context { word: def.word, block, statement: def, single: true, next: &[], bounds: None, last: true };
        self.slots(&mut row, def.slots, &context, head.span, &mut None);
        let faults = self.findings.len() - before;
        self.findings.truncate(before);
        faults
    }

    /// A clause of the statement before, on a line of its own: reported, and read as if it stood there.
    fn clause_alone(&mut self, row: &mut Row<'t>, body: &mut Body) -> bool {
        let Some(head) = row.peek() else { return false };
        let Some(previous) = body.statements.last_mut() else { return false };
        if row.at > 0 || previous.def.clause(head.text).is_none() || previous.clause(head.text).is_some() {
            return false;
        }
        let message = format!("`{}` is a clause of `{}` and stands on its line", head.text, previous.def.word);
        self.findings.push(
            Finding::fault(FaultName::WORD_CLAUSE_ALONE, head.span, message)
                .also(previous.word, "the statement that it belongs to")
                .help("put both on one line"),
        );
        let before = self.findings.len();
        let mut statement = previous.clone();
        self.clauses(row, body.def, &mut statement);
        self.findings.truncate(before);
        if let Some(last) = body.statements.last_mut() {
            *last = statement;
        }
        true
    }

    /// Skips an unknown statement: to the next word that starts one on the row, or to its end with its block.
    fn skip_statement(&mut self, row: &mut Row<'t>, block: &BlockDef) {
        row.at += 1;
        while let Some(token) = row.peek() {
            if token.leaf == Leaf::Word && block.statement(token.text).is_some() {
                return;
            }
            row.at += 1;
        }
        row.block = None;
    }

    /// The block of a statement, if the row's block is its own.
    fn carried(
        &mut self,
        row: &mut Row<'t>,
        block: &'static BlockDef,
        statement: &mut Statement,
        outer: &[&'static BlockDef],
    ) -> Vec<Row<'t>> {
        let mine = if row.peek().is_none() { row.block.take() } else { None };
        let (wanted, must) = match statement.def.carries {
            Carries::Nothing => (None, false),
            Carries::Maybe(def) => (Some(def), false),
            Carries::Block(def) => (Some(def), true),
        };
        match (mine, wanted) {
            (Some(node), Some(def)) => self.inner(node, def, block, statement, outer),
            (Some(node), None) => {
                let parts = block_parts(node, self.source, self.text);
                let message = format!("`{}` carries no block", statement.def.word);
                self.findings.push(Finding::fault(FaultName::SHAPE_SPARE_BLOCK, parts.open, message));
                statement.span = statement.span.to(parts.span);
                Vec::new()
            }
            (None, Some(_)) if must && statement.hole.is_none() => {
                // A block on the next line is adopted by `lone_block`, which reports that; a missing one is
                // reported when the statement is kept.
                Vec::new()
            }
            (None, _) => Vec::new(),
        }
    }

    fn inner(
        &mut self,
        node: &'t Node,
        def: &'static BlockDef,
        block: &'static BlockDef,
        statement: &mut Statement,
        outer: &[&'static BlockDef],
    ) -> Vec<Row<'t>> {
        let parts = block_parts(node, self.source, self.text);
        let mut around = outer.to_vec();
        around.push(block);
        let (body, back) = self.body(parts.rows, def, parts.span, parts.open, &around);
        let end = back.first().and_then(|row| row.tokens.get(row.at)).map_or(parts.span.end, |token| token.span.start);
        statement.span = statement.span.to(Span { end, ..parts.span });
        statement.block = Some(body);
        back
    }

    /// A block without a head: the statement before it may want it.
    fn lone_block(&mut self, row: &mut Row<'t>, body: &mut Body, outer: &[&'static BlockDef]) -> Vec<Row<'t>> {
        let Some(node) = row.block.take() else { return Vec::new() };
        let parts = block_parts(node, self.source, self.text);
        let finding =
            Finding::fault(FaultName::SHAPE_BLOCK_PLACE, parts.open, "a `{` stands on the line of its statement");
        let adopts = body.statements.last().is_some_and(|last| {
            last.block.is_none() && matches!(last.def.carries, Carries::Block(_) | Carries::Maybe(_))
        });
        self.findings.push(finding.help("put it at the end of the line above"));
        let Some(mut statement) = (if adopts { body.statements.pop() } else { None }) else { return Vec::new() };
        let missing = statement.word;
        self.findings.retain(|finding| finding.name != FaultName::SHAPE_NO_BLOCK.0 || finding.span() != Some(missing));
        let (Carries::Block(def) | Carries::Maybe(def)) = statement.def.carries else { return Vec::new() };
        statement.hole = None;
        let back = self.inner(node, def, body.def, &mut statement, outer);
        body.statements.push(statement);
        back
    }

    fn removal(&mut self, row: &mut Row<'t>, body: &mut Body) {
        let Some(head) = row.peek() else { return };
        row.at += 1;
        let Some(target) = row.next_if(Leaf::Word) else {
            let finding = Finding::fault(FaultName::NAME_MISSING, head.span, "`without` needs what it removes");
            self.findings.push(finding.help("such as `without layer slip`"));
            return;
        };
        let words = body.def.statements.iter().map(|statement| statement.word);
        let Some(def) = body.def.statement(target.text) else {
            let message = format!("`{}` is no statement of {}", target.text, block_name(body.def));
            let mut finding = Finding::fault(FaultName::WORD_UNKNOWN, target.span, message);
            if let Some(of) = chooses(body.def, target.text) {
                finding = finding.help(format!("write `without {of} {}`", target.text));
            } else if let Some(near) = nearest(target.text, words) {
                finding = finding.help(format!("write `{near}`"));
            }
            self.findings.push(finding);
            self.skip_statement(row, body.def);
            return;
        };
        let mut span = head.span.to(target.span);
        let first = match row.peek() {
            Some(token) if matches!(token.leaf, Leaf::Word | Leaf::Number) => {
                row.at += 1;
                span = span.to(token.span);
                Some(token.text.to_owned())
            }
            _ => None,
        };
        body.removals.push(Removal { key: StatementKey { word: def.word, first }, span });
    }

    /// Puts a statement into its block, unless one of its key stands there; checks its clauses and its block.
    fn keep(&mut self, mut statement: Statement, body: &mut Body) {
        let needs_block = matches!(statement.def.carries, Carries::Block(_));
        if needs_block && statement.block.is_none() && statement.hole.is_none() {
            let message = format!("`{}` needs a block `{{ … }}`", statement.def.word);
            let finding = Finding::fault(FaultName::SHAPE_NO_BLOCK, statement.word, message);
            let slot = self.hole(finding, &mut statement.hole);
            drop(slot);
        }
        self.missing_clauses(&mut statement);
        let key = statement.key();
        let nameless = statement.def.key == super::vocabulary::Key::First && key.first.is_none();
        let twin = body.statements.iter().find(|known| !nameless && known.key() == key);
        if let Some(twin) = twin {
            self.findings.push(
                Finding::fault(FaultName::STATEMENT_TWICE, statement.word, format!("`{key}` stands here twice"))
                    .says("the second is left out")
                    .also(twin.word, "the first")
                    .help("delete one of them"),
            );
            return;
        }
        body.statements.push(statement);
    }
}

/// The words of `block` that stand in its rows.
fn present(rows: &[Row<'_>], block: &'static BlockDef) -> Vec<&'static str> {
    let words: Vec<&str> = rows.iter().flat_map(|row| &row.tokens).map(|token| token.text).collect();
    block.statements.iter().map(|statement| statement.word).filter(|word| words.contains(word)).collect()
}

/// Words that a slot may start with, where they are fixed and a number follows them.
fn first_words(def: &'static SlotDef) -> &'static [&'static str] {
    match def.kind {
        SlotKind::Pairs(words, _) | SlotKind::ValueOrPairs(words, _) => words,
        _ => &[],
    }
}

/// Passes tokens up to a word that starts something here.
fn skip_to_word(row: &mut Row<'_>, context: &Context<'_>) {
    while let Some(token) = row.peek() {
        if token.leaf == Leaf::Word && context.starts(token.text) {
            return;
        }
        row.at += 1;
    }
}

fn block_name(def: &BlockDef) -> String {
    if def.name == FILE.name { "a file".to_owned() } else { format!("`{}`", def.name) }
}

fn open_blocks(node: &Node, source: SourceId, out: &mut Vec<Span>) {
    use super::tree::{Branch, Element};
    if node.branch == Branch::Block && !matches!(node.children.last(), Some(Element::Leaf(Leaf::Close, _))) {
        out.push(Span { source, start: node.range.start, end: node.range.start + 1 });
    }
    for child in &node.children {
        if let Element::Node(inner) = child {
            open_blocks(inner, source, out);
        }
    }
}

/// A slot as a value, for callers that know what it holds.
impl Slot {
    /// The value, if it was given.
    #[must_use]
    pub fn value(&self) -> Option<&Value> {
        match &self.given {
            Given::Value(value) => Some(value),
            _ => None,
        }
    }
}
