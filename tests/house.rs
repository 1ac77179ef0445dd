//! The rules of DEVELOPERS.md held against the code: who imports whom, no circle, no long file, a purpose for each file.
//!
//! The import table is read from DEVELOPERS.md, so that the table a newcomer reads is the one that holds. Lists of what
//! does not hold yet only shrink: an entry that is not needed any more fails too.

#[path = "house/graph.rs"]
mod graph;
#[path = "house/paths.rs"]
mod paths;
#[path = "house/pieces.rs"]
mod pieces;

use graph::{Graph, circles, graph, of_folders};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The longest file, with its tests.
const LONGEST: usize = 400;

/// Files that are longer as yet.
const STILL_LONG: &[&str] = &[];

/// Circles that are there as yet: each group of files may only become smaller.
const STILL_CIRCLES: &[&[&str]] = &[];

/// Circles of folders and files of one folder that are there as yet.
const STILL_FOLDER_CIRCLES: &[(&str, &[&str])] = &[];

/// Imports against the table that are there as yet.
const STILL_FOREIGN: &[(&str, &str)] = &[("report/weather.rs", "physics/vapour.rs")];

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

/// Every Rust file of these folders, by its path below the root, with its text.
fn texts(folders: &[&str]) -> Vec<(String, String)> {
    let mut files = Vec::new();
    for folder in folders {
        rust_files(&root().join(folder), &mut files);
    }
    files.sort();
    let texts = files.into_iter().map(|path| {
        let short = path.strip_prefix(root()).unwrap().to_str().unwrap();
        let short = short.replace('\\', "/");
        (short, std::fs::read_to_string(&path).unwrap())
    });
    texts.collect()
}

fn of_the_source() -> Graph {
    let files = texts(&["src"]).into_iter();
    let below = files.map(|(path, text)| (path.trim_start_matches("src/").to_owned(), text));
    graph(&below.collect::<Vec<_>>())
}

/// The module a file belongs to: its first folder, or its own name at the top.
fn module(path: &str) -> &str {
    path.split('/').next().unwrap().trim_end_matches(".rs")
}

/// What a module may use: all of another, or the parts of it that the table names in parentheses.
type Table = BTreeMap<String, BTreeMap<String, Vec<String>>>;

/// The import table of DEVELOPERS.md.
fn table() -> Table {
    let text = std::fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let rows = text
        .lines()
        .skip_while(|line| !line.starts_with("| module | may use |"))
        .skip(2)
        .take_while(|line| line.starts_with('|'));
    let table: Table = rows
        .map(|row| {
            let cells: Vec<&str> = row.trim_matches('|').split('|').map(str::trim).collect();
            let mut may = BTreeMap::new();
            let mut rest = cells[1];
            while !rest.is_empty() && rest != "nothing" {
                let end = rest.find([',', '(']).unwrap_or(rest.len());
                let name = rest[..end].trim().to_owned();
                rest = &rest[end..];
                let mut parts = Vec::new();
                if let Some((inner, after)) = rest.strip_prefix('(').and_then(|r| r.split_once(')'))
                {
                    parts = inner.split(',').map(|p| p.trim().to_owned()).collect();
                    rest = after;
                }
                rest = rest.trim_start_matches([',', ' ']);
                may.insert(name, parts);
            }
            (cells[0].to_owned(), may)
        })
        .collect();
    assert!(table.len() > 10, "DEVELOPERS.md has no import table");
    table
}

/// What is found and not listed, and what is listed and not found.
fn differences<T: Ord + std::fmt::Debug>(found: Vec<T>, listed: Vec<T>) -> String {
    let (found, listed) = (BTreeSet::from_iter(found), BTreeSet::from_iter(listed));
    let new = found
        .difference(&listed)
        .map(|f| format!("against the rules: {f:?}"));
    let gone = listed
        .difference(&found)
        .map(|l| format!("holds now, strike it from the list: {l:?}"));
    new.chain(gone).collect::<Vec<_>>().join("\n")
}

