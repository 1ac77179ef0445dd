//! What is built in: each model with its name and description.

use super::fault::InputError;
use super::library::{ASKED_BY, Kind, builtin, names};
use serde::Serialize;

/// The kinds in the order they are listed.
pub const KINDS: [(Kind, &str, &str); 7] = [
    (Kind::Engine, "engine", "engines"),
    (Kind::Heater, "heater", "heaters"),
    (Kind::Hangar, "hangar", "hangars"),
    (Kind::Oil, "oil", "oils"),
    (Kind::Weather, "weather", "weather"),
    (Kind::Night, "night", "nights"),
    (Kind::Comparison, "comparison", "comparisons"),
];

/// A built-in model in one line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Entry {
    /// Its kind, in the singular.
    pub kind: &'static str,
    /// Its name.
    pub name: &'static str,
    /// The first paragraph of the comments at its head; of a weather record, where and from when it is.
    pub description: String,
}

/// The kind that a word names, in the singular or the plural.
///
/// *Errors*: no such kind, with the nearest.
pub fn kind(word: &str) -> Result<Kind, InputError> {
    let found = KINDS
        .iter()
        .find(|(_, one, many)| word == *one || word == *many);
    found.map(|(kind, ..)| *kind).ok_or_else(|| {
        let words = KINDS.iter().flat_map(|(_, one, many)| [*one, *many]);
        let fault = InputError::of(ASKED_BY, format!("`{word}` is no kind of model"));
        match crate::scenario::check::nearest(word, words) {
            Some(near) => fault.instead(near),
            None => {
                let all: Vec<&str> = KINDS.iter().map(|(_, _, many)| *many).collect();
                fault.suggest(format!("one of {}", all.join(", ")))
            }
        }
    })
}

/// The models of a kind, or of all.
pub fn entries(wanted: Option<Kind>) -> Vec<Entry> {
    let kinds = KINDS
        .into_iter()
        .filter(|(kind, ..)| wanted.is_none_or(|w| w == *kind));
    let entry = |kind, word, name| Entry {
        kind: word,
        name,
        description: match kind {
            Kind::Weather => record(name),
            _ => first_paragraph(builtin(kind, name).unwrap_or_default()),
        },
    };
    let of_kind = |(kind, word, _)| {
        names(kind)
            .into_iter()
            .map(move |name| entry(kind, word, name))
    };
    kinds.flat_map(of_kind).collect()
}

/// The comments at the head of a text, up to the first that is blank.
fn first_paragraph(text: &str) -> String {
    let comments = text.lines().map_while(|line| line.strip_prefix("//"));
    let words = comments
        .map(str::trim)
        .take_while(|words| !words.is_empty());
    words.collect::<Vec<_>>().join(" ")
}

/// `greensboro_nc_1996-02-04` is a record of Greensboro, NC, from 1996-02-04.
fn record(name: &str) -> String {
    let mut words: Vec<&str> = name.split('_').collect();
    let date = words.pop().unwrap_or("");
    let state = words.pop().unwrap_or("").to_uppercase();
    let capital = |word: &&str| {
        let (head, rest) = word.split_at(1.min(word.len()));
        head.to_uppercase() + rest
    };
    let town: Vec<String> = words.iter().map(capital).collect();
    format!("Recorded at {}, {state}, from {date}.", town.join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_built_in_model_has_a_description_of_whole_sentences() {
        let all = entries(None);
        assert_eq!(all.len(), super::super::library::MODELS.len());
        for entry in &all {
            let ended = entry.description.ends_with('.');
            assert!(ended && entry.description.len() > 10, "{entry:?}");
        }
        let find = |name: &str| &all.iter().find(|e| e.name == name).unwrap().description;
        assert_eq!(
            find("greensboro_nc_1996-02-04"),
            "Recorded at Greensboro, NC, from 1996-02-04."
        );
        assert_eq!(
            find("sae-50"),
            "SAE 50. Straight mineral, commercial grade 100."
        );
    }

    #[test]
    fn kinds_are_known_in_singular_and_plural_and_by_their_nearest() {
        assert_eq!(kind("engine").unwrap(), kind("engines").unwrap());
        assert!(
            kind("heatr")
                .unwrap_err()
                .to_string()
                .contains("Try: heater")
        );
    }
}
