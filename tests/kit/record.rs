//! What the checks found, kept for the document of verification: a line a check, a line a point of a convergence.
//!
//! With `COLDSOAK_VERIFICATION` naming a folder, lines are appended to two tables in it (remove them before a run):
//! `checks.tsv` with check, what, source, tolerance and error found, and `orders.tsv` with case, refinement, error
//! found, order promised and order found. Both say which test wrote them; the source is read from the doc comment
//! of that test, where it stands for people, or else from the head of its file.

use std::fmt::Display;
use std::io::Write;
use std::panic::Location;
use std::path::{Path, PathBuf};

/// The folder named, if one is.
fn folder() -> Option<PathBuf> {
    std::env::var_os("COLDSOAK_VERIFICATION")
        .filter(|name| !name.is_empty())
        .map(PathBuf::from)
}

/// Appends a line; each is one write, so that tests that run side by side do not mix theirs.
fn append(folder: &Path, table: &str, head: &str, cells: &[&dyn Display]) {
    std::fs::create_dir_all(folder).unwrap_or_else(|e| panic!("{}: {e}", folder.display()));
    let path = folder.join(table);
    let cells: Vec<String> = cells
        .iter()
        .map(|cell| cell.to_string().replace(['\t', '\n'], " "))
        .collect();
    let line = format!("{}\n", cells.join("\t"));
    let mut new = std::fs::OpenOptions::new();
    if let Ok(mut file) = new.write(true).create_new(true).open(&path) {
        file.write_all(format!("{head}\n").as_bytes()).unwrap();
    }
    std::fs::OpenOptions::new()
        .append(true)
        .open(&path)
        .and_then(|mut file| file.write_all(line.as_bytes()))
        .unwrap_or_else(|e| panic!("{}: {e}", path.display()));
}

/// The test that runs, as `theme::module::name`.
fn test_name(place: &Location) -> String {
    match std::thread::current().name() {
        Some(name) if name != "main" => name.to_owned(),
        // With a single test thread the name is lost; the place is not.
        _ => format!("{}:{}", place.file(), place.line()),
    }
}

/// The doc comment of the test that runs, from its word "Source:" on if it has one.
fn source(place: &Location) -> String {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(place.file());
    let text = std::fs::read_to_string(file).unwrap_or_default();
    let lines: Vec<&str> = text.lines().map(str::trim).collect();
    let thread = std::thread::current();
    let name = thread.name().and_then(|n| n.rsplit("::").next());
    let head = name.map(|n| format!("fn {n}("));
    let Some(at) = head.and_then(|head| lines.iter().position(|l| l.starts_with(&head))) else {
        return about(&lines);
    };
    let mut doc: Vec<&str> = lines[..at]
        .iter()
        .rev()
        .skip_while(|l| l.starts_with("#["))
        .map_while(|l| l.strip_prefix("///"))
        .map(str::trim)
        .collect();
    doc.reverse();
    let doc = doc.join(" ");
    if doc.is_empty() {
        return about(&lines);
    }
    let from = doc.find("Source:").map_or(0, |at| at + "Source:".len());
    doc[from..].trim().to_owned()
}

/// What a file of tests says of itself, up to its first blank line.
fn about(lines: &[&str]) -> String {
    let head = lines.iter().map_while(|l| l.strip_prefix("//! "));
    head.collect::<Vec<_>>().join(" ")
}

/// Keeps a check: what was compared, how far it may be off, how far it was.
#[track_caller]
pub fn check(what: &str, tolerance: f64, error: f64) {
    let place = Location::caller();
    if let Some(folder) = folder() {
        let head = "test\twhat\tsource\ttolerance\terror";
        let (test, source) = (test_name(place), source(place));
        append(
            &folder,
            "checks.tsv",
            head,
            &[&test, &what, &source, &tolerance, &error],
        );
    }
}

/// Keeps a measured order: the errors found, each with steps or cells half as long as the one before.
#[track_caller]
pub fn order(what: &str, errors: &[f64], promised: f64, found: f64) {
    let place = Location::caller();
    let Some(folder) = folder() else { return };
    let head = "test\tcase\trefinement\terror\torder_promised\torder_found";
    for (halvings, error) in errors.iter().enumerate() {
        let refined = 1u32 << halvings;
        append(
            &folder,
            "orders.tsv",
            head,
            &[&test_name(place), &what, &refined, error, &promised, &found],
        );
    }
}
