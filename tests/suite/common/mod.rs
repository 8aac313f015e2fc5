//! What tests share. Here the one builder for tests of commands: files in, arguments, then the whole of what comes out.

pub mod boots;
pub mod chance;
pub mod insole;
pub mod memory;
pub mod printed;
pub mod published;
pub mod shuffled;
pub mod slips;
pub mod soles;
pub mod trial;
pub mod walked;

use std::fmt;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use tempfile::TempDir;

/// A folder with files in it, and a command to run there.
pub struct Case {
    folder: TempDir,
    shown: Vec<(String, String)>,
    input: Option<Vec<u8>>,
    variables: Vec<(String, String)>,
}

/// What a command did: itself and its files again, then all that came out.
pub struct Ran {
    pub said: String,
    pub out: String,
    pub error: String,
    pub code: Option<i32>,
}

pub fn case() -> Case {
    let folder = TempDir::new().expect("a temporary folder");
    Case { folder, shown: Vec::new(), input: None, variables: Vec::new() }
}

impl Case {
    /// With a file that the snapshot shows.
    pub fn file(mut self, path: &str, text: &str) -> Self {
        self.shown.push((path.to_owned(), text.to_owned()));
        self.bytes(path, text.as_bytes())
    }

    /// With a file that is not shown.
    pub fn bytes(self, path: &str, bytes: &[u8]) -> Self {
        let path = self.path(path);
        fs::create_dir_all(path.parent().expect("it lies in the folder")).expect("folders can be made");
        fs::write(path, bytes).expect("files can be written");
        self
    }

    /// With the demo shop in a folder `specs`.
    pub fn demo(self) -> Self {
        copy(&Path::new(env!("CARGO_MANIFEST_DIR")).join("specs"), &self.path("specs"));
        self
    }

    /// With one run of text in a file replaced, which must be there once.
    pub fn edit(self, path: &str, from: &str, to: &str) -> Self {
        let text = fs::read_to_string(self.path(path)).expect("the file is there");
        assert_eq!(text.matches(from).count(), 1, "{from} in {path}");
        fs::write(self.path(path), text.replace(from, to)).expect("files can be written");
        self
    }

    /// With a text on standard input.
    pub fn input(mut self, text: &str) -> Self {
        self.input = Some(text.as_bytes().to_vec());
        self
    }

    pub fn variable(mut self, name: &str, value: &str) -> Self {
        self.variables.push((name.to_owned(), value.to_owned()));
        self
    }

    pub fn path(&self, path: &str) -> PathBuf {
        self.folder.path().join(path)
    }

    /// The command, not yet started, without colours or variables of the one who runs the tests.
    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_hobnail"));
        command.args(arguments).current_dir(self.folder.path()).env_remove("NO_COLOR").env_remove("TERM");
        command.envs(self.variables.iter().map(|(name, value)| (name, value)));
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        command
    }

    pub fn run(&self, arguments: &[&str]) -> Ran {
        let mut child = self.command(arguments).spawn().expect("the command starts");
        let mut stdin = child.stdin.take().expect("it has an input");
        // A command that doesn't read its input may have ended by now.
        drop(stdin.write_all(self.input.as_deref().unwrap_or_default()));
        drop(stdin);
        let output = child.wait_with_output().expect("the command ends");
        let text = |bytes| String::from_utf8(bytes).expect("what is written is UTF-8");
        Ran {
            said: self.said(arguments),
            out: text(output.stdout),
            error: text(output.stderr),
            code: output.status.code(),
        }
    }

    fn said(&self, arguments: &[&str]) -> String {
        let mut said = String::new();
        for (name, value) in &self.variables {
            said.push_str(&format!("{name}={value} "));
        }
        said.push_str("hobnail");
        for argument in arguments {
            let quoted = argument.contains([' ', '*']);
            said.push_str(&if quoted { format!(" \"{argument}\"") } else { format!(" {argument}") });
        }
        said.push('\n');
        let input = self.input.as_ref().map(|bytes| ("standard input", String::from_utf8_lossy(bytes).into_owned()));
        let files = self.shown.iter().map(|(path, text)| (path.as_str(), text.clone()));
        for (path, text) in files.chain(input) {
            said.push_str(&format!("\n---- {path}\n{}", ended(&visible(&text))));
        }
        said
    }
}

impl fmt::Display for Ran {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.said)?;
        for (stream, text) in [("standard output", &self.out), ("standard error", &self.error)] {
            if !text.is_empty() {
                write!(f, "\n==== {stream}\n{}", ended(&visible(text)))?;
            }
        }
        write!(f, "\n==== exit code {}", self.code.map_or("none".to_owned(), |code| code.to_string()))
    }
}

fn ended(text: &str) -> String {
    if text.ends_with('\n') || text.is_empty() { text.to_owned() } else { format!("{text}\n") }
}

/// A text with its control characters and marks to be seen.
fn visible(text: &str) -> String {
    text.replace('\r', "␍").replace('\0', "␀").replace('\u{1b}', "␛").replace('\u{feff}', "<BOM>")
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("folders can be made");
    for entry in fs::read_dir(from).expect("the folder is there") {
        let entry = entry.expect("the folder can be read");
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).expect("files can be copied");
        }
    }
}
