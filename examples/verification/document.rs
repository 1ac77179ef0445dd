//! The document: what was checked against what, how far it may be off and how far it was.

use super::orders::Case;
use super::{cell, lines};
use std::collections::BTreeMap;
use std::error::Error;
use std::fmt::Write;
use std::path::Path;

/// Binaries of tests in the order of the document, with their headings.
const ROOMS: [(&str, &str); 6] = [
    (
        "exact",
        "Exact solutions, through the form that users write",
    ),
    ("order", "Order in time"),
    (
        "manufactured",
        "Manufactured solutions of the whole balance",
    ),
    ("physics", "Laws against published values and libraries"),
    ("inspect", "Time constants"),
    ("nights", "Findings of built-in nights, refined"),
];
/// What `.ci/integrators` records.
const OUTSIDE: &str = "Built-in nights by other integrators";

/// All that one test compared.
struct Check {
    source: String,
    compared: usize,
    /// What came nearest to what is allowed: what it is, what is allowed, what was found.
    nearest: (String, f64, f64),
}

/// Writes `README.md`.
pub fn write(checks: &Path, orders: &[Case], folder: &Path) -> Result<(), Box<dyn Error>> {
    let mut rooms: BTreeMap<String, BTreeMap<String, Check>> = BTreeMap::new();
    for line in lines(checks)? {
        let (room, test) = cell(&line, 0)?
            .split_once("::")
            .unwrap_or(("", cell(&line, 0)?));
        let (what, source) = (cell(&line, 1)?, cell(&line, 2)?);
        let (allowed, found): (f64, f64) = (cell(&line, 3)?.parse()?, cell(&line, 4)?.parse()?);
        let room = rooms.entry(room.to_owned()).or_default();
        let check = room.entry(test.to_owned()).or_insert_with(|| Check {
            source: source.to_owned(),
            compared: 0,
            nearest: (String::new(), 1.0, -1.0),
        });
        check.compared += 1;
        if found / allowed > check.nearest.2 / check.nearest.1 {
            check.nearest = (what.to_owned(), allowed, found);
        }
    }
    let mut text = HEAD.to_owned();
    let compared: usize = rooms
        .values()
        .flat_map(BTreeMap::values)
        .map(|c| c.compared)
        .sum();
    let tests: usize = rooms.values().map(BTreeMap::len).sum();
    writeln!(
        text,
        "{compared} comparisons in {tests} tests, and {} measured orders.\n",
        orders.len()
    )?;
    for (room, heading) in ROOMS {
        if let Some(checks) = rooms.remove(room) {
            section(&mut text, heading, &checks)?;
        }
    }
    if !rooms.is_empty() {
        let rest: BTreeMap<String, Check> = rooms.into_values().flatten().collect();
        section(&mut text, OUTSIDE, &rest)?;
    }
    small_changes(&mut text, &folder.join("mutants.csv"))?;
    writeln!(
        text,
        "## Measured orders\n\n![errors over refinement](orders.svg)\n"
    )?;
    writeln!(text, "| case | promised | found |\n|---|---|---|")?;
    for case in orders {
        let name = format!("{}: {}", words(&case.test), case.name);
        writeln!(text, "| {name} | {} | {:.2} |", case.promised, case.found)?;
    }
    std::fs::write(folder.join("README.md"), text)?;
    Ok(())
}

const HEAD: &str = "# Verification: whether the equations are solved right\n\n\
Remade by `.ci/verification`, which runs the tests, lets them record what they compared, and writes this page. A line is a \
test: what it holds against which source, how many values it compared, and the one that came nearest to what is allowed. \
Tolerances and errors are in the unit of what is compared, relative where none is named. `faults.txt` \
lists what the tests find when the program is made wrong on purpose (`.ci/faults` writes it). The built-in nights by other \
integrators are added by `.ci/verification --integrators`.\n\n";

/// Whether tests see the small changes that `.ci/mutants` makes, folder by folder; nothing where it has not been run.
fn small_changes(text: &mut String, table: &Path) -> Result<(), Box<dyn Error>> {
    if !table.exists() {
        return Ok(());
    }
    let mut folders: BTreeMap<String, BTreeMap<String, usize>> = BTreeMap::new();
    for line in csv::Reader::from_path(table)?.deserialize() {
        let (file, _line, _column, _change, outcome): (String, u32, u32, String, String) = line?;
        let folder = file.split('/').nth(1).unwrap_or(&file).to_owned();
        *folders
            .entry(folder)
            .or_default()
            .entry(outcome)
            .or_default() += 1;
    }
    text.push_str(CHANGES);
    for (folder, outcomes) in folders {
        let count = |outcome: &str| outcomes.get(outcome).copied().unwrap_or(0);
        let changes: usize = outcomes.values().sum();
        let tried = changes - count("not tried");
        let killed = count("killed") + count("killed by time");
        let compile = tried - count("does not compile");
        let share = match compile {
            0 => "-".to_owned(),
            _ => format!("{:.1} %", 100.0 * killed as f64 / compile as f64),
        };
        writeln!(
            text,
            "| `{folder}/` | {changes} | {tried} | {compile} | {killed} | {share} |"
        )?;
    }
    writeln!(text)?;
    Ok(())
}

const CHANGES: &str = "## Small changes\n\n\
A program makes every small change it knows (a sign, a comparison, a factor, an answer made up) and asks whether the tests \
of that folder, in a small crate of its own, see it (`.ci/mutants`). What has changed since, or what there was no time for, \
counts as not tried. Which live, and why some may, stands in `mutants.txt`.\n\n\
| folder | changes | tried | compile | seen | of those that compile |\n|---|---|---|---|---|---|\n";

fn section(text: &mut String, heading: &str, checks: &BTreeMap<String, Check>) -> std::fmt::Result {
    writeln!(text, "## {heading}\n")?;
    writeln!(
        text,
        "| check | source | values | nearest | allowed | found |\n|---|---|---|---|---|---|"
    )?;
    for (test, check) in checks {
        let (what, allowed, found) = &check.nearest;
        writeln!(
            text,
            "| {} | {} | {} | {} | {} | {} |",
            words(test),
            check.source.replace('|', "\\|"),
            check.compared,
            what.replace('|', "\\|"),
            short(*allowed),
            short(*found)
        )?;
    }
    writeln!(text)
}

/// The name of a test as words.
fn words(test: &str) -> String {
    let name = test.rsplit("::").next().unwrap_or(test);
    name.replace('_', " ")
}

/// A number with two digits.
fn short(value: f64) -> String {
    if value == 0.0 || (0.01..1000.0).contains(&value) {
        let digits = (1 - value.abs().max(1e-2).log10().floor() as i32).max(0) as usize;
        format!("{value:.digits$}")
    } else {
        format!("{value:.1e}")
    }
}
