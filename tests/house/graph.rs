//! Who uses whom: one graph of files, each path followed to the file that defines what it names.

use super::paths::{Named, Place, Source, source};
use std::collections::{BTreeMap, BTreeSet};

/// Files below `src` by their path, each with the files it uses.
pub type Graph = BTreeMap<String, BTreeSet<String>>;

/// The path of a module, without `crate`.
type Module = Vec<String>;

struct Tree {
    files: BTreeMap<Module, (String, Source)>,
}

/// The graph of these files, each a path below `src` and a text.
pub fn graph(files: &[(String, String)]) -> Graph {
    let files = files
        .iter()
        .map(|(path, text)| (module(path), (path.clone(), source(text))));
    let mut tree = Tree {
        files: files.collect(),
    };
    tree.leave_out_tests();
    tree.files
        .iter()
        .map(|(here, (path, source))| {
            let lists = path.ends_with("mod.rs") || path == "lib.rs";
            let used = source
                .paths
                .iter()
                .filter(|named| {
                    !(lists && matches!(named.place, Place::Import { public: true, .. }))
                })
                .filter_map(|named| tree.used(here, named))
                .filter(|used| used != path);
            (path.clone(), used.collect())
        })
        .collect()
}

/// The module a file is.
fn module(path: &str) -> Module {
    let mut words: Module = path
        .trim_end_matches(".rs")
        .split('/')
        .map(str::to_owned)
        .collect();
    if words.last().is_some_and(|last| last == "mod") || words == ["lib"] {
        words.pop();
    }
    words
}

impl Tree {
    fn leave_out_tests(&mut self) {
        let mut only_for_tests: Vec<Module> = Vec::new();
        for (here, (_, source)) in &self.files {
            for name in &source.test_modules {
                only_for_tests.push([here.as_slice(), std::slice::from_ref(name)].concat());
            }
        }
        self.files
            .retain(|module, _| !only_for_tests.iter().any(|tests| module.starts_with(tests)));
    }

    /// The file that a path leads to, unless it leaves the crate or ends at a folder.
    fn used(&self, here: &Module, named: &Named) -> Option<String> {
        let (target, whole) = self.follow(here, &named.words, 0)?;
        let file = &self.files.get(&target)?.0;
        let folder = file.ends_with("mod.rs") || file == "lib.rs";
        (!(whole && folder)).then(|| file.clone())
    }

    /// The module that a path leads to, and whether it is the module itself or something in it.
    fn follow(&self, here: &Module, words: &[String], depth: usize) -> Option<(Module, bool)> {
        if depth > 20 {
            return None;
        }
        let source = &self.files.get(here)?.1;
        let (mut at, mut rest) = match words.first()?.as_str() {
            "crate" | "coldsoak" => (Module::new(), &words[1..]),
            "self" => (here.clone(), &words[1..]),
            "super" => (here[..here.len().checked_sub(1)?].to_vec(), &words[1..]),
            first => {
                let child = [here.as_slice(), &[first.to_owned()]].concat();
                if self.files.contains_key(&child) {
                    (child, &words[1..])
                } else {
                    // A module that was imported by this name.
                    let import = source.paths.iter().find(|p| {
                        p.brings.as_deref() == Some(first) && p.words.len() > 1 && p.words != words
                    })?;
                    match self.follow(here, &import.words, depth + 1)? {
                        (module, true) => (module, &words[1..]),
                        found => return Some(found),
                    }
                }
            }
        };
        while let Some(word) = rest.first() {
            rest = &rest[1..];
            if word == "super" {
                at.pop()?;
                continue;
            }
            let child = [at.as_slice(), std::slice::from_ref(word)].concat();
            if self.files.contains_key(&child) {
                at = child;
                continue;
            }
            match self.defined(&at, word, depth) {
                (module, true) => at = module,
                found => return Some(found),
            }
        }
        Some((at, true))
    }

    /// Where a name of a module is defined: there, or where the module has it from.
    fn defined(&self, at: &Module, name: &str, depth: usize) -> (Module, bool) {
        let Some((_, source)) = self.files.get(at) else {
            return (at.clone(), false);
        };
        if source.items.contains(name) {
            return (at.clone(), false);
        }
        let brought = source
            .paths
            .iter()
            .filter(|p| p.brings.as_deref() == Some(name));
        for import in brought.filter(|p| p.words.len() > 1) {
            if let Some(found) = self.follow(at, &import.words, depth + 1) {
                return found;
            }
        }
        let all = |p: &&Named| matches!(p.place, Place::Import { all: true, .. });
        for import in source.paths.iter().filter(all) {
            if let Some((module, true)) = self.follow(at, &import.words, depth + 1)
                && self.files[&module].1.items.contains(name)
            {
                return (module, false);
            }
        }
        (at.clone(), false)
    }
}

/// Groups of more than one that reach each other.
pub fn circles(graph: &Graph) -> Vec<BTreeSet<String>> {
    let reach: BTreeMap<&String, BTreeSet<&String>> = graph
        .keys()
        .map(|start| {
            let mut seen = BTreeSet::new();
            let mut open: Vec<&String> = graph[start].iter().collect();
            while let Some(next) = open.pop() {
                if seen.insert(next) {
                    open.extend(graph.get(next).into_iter().flatten());
                }
            }
            (start, seen)
        })
        .collect();
    let mut groups = BTreeSet::new();
    for (start, seen) in &reach {
        let back = |other: &&&String| reach.get(**other).is_some_and(|seen| seen.contains(*start));
        let group: BTreeSet<String> = seen.iter().filter(back).map(|s| (*s).clone()).collect();
        if group.len() > 1 {
            groups.insert(group);
        }
    }
    groups.into_iter().collect()
}

/// The graph of the children, files and folders, of each folder.
pub fn of_folders(graph: &Graph) -> BTreeMap<String, Graph> {
    let mut folders: BTreeMap<String, Graph> = BTreeMap::new();
    for (file, uses) in graph {
        for (cut, _) in file.match_indices('/').chain([(0, "")]) {
            let (folder, child) = below(file, cut);
            let children = folders.entry(folder.to_owned()).or_default();
            let used = children.entry(child.to_owned()).or_default();
            for other in uses {
                if other.starts_with(folder) && below(other, cut).0 == folder {
                    used.insert(below(other, cut).1.to_owned());
                }
            }
            used.remove(child);
        }
    }
    folders
}

/// The folder that ends at `cut`, with its stroke, and the child of it that holds the file.
fn below(file: &str, cut: usize) -> (&str, &str) {
    let (folder, rest) = if cut == 0 {
        ("", file)
    } else {
        file.split_at((cut + 1).min(file.len()))
    };
    (folder, rest.split('/').next().unwrap_or(rest))
}
