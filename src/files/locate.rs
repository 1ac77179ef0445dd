//! Problems of a scenario as faults of the files it came from.
//!
//! A problem knows its path in the scenario. The scenario's numbers stand in several files: the night, and the
//! engine, oil, hangar and heaters that it names. The fault is shown where the path leads furthest.

use super::fault::Fault;
use super::library::Kind;
use super::outline::{Found, Outline};
use super::place::first_line;
use super::sources::{Sources, label};
use crate::scenario::check::Problem;
use crate::scenario::plausibility::PlausibilityWarning;
use std::ops::Range;

/// Problems of a night as faults of its file and of those it names.
pub fn located(problems: &[Problem], file: &str, sources: &Sources) -> Vec<Fault> {
    locate_all(problems, file, "", sources)
}

/// Problems of one choice of a comparison, as faults of the comparison's file, of its night, and of those they name.
pub fn located_choice(
    problems: &[Problem],
    choice: &str,
    file: &str,
    sources: &Sources,
) -> Vec<Fault> {
    let prefix = sources.named_text(file).and_then(|(_, text)| {
        let outline = Outline::of(text);
        (0..)
            .map(|i| format!("choices[{i}]"))
            .take_while(|path| outline.find(path).is_some_and(|f| f.missing == 0))
            .find(|path| outline.quoted(&format!("{path}.name"), text) == Some(choice))
    });
    locate_all(problems, file, &prefix.unwrap_or_default(), sources)
}

/// Numbers of a night that are hard to believe, at their places; of one choice, if one is named.
pub fn doubted(
    doubts: &[PlausibilityWarning],
    choice: Option<&str>,
    file: &str,
    sources: &Sources,
) -> Vec<Fault> {
    let problems: Vec<Problem> = doubts
        .iter()
        .map(|doubt| Problem {
            path: doubt.path.clone(),
            word: None,
            what: doubt.what.clone(),
            help: Some(format!("usual is {}", doubt.usual)),
        })
        .collect();
    match choice {
        Some(choice) => located_choice(&problems, choice, file, sources),
        None => located(&problems, file, sources),
    }
}

fn locate_all(problems: &[Problem], file: &str, prefix: &str, sources: &Sources) -> Vec<Fault> {
    problems
        .iter()
        .map(|problem| {
            let what = match problem.path.as_str() {
                "" => problem.what.clone(),
                path => format!("{} (`{path}`)", problem.what),
            };
            let mut fault = Fault::of(file, what);
            fault.help.clone_from(&problem.help);
            match place(problem, file, prefix, sources) {
                Some((name, text, bytes)) => {
                    name.clone_into(&mut fault.file);
                    fault.at(text, bytes)
                }
                None => fault,
            }
        })
        .collect()
}

/// One of the files, with the place in it that the path leads to.
struct Lead<'s> {
    name: &'s str,
    text: &'s str,
    found: Found,
}

fn place<'s>(
    problem: &Problem,
    file: &str,
    prefix: &str,
    sources: &'s Sources,
) -> Option<(&'s str, &'s str, Range<usize>)> {
    let mut leads = Vec::new();
    follow(&problem.path, file, prefix, sources, &mut leads);
    let best = leads.iter().min_by_key(|lead| lead.found.missing);
    if let Some(word) = &problem.word {
        let sure = best.filter(|lead| lead.found.missing == 0);
        // The word may be the key itself.
        let keys = sure.into_iter().map(|lead| (lead, lead.found.key.clone()));
        let values = sure.into_iter().chain(&leads);
        let values = values.map(|lead| (lead, lead.found.value.clone()));
        for (Lead { name, text, .. }, within) in keys.chain(values) {
            if let Some(at) = find_word(text, word, within) {
                return Some((name, text, at));
            }
        }
        for (name, text) in sources.texts() {
            if let Some(at) = find_word(text, word, 0..text.len()) {
                return Some((name, text, at));
            }
        }
    }
    best.map(|Lead { name, text, found }| {
        let whole = found.missing == 0 && !text[found.value.clone()].contains('\n');
        let bytes = if whole { &found.value } else { &found.key };
        (*name, *text, first_line(text, bytes))
    })
}

/// Collects the places a path leads to, in the file itself and in those it names.
fn follow<'s>(
    path: &str,
    file: &str,
    prefix: &str,
    sources: &'s Sources,
    leads: &mut Vec<Lead<'s>>,
) {
    let Some((name, text)) = sources.named_text(file) else {
        return;
    };
    let outline = Outline::of(text);
    let here = if prefix.is_empty() {
        path.to_owned()
    } else {
        format!("{prefix}.{path}")
    };
    if let Some(found) = outline.find(&here) {
        // A step back to the prefix itself says nothing.
        if found.missing < steps(path) {
            leads.push(Lead { name, text, found });
        }
    }
    if let Some((key, kind, rest)) = named_by(path) {
        let key = if prefix.is_empty() {
            key
        } else {
            format!("{prefix}.{key}")
        };
        if let Some(other) = outline.quoted(&key, text) {
            follow_in(rest, &label(kind, other), sources, leads);
        }
    }
    if !prefix.is_empty()
        && let Some(night) = outline.quoted("night", text)
    {
        follow(path, &label(Kind::Night, night), "", sources, leads);
    }
}

fn follow_in<'s>(path: &str, file: &str, sources: &'s Sources, leads: &mut Vec<Lead<'s>>) {
    if let Some((name, text)) = sources.named_text(file)
        && let Some(found) = Outline::of(text).find(path)
    {
        leads.push(Lead { name, text, found });
    }
}

/// The key that names the file in which the rest of a path stands.
fn named_by(path: &str) -> Option<(String, Kind, &str)> {
    let (head, rest) = path.split_once('.')?;
    let kind = match head {
        "engine" => Kind::Engine,
        "oil" => Kind::Oil,
        "hangar" => Kind::Hangar,
        _ if head.starts_with("heaters[") => {
            return Some((format!("{head}.heater"), Kind::Heater, rest));
        }
        _ => return None,
    };
    Some((head.to_owned(), kind, rest))
}

/// The steps of a path.
fn steps(path: &str) -> usize {
    1 + path.matches(['.', '[']).count()
}

/// Where a word stands by itself in a part of a text, outside of comments.
fn find_word(text: &str, word: &str, within: Range<usize>) -> Option<Range<usize>> {
    let is_word = |c: char| c.is_alphanumeric() || c == '_';
    let apart = |c: Option<char>| c.is_none_or(|c| !is_word(c));
    text[within.clone()]
        .match_indices(word)
        .map(|(at, _)| within.start + at)
        .find(|&at| {
            let line_start = text[..at].rfind('\n').map_or(0, |i| i + 1);
            !word.is_empty()
                && !text[line_start..at].contains("//")
                && apart(text[..at].chars().next_back())
                && apart(text[at + word.len()..].chars().next())
        })
        .map(|at| at..at + word.len())
}
