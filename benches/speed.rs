//! How fast the program is as a whole, cold: `cargo bench --bench speed`.
//!
//! Each command runs as a process of its own. Times are shown beside that of the same program doing nothing
//! (`--version`), so that a slow machine shows in both; memory is the most that the process held.

#![allow(clippy::cast_precision_loss, reason = "kilobytes and milliseconds")]

use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const MODELS: [&str; 3] = ["specs/models/cairn-10.hob", "specs/models/muster-10.hob", "specs/models/scree-8.hob"];
const RUNS: usize = 11;

struct Ran {
    took: Duration,
    most_kb: u64,
    said: String,
}

fn run(arguments: &[&str]) -> Ran {
    let start = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_hobnail"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("the program starts");
    let status = format!("/proc/{}/status", child.id());
    let mut most_kb = 0;
    while child.try_wait().expect("the program can be waited for").is_none() {
        most_kb = most_kb.max(held(Path::new(&status)));
        std::thread::sleep(Duration::from_micros(300));
    }
    let took = start.elapsed();
    let output = child.wait_with_output().expect("its output can be read");
    Ran { took, most_kb, said: String::from_utf8_lossy(&output.stdout).into_owned() }
}

/// The most that a process has held so far, kB; 0 where the system does not say.
fn held(status: &Path) -> u64 {
    let text = std::fs::read_to_string(status).unwrap_or_default();
    let line = text.lines().find(|line| line.starts_with("VmHWM"));
    line.and_then(|line| line.split_whitespace().nth(1)?.parse().ok()).unwrap_or(0)
}

/// The check of each checkout's own demo, turn by turn: this one's and that of another, which is built for release.
fn against(other: &Path) {
    let check = |program: &Path, folder: &Path| {
        let mut command = Command::new(program);
        command.arg("check").args(MODELS).current_dir(folder).stdout(Stdio::null()).stderr(Stdio::null());
        let start = Instant::now();
        command.status().expect("the program starts");
        start.elapsed()
    };
    let (here, program) = (Path::new(env!("CARGO_MANIFEST_DIR")), other.join("target/release/hobnail"));
    let turn = |_| (check(Path::new(env!("CARGO_BIN_EXE_hobnail")), here), check(&program, other));
    let (own, others): (Vec<Duration>, Vec<Duration>) = (0..3 * RUNS).map(turn).unzip();
    let (own, others) = (median(own), median(others));
    println!("check, to the other  {:7.2} times as long", own.as_secs_f64() / others.as_secs_f64());
}

fn median(mut runs: Vec<Duration>) -> Duration {
    runs.sort();
    runs[runs.len() / 2]
}

fn main() {
    let nothing = median((0..RUNS).map(|_| run(&["--version"]).took).collect());
    let check: Vec<&str> = ["check"].into_iter().chain(MODELS).collect();
    let checks: Vec<Ran> = (0..RUNS).map(|_| run(&check)).collect();
    let most = checks.iter().map(|ran| ran.most_kb).max().unwrap_or(0);
    let took = median(checks.iter().map(|ran| ran.took).collect());
    println!("--version            {:7.1} ms", nothing.as_secs_f64() * 1e3);
    println!(
        "check, all demo      {:7.1} ms  ({:.0} times --version), {:.0} MB",
        took.as_secs_f64() * 1e3,
        took.as_secs_f64() / nothing.as_secs_f64(),
        most as f64 / 1e3
    );
    if let Some(other) = std::env::var_os("HOBNAIL_OTHER") {
        against(Path::new(&other));
    }
    let out = std::env::temp_dir().join(format!("hobnail-bench-{}", std::process::id()));
    let out_text = out.display().to_string();
    let sheets: Vec<&str> = ["sheets"].into_iter().chain(MODELS).chain(["--out", &out_text]).collect();
    let ran = run(&sheets);
    // The folder is the benchmark's own; what is left of it harms nobody.
    let _ = std::fs::remove_dir_all(&out);
    let pages: f64 = ran.said.split_whitespace().nth(2).and_then(|pages| pages.parse().ok()).unwrap_or(0.0);
    println!(
        "sheets, all demo     {:7.1} ms  {pages:.0} pages, {:.0} pages a second, {:.0} MB",
        ran.took.as_secs_f64() * 1e3,
        pages / ran.took.as_secs_f64(),
        ran.most_kb as f64 / 1e3
    );
}
