//! Every way in which a demo file can be spoiled by one slip, made from its statements.

use hobnail::language::vocabulary::{SlotDef, SlotKind, blocks};
use hobnail::language::{Body, Given, Reading, Slot, Statement, Value};
use hobnail::measure::{Unit, parse_width};
use std::collections::BTreeSet;

/// One slip: the bytes `at` of a file become `to`. The fault must lie in `inside`, a range of the new text.
#[derive(Clone, Debug)]
pub struct Slip {
    pub what: String,
    pub at: std::ops::Range<usize>,
    pub to: String,
    pub inside: std::ops::Range<usize>,
    /// It changes which files are used.
    pub of_use: bool,
    /// It takes the name from a declaration: whatever name is not found may then have been that one.
    pub unnames: bool,
}

impl Slip {
    pub fn apply(&self, text: &str) -> String {
        format!("{}{}{}", &text[..self.at.start], self.to, &text[self.at.end..])
    }
}

/// All slips of a file.
pub fn slips(text: &str, reading: &Reading, names: &BTreeSet<String>) -> Vec<Slip> {
    let mut maker = Maker { text, words: words(names), slips: Vec::new() };
    maker.body(&reading.body);
    maker.slips
}

/// Every word of the language, and every name: a slip must not be one of them.
fn words(names: &BTreeSet<String>) -> BTreeSet<String> {
    let mut words = names.clone();
    let choices = |slots: &[SlotDef], words: &mut BTreeSet<String>| {
        for slot in slots {
            if let SlotKind::Choice(of) | SlotKind::Choices(of) | SlotKind::Pairs(of, _) = slot.kind {
                words.extend(of.iter().map(|word| (*word).to_owned()));
            }
        }
    };
    for block in blocks() {
        for statement in block.statements {
            words.insert(statement.word.to_owned());
            choices(statement.slots, &mut words);
            for clause in statement.clauses {
                words.insert(clause.word.to_owned());
                choices(clause.slots, &mut words);
            }
        }
    }
    words
}

struct Maker<'t> {
    text: &'t str,
    words: BTreeSet<String>,
    slips: Vec<Slip>,
}

impl Maker<'_> {
    fn body(&mut self, body: &Body) {
        for statement in &body.statements {
            self.statement(statement);
            if let Some(inner) = &statement.block {
                self.body(inner);
            }
        }
    }

    fn statement(&mut self, statement: &Statement) {
        let whole = statement.span.range();
        self.misspelt(&whole, statement.word.range(), "word");
        self.slots(&whole, &statement.slots, statement.def.slots);
        for clause in &statement.clauses {
            self.misspelt(&whole, clause.word.range(), "clause");
            self.slots(&whole, &clause.slots, clause.def.slots);
        }
        let again = format!("\n{}", &self.text[whole.clone()]);
        self.push(&whole, "doubled", whole.end..whole.end, again);
    }

    fn slots(&mut self, whole: &std::ops::Range<usize>, slots: &[Slot], defs: &[SlotDef]) {
        for (slot, def) in slots.iter().zip(defs) {
            let Given::Value(value) = &slot.given else { continue };
            let at = slot.span.range();
            if !def.optional {
                self.push(whole, "value dropped", at.clone(), String::new());
                let dropped = self.slips.last_mut().expect("it was pushed");
                dropped.unnames = matches!(def.kind, SlotKind::New(_));
            }
            match value {
                Value::Name(_) if matches!(def.kind, SlotKind::Name(_)) => self.misspelt(whole, at, "name"),
                Value::Names(names) => {
                    for name in names {
                        self.misspelt(whole, name.span.range(), "name");
                    }
                }
                Value::Text(_) if self.text[..at.start].trim_end().ends_with("use") => {
                    self.misspelt(whole, at.start + 1..at.end - 1, "path");
                }
                Value::Word(_) => self.misspelt(whole, at, "choice"),
                Value::Words(words) => {
                    for word in words {
                        self.misspelt(whole, word.span.range(), "choice");
                    }
                }
                Value::Amount(_) | Value::Amounts(_) | Value::Pairs(_) => self.units(whole, at),
                Value::Count(_) => self.push(whole, "unit", at.end..at.end, " mm".to_owned()),
                _ => {}
            }
        }
    }

    /// Every unit of a value becomes one of another kind; a bare number gets one.
    fn units(&mut self, whole: &std::ops::Range<usize>, at: std::ops::Range<usize>) {
        let mut found = false;
        let text = &self.text[at.clone()];
        let mut places = Vec::new();
        let starts = |c: char| c.is_alphabetic() || c == '%';
        let mut from = 0;
        while let Some(start) = text[from..].find(starts).map(|n| n + from) {
            let end = text[start..].find(|c: char| c.is_whitespace() || c == ',').map_or(text.len(), |n| n + start);
            if let Some(unit) = Unit::parse(&text[start..end]) {
                found = true;
                places.push((at.start + start..at.start + end, unit));
            }
            from = end;
        }
        for (place, unit) in places {
            let other = if unit.kind() == Unit::Tex.kind() { "deg" } else { "tex" };
            self.push(whole, "unit", place, other.to_owned());
        }
        if !found {
            self.push(whole, "unit", at.end..at.end, " mm".to_owned());
        }
    }

    /// A word with a letter doubled, dropped, or two swapped, so that it is no other word.
    fn misspelt(&mut self, whole: &std::ops::Range<usize>, at: std::ops::Range<usize>, what: &str) {
        let word: Vec<char> = self.text[at.clone()].chars().collect();
        let letters = || (0..word.len()).rev().filter(|n| word[*n].is_ascii_alphabetic());
        let doubled = letters().map(|n| [&word[..n], &word[n..=n], &word[n..]].concat());
        let dropped = letters().map(|n| [&word[..n], &word[n + 1..]].concat());
        let swapped = letters().filter(|n| *n > 0 && word[n - 1].is_ascii_alphabetic()).map(|n| {
            let mut swapped = word.clone();
            swapped.swap(n - 1, n);
            swapped
        });
        let kinds: [(&str, Vec<Vec<char>>); 3] =
            [("doubled", doubled.collect()), ("dropped", dropped.collect()), ("swapped", swapped.collect())];
        // One of the three for each word, another from word to word.
        for n in 0..3 {
            let (how, ways) = &kinds[(at.start + n) % 3];
            let ways = ways.iter().map(|way| way.iter().collect::<String>());
            let Some(way) = ways.into_iter().find(|way| self.is_no_word(way, &word)) else { continue };
            self.push(whole, &format!("{what} misspelt, a letter {how}"), at, way);
            return;
        }
    }

    fn is_no_word(&self, way: &str, word: &[char]) -> bool {
        let shaped = way.starts_with(|c: char| c.is_ascii_lowercase() || c == '.') && !way.ends_with('-');
        let unlike = way.chars().ne(word.iter().copied());
        let other = self.words.contains(way) || Unit::parse(way).is_some() || parse_width(way).is_some();
        shaped && unlike && !other && !way.contains("--")
    }

    fn push(&mut self, whole: &std::ops::Range<usize>, what: &str, at: std::ops::Range<usize>, to: String) {
        let inside = whole.start..whole.end + to.len() - at.len();
        let line = self.text[..at.start].matches('\n').count() + 1;
        let old = self.text[at.clone()].escape_debug();
        let new: String = to.chars().take(40).collect();
        let what = format!("line {line}, {what}: `{old}` -> `{}`", new.escape_debug());
        let of_use = self.text[whole.clone()].starts_with("use");
        self.slips.push(Slip { what, at, to, inside, of_use, unnames: false });
    }
}
