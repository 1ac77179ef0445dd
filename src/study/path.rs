//! A number in a Scenario, named by a path as the `uncertain` of model files spell it.
//!
//! A Scenario is turned into a tree, in which a step of a path is a key, the word of a choice, or an index: `hangar.time_constant`,
//! `heaters[0].kind.bay_fan.flow`, `engine.parts[3].mass`. The words of choices may be left out. A quantity stands in the
//! tree under its unit, so a number can be set in any unit its type can be written in.

use crate::document::{Node, read_node};
use crate::scenario::document::Scenario;

pub use crate::document::{PathError, spelt};

/// A Scenario as a tree in which numbers can be set.
#[derive(Debug, Clone)]
pub struct Tree(Node);

/// A number with the unit it is kept in; plain numbers have none.
#[derive(Debug, Clone, PartialEq)]
pub struct PathNumber {
    /// The number.
    pub value: f64,
    /// Its unit, such as `kg` or `degC`.
    pub unit: Option<String>,
}

impl Tree {
    /// The tree of a Scenario.
    ///
    /// *Errors*: none for a Scenario that passes the gate.
    pub fn of(scenario: &Scenario) -> Result<Self, PathError> {
        Node::of(scenario)
            .map(Self)
            .map_err(|e| PathError::Refused {
                path: String::new(),
                why: e.to_string(),
            })
    }

    /// The number at a path, in the unit it is kept in.
    ///
    /// *Errors*: no number there; the nearest path that has one is named.
    pub fn number(&self, path: &str) -> Result<PathNumber, PathError> {
        let found = self.0.at(path).and_then(Node::measured);
        let kept = found.map(|(value, unit)| PathNumber {
            value,
            unit: unit.map(str::to_owned),
        });
        kept.ok_or_else(|| self.0.unknown(path, &self.paths()))
    }

    /// Puts a value at a path, whatever stands there; the whole night at the empty path.
    ///
    /// *Errors*: nothing stands there; the nearest path of a number is named.
    pub fn put(&mut self, path: &str, value: Node) -> Result<(), PathError> {
        if self.0.at(path).is_none() {
            return Err(self.0.unknown(path, &self.paths()));
        }
        self.0.set(path, value)
    }

    /// The Scenario of the tree; its numbers may be out of their limits.
    ///
    /// *Errors*: what was set is not a Scenario: a unit that the number cannot have.
    pub fn scenario(self) -> Result<Scenario, PathError> {
        let (scenario, errors) = read_node(&self.0);
        scenario.ok_or_else(|| {
            let first = errors.kept().first();
            PathError::Refused {
                path: first.map_or(String::new(), |error| error.path.clone()),
                why: first.map_or(String::new(), |error| error.message.clone()),
            }
        })
    }

    /// Every path that leads to a number, in the order of the tree; but not what is said about numbers, and not the
    /// weather, which is given.
    pub fn paths(&self) -> Vec<String> {
        let mut found = self.0.numbers(&["uncertain", "weather"]);
        for path in &mut found {
            for form in ["opposed", "body"] {
                if let Some(rest) = path.strip_prefix(&format!("engine.{form}.")) {
                    *path = format!("engine.{rest}");
                }
            }
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::scenario;
    use super::*;

    #[test]
    fn a_number_is_read_and_set_in_any_of_its_units() {
        let mut tree = Tree::of(&scenario()).unwrap();
        assert_eq!(
            tree.number("hangar.time_constant").unwrap().value,
            1.5 * 3600.0
        );
        tree.put("hangar.time_constant", Node::number(2.0, Some("h")))
            .unwrap();
        tree.put("engine.bay.fin_air_fraction", Node::number(0.3, None))
            .unwrap();
        tree.put(
            "heaters[0].kind.bay_fan.flow",
            Node::number(6.0, Some("g_s")),
        )
        .unwrap();
        let set = tree.scenario().unwrap();
        assert_eq!(set.hangar.time_constant.si(), 7200.0);
        let again = Tree::of(&set).unwrap();
        assert_eq!(
            again.number("engine.bay.fin_air_fraction").unwrap().value,
            0.3
        );
        let flow = again.number("heaters[0].kind.bay_fan.flow").unwrap();
        assert!((flow.value - 0.006).abs() < 1e-15 && flow.unit.as_deref() == Some("kg_s"));
    }

    /// A word with one value in brackets, as the joints of the radial engine have it.
    #[test]
    fn the_last_step_of_a_path_may_be_the_word_of_a_number() {
        let night = crate::files::night::load_builtin("radial-underneath")
            .unwrap()
            .scenario;
        let mut tree = Tree::of(&night).unwrap();
        let (path, short) = ("engine.joints[0].contact.total", "engine.joints[0].contact");
        assert_eq!(tree.number(path).unwrap().value, 20.0);
        tree.put(path, Node::number(25.0, Some("W_K"))).unwrap();
        assert_eq!(tree.number(path).unwrap().value, 25.0);
        let again = Tree::of(&tree.scenario().unwrap()).unwrap();
        assert_eq!(again.number(path).unwrap().value, 25.0);
        assert!(again.number(short).is_err());
    }

    #[test]
    fn a_path_has_one_spelling() {
        let tree = Tree::of(&scenario()).unwrap();
        let all = tree.paths();
        assert!(all.len() > 50, "{}", all.len());
        for path in &all {
            assert_eq!(spelt(path), *path);
        }
        assert_eq!(spelt("heaters.0.power"), "heaters[0].power");
        assert_eq!(
            tree.number("heaters.0.power"),
            tree.number("heaters[0].power")
        );
    }

    #[test]
    fn a_tree_gives_back_the_scenario_it_was_made_of() {
        let scenario = scenario();
        assert_eq!(Tree::of(&scenario).unwrap().scenario().unwrap(), scenario);
    }

    #[test]
    fn an_unknown_path_names_the_nearest_and_a_wrong_unit_is_refused() {
        let mut tree = Tree::of(&scenario()).unwrap();
        let error = tree.number("hangar.time_constnat").unwrap_err().to_string();
        assert!(
            error.contains("did you mean `hangar.time_constant`?"),
            "{error}"
        );
        let error = tree.number("hangar.name").unwrap_err().to_string();
        assert!(error.contains("no number at `hangar.name`"), "{error}");
        tree.put("hangar.time_constant", Node::number(2.0, Some("kg")))
            .unwrap();
        let error = tree.scenario().unwrap_err().to_string();
        assert!(
            error.contains("hangar.time_constant") && error.contains("kg"),
            "{error}"
        );
    }
}
