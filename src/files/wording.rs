//! The words for what is wrong with a text, for someone who has never seen this notation.

use super::fault::Fault;
use super::hours;
use super::lenient::{Expected, Failed};
use super::place::{first_line, whole_word};
use super::units::{self, is_number};
use crate::scenario::check::nearest;
use ron::error::Error;
use std::ops::Range;

/// The most letters of a value that are repeated in a message.
const MOST_SHOWN: usize = 48;
/// How a key is written, for keys whose absence is told.
const EXAMPLES: &[(&str, &str)] = &[
    ("title", "title: \"Tonight\""),
    ("clock", "clock: (begin: \"19:00\", departure: \"07:30\")"),
    ("begin", "begin: \"19:00\""),
    ("departure", "departure: \"07:30\""),
    ("engine", "engine: \"flat-four-5l9\""),
    ("hangar", "hangar: \"shut\""),
    (
        "weather",
        "weather: steady(outdoors: degC(-12), humidity: 0.8)",
    ),
    ("outdoors", "outdoors: degC(-12)"),
    ("night", "night: \"my-night.ron\""),
    (
        "choices",
        "choices: [(name: \"fan\", heaters: [(heater: \"bay-fan-350w\")])]",
    ),
    ("heater", "heater: \"bay-fan-350w\""),
    ("name", "name: \"a name\""),
    ("power", "power: W(350)"),
    ("place", "place: at(\"bottom\")"),
    ("lag", "lag: h(1.5)"),
];

/// A file that holds nothing.
pub(super) fn nothing(file: &str, text: &str) -> Option<Fault> {
    let first = text
        .lines()
        .map(str::trim)
        .find(|line| !line.is_empty() && !line.starts_with("//"));
    if let Some(first) = first
        && !first.starts_with("/*")
        && !first.starts_with("#!")
    {
        let word = first.trim_start_matches(|c: char| c.is_alphanumeric() || c == '_');
        let help = "a model file begins with `(` and ends with `)`; between them stand lines such as `title: \"Tonight\",`";
        if !word.trim_start().starts_with('(') && !first.starts_with(')') {
            let at = text.find(first).unwrap_or(0);
            let what = if first.starts_with('{') {
                "the file begins with `{`, and its names are perhaps in quotes: that is JSON"
            } else {
                "the file does not begin with a round bracket"
            };
            let fault = Fault::of(file, what).at(text, first_line(text, &(at..at + first.len())));
            return Some(fault.help(help));
        }
    }
    let said = text.lines().any(|line| {
        let line = line.trim();
        !line.is_empty() && !line.starts_with("//")
    });
    let help = "print one of the same kind with `coldsoak catalogue` and change it; a night begins with `(` and ends with `)`";
    (!said).then(|| Fault::of(file, "the file is empty").help(help))
}

/// The name that was meant, if one is near.
pub(super) fn meant<'a>(found: &str, among: &[&'a str]) -> Option<&'a str> {
    nearest(found, among.iter().copied())
}

pub(super) fn under(path: &str) -> String {
    if path.is_empty() {
        String::new()
    } else {
        format!(" under `{path}`")
    }
}

pub(super) fn unknown_key(
    file: &str,
    text: &str,
    place: Range<usize>,
    found: &str,
    expected: &[&str],
    path: &str,
) -> Fault {
    let fault =
        Fault::of(file, format!("there is no key `{found}`{}", under(path))).at(text, place);
    match meant(found, expected) {
        Some(near) => fault.help(format!("did you mean `{near}`?")),
        None => fault.help(format!(
            "the keys that may stand here: {}",
            expected.join(", ")
        )),
    }
}

pub(super) fn twice(file: &str, text: &str, key: &str, place: Range<usize>) -> Fault {
    Fault::of(file, format!("the key `{key}` stands there twice"))
        .at(text, place)
        .help("leave one of the two out")
}

pub(super) fn missing_key(
    file: &str,
    text: &str,
    place: Range<usize>,
    field: &str,
    path: &str,
) -> Fault {
    let place = first_line(text, &place);
    let fault =
        Fault::of(file, format!("the key `{field}` is missing{}", under(path))).at(text, place);
    match EXAMPLES.iter().find(|(key, _)| *key == field) {
        Some((_, example)) => fault.help(format!("add it, as in `{example}`")),
        None => fault.help(format!("add `{field}: ...` between the brackets")),
    }
}

/// The bracket a file begins with.
pub(super) fn first_bracket(text: &str) -> Range<usize> {
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        if !line.trim_start().starts_with("//")
            && let Some(inside) = line.find('(')
        {
            return at + inside..at + inside + 1;
        }
        at += line.len();
    }
    0..0
}

pub(super) fn trailing(file: &str, text: &str, at: usize) -> Fault {
    let place = first_line(text, &(at..text.len()));
    Fault::of(file, "more text follows after the last bracket is closed")
        .at(text, place)
        .help("take it out, or look for a bracket that closes too early above")
}

