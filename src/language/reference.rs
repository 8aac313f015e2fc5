//! The language reference, read from the vocabulary: markdown, no printing.

use super::read_as;
use super::vocabulary::{
    Arity, BlockDef, Carries, ClauseDef, FILE, Key, Need, STEPS, SlotDef, SlotKind, StatementDef, Thing, WITHOUT,
    blocks,
};
use crate::measure::{Kind, System, Unit, Width};
use crate::source::SourceId;
use std::fmt::Write as _;

/// Units, sizes, then every block with its statements.
#[must_use]
pub fn reference() -> String {
    let mut out = String::new();
    units(&mut out);
    sizes(&mut out);
    steps(&mut out);
    contents(&mut out);
    for block in blocks() {
        block_section(&mut out, block);
    }
    out.truncate(out.trim_end().len());
    out.push('\n');
    out
}

/// The house rules with their defaults, as a table.
#[must_use]
pub fn house_rules() -> String {
    let mut out = String::from("| rule | default | what it says |\n|---|---|---|\n");
    let house = blocks().into_iter().filter(|block| block.name == "house");
    for rule in house.flat_map(|block| block.statements) {
        let default = if let Need::Default(text) = rule.need { text } else { "" };
        line(&mut out, &format!("| `{}` | {default} | {} |", rule.word, rule.says));
    }
    out
}

fn line(out: &mut String, text: &str) {
    out.push_str(text);
    out.push('\n');
}

fn units(out: &mut String) {
    line(out, "## Units\n\n| kind | units | such as |\n|---|---|---|");
    let mut kinds: Vec<Kind> = Vec::new();
    for kind in Unit::ALL.iter().map(|unit| unit.kind()).chain([Kind::Number]) {
        if !kinds.contains(&kind) {
            kinds.push(kind);
        }
    }
    for kind in kinds {
        let spelt = |unit: &Unit| {
            let borrowed = unit.kind() != kind;
            let spellings = if borrowed { &unit.spellings()[..1] } else { unit.spellings() };
            spellings.iter().map(|text| code(text)).collect::<Vec<_>>().join(" or ")
        };
        let units: Vec<String> = Unit::ALL.iter().filter(|unit| kind.takes(**unit)).map(spelt).collect();
        let units = if units.is_empty() { "none".to_owned() } else { units.join(", ") };
        line(out, &format!("| {} | {units} | `{}` |", bare(kind), kind.example()));
    }
    out.push('\n');
}

fn sizes(out: &mut String) {
    let systems: Vec<String> = System::ALL.iter().map(|system| code(system.name())).collect();
    line(out, &format!("## Systems of sizes and widths\n\nSystems: {}.\n", systems.join(", ")));
    for (whose, system) in [("US", System::UsMen), ("UK, EU and Mondopoint", System::Uk)] {
        let widths = Width::ALL.iter().filter(|width| width.rank(system).is_some());
        let widths: Vec<&str> = widths.map(|width| width.name()).collect();
        line(out, &format!("{whose} widths, narrow to wide: {}.\n", widths.join(", ")));
    }
    line(out, "`2E`, `3E` and `4E` are read as EE, EEE and EEEE.\n");
}

fn steps(out: &mut String) {
    let steps: Vec<String> = STEPS.iter().map(|step| code(step)).collect();
    line(out, &format!("## Steps of the default order of work\n\n{}.\n", steps.join(", ")));
}

fn contents(out: &mut String) {
    line(out, "## Blocks\n");
    let links: Vec<String> = blocks().iter().map(|block| format!("[{0}](#block-{0})", block.name)).collect();
    line(out, &format!("{}\n", links.join(" · ")));
}

fn block_section(out: &mut String, block: &'static BlockDef) {
    line(out, &format!("## Block `{}`\n", block.name));
    line(out, &format!("{}\n", block.says));
    let parents = parents(block);
    if !parents.is_empty() {
        line(out, &format!("Stands behind {}.\n", parents.join(", ")));
    }
    if block.removable {
        line(out, &format!("In a variant, `{WITHOUT}` and the key of a statement removes what is inherited.\n"));
    }
    for statement in block.statements {
        statement_section(out, block, statement);
    }
}

/// "`heel` of a model"
fn parents(block: &'static BlockDef) -> Vec<String> {
    let mut found = Vec::new();
    for outer in blocks() {
        for statement in outer.statements {
            if let Carries::Block(inner) | Carries::Maybe(inner) = statement.carries
                && std::ptr::eq(inner, block)
            {
                let place = if std::ptr::eq(outer, &raw const FILE) {
                    format!("`{}` in a file", statement.word)
                } else {
                    format!("`{}` in [{1}](#block-{1})", statement.word, outer.name)
                };
                found.push(place);
            }
        }
    }
    found
}

