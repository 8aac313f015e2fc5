//! Brings in the files that the files given use, transitively, each once.

use crate::finding::{FaultName, Finding};
use crate::language::{Given, Reading, Statement, Value, read};
use crate::source::{ReadFault, Reader, Source, SourceId, Sources, Span};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::sync::Arc;

/// All files of a run, read, with who uses whom.
#[derive(Clone, Debug)]
pub struct Loaded {
    /// The texts.
    pub sources: Sources,
    /// What each says, by its id.
    pub readings: Vec<Arc<Reading>>,
    /// The files that each uses, by its id, in the order of the text.
    pub uses: Vec<Vec<SourceId>>,
    /// Faults of `use` lines, by the file that holds them.
    pub faults: BTreeMap<SourceId, Vec<Finding>>,
    /// The files given.
    pub roots: Vec<SourceId>,
}

/// Reads `roots` and everything that they use.
///
/// # Errors
/// The first root that cannot be opened, with the reason.
pub fn load(reader: &dyn Reader, roots: &[String]) -> Result<Loaded, (String, ReadFault)> {
    let mut loaded = Loaded {
        sources: Sources::new(),
        readings: Vec::new(),
        uses: Vec::new(),
        faults: BTreeMap::new(),
        roots: Vec::new(),
    };
    for path in roots {
        let opened = reader.open(None, path).map_err(|why| (path.clone(), why))?;
        let id = loaded.take(Source::decode(opened.shown, opened.identity, &opened.bytes));
        if !loaded.roots.contains(&id) {
            loaded.roots.push(id);
        }
    }
    let mut next = 0;
    loaded.read();
    while next < loaded.readings.len() {
        // One generation after the other, so that the texts of each can be read side by side.
        let generation = next..loaded.readings.len();
        next = generation.end;
        generation.for_each(|n| loaded.follow(reader, SourceId(u32::try_from(n).unwrap_or(u32::MAX))));
        loaded.read();
    }
    for root in loaded.roots.clone() {
        loaded.report_cycles(root);
    }
    Ok(loaded)
}

impl Loaded {
    fn take(&mut self, source: Source) -> SourceId {
        let before = self.sources.iter().count();
        let id = self.sources.add(source);
        if self.sources.iter().count() > before {
            self.uses.push(Vec::new());
        }
        id
    }

    /// Reads what was taken and not yet read.
    fn read(&mut self) {
        let fresh: Vec<(SourceId, &Source)> = self.sources.iter().skip(self.readings.len()).collect();
        let readings: Vec<Arc<Reading>> =
            fresh.into_par_iter().map(|(id, source)| Arc::new(read(source, id))).collect();
        self.readings.extend(readings);
    }

    /// What a file says.
    #[must_use]
    pub fn reading(&self, id: SourceId) -> &Reading {
        &self.readings[id.0 as usize]
    }

    /// The same files with other texts in place of some, which alone are read again. Who uses whom stays as it was.
    #[must_use]
    pub fn with(&self, sources: Sources, roots: Vec<SourceId>) -> Loaded {
        let mut changed = Loaded { sources, roots, ..self.clone() };
        for (id, source) in self.sources.iter() {
            let now = changed.sources.get(id);
            if !Arc::ptr_eq(&now.text, &source.text) {
                changed.readings[id.0 as usize] = Arc::new(read(now, id));
            }
        }
        changed
    }

    /// Every file that sees `used`, itself included, however many files lie between.
    #[must_use]
    pub fn users(&self, used: SourceId) -> Vec<SourceId> {
        let ids = self.sources.iter().map(|(id, _)| id);
        ids.filter(|id| self.visible(*id).contains(&used)).collect()
    }

    fn follow(&mut self, reader: &dyn Reader, id: SourceId) {
        let lines: Vec<(String, Span, Span)> = self.reading(id).body.all("use").filter_map(path_of).collect();
        let from = self.sources.get(id).identity.clone();
        let mut seen: Vec<(SourceId, Span)> = Vec::new();
        for (path, span, word) in lines {
            match reader.open(Some(&from), &path) {
                Ok(opened) => {
                    let used = self.take(Source::decode(opened.shown, opened.identity, &opened.bytes));
                    if let Some((_, first)) = seen.iter().find(|(known, _)| *known == used) {
                        let finding = Finding::fault(FaultName::FILE_TWICE, span, "this file is used already")
                            .also(*first, "here")
                            .help("delete one of the two lines");
                        self.fault(id, finding);
                        continue;
                    }
                    seen.push((used, word));
                    self.uses[id.0 as usize].push(used);
                }
                Err(why) => {
                    let finding =
                        Finding::fault(FaultName::FILE_UNREADABLE, span, format!("`{path}` can't be used: {why}"))
                            .help("the path is relative to this file");
                    self.fault(id, finding);
                }
            }
        }
    }

    fn fault(&mut self, id: SourceId, finding: Finding) {
        let faults = self.faults.entry(id).or_default();
        if !faults.contains(&finding) {
            faults.push(finding);
        }
    }

    /// Everything that `root` sees: itself and all that it uses, transitively.
    #[must_use]
    pub fn visible(&self, root: SourceId) -> Vec<SourceId> {
        let mut seen = vec![root];
        let mut next = 0;
        while next < seen.len() {
            for used in &self.uses[seen[next].0 as usize] {
                if !seen.contains(used) {
                    seen.push(*used);
                }
            }
            next += 1;
        }
        seen
    }

    fn report_cycles(&mut self, root: SourceId) {
        let mut path = vec![root];
        let mut done = Vec::new();
        self.walk(&mut path, &mut done);
    }

    fn walk(&mut self, path: &mut Vec<SourceId>, done: &mut Vec<SourceId>) {
        let Some(&here) = path.last() else { return };
        for used in self.uses[here.0 as usize].clone() {
            if let Some(at) = path.iter().position(|known| *known == used) {
                let names: Vec<&str> =
                    path[at..].iter().chain([&used]).map(|id| self.sources.get(*id).shown.as_str()).collect();
                let message = if names.len() == 2 {
                    "a file can't use itself".to_owned()
                } else {
                    format!("files use each other in a circle: {}", names.join(" -> "))
                };
                if let Some(span) = self.use_line(here, used) {
                    self.fault(here, Finding::fault(FaultName::FILE_CYCLE, span, message).help("delete this line"));
                }
            } else if !done.contains(&used) {
                path.push(used);
                self.walk(path, done);
                path.pop();
            }
        }
        done.push(here);
    }

    /// The `use` line of `from` that brings `used`: the one at the same place among those that brought a file.
    fn use_line(&self, from: SourceId, used: SourceId) -> Option<Span> {
        let at = self.uses[from.0 as usize].iter().position(|known| *known == used)?;
        let failed: Vec<Span> = self.faults.get(&from).into_iter().flatten().filter_map(Finding::span).collect();
        let lines = self.reading(from).body.all("use").filter_map(path_of);
        lines.map(|(_, span, _)| span).filter(|span| !failed.contains(span) || at == 0).nth(at)
    }
}

fn path_of(line: &Statement) -> Option<(String, Span, Span)> {
    let slot = line.slots.first()?;
    match &slot.given {
        Given::Value(Value::Text(path)) => Some((path.clone(), slot.span, line.span)),
        _ => None,
    }
}
