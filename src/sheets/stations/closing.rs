//! The closing room.

use super::cells;
use crate::sheets::Job;
use crate::sheets::page::{Row, Sheets, Table};
use crate::sheets::words;

/// What a seam was judged by, and nobody at the bench sets or measures.
fn judged_only(what: &str) -> bool {
    let starts = ["row-", "alone-", "beyond-"];
    let is = [
        "thickest",
        "sews",
        "step",
        "covered",
        "clear",
        "from-seam",
        "fold-needed",
        "gives-way",
        "perforation",
        "needle-over-thread",
        "needle-named",
    ];
    starts.iter().any(|start| what.starts_with(start)) || is.contains(&what) || what.contains("-skiver")
}

pub(super) fn closing(job: &Job<'_>, sheets: &mut Sheets<'_>) {
    sheets.steps();
    let names: Vec<(String, String)> = job
        .build
        .seams
        .iter()
        .filter(|seam| !matches!(&*seam.key, "sole" | "forefoot"))
        .map(|seam| (seam.name.to_string(), seam.key.to_string()))
        .collect();
    let columns = ["machine", "thread", "needle", "pitch", "rows", "first", "apart"];
    let rows = names.iter().map(|(name, key)| {
        let keys: Vec<String> = columns.iter().map(|column| format!("{key}.{column}")).collect();
        cells(job, sheets, name.clone(), &keys)
    });
    let rows = rows.collect();
    let heads = [
        words::SEAM,
        words::MACHINE,
        words::THREAD,
        words::NEEDLE,
        words::PITCH,
        words::ROWS,
        words::FIRST,
        words::APART,
    ];
    sheets.table(&Table {
        widths: vec![4.6, 2.2, 2.4, 1.1, 1.0, 1.1, 1.2, 1.3],
        heads: heads.map(|head| sheets.word(head)).to_vec(),
        rows,
    });
    let mut rows = Vec::new();
    for (name, key) in &names {
        let told = |what: &str| {
            columns.contains(&what)
                || what.contains("-edge-")
                || what.ends_with("-flat")
                || judged_only(what)
                || matches!(what, "thread-size" | "thread-diameter" | "over" | "of" | "joins" | "covers")
        };
        let start = format!("{key}.");
        let rest =
            job.figures.iter().filter(|figure| figure.key.starts_with(&start) && !told(&figure.key[start.len()..]));
        let rest: Vec<String> = rest.map(|figure| figure.key.to_string()).collect();
        rows.extend(rest.iter().filter_map(|key| sheets.row(name, key)));
    }
    sheets.rows(sheets.word(words::MEASURE), &rows);
    let joined: Vec<Row> = names
        .iter()
        .flat_map(|(name, key)| ["of", "joins", "covers"].map(|what| (name, format!("{key}.{what}"))))
        .filter_map(|(name, key)| sheets.row(name, &key))
        .collect();
    sheets.rows(sheets.word(words::PARTS_JOINED), &joined);
    sheets.group(sheets.word(words::MARK), &["mark.how", "mark.says", "mark.on"]);
    sheets.group(sheets.word(words::UPPER), &["shaft.inside", "upper.turned-out", "upper.lasted-in"]);
}
