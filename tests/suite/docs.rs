//! The documents are run: what can be generated is fresh, examples compile, links lead somewhere, and the commands
//! of the README are the ones that are tested.
//!
//! `HOBNAIL_DOCS=write cargo test docs::` (or `cargo docs`) writes the generated files.

use hobnail::check::{AllSizes, check};
use hobnail::finding::{FaultName, Severity};
use hobnail::language::reference::{house_rules, reference};
use hobnail::rules;
use hobnail::source::{Opened, ReadFault, Reader};
use hobnail::spec::load;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::{Component, Path, PathBuf};
use std::process::{Command, Stdio};

const GENERATED: &str = "<!-- Generated: `cargo docs` writes this file. -->\n\n";

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn text(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|why| panic!("{path}: {why}"))
}

/// All files below `folder` whose names end in `ending`, as paths from the root, in order.
fn files(folder: &str, ending: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut folders = vec![root().join(folder)];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).expect("the folder is there") {
            let path = entry.expect("the folder can be read").path();
            if path.is_dir() {
                folders.push(path);
            } else if path.to_string_lossy().ends_with(ending) {
                let path = path.strip_prefix(root()).expect("it lies below the root");
                found.push(path.to_string_lossy().replace('\\', "/"));
            }
        }
    }
    found.sort();
    found
}

/// All documents; `docs/parts` is in those that are generated from it.
fn documents() -> Vec<String> {
    let mut documents = files("docs", ".md");
    documents.retain(|path| !path.starts_with("docs/parts/"));
    documents.extend(["README.md", "DEVELOPERS.md", "CHANGELOG.md"].map(str::to_owned));
    documents
}

// ---- What is generated

fn generated() -> BTreeMap<String, String> {
    let mut all = BTreeMap::new();
    let part = |name: &str| text(&format!("docs/parts/{name}.md"));
    all.insert("docs/language.md".to_owned(), format!("{GENERATED}{}\n{}", part("language"), reference()));
    all.insert("docs/house-rules.md".to_owned(), format!("{GENERATED}{}\n{}", part("house-rules"), house_rules()));
    all.insert("docs/commands.md".to_owned(), format!("{GENERATED}{}\n{}", part("commands"), helps()));
    all.insert("docs/rules/README.md".to_owned(), format!("{GENERATED}{}", rule_list()));
    for rule in rules::all() {
        all.insert(format!("docs/rules/{}.md", file_name(rule.name())), format!("{GENERATED}{}", rules::page(*rule)));
    }
    all
}

fn file_name(rule: &str) -> String {
    rule.replace('/', "-")
}

fn rule_list() -> String {
    let mut out = String::from(
        "# Rules\n\nWhat every build is held against, in every size and width. Each page says what the rule checks, why it \
         matters at the bench, its formula, an example that fails, the example mended, and the source.\n\n| rule | what it \
         checks |\n|---|---|\n",
    );
    for rule in rules::all() {
        let name = rule.name();
        _ = writeln!(out, "| [{name}]({}.md) | {} |", file_name(name), first_sentence(&rules::page(*rule)));
    }
    out.push_str(
        "\n# Faults\n\nWhat can be wrong with a text before it can be judged. Whatever needs the faulty part is not judged; \
         everything else is.\n\n| fault | what it is |\n|---|---|\n",
    );
    for (name, says) in FaultName::FAULTS {
        _ = writeln!(out, "| {} | {says} |", name.0);
    }
    out
}

/// The first paragraph of a page, on one line.
fn first_sentence(page: &str) -> String {
    let lines = page.lines().skip_while(|line| line.starts_with('#') || line.is_empty());
    lines.take_while(|line| !line.is_empty()).collect::<Vec<_>>().join(" ")
}

fn helps() -> String {
    let mut out = String::from("## What the program says of itself\n");
    for command in ["", "check", "sheets", "traveller", "line-card", "verify", "figures", "new", "rules"] {
        let title = if command.is_empty() { "hobnail".to_owned() } else { format!("hobnail {command}") };
        _ = writeln!(out, "\n### `{title} --help`\n\n```text\n{}\n```", help(command));
    }
    out
}

fn help(command: &str) -> String {
    let mut run = Command::new(env!("CARGO_BIN_EXE_hobnail"));
    run.args((!command.is_empty()).then_some(command)).arg("--help");
    run.env_remove("COLUMNS").stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let output = run.output().expect("the command runs");
    String::from_utf8(output.stdout).expect("help is UTF-8").trim_end().to_owned()
}

#[test]
fn generated_documents_are_fresh() {
    let write = std::env::var_os("HOBNAIL_DOCS").is_some_and(|value| value == "write");
    let mut stale = Vec::new();
    for (path, wanted) in generated() {
        let whole = root().join(&path);
        if fs::read_to_string(&whole).is_ok_and(|known| known == wanted) {
            continue;
        }
        if write {
            fs::create_dir_all(whole.parent().expect("it lies in a folder")).expect("folders can be made");
            fs::write(&whole, wanted).expect("documents can be written");
        } else {
            stale.push(path);
        }
    }
    assert!(stale.is_empty(), "not fresh, `cargo docs` writes them: {}", stale.join(", "));
}

#[test]
fn no_page_is_left_of_a_rule_that_is_gone() {
    let generated = generated();
    for page in files("docs/rules", ".md") {
        assert!(generated.contains_key(&page), "{page} belongs to no rule; delete it");
    }
}

// ---- Examples

/// The files below `specs`, and one text at the root.
struct Memory {
    files: BTreeMap<String, String>,
}

/// Where an example lies.
const EXAMPLE: &str = "example.hob";

