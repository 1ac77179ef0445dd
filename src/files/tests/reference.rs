//! `docs/reference.md`: made from the definitions of the keys, and held to them.

use crate::document::reference::{Definition, Types};
use crate::document::{IfSet, Key, Read};
use crate::files::comparison::ComparisonFile;
use crate::files::night::NightFile;
use crate::scenario::engine::Engine;
use crate::scenario::hangar::Hangar;
use crate::scenario::heater::Heater;
use crate::scenario::oil::Oil;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

const FILE: &str = "docs/reference.md";

/// What stands before the tables.
const HEAD: &str = "\
# Reference: every key of every file

For everyone who writes a file: each key with its type, unit, default and range, alphabetical per kind of file. How files are
written is in [files.md](files.md).

This page is made from the definitions in the code: `COLDSOAK_WRITE_REFERENCE=1 cargo test --lib reference`.
A key without a default must be given. A range in *italics* is usual; `coldsoak check` warns outside it. Outside any other
range there is an error. Ranges are in the unit of the same line.

A number set by `--set`, by a choice or by an advice counts as measured: if it is uncertain, its range is then narrow and lies
around it, `if set` under *range*. Where nothing is stated, it is a quarter as wide as the range before, as a ratio for a
log-uniform range. `--set 'uncertain.PATH=(low: .., high: ..)'` sets another. A number outside the range of its model counts as
measured too, with a warning.
";

/// The names of plain types.
fn plain(name: &str) -> Option<&'static str> {
    Some(match name {
        "String" => "text",
        "f64" => "number",
        "usize" | "u32" | "u16" => "whole number",
        "bool" => "`true` or `false`",
        "ClockTime" => "clock time, `\"19:00\"`",
        "Moment" => "time, `\"19:00\"` or `\"1996-02-04 19:00\"`",
        "Node" => "any value",
        "Month" => "month, `\"2018-01\"`",
        _ => return None,
    })
}

/// A type as Rust writes it, in words.
fn in_words(of: &str, types: &Types) -> String {
    let of = of.trim();
    let inside = |head: &str| {
        of.strip_prefix(head)
            .and_then(|rest| rest.strip_suffix('>'))
    };
    if let Some(inner) = inside("Option<") {
        return in_words(inner, types);
    }
    if let Some(inner) = inside("Vec<") {
        return format!("list of {}", in_words(inner, types));
    }
    if let Some(inner) = inside("BTreeMap<String,") {
        return format!("names, each with {}", in_words(inner, types));
    }
    if let Some(inner) = of.strip_prefix('(').and_then(|rest| rest.strip_suffix(')')) {
        let each: Vec<String> = inner.split(',').map(|t| in_words(t, types)).collect();
        return format!("({})", each.join(", "));
    }
    let name = of.rsplit("::").next().unwrap_or(of);
    let defined = |name: &str| types.definitions.contains_key(name);
    match name {
        "Uncertain" => "names, each with [UncertainRange](#uncertainrange)".to_owned(),
        name if defined(name) => format!("[{name}](#{})", name.to_lowercase()),
        name => plain(name).unwrap_or(name).to_owned(),
    }
}

/// The unit that the numbers of a key are kept in.
fn unit(key: &Key, types: &Types) -> String {
    if let Some((unit, _)) = key.rule.unit {
        return format!("`{unit}`");
    }
    let names = key.of.split(|c: char| !c.is_alphanumeric() && c != '_');
    let units = names.filter_map(|name| types.units.get(name));
    let first: Vec<String> = units.map(|all| format!("`{}`", all[0])).collect();
    first.first().cloned().unwrap_or_default()
}

/// A default as Rust writes it, as a file would.
fn default(key: &Key) -> String {
    let Some(text) = key.default else {
        return String::new();
    };
    if text.ends_with("::default()") {
        return "its own".to_owned();
    }
    if text == "DEFAULT_OIL.to_owned()" {
        return "`\"15w-50\"`".to_owned();
    }
    let text = text.replace(".to_owned()", "");
    Some(text.as_str())
        .map(|text| match text {
            "None" => "none".to_owned(),
            "Vec::new()" => "`[]`".to_owned(),
            "String::new()" => "`\"\"`".to_owned(),
            "Uncertain::new()" | "super::uncertain::Uncertain::new()" | "BTreeMap::new()" => {
                "`{}`".to_owned()
            }
            // A quantity or a word: without the name of its type.
            text => {
                let words = text.split_inclusive("::");
                let kept: String = words.filter(|word| !word.ends_with("::")).collect();
                let kept = match text.split_once('(') {
                    Some((head, rest)) => {
                        let head = head.rsplit("::").next().unwrap_or(head);
                        let rest = rest.rsplit("::").next().unwrap_or(rest);
                        format!("{head}({rest}")
                    }
                    None => kept,
                };
                format!("`{kept}`")
            }
        })
        .unwrap_or_default()
}

fn range(key: &Key) -> String {
    let (low, high, above) = key.rule.limits.ends();
    let limits = match (low.is_finite(), high.is_finite(), above) {
        (false, false, _) => String::new(),
        (false, true, _) => format!("{high} or less"),
        (true, false, true) => format!("above {low}"),
        (true, false, false) => format!("{low} or more"),
        (true, true, true) => format!("above {low}, to {high}"),
        (true, true, false) => format!("{low} to {high}"),
    };
    let usual = key.rule.usual;
    let usual = usual.map(|(low, high, _)| format!("*{low} to {high}*"));
    let set = key.rule.if_set.map(|set| match set {
        IfSet::Within(by) => format!("if set: ± {by}"),
        IfSet::Share(share) => format!("if set: ± {} %", 100.0 * share),
    });
    [Some(limits), usual, set]
        .into_iter()
        .flatten()
        .filter(|text| !text.is_empty())
        .collect::<Vec<_>>()
        .join("; ")
}