#[test]
fn every_module_uses_only_what_its_row_names() {
    let (table, graph) = (table(), of_the_source());
    let mut found = Vec::new();
    for (file, uses) in &graph {
        let here = module(file);
        if here == "lib" {
            continue;
        }
        let row = table
            .get(here)
            .unwrap_or_else(|| panic!("{here} has no row in DEVELOPERS.md"));
        for used in uses.iter().filter(|used| module(used) != here) {
            let part = used
                .split('/')
                .nth(1)
                .map_or("", |p| p.trim_end_matches(".rs"));
            let may = row
                .get(module(used))
                .is_some_and(|parts| parts.is_empty() || parts.iter().any(|p| p == part));
            if !may {
                found.push((file.as_str(), used.as_str()));
            }
        }
    }
    let wrong = differences(found, STILL_FOREIGN.to_vec());
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn the_table_has_no_circle() {
    let names = |row: &BTreeMap<String, Vec<String>>| row.keys().cloned().collect();
    let table: Graph = table()
        .iter()
        .map(|(here, row)| (here.clone(), names(row)))
        .collect();
    assert_eq!(circles(&table), [] as [BTreeSet<String>; 0]);
}

/// Circles that are in no known one, and known ones of which nothing is left.
fn new_and_gone(found: &[BTreeSet<String>], known: &[&[&str]]) -> Vec<String> {
    let within = |group: &BTreeSet<String>, known: &[&str]| {
        group.iter().all(|file| known.contains(&file.as_str()))
    };
    let new = found
        .iter()
        .filter(|group| !known.iter().any(|k| within(group, k)));
    let gone = known
        .iter()
        .filter(|k| !found.iter().any(|group| within(group, k)));
    new.map(|group| format!("a circle: {group:?}"))
        .chain(gone.map(|k| format!("gone, strike it from the list: {k:?}")))
        .collect()
}

#[test]
fn files_do_not_use_each_other_in_a_circle() {
    let wrong = new_and_gone(&circles(&of_the_source()), STILL_CIRCLES);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_children_of_a_folder_do_not_use_each_other_in_a_circle() {
    let mut wrong = Vec::new();
    for (folder, children) in of_folders(&of_the_source()) {
        let known = STILL_FOLDER_CIRCLES
            .iter()
            .filter(|(name, _)| *name == folder);
        let known: Vec<&[&str]> = known.map(|(_, group)| *group).collect();
        let these = new_and_gone(&circles(&children), &known);
        wrong.extend(these.iter().map(|text| format!("src/{folder} {text}")));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A graph of small sources.
fn small(files: &[(&str, &str)]) -> Graph {
    let files: Vec<_> = files
        .iter()
        .map(|(p, t)| ((*p).to_owned(), (*t).to_owned()))
        .collect();
    graph(&files)
}

#[test]
fn a_circle_is_found_where_a_path_stands_inside_an_item() {
    let graph = small(&[
        ("cli/mod.rs", "mod a;\nmod b;"),
        ("cli/a.rs", "enum A { B(super::b::B) }"),
        ("cli/b.rs", "struct B;\nfn f() { crate::cli::a::g(); }"),
    ]);
    assert_eq!(
        circles(&graph),
        [BTreeSet::from([
            "cli/a.rs".to_owned(),
            "cli/b.rs".to_owned()
        ])]
    );
}

#[test]
fn a_circle_is_found_through_a_reexport_and_between_folders() {
    let files = [
        (
            "heat/mod.rs",
            "mod flow;\nmod area;\npub use flow::Flow;\npub use area::*;",
        ),
        (
            "heat/flow.rs",
            "use crate::{air::{self, Air}, heat::Area};\nstruct Flow;\nfn f() { air::mix() }",
        ),
        (
            "heat/area.rs",
            "pub struct Area;\n#[cfg(test)]\nmod tests { use crate::air::Air; }",
        ),
        (
            "air/mod.rs",
            "mod stream;\npub use self::stream::{Air, mix};",
        ),
        (
            "air/stream.rs",
            "// use crate::heat::Area;\npub struct Air;\npub fn mix(_: crate::heat::Flow) {}",
        ),
    ];
    let graph = small(&files);
    let of = |file: &str| graph[file].iter().map(String::as_str).collect::<Vec<_>>();
    assert_eq!(of("heat/flow.rs"), ["air/stream.rs", "heat/area.rs"]);
    assert_eq!(of("heat/area.rs"), [] as [&str; 0]);
    assert_eq!(of("air/stream.rs"), ["heat/flow.rs"]);
    assert_eq!(circles(&graph).len(), 1);
    let top = circles(&of_folders(&graph)[""]);
    assert_eq!(top, [BTreeSet::from(["air".to_owned(), "heat".to_owned()])]);
    // Without the way back there is none, among the files or the folders.
    let mut files = files;
    files[4].1 = "pub struct Air;\npub fn mix() {}";
    assert!(circles(&small(&files)).is_empty());
    assert!(circles(&of_folders(&small(&files))[""]).is_empty());
}

#[test]
fn no_file_is_longer_than_four_hundred_lines_with_its_tests() {
    let texts = texts(&["src", "tests", "benches", "examples"]);
    let long = texts
        .iter()
        .filter(|(_, text)| text.lines().count() > LONGEST);
    let wrong = differences(
        long.map(|(path, _)| path.as_str()).collect(),
        STILL_LONG.to_vec(),
    );
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn every_file_opens_with_what_it_is_for() {
    for (path, text) in texts(&["src", "tests", "benches", "examples"]) {
        assert!(text.starts_with("//!"), "{path} opens without a word");
    }
}

#[test]
fn no_file_is_named_for_nothing() {
    for (path, _) in texts(&["src", "tests", "benches", "examples"]) {
        let name = path.rsplit('/').next().unwrap().trim_end_matches(".rs");
        let empty = ["utils", "util", "helpers", "common", "types", "misc", "imp"];
        assert!(!empty.contains(&name), "{path}");
    }
}