impl Memory {
    fn with(example: &str) -> Self {
        let mut files: BTreeMap<String, String> =
            files("specs", ".hob").into_iter().map(|path| (path.clone(), text(&path))).collect();
        files.insert(EXAMPLE.to_owned(), example.to_owned());
        Memory { files }
    }
}

impl Reader for Memory {
    fn open(&self, from: Option<&str>, path: &str) -> Result<Opened, ReadFault> {
        let folder = from.and_then(|from| Path::new(from).parent()).unwrap_or(Path::new(""));
        let path = plain(&folder.join(path));
        let text = self.files.get(&path).ok_or(ReadFault::Missing)?;
        Ok(Opened { identity: path.clone(), shown: path, bytes: text.clone().into_bytes() })
    }
}

/// A path without `.` and `..`.
fn plain(path: &Path) -> String {
    let mut plain = PathBuf::new();
    for part in path.components() {
        match part {
            Component::ParentDir => drop(plain.pop()),
            Component::CurDir => {}
            part => plain.push(part),
        }
    }
    plain.to_string_lossy().replace('\\', "/")
}

/// Every block fenced as `hob`, with the line on which it starts.
fn examples(document: &str) -> Vec<(usize, String)> {
    let mut examples = Vec::new();
    let mut running: Option<(usize, String)> = None;
    for (n, line) in document.lines().enumerate() {
        match &mut running {
            Some(_) if line.trim_end() == "```" => examples.extend(running.take()),
            Some((_, text)) => {
                text.push_str(line);
                text.push('\n');
            }
            None if line.trim_end() == "```hob" => running = Some((n + 2, String::new())),
            None => {}
        }
    }
    assert!(running.is_none(), "a block is never closed");
    examples
}

#[test]
fn every_example_compiles() {
    let mut count = 0;
    for document in documents() {
        for (line, example) in examples(&text(&document)) {
            count += 1;
            let name = format!("{document}:{line}");
            let loaded = load(&Memory::with(&example), &[EXAMPLE.to_owned()]).expect("it is in memory");
            let checked = check(&loaded, &AllSizes);
            let wrong: Vec<String> = checked
                .findings
                .iter()
                .filter(|finding| matches!(finding.severity, Severity::Fault | Severity::Refused))
                .map(|finding| {
                    let place = finding.span().map(|span| loaded.sources.place(span)).unwrap_or_default();
                    format!("{place}: {}: {}", finding.name, finding.message)
                })
                .collect();
            assert!(wrong.is_empty(), "{name}\n{}", wrong.join("\n"));
        }
    }
    assert!(count >= 3, "the README and the language page have examples");
}

// ---- Links

/// Targets of `[text](target)` outside fences.
fn links(document: &str) -> Vec<String> {
    let mut links = Vec::new();
    let mut fenced = false;
    for line in document.lines() {
        fenced ^= line.starts_with("```");
        if fenced {
            continue;
        }
        for piece in line.split("](").skip(1) {
            links.extend(piece.split_once(')').map(|(target, _)| target.to_owned()));
        }
    }
    links
}

/// The anchors that a document's headings make.
fn anchors(document: &str) -> Vec<String> {
    let headings = document.lines().filter(|line| line.starts_with('#'));
    let kept = |c: &char| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_');
    let anchor = |line: &str| -> String {
        line.trim_start_matches('#').trim().to_lowercase().chars().filter(kept).collect::<String>().replace(' ', "-")
    };
    headings.map(anchor).collect()
}

#[test]
fn every_link_leads_somewhere() {
    let mut dead = Vec::new();
    for document in documents() {
        let whole = text(&document);
        for link in links(&whole).iter().filter(|link| !link.starts_with("http")) {
            let (path, anchor) = link.split_once('#').unwrap_or((link, ""));
            let folder = Path::new(&document).parent().unwrap_or(Path::new(""));
            let target = if path.is_empty() { document.clone() } else { plain(&folder.join(path)) };
            let lost = !root().join(&target).exists();
            if lost || (!anchor.is_empty() && !anchors(&text(&target)).iter().any(|known| known == anchor)) {
                dead.push(format!("{document}: {link}"));
            }
        }
    }
    assert!(dead.is_empty(), "{}", dead.join("\n"));
}

// ---- The two commands

#[test]
fn the_commands_of_the_readme_are_the_ones_that_are_tested() {
    let readme = text("README.md");
    let run = text(".ci/run");
    let commands: Vec<&str> = readme.lines().filter(|line| line.starts_with("cargo ")).take(2).collect();
    assert_eq!(commands, ["cargo run --release -- sheets specs/models/*.hob --out sheets", "cargo test"]);
    for command in commands {
        assert!(run.lines().any(|line| line.trim() == command), "`{command}` is not in .ci/run");
    }
}

#[test]
fn the_refusal_in_the_readme_is_what_is_said() {
    let readme = text("README.md");
    let shown = readme.split("```text\n").nth(1).and_then(|rest| rest.split("```").next()).expect("a block of text");
    let mut run = Command::new(env!("CARGO_BIN_EXE_hobnail"));
    run.args(["check", "specs/refused/jaw-sole-stack.hob", "--color", "never"]).current_dir(root());
    run.env_remove("COLUMNS").stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let said = String::from_utf8(run.output().expect("the command runs").stdout).expect("findings are UTF-8");
    let lost: Vec<&str> = shown.lines().filter(|line| !said.lines().any(|known| known == *line)).collect();
    assert!(lost.is_empty(), "the README shows what `check` does not say:\n{}\n\nit says:\n{said}", lost.join("\n"));
}
