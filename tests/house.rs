//! The house rules, held against the code: who imports whom, no circles, no god-files, a word at each door.
//!
//! The import table is read from DEVELOPERS.md, so that the table a newcomer reads is the one that holds.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The longest file, without its tests.
const LONGEST: usize = 300;

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn rust_files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            rust_files(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
}

/// Each file of `src` with its text up to its tests, comments taken out.
fn sources() -> Vec<(PathBuf, String)> {
    let mut files = Vec::new();
    rust_files(&root().join("src"), &mut files);
    files.sort();
    files
        .into_iter()
        .filter(|path| {
            // Below the root only: the checkout may lie in a folder of any name.
            let short = path.strip_prefix(root()).unwrap();
            !short.components().any(|part| part.as_os_str() == "tests")
        })
        .map(|path| {
            let text = std::fs::read_to_string(&path).unwrap();
            let code = text.split("#[cfg(test)]\nmod ").next().unwrap_or("");
            let code: Vec<&str> = code
                .lines()
                .map(|line| line.split("//").next().unwrap_or(""))
                .collect();
            let short = path.strip_prefix(root().join("src")).unwrap().to_owned();
            (short, code.join("\n"))
        })
        .collect()
}

/// The room a file belongs to: its first folder, or its own name at the top.
fn room(path: &Path) -> String {
    let first = path.components().next().unwrap().as_os_str();
    first.to_str().unwrap().trim_end_matches(".rs").to_owned()
}

/// Names that follow `lead`, such as the `physics` of `crate::physics::air`; braces are opened.
fn named_after(code: &str, lead: &str) -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    for (at, _) in code.match_indices(lead) {
        let rest = &code[at + lead.len()..];
        let group = if let Some(inner) = rest.strip_prefix('{') {
            top_level(inner)
        } else {
            vec![rest]
        };
        for item in group {
            let name: String = item
                .trim_start()
                .chars()
                .take_while(|c| c.is_alphanumeric() || *c == '_')
                .collect();
            names.insert(name);
        }
    }
    names
}

/// The items of a braced import, at its own level.
fn top_level(inner: &str) -> Vec<&str> {
    let (mut depth, mut start, mut items) = (0, 0, Vec::new());
    for (at, c) in inner.char_indices() {
        match c {
            '{' => depth += 1,
            '}' if depth == 0 => {
                items.push(&inner[start..at]);
                break;
            }
            '}' => depth -= 1,
            ',' if depth == 0 => {
                items.push(&inner[start..at]);
                start = at + 1;
            }
            _ => {}
        }
    }
    items.retain(|item| !item.trim().is_empty());
    items
}

/// The import table of DEVELOPERS.md: what each room may use.
fn table() -> BTreeMap<String, BTreeSet<String>> {
    let text = std::fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let mut table = BTreeMap::new();
    let mut inside = false;
    for line in text.lines() {
        if line.starts_with("| room | may use |") {
            inside = true;
        } else if inside && !line.starts_with('|') {
            break;
        } else if inside && !line.starts_with("|---") {
            let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
            let may = cells[1]
                .split(',')
                .map(|word| word.split_whitespace().next().unwrap_or("").to_owned())
                .filter(|word| word != "nothing")
                .collect();
            table.insert(cells[0].to_owned(), may);
        }
    }
    assert!(
        table.len() > 10,
        "the import table of DEVELOPERS.md was not found"
    );
    table
}

#[test]
fn every_room_uses_only_what_its_row_names() {
    let table = table();
    let mut faults = Vec::new();
    for (path, code) in sources() {
        let here = room(&path);
        if here == "lib" {
            continue;
        }
        let Some(may) = table.get(&here) else {
            faults.push(format!("{here} has no row in DEVELOPERS.md"));
            continue;
        };
        let lead = if here == "main" {
            "coldsoak::"
        } else {
            "crate::"
        };
        for used in named_after(&code, lead) {
            if used != here && table.contains_key(&used) && !may.contains(&used) {
                faults.push(format!("{} uses {used}", path.display()));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn rooms_do_not_import_each_other_in_a_circle() {
    let table = table();
    for start in table.keys() {
        let mut seen = BTreeSet::new();
        let mut open: Vec<&String> = table[start].iter().collect();
        while let Some(next) = open.pop() {
            assert!(next != start, "{start} reaches itself through the table");
            if seen.insert(next) {
                open.extend(table.get(next).into_iter().flatten());
            }
        }
    }
}

#[test]
fn siblings_do_not_import_each_other_in_a_circle() {
    let mut uses: BTreeMap<PathBuf, BTreeSet<PathBuf>> = BTreeMap::new();
    let sources = sources();
    let stems: BTreeSet<PathBuf> = sources.iter().map(|(p, _)| p.with_extension("")).collect();
    for (path, code) in &sources {
        if path.ends_with("mod.rs") {
            continue;
        }
        // Each leading `super::` climbs one folder.
        let mut folder = path.parent().unwrap();
        let mut lead = "super::".to_owned();
        loop {
            for name in named_after(code, &format!(" {lead}")) {
                let sibling = folder.join(&name);
                if stems.contains(&sibling) || stems.contains(&sibling.join("mod")) {
                    uses.entry(path.with_extension(""))
                        .or_default()
                        .insert(sibling);
                }
            }
            let Some(above) = folder.parent() else {
                break;
            };
            folder = above;
            lead.push_str("super::");
        }
    }
    for start in uses.keys() {
        let mut seen = BTreeSet::new();
        let mut open: Vec<&PathBuf> = uses[start].iter().collect();
        while let Some(next) = open.pop() {
            assert!(
                next != start,
                "{} reaches itself through its siblings",
                start.display()
            );
            if seen.insert(next) {
                open.extend(uses.get(next).into_iter().flatten());
            }
        }
    }
}

#[test]
fn no_file_is_longer_than_three_hundred_lines_without_its_tests() {
    let long: Vec<String> = sources()
        .into_iter()
        .map(|(path, code)| (path, code.lines().count()))
        .filter(|&(_, lines)| lines > LONGEST)
        .map(|(path, lines)| format!("{}: {lines}", path.display()))
        .collect();
    assert!(long.is_empty(), "{}", long.join("\n"));
}

#[test]
fn every_file_opens_with_what_it_is_for() {
    let mut files = Vec::new();
    for folder in ["src", "tests", "benches"] {
        rust_files(&root().join(folder), &mut files);
    }
    for path in files {
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(
            text.starts_with("//!"),
            "{} opens without a word",
            path.display()
        );
    }
}

#[test]
fn no_room_is_a_lumber_room() {
    for (path, _) in sources() {
        let stem = path.file_stem().unwrap().to_str().unwrap();
        let lumber = ["utils", "util", "helpers", "common", "types", "misc", "imp"];
        assert!(!lumber.contains(&stem), "{}", path.display());
    }
}
