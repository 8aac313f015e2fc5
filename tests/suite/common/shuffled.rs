//! A text with its statements in another order.

use super::chance::Chance;
use hobnail::language::{Body, Statement};

/// The statements of a block in another order, each with its comments: those at the end of its line, and those
/// on lines of their own above it.
pub fn shuffled(text: &str, body: &Body, inner: std::ops::Range<usize>, chance: &mut Chance) -> String {
    if body.statements.is_empty() {
        return text[inner].to_owned();
    }
    let mut at = inner.start;
    let mut head = String::new();
    let mut chunks: Vec<String> = Vec::new();
    for statement in &body.statements {
        let range = statement.span.range();
        let (same_line, above) = comments(&text[at..range.start]);
        match chunks.last_mut() {
            Some(last) => last.push_str(&same_line),
            None => head = same_line,
        }
        chunks.push(above + &moved(text, statement, chance));
        at = range.end;
    }
    let (same_line, rest) = comments(&text[at..inner.end]);
    if let Some(last) = chunks.last_mut() {
        last.push_str(&same_line);
    }
    if body.def.name != "route" {
        chance.shuffle(&mut chunks);
    }
    format!("{head}\n{}\n{rest}", chunks.join("\n"))
}

fn moved(text: &str, statement: &Statement, chance: &mut Chance) -> String {
    let range = statement.span.range();
    let Some(body) = &statement.block else { return text[range].to_owned() };
    let inner = body.span.range().start + 1..body.span.range().end - 1;
    let inside = shuffled(text, body, inner.clone(), chance);
    format!("{}{inside}}}", &text[range.start..inner.start])
}

/// The comments of what stands between two statements: on the first one's line, and on lines of their own.
fn comments(gap: &str) -> (String, String) {
    let comment = |line: &str| line.find('#').map(|at| line[at..].trim_end().to_owned());
    let mut lines = gap.split('\n');
    let same_line = lines.next().and_then(comment).map(|comment| format!("  {comment}")).unwrap_or_default();
    (same_line, lines.filter_map(comment).map(|comment| comment + "\n").collect())
}
