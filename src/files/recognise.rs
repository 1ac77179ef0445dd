//! What kind of model file a text is, recognised by the keys it holds.

use super::fault::InputError;
use super::library::{Kind, builtin};
use crate::document::names::before;
use crate::document::{Node, Source, parse};
use crate::weather::holds_weather;

/// Keys by which each kind is known; the kind with the most of them is it.
const MARKS: &[(Kind, &[&str])] = &[
    (
        Kind::Night,
        &[
            "clock", "engine", "hangar", "weather", "covers", "initial", "circuit", "criteria",
            "oil",
        ],
    ),
    (Kind::Comparison, &["choices", "night"]),
    (
        Kind::Heater,
        &["kind", "power", "place", "hours", "thermostat"],
    ),
    (
        Kind::Hangar,
        &["time_constant", "air_speed", "wind_fraction", "cabin_above"],
    ),
    (Kind::Oil, &["grade", "at_40", "at_100", "pour_point"]),
    (
        Kind::Engine,
        &[
            "rows",
            "bore",
            "m_case",
            "m_head",
            "m_crank",
            "parts",
            "joints",
            "surfaces",
            "air_volumes",
            "part_groups",
        ],
    ),
];

/// The kind of a text; none if it has no key of any.
pub fn kind_of(source: &Source) -> Option<Kind> {
    let (file, text) = (source.file.as_str(), &*source.text);
    if [".csv", ".tsv", ".metar"]
        .iter()
        .any(|ending| file.ends_with(ending))
    {
        return Some(Kind::Weather);
    }
    let root = parse(source).root;
    let (count, kind) = MARKS
        .iter()
        .map(|(kind, keys)| {
            let there = |key: &&&str| root.at(key).or(root.at(before(key))).is_some();
            (keys.iter().filter(there).count(), *kind)
        })
        .rev()
        .max_by_key(|(count, _)| *count)?;
    if count > 0 {
        return Some(kind);
    }
    if file.ends_with(".ron") {
        return None;
    }
    if holds_weather(text) {
        return Some(Kind::Weather);
    }
    let first = text
        .lines()
        .find(|line| !line.trim().is_empty() && !line.starts_with('#'))?;
    (first.contains(',') && !first.contains('(')).then_some(Kind::Weather)
}

/// A name of the command line that is built in, but as a comparison or a night where the other is options; and what to do
/// with it.
pub fn other_builtin(name: &str, wanted: Kind) -> Option<InputError> {
    if builtin(wanted, name).is_some() {
        return None;
    }
    let fault = |is: &str, wanted: &str| {
        let what = format!("`{name}` is a built-in {is}, and a {wanted} is wanted here");
        InputError::of("the command line", what)
    };
    match wanted {
        Kind::Night => {
            let text = builtin(Kind::Comparison, name)?;
            let root = parse(&Source::new(name, text)).root;
            let night = root.at("night").and_then(Node::text)?;
            Some(fault("comparison", "night").suggest(format!(
                "run it with `coldsoak compare {name}`, or name the night that its choices share here: `{night}`"
            )))
        }
        Kind::Comparison => {
            builtin(Kind::Night, name)?;
            Some(fault("night", "comparison").suggest(format!(
                "run it with `coldsoak night {name}`; a comparison names it, as in `night: \"{name}\"`"
            )))
        }
        _ => None,
    }
}

/// Whether a text that could not be read as one kind is one of another; and what to do with it.
pub fn mistaken(source: &Source, wanted: Kind) -> Option<InputError> {
    let file = &source.file;
    let is = kind_of(source).filter(|is| *is != wanted)?;
    let an = |kind: Kind| match kind {
        Kind::Engine | Kind::Oil => format!("an {}", kind.word()),
        kind => format!("a {}", kind.word()),
    };
    let what = format!("this is {} file, and {} is wanted here", an(is), an(wanted));
    let fault = InputError::of(file, what);
    Some(match is {
        Kind::Night => fault.suggest(format!("run it with `coldsoak night {file}`")),
        Kind::Comparison => fault.suggest(format!("run it with `coldsoak compare {file}`")),
        Kind::Weather => fault.suggest(format!(
            "look at it with `coldsoak weather {file}`; a night names it, as in `weather: recorded(\"{file}\")`"
        )),
        _ => fault.suggest(format!(
            "a night names it, as in `{}: \"{file}\"`",
            is.key()
        )),
    })
}