fn rows<'a>(page: &mut String, keys: impl Iterator<Item = &'a Key>, types: &Types) {
    let mut keys: Vec<&Key> = keys.collect();
    keys.sort_by_key(|key| key.name);
    *page += "\n| key | type | unit | default | range | meaning |\n|---|---|---|---|---|---|\n";
    for key in keys {
        let (name, of) = (key.name, in_words(key.of, types));
        let (unit, default, range) = (unit(key, types), default(key), range(key));
        let doc = key.doc.trim();
        writeln!(
            page,
            "| `{name}` | {of} | {unit} | {default} | {range} | {doc} |"
        )
        .unwrap();
    }
}

fn definition(page: &mut String, heading: &str, definition: &Definition, types: &Types) {
    let doc = definition.doc.trim();
    writeln!(page, "\n{heading}\n\n{doc}").unwrap();
    if !definition.keys.is_empty() {
        rows(page, definition.keys.iter(), types);
    }
    if definition.words.is_empty() {
        return;
    }
    *page += "\n| one of | meaning |\n|---|---|\n";
    for word in &definition.words {
        let name = word.name;
        let shown = match word.value {
            Some(key) => {
                let range = range(key);
                let range = match range.is_empty() {
                    true => String::new(),
                    false => format!(": {range} {}", unit(key, types)),
                };
                format!(
                    "`{name}(..)`, {}{}",
                    in_words(key.of, types),
                    range.trim_end()
                )
            }
            None if word.keys.is_empty() => format!("`{name}`"),
            None => format!("`{name}(key: ..)`"),
        };
        writeln!(page, "| {shown} | {} |", word.doc.trim()).unwrap();
    }
    for word in definition.words.iter().filter(|word| !word.keys.is_empty()) {
        writeln!(page, "\nKeys of `{}`:", word.name).unwrap();
        rows(page, word.keys.iter(), types);
    }
}

/// The kinds of file: heading, root type, all its types.
fn kinds() -> Vec<(&'static str, &'static str, Types)> {
    fn kind<T: Read>(
        heading: &'static str,
        root: &'static str,
    ) -> (&'static str, &'static str, Types) {
        let mut types = Types::default();
        T::types(&mut types);
        (heading, root, types)
    }
    vec![
        kind::<NightFile>("A night", "NightFile"),
        kind::<ComparisonFile>("A comparison", "ComparisonFile"),
        kind::<Heater>("A heater", "Heater"),
        kind::<Hangar>("A hangar", "Hangar"),
        kind::<Oil>("An oil", "Oil"),
        kind::<Engine>("An engine", "Engine"),
    ]
}

fn page() -> String {
    let mut page = HEAD.to_owned();
    let kinds = kinds();
    page += "\n## Units\n\n| quantity | spellings |\n|---|---|\n";
    let units: BTreeMap<_, _> = kinds.iter().flat_map(|kind| &kind.2.units).collect();
    for (quantity, units) in units {
        let spelt: Vec<String> = units.iter().map(|unit| format!("`{unit}(..)`")).collect();
        writeln!(page, "| {quantity} | {} |", spelt.join(", ")).unwrap();
    }
    // Roots of later kinds have headings of their own.
    let roots: BTreeSet<&str> = kinds.iter().map(|kind| kind.1).collect();
    let mut seen = BTreeSet::new();
    for (heading, root, types) in &kinds {
        let all = &types.definitions;
        let heading = match *root {
            "NightFile" | "ComparisonFile" => format!("## {heading}"),
            root => format!("## {heading}\n\n### {root}"),
        };
        definition(&mut page, &heading, &all[root], types);
        for (name, one) in all {
            if !roots.contains(name) && seen.insert(*name) {
                definition(&mut page, &format!("### {name}"), one, types);
            }
        }
    }
    page
}

#[test]
fn the_reference_is_what_the_definitions_say() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(FILE);
    let page = page();
    if std::env::var_os("COLDSOAK_WRITE_REFERENCE").is_some() {
        std::fs::write(&path, &page).unwrap();
    }
    let written = std::fs::read_to_string(&path).unwrap_or_default();
    let differs = page.lines().zip(written.lines()).find(|(a, b)| a != b);
    assert_eq!(
        differs, None,
        "{FILE} is not current; its head says how to write it"
    );
    assert_eq!(page.len(), written.len(), "{FILE} is not current");
}

#[test]
fn every_key_has_a_meaning_and_every_word_too() {
    for (_, _, types) in kinds() {
        for (name, one) in types.definitions {
            assert!(!one.doc.trim().is_empty(), "{name}");
            let of_words = one.words.iter().flat_map(|word| word.keys);
            for key in one.keys.iter().chain(of_words) {
                assert!(key.doc.trim().ends_with('.'), "{name}.{}", key.name);
            }
            for word in &one.words {
                assert!(word.doc.trim().ends_with('.'), "{name}: {}", word.name);
            }
        }
    }
}
