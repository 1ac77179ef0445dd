//! Problems of a scenario as faults of the files it came from.
//!
//! A problem knows its path in the scenario. The scenario's numbers stand in several files: the night, and the
//! engine, oil, hangar and heaters that it names. The fault is shown where the path leads furthest.

use super::fault::InputError;
use super::library::Kind;
use super::sources::{Sources, label};
use crate::document::{Node, Source, Span, parse};
use crate::scenario::check::Problem;
use crate::scenario::plausibility::PlausibilityWarning;
use std::ops::Range;

/// Problems of a night as faults of its file and of those it names.
pub fn located(problems: &[Problem], file: &str, sources: &Sources) -> Vec<InputError> {
    locate_all(problems, file, "", sources)
}

/// Problems of one choice of a comparison, as faults of the comparison's file, of its night, and of those they name.
pub fn located_choice(
    problems: &[Problem],
    choice: &str,
    file: &str,
    sources: &Sources,
) -> Vec<InputError> {
    let prefix = sources.named(file).and_then(|source| {
        let root = parse(source).root;
        let choices = root.at("choices")?.items();
        let named = |entry: &Node| entry.at("name").and_then(Node::text) == Some(choice);
        Some(format!("choices[{}]", choices.iter().position(named)?))
    });
    locate_all(problems, file, &prefix.unwrap_or_default(), sources)
}

/// Numbers of a night that are hard to believe, at their places; of one choice, if one is named.
pub fn doubted(
    doubts: &[PlausibilityWarning],
    choice: Option<&str>,
    file: &str,
    sources: &Sources,
) -> Vec<InputError> {
    let problems: Vec<Problem> = doubts
        .iter()
        .map(|doubt| Problem {
            path: doubt.path.clone(),
            word: None,
            what: format!("{}; usual is {}", doubt.what, doubt.usual),
            help: None,
            instead: None,
        })
        .collect();
    match choice {
        Some(choice) => located_choice(&problems, choice, file, sources),
        None => located(&problems, file, sources),
    }
}

fn locate_all(
    problems: &[Problem],
    file: &str,
    prefix: &str,
    sources: &Sources,
) -> Vec<InputError> {
    problems
        .iter()
        .map(|problem| {
            let mut error = InputError::of(file, problem.what.clone()).path(problem.path.clone());
            error.suggestion.clone_from(&problem.help);
            let mut exact = false;
            if let Some((source, bytes, found)) = place(problem, file, prefix, sources) {
                source.file.clone_into(&mut error.file);
                error = error.at(source.text.clone(), bytes);
                exact = found;
            }
            match (&problem.instead, &problem.word) {
                (Some(write), _) if exact => error.instead(write),
                (Some(write), Some(_)) => error.suggest(format!("\"{write}\"")),
                (Some(write), None) => {
                    let key = problem.path.rsplit('.').next().unwrap_or("");
                    error.suggest(format!("{key}: {write}"))
                }
                _ => error,
            }
        })
        .collect()
}

/// The place in one of the files that a path leads to.
struct Lead<'s> {
    source: &'s Source,
    /// The key, or the value itself for an item of a list.
    key: Span,
    value: Span,
    /// How many steps of the path are not there.
    missing: usize,
}

impl<'s> Lead<'s> {
    /// The place that a path, or as much of it as is there, leads to; none if not even its first step is.
    fn of(path: &str, source: &'s Source) -> Option<Self> {
        let root = parse(source).root;
        let (node, rest) = root.furthest(path);
        let found = path[..path.len() - rest.len()].trim_end_matches('.');
        let holder = found.rfind(['.', '[']).map_or("", |at| &found[..at]);
        let key = found[holder.len()..].trim_start_matches('.');
        let named = root.furthest(holder).0.key_span(key);
        (!found.is_empty()).then(|| Self {
            source,
            key: named.unwrap_or(node.span),
            value: node.span,
            missing: steps(rest.trim_start_matches('.')),
        })
    }
}

/// Where it stands, and whether that is all of the word or of the value.
fn place<'s>(
    problem: &Problem,
    file: &str,
    prefix: &str,
    sources: &'s Sources,
) -> Option<(&'s Source, Range<usize>, bool)> {
    let mut leads = Vec::new();
    follow(&problem.path, file, prefix, sources, &mut leads);
    let best = leads.iter().min_by_key(|lead| lead.missing);
    if let Some(word) = &problem.word {
        let sure = best.filter(|lead| lead.missing == 0);
        // The word may be the key itself.
        let keys = sure.into_iter().map(|lead| (lead.source, lead.key.range()));
        let values = sure.into_iter().chain(&leads);
        let values = values.map(|lead| (lead.source, lead.value.range()));
        let whole = sources.texts().map(|source| (source, 0..source.text.len()));
        for (source, within) in keys.chain(values).chain(whole) {
            if let Some(at) = find_word(&source.text, word, within) {
                return Some((source, at, true));
            }
        }
    }
    best.map(|lead| {
        let text = &lead.source.text;
        let whole = lead.missing == 0 && !text[lead.value.range()].contains('\n');
        let bytes = if whole { lead.value } else { lead.key };
        let line = text[bytes.range()].lines().next().unwrap_or("").trim_end();
        let start = bytes.start as usize;
        (lead.source, start..start + line.len(), whole)
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
    let Some(source) = sources.named(file) else {
        return;
    };
    let root = parse(source).root;
    let here = |path: &str| match prefix {
        "" => path.to_owned(),
        prefix => format!("{prefix}.{path}"),
    };
    // A step back to the prefix itself says nothing.
    let lead = Lead::of(&here(path), source);
    leads.extend(lead.filter(|lead| lead.missing < steps(path)));
    let quoted = |path: &str| root.at(path).and_then(Node::text);
    if let Some((key, kind, rest)) = named_by(path)
        && let Some(other) = quoted(&here(&key))
        && let Some(source) = sources.named(&label(kind, other))
    {
        leads.extend(Lead::of(rest, source));
    }
    if !prefix.is_empty()
        && let Some(night) = quoted("night")
    {
        follow(path, &label(Kind::Night, night), "", sources, leads);
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
    path.split(['.', '['])
        .filter(|step| !step.is_empty())
        .count()
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
