//! The built-in models: the files of `models/`, in the binary.

use super::written_units::HasRanges;
use crate::document::InputError;
use crate::document::names::nearest;

/// The kinds of model.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// An engine with the air around it.
    Engine,
    /// A heater.
    Heater,
    /// A hangar.
    Hangar,
    /// An oil.
    Oil,
    /// Recorded weather.
    Weather,
    /// A night.
    Night,
    /// A comparison of choices through one night.
    Comparison,
}

impl Kind {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Engine => "engine",
            Self::Heater => "heater",
            Self::Hangar => "hangar",
            Self::Oil => "oil",
            Self::Weather => "weather record",
            Self::Night => "night",
            Self::Comparison => "comparison",
        }
    }
    /// The key of a night under which one is named.
    pub fn key(self) -> &'static str {
        match self {
            Self::Weather => "weather",
            kind => kind.word(),
        }
    }
    /// Where its built-in models stand under `models/`, and how their names end.
    pub(super) fn folder_and_ending(self) -> (&'static str, &'static str) {
        match self {
            Self::Engine => ("engines", ".ron"),
            Self::Heater => ("heaters", ".ron"),
            Self::Hangar => ("hangars", ".ron"),
            Self::Oil => ("oils", ".ron"),
            Self::Weather => ("weather", ".csv"),
            Self::Night => ("nights", ".ron"),
            Self::Comparison => ("comparisons", ".ron"),
        }
    }
}

macro_rules! models {
    ($($kind:ident $folder:literal $ending:literal: $($name:literal),+ $(,)?;)+) => {
        /// Every built-in model: kind, name, text.
        pub const MODELS: &[(Kind, &str, &str)] = &[
            $($((Kind::$kind, $name, include_str!(concat!("../../models/", $folder, "/", $name, $ending))),)+)+
        ];
    };
}

models! {
    Engine "engines" ".ron": "flat-four-3l1", "flat-four-5l9", "flat-six-8l5", "radial-nine", "aluminium-block";
    Heater "heaters" ".ron": "bay-fan-250w", "bay-fan-350w", "household-fan-1500w", "sump-pad-150w",
        "sump-pad-250w", "barrel-rings-200w", "lamp-100w";
    Hangar "hangars" ".ron": "shut", "breezy", "open-shed";
    Oil "oils" ".ron": "15w-50", "20w-50", "sae-30", "sae-40", "sae-50", "sae-60";
    Weather "weather" ".csv": "greensboro_nc_1996-02-04", "chicago_il_1986-01-06", "newark_nj_2013-01-22",
        "alamosa_co_2016-01-01";
    Night "nights" ".ron": "demo", "small-engine-top", "six-after-flight", "block-cooling", "radial-underneath",
        "thermostat-pad";
    Comparison "comparisons" ".ron": "demo", "class-places", "class-oil", "class-covers";
}

/// The text of a built-in model.
pub fn builtin(kind: Kind, name: &str) -> Option<&'static str> {
    MODELS
        .iter()
        .find(|(k, n, _)| *k == kind && *n == name)
        .map(|(_, _, text)| *text)
}

/// The names of the built-in models of a kind.
pub fn names(kind: Kind) -> Vec<&'static str> {
    MODELS
        .iter()
        .filter(|(k, _, _)| *k == kind)
        .map(|(_, name, _)| *name)
        .collect()
}

/// The error that a name is not built in, with what to write in its place; `at` puts it where the name stands.
pub(super) fn unknown(kind: Kind, name: &str, at: impl FnOnce(String) -> InputError) -> InputError {
    let known = names(kind);
    let ending = kind.folder_and_ending().1;
    let error = at(format!("there is no built-in {} `{name}`", kind.word()));
    match nearest(name, known.iter().copied()) {
        Some(near) => error.instead(near),
        None => error.suggest(format!(
            "one of {}; a file of your own is named with its ending: \"{name}{ending}\"",
            known.join(", ")
        )),
    }
}

/// Where errors about names that were typed come from.
pub const ASKED_BY: &str = "the command line";

/// The text of a built-in model that was named on the command line.
///
/// *Errors*: no such model, with the nearest name.
pub fn known(kind: Kind, name: &str) -> Result<&'static str, InputError> {
    let at = |what| InputError::of(ASKED_BY, what);
    builtin(kind, name).ok_or_else(|| unknown(kind, name, at))
}

/// A built-in engine, oil, hangar or heater as a value, for scenarios built in code.
///
/// *Errors*: no such model, or one that is not of this type; the text says which.
pub fn model<T: crate::document::Read + HasRanges>(
    kind: Kind,
    name: &str,
) -> Result<T, super::fault::FileError> {
    let at = |what| InputError::of(name, what);
    let text = builtin(kind, name).ok_or_else(|| unknown(kind, name, at))?;
    super::ron::parse_model(&crate::document::Source::new(name, text))
}
