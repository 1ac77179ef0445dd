//! A night that differs from another in some of its keys: a choice, a sample, a finer mesh, another switch-on time.

use super::path::{PathError, Tree};
use super::uncertain_inputs::measure;
use crate::document::{Node, Value};
use crate::night::NightError;
use crate::scenario::check::Problem;
use crate::scenario::document::Scenario;
use serde::Serialize;

/// A named change of some keys of a base night: the only way in which a study varies a night.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Case {
    /// What it is called.
    pub name: String,
    /// What is set, in this order, at each path; the empty path is the whole night.
    pub set: Vec<(String, Node)>,
    /// Paths of numbers that count as measured: their ranges go with them.
    pub measured: Vec<String>,
}

impl Case {
    /// A case that changes nothing yet.
    pub fn named(name: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            ..Self::default()
        }
    }

    /// A choice that was read as a whole night.
    pub fn whole(name: impl Into<String>, night: &Scenario) -> Self {
        Self::named(name).set("", night)
    }

    /// The same case with one more value, at a path such as `heaters[0].hours`.
    pub fn set<T: Serialize>(mut self, path: impl Into<String>, value: &T) -> Self {
        // A value that cannot be written is the empty word, which the reader refuses at its path.
        let value = Node::of(value).unwrap_or(Node::free(Value::Word(String::new())));
        self.set.push((path.into(), value));
        self
    }

    /// The same case with a number in this unit, or a plain one.
    pub fn number(mut self, path: &str, number: f64, unit: Option<&str>) -> Self {
        self.set.push((path.to_owned(), Node::number(number, unit)));
        self
    }

    /// The same case with a number that counts as measured: it takes its range along.
    pub fn measured(mut self, path: &str, number: f64, unit: Option<&str>) -> Self {
        self.measured.push(path.to_owned());
        self.number(path, number, unit)
    }

    /// This case, and then another.
    pub fn and(mut self, then: Self) -> Self {
        self.set.extend(then.set);
        self.measured.extend(then.measured);
        self
    }

    /// The error that it could not be computed.
    pub fn failed(&self, source: impl Into<NightError>) -> CaseError {
        CaseError {
            case: self.name.clone(),
            source: source.into(),
        }
    }

    /// The night it makes of a base.
    ///
    /// *Errors*: a path that leads nowhere, or a value that cannot stand there.
    pub fn night(self, base: &Tree) -> Result<Scenario, PathError> {
        let mut tree = base.clone();
        for (path, value) in self.set {
            tree.put(&path, value)?;
        }
        let mut night = tree.scenario()?;
        for path in &self.measured {
            measure(&mut night, path)?;
        }
        Ok(night)
    }
}

impl From<PathError> for Problem {
    fn from(error: PathError) -> Self {
        let what = error.to_string();
        let (path, instead) = match error {
            PathError::Unknown { path, near } => (path, near),
            PathError::Refused { path, .. } => (path, None),
        };
        Self {
            path,
            word: None,
            what,
            help: None,
            instead,
        }
    }
}

impl From<PathError> for NightError {
    fn from(error: PathError) -> Self {
        Self::Problems(vec![error.into()])
    }
}

impl From<Vec<Problem>> for NightError {
    fn from(problems: Vec<Problem>) -> Self {
        Self::Problems(problems)
    }
}

/// A case that could not be computed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{case}: {source}")]
pub struct CaseError {
    /// Which case.
    pub case: String,
    /// Why.
    pub source: NightError,
}

#[cfg(test)]
mod tests {
    use super::super::tests::scenario;
    use super::*;
    use crate::files::night::load_builtin;
    use crate::scenario::heater::Heater;

    #[test]
    fn a_case_sets_what_it_names_and_nothing_else() {
        let night = scenario();
        let base = Tree::of(&night).unwrap();
        assert_eq!(Case::named("nothing").night(&base).unwrap(), night);
        let plugged = Case::named("plugged").set("covers.inlet_plug", &0.97);
        let mut wanted = night.clone();
        wanted.covers.inlet_plug = 0.97;
        assert_eq!(plugged.clone().night(&base).unwrap(), wanted);
        let slower =
            plugged
                .clone()
                .and(Case::default().number("hangar.time_constant", 2.0, Some("h")));
        assert_eq!(
            slower.night(&base).unwrap().hangar.time_constant.si(),
            7200.0
        );
        let lost = Case::named("lost").set("covers.inlet_plugs", &0.97);
        let error = NightError::from(lost.night(&base).unwrap_err()).to_string();
        assert!(
            error.contains("did you mean `covers.inlet_plug`"),
            "{error}"
        );
    }

    #[test]
    fn an_array_is_set_as_a_list() {
        let night = scenario();
        let base = Tree::of(&night).unwrap();
        let heater = &night.heaters[0];
        for heaters in [vec![heater], vec![heater, heater]] {
            let of_list = Case::default().set("heaters", &heaters);
            let of_array = match heaters.as_slice() {
                [one] => Case::default().set("heaters", &[one]),
                [one, other] => Case::default().set("heaters", &[one, other]),
                _ => unreachable!(),
            };
            let read = of_array.night(&base).unwrap();
            assert_eq!(read.heaters.len(), heaters.len());
            assert_eq!(read, of_list.night(&base).unwrap());
        }
        let none: [Heater; 0] = [];
        let unheated = Case::default().set("heaters", &none).night(&base).unwrap();
        assert!(unheated.heaters.is_empty());
    }

    /// Every built-in night as a case of another, to the last bit.
    #[test]
    fn a_whole_night_is_a_case_of_any_other() {
        let base = Tree::of(&scenario()).unwrap();
        for name in [
            "demo",
            "six-after-flight",
            "radial-underneath",
            "block-cooling",
        ] {
            let night = load_builtin(name).unwrap().scenario;
            assert_eq!(Case::whole(name, &night).night(&base).unwrap(), night);
        }
    }
}