fn statement_section(out: &mut String, block: &'static BlockDef, statement: &'static StatementDef) {
    line(out, &format!("### `{}`\n", statement.word));
    line(out, &format!("```text\n{}\n```\n", shape(statement)));
    let mut says = statement.says.to_owned();
    says.push_str(match statement.need {
        Need::Needed => " Needed.",
        Need::Optional | Need::Default(_) => "",
    });
    if let Need::Default(text) = statement.need {
        _ = write!(says, " If left out: `{} {text}`.", statement.word);
    }
    if statement.key == Key::First {
        let named = matches!(statement.slots.first().map(|slot| slot.kind), Some(SlotKind::New(_) | SlotKind::Name(_)));
        says.push_str(if named { " Stands once for each name." } else { " Stands once for each first value." });
    }
    let bounds = statement.slots.iter().filter_map(held).collect::<Vec<_>>().join(", ");
    if !bounds.is_empty() {
        _ = write!(says, " {}.", first_capital(&bounds));
    }
    line(out, &format!("{says}\n"));
    for clause in statement.clauses {
        let bounds = clause.slots.iter().filter_map(held).map(|held| format!("; {held}")).collect::<String>();
        line(out, &format!("- `{}`: {}{bounds}", clause.word, clause.says));
    }
    if !statement.clauses.is_empty() {
        out.push('\n');
    }
    line(out, &format!("- passes: `{}`", statement.example));
    line(out, &format!("- fails: `{}` ({})\n", statement.fails, fault_of(block, statement)));
}

/// What the reader says of the example that fails.
fn fault_of(block: &'static BlockDef, statement: &StatementDef) -> String {
    let reading = read_as(statement.fails, SourceId(0), block);
    reading.findings.first().map_or_else(String::new, |finding| format!("{}: {}", finding.name, finding.message))
}

/// "from 10 to 170 deg", where a slot is held to less than its kind.
fn held(slot: &SlotDef) -> Option<String> {
    let bounds = slot.bounds?;
    let unit = match slot.kind {
        SlotKind::Amount(kind, _)
        | SlotKind::List(kind)
        | SlotKind::Pairs(_, kind)
        | SlotKind::ValueOrPairs(_, kind) => kind.base_unit(),
        _ => "",
    };
    Some(format!("from {} to {} {unit}", bounds.least, bounds.most).trim_end().to_owned())
}

fn first_capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// The statement with placeholders: `lap PART over PART { … }`.
fn shape(statement: &StatementDef) -> String {
    let mut shape = statement.word.to_owned();
    for slot in statement.slots {
        shape.push(' ');
        shape.push_str(&placeholder(slot));
    }
    for clause in statement.clauses {
        shape.push(' ');
        shape.push_str(&clause_shape(clause));
    }
    match statement.carries {
        Carries::Nothing => {}
        Carries::Maybe(_) => shape.push_str(" [{ … }]"),
        Carries::Block(_) => shape.push_str(" { … }"),
    }
    shape
}

fn clause_shape(clause: &ClauseDef) -> String {
    let words: Vec<String> =
        std::iter::once(clause.word.to_owned()).chain(clause.slots.iter().map(placeholder)).collect();
    let shape = words.join(" ");
    if clause.needed { shape } else { format!("[{shape}]") }
}

fn placeholder(slot: &SlotDef) -> String {
    let text = match slot.kind {
        SlotKind::Choice(words) if std::ptr::eq(words, STEPS) => "STEP".to_owned(),
        SlotKind::Choice(words) => words.join("|"),
        SlotKind::Choices(words) => format!("{}, …", words.join("|")),
        SlotKind::New(thing) => format!("NEW-{}", named(thing)),
        SlotKind::Name(things) => things.iter().copied().map(named).collect::<Vec<_>>().join("|"),
        SlotKind::Names(thing) => format!("{0}, {0}, …", named(thing)),
        SlotKind::Free => "NAME".to_owned(),
        SlotKind::Amount(kind, Arity::One) => capitals(kind.words()),
        SlotKind::Amount(kind, Arity::Spread) => format!("{0}[..{0} or +- {0}]", capitals(kind.words())),
        SlotKind::Amount(kind, Arity::Window) => format!("{0}..{0}", capitals(kind.words())),
        SlotKind::List(kind) => format!("{0}, {0}, …", capitals(kind.words())),
        SlotKind::Pairs(words, kind) => pairs(words, kind),
        SlotKind::ValueOrPairs(words, kind) => format!("({} or {})", capitals(kind.words()), pairs(words, kind)),
        SlotKind::Count => "COUNT".to_owned(),
        SlotKind::Size => "SYSTEM SIZE WIDTH".to_owned(),
        SlotKind::Sizes => "SYSTEM SIZE..SIZE [by STEP], …".to_owned(),
        SlotKind::Widths => "WIDTH, WIDTH, …".to_owned(),
        SlotKind::Text => "\"TEXT\"".to_owned(),
    };
    if slot.optional { format!("[{text}]") } else { text }
}

fn pairs(words: &[&str], kind: Kind) -> String {
    let pairs: Vec<String> = words.iter().map(|word| format!("{word} {}", capitals(kind.words()))).collect();
    pairs.join(", ")
}

fn named(thing: Thing) -> String {
    thing.word().to_uppercase()
}

fn bare(kind: Kind) -> &'static str {
    let words = kind.words();
    words.split_once(' ').map_or(words, |(_, rest)| rest)
}

/// "a thread size" as a placeholder.
fn capitals(words: &str) -> String {
    words.split_once(' ').map_or(words, |(_, rest)| rest).to_uppercase().replace(' ', "-")
}

fn code(text: &str) -> String {
    format!("`{text}`")
}
