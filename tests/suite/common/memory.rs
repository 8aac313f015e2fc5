//! Files in memory: the demo shop under `specs/`, with whatever a test lays over it.

use hobnail::build::Datum;
use hobnail::check::{Checked, SizeFilter, check};
use hobnail::finding::{Finding, Severity};
use hobnail::language::read;
use hobnail::measure::Size;
use hobnail::source::{Edit, Opened, ReadFault, Reader, Span};
use hobnail::spec::{Loaded, load};
use std::collections::BTreeMap;
use std::path::Path;

/// Paths and what stands under them. Paths have `/` between their parts and no `.` or `..`.
#[derive(Clone, Debug, Default)]
pub struct Memory {
    files: BTreeMap<String, Vec<u8>>,
}

impl Memory {
    pub fn new() -> Self {
        Self::default()
    }

    /// Everything under `specs/`, as `specs/shop.hob` and so on.
    pub fn demo() -> Self {
        let mut memory = Self::new();
        memory.add(&Path::new(env!("CARGO_MANIFEST_DIR")).join("specs"), "specs");
        memory
    }

    fn add(&mut self, folder: &Path, shown: &str) {
        for entry in std::fs::read_dir(folder).expect("the folder can be read").flatten() {
            let path = entry.path();
            let shown = format!("{shown}/{}", entry.file_name().to_string_lossy());
            if path.is_dir() {
                self.add(&path, &shown);
            } else {
                self.files.insert(shown, std::fs::read(&path).expect("the file can be read"));
            }
        }
    }

    /// The same with one file more, or another in its place.
    pub fn with(&self, path: &str, bytes: impl Into<Vec<u8>>) -> Self {
        let mut changed = self.clone();
        changed.files.insert(path.to_owned(), bytes.into());
        changed
    }

    pub fn text(&self, path: &str) -> &str {
        std::str::from_utf8(&self.files[path]).expect("the file is UTF-8")
    }

    /// The paths in `folder`, in order.
    pub fn list(&self, folder: &str) -> Vec<String> {
        self.files.keys().filter(|path| path.starts_with(folder)).cloned().collect()
    }

    pub fn load(&self, roots: &[&str]) -> Loaded {
        let roots: Vec<String> = roots.iter().map(|root| (*root).to_owned()).collect();
        load(self, &roots).unwrap_or_else(|(path, why)| panic!("{path}: {why}"))
    }

    pub fn check(&self, roots: &[&str], sizes: &dyn SizeFilter) -> (Loaded, Checked) {
        let loaded = self.load(roots);
        let checked = check(&loaded, sizes);
        (loaded, checked)
    }

    /// The faults of the files given, nothing built.
    pub fn faults(&self, roots: &[&str]) -> (Loaded, Vec<Finding>) {
        let loaded = self.load(roots);
        let faults = faults(&loaded);
        (loaded, faults)
    }
}

/// What is loaded, with the bytes `at` of one file become `to`. Only that text is read again, so this is no way to
/// change a `use` line.
pub fn edited(loaded: &Loaded, path: &str, at: std::ops::Range<usize>, to: &str, roots: &[&str]) -> Loaded {
    let id = loaded.sources.find(path).unwrap_or_else(|| panic!("{path} is not loaded"));
    let [start, end] = [at.start, at.end].map(|at| u32::try_from(at).expect("demo files are small"));
    let edit = Edit { span: Span { source: id, start, end }, text: to.to_owned() };
    let sources = loaded.sources.apply(&[edit]).expect("the edit lies in the file");
    let mut readings = loaded.readings.clone();
    readings[id.0 as usize] = std::sync::Arc::new(read(sources.get(id), id));
    let roots = roots.iter().filter_map(|root| sources.find(root)).collect();
    Loaded { sources, readings, uses: loaded.uses.clone(), faults: loaded.faults.clone(), roots }
}

/// The faults of what is loaded, nothing built.
pub fn faults(loaded: &Loaded) -> Vec<Finding> {
    let findings = check(loaded, &NoSize).findings;
    findings.into_iter().filter(|finding| finding.severity == Severity::Fault).collect()
}

impl Reader for Memory {
    fn open(&self, from: Option<&str>, path: &str) -> Result<Opened, ReadFault> {
        let folder = from.and_then(|from| from.rsplit_once('/')).map_or("", |(folder, _)| folder);
        let path = normalised(&format!("{folder}/{path}"));
        let bytes = self.files.get(&path).ok_or(ReadFault::Missing)?.clone();
        Ok(Opened { identity: path.clone(), shown: path, bytes })
    }
}

fn normalised(path: &str) -> String {
    let mut parts: Vec<&str> = Vec::new();
    for part in path.split('/') {
        match part {
            "" | "." => {}
            ".." => {
                parts.pop();
            }
            part => parts.push(part),
        }
    }
    parts.join("/")
}

/// No size: only what the texts say is judged.
pub struct NoSize;

impl SizeFilter for NoSize {
    fn wants(&self, _: &Size) -> bool {
        false
    }
}

/// One size by its name, such as `9 D`.
pub struct Only(pub &'static str);

impl SizeFilter for Only {
    fn wants(&self, size: &Size) -> bool {
        size.to_string() == self.0
    }
}

/// The first figure of all models and sizes that is not finite.
pub fn not_finite(checked: &Checked) -> Option<String> {
    let sizes = checked.models.iter().flat_map(|model| checked.figured(model));
    sizes.flat_map(|size| size.figures.iter().cloned().collect::<Vec<_>>()).find_map(|figure| {
        let numbers: Vec<f64> = match &figure.datum {
            Datum::Number(number) => vec![*number],
            Datum::Spread(spread) => vec![spread.lo, spread.nominal, spread.hi],
            Datum::Window(window) => vec![window.lo, window.hi],
            Datum::Numbers(numbers) => numbers.clone(),
            Datum::Count(_) | Datum::Text(_) | Datum::Texts(_) => Vec::new(),
        };
        let finite = numbers.iter().all(|number| number.is_finite());
        (!finite).then(|| format!("{} is {:?}", figure.key, figure.datum))
    })
}

/// A finding as one line: name, place, what stands there, message, help.
pub fn line(loaded: &Loaded, finding: &Finding) -> String {
    let Some(span) = finding.span() else { return format!("{}: {}", finding.name, finding.message) };
    let sources = &loaded.sources;
    let (place, slice) = (sources.place(span), sources.slice(span));
    let help = finding.help.iter().map(|help| format!("\n    help: {help}")).collect::<String>();
    format!("{} {place} [{}] {}{help}", finding.name, slice.escape_debug(), finding.message)
}

pub fn lines(loaded: &Loaded, findings: &[Finding]) -> String {
    findings.iter().map(|finding| line(loaded, finding) + "\n").collect()
}