/// A value that cannot be read; `value` is all of it, `at` where the reader stopped.
pub(super) fn value(
    file: &str,
    text: &str,
    failed: &Failed,
    code: &Error,
    at: Range<usize>,
    value: Option<Range<usize>>,
) -> Fault {
    let word = whole_word(text, at);
    let place = match (&value, code) {
        // The unit or choice that is not known, and not what stands in its brackets.
        (Some(value), Error::NoSuchEnumVariant { found, .. }) => text[value.clone()]
            .find(found.as_str())
            .map_or(word.clone(), |i| {
                value.start + i..value.start + i + found.len()
            }),
        // A word in the brackets of a choice, such as `at(bottom)`, and not the choice.
        (Some(value), _)
            if matches!(
                failed.expected,
                Some(Expected::Text | Expected::Number | Expected::Whole | Expected::OneOf(..))
            ) && text[value.clone()].ends_with(')')
                && value.start < word.start
                && word.end < value.end =>
        {
            word.clone()
        }
        (Some(value), _) => value.clone(),
        (None, _) => word.clone(),
    };
    let place = first_line(text, &place);
    let there = text[place.clone()].trim();
    // A value of many letters is shown by its first ones.
    let cut = there.char_indices().nth(MOST_SHOWN).map(|(i, _)| i);
    let shortened = cut.map(|cut| format!("{}...", &there[..cut]));
    let there = shortened.as_deref().unwrap_or(there);
    let whole = value.map_or(there, |value| &text[value]);
    let (what, help) = said(failed, code, there, whole);
    let tail = if failed.path.is_empty() {
        String::new()
    } else {
        format!(", at `{}`", failed.path)
    };
    let fault = Fault::of(file, format!("{what}{tail}")).at(text, place);
    match help {
        Some(help) => fault.help(help),
        None => fault,
    }
}

fn said(failed: &Failed, code: &Error, there: &str, whole: &str) -> (String, Option<String>) {
    if let Error::Message(said) = code {
        return (
            said.trim_end_matches('.').to_owned(),
            units::of_message(said),
        );
    }
    if let Some(said) = hours::wanted(&failed.path, whole) {
        return said;
    }
    if matches!(code, Error::ExceededRecursionLimit) {
        let what = "brackets are nested more than 128 deep".to_owned();
        return (what, Some("a model file needs ten at most".to_owned()));
    }
    if let Error::ExpectedDifferentLength { expected, found } = code {
        return (
            format!("{expected} are wanted here, there are {found}"),
            None,
        );
    }
    if matches!(code, Error::ExpectedMapColon) {
        let help = format!("a key is followed by a colon: `{there}: ...`");
        return (format!("a colon is missing after `{there}`"), Some(help));
    }
    let scalar = matches!(
        failed.expected,
        Some(Expected::Text | Expected::Number | Expected::Whole)
    );
    let stands = |wanted: &str| match there {
        "(" | ")" if scalar => format!("{wanted} is missing"),
        "" => format!("{wanted} is missing"),
        _ => format!("`{there}` stands where {wanted} is expected"),
    };
    match failed.expected {
        Some(Expected::OneOf(name, choices)) => {
            if let Some(said) = units::wanted(name, choices, there, whole, code) {
                return said;
            }
            let help = match meant(there, choices) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("what may stand here: {}", choices.join(", ")),
            };
            (stands("one of a few words"), Some(help))
        }
        Some(Expected::Number) => (
            stands("a number"),
            Some("such as 15, -9.5 or 0.8, without quotes".to_owned()),
        ),
        Some(Expected::Whole) => (
            stands("a whole number"),
            Some("such as 1 or 4, without unit or fraction".to_owned()),
        ),
        Some(Expected::Text) => {
            let plain = is_number(there)
                || there
                    .chars()
                    .all(|c| c.is_alphanumeric() || "-_.:".contains(c));
            let help = if plain && !there.is_empty() {
                format!("put it in quotes: \"{there}\"")
            } else {
                "put a name or a time in quotes, such as \"shut\" or \"19:00\"".to_owned()
            };
            (stands("a text in quotes"), Some(help))
        }
        Some(Expected::YesNo) => (stands("`true` or `false`"), None),
        Some(Expected::Fields) => (
            stands("a group of keys in round brackets"),
            Some("such as (key: value, other_key: value)".to_owned()),
        ),
        Some(Expected::List) => (
            stands("a list in square brackets"),
            Some("such as [one, two]".to_owned()),
        ),
        Some(Expected::Tuple(n)) => (
            stands(&format!("a group of {n} values in round brackets")),
            None,
        ),
        Some(Expected::Map) => (
            stands("a list of names in curly brackets"),
            Some("such as { \"UL\": m2K_W(0.3) }".to_owned()),
        ),
        None => (code.to_string().trim_end_matches('.').to_owned(), None),
    }
}
