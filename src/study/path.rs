//! A number in a Scenario, named by a path as the `unknowns` of model files spell it.
//!
//! A Scenario is turned into a tree of plain values, in which a step of a path is a key, the name of a variant, or an
//! index: `hangar.lag`, `heaters[0].kind.bay_fan.flow`, `engine.parts[3].mass`. The form of the engine (`opposed`,
//! `body`) is left out, as in the messages of the gate. A quantity stands in the tree under its unit, so a number
//! can be set in any unit its type can be written in.

use crate::scenario::check::nearest;
use crate::scenario::document::Scenario;
use serde_json::Value;

/// A Scenario as a tree in which numbers can be set.
#[derive(Debug, Clone)]
pub struct Tree(Value);

/// Why a number was not found or not set.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PathError {
    /// The path leads nowhere.
    #[error("there is no number at `{path}`{}", near.as_ref().map_or(String::new(), |n| format!("; did you mean `{n}`?")))]
    Unknown {
        /// The path.
        path: String,
        /// The path of a number that is spelt most like it.
        near: Option<String>,
    },
    /// The tree no longer is a Scenario: a unit that this number cannot have, or a number out of its type's range.
    #[error("`{path}` cannot be set: {why}")]
    Refused {
        /// The path that was set last.
        path: String,
        /// What the reader of scenarios said.
        why: String,
    },
}

/// A number with the unit it is kept in; plain numbers have none.
#[derive(Debug, Clone, PartialEq)]
pub struct PathNumber {
    /// The number.
    pub value: f64,
    /// Its unit, such as `kg` or `degC`.
    pub unit: Option<String>,
}

/// A path as it is spelt here, with an index in square brackets: `heaters.0.power` is `heaters[0].power`.
pub fn spelt(path: &str) -> String {
    let mut spelt = String::new();
    for step in path.replace('[', ".").replace(']', "").split('.') {
        if step.parse::<usize>().is_ok() {
            spelt += &format!("[{step}]");
        } else {
            spelt += if spelt.is_empty() { "" } else { "." };
            spelt += step;
        }
    }
    spelt
}

impl Tree {
    /// The tree of a Scenario.
    ///
    /// *Errors*: none for a Scenario that passes the gate.
    pub fn of(scenario: &Scenario) -> Result<Self, PathError> {
        serde_json::to_value(scenario)
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
        self.0
            .pointer(&self.pointer(path))
            .and_then(kept)
            .ok_or_else(|| self.unknown(path))
    }

    /// Puts a value at a path, whatever stands there; the whole night at the empty path.
    ///
    /// *Errors*: nothing stands there; the nearest path of a number is named.
    pub fn put(&mut self, path: &str, value: Value) -> Result<(), PathError> {
        let pointer = match path {
            "" => String::new(),
            path => self.pointer(path),
        };
        match self.0.pointer_mut(&pointer) {
            Some(place) => *place = value,
            None => return Err(self.unknown(path)),
        }
        Ok(())
    }

    /// The Scenario of the tree.
    ///
    /// *Errors*: what was set is not a Scenario; the path that was set last is not known here and left empty.
    pub fn scenario(self) -> Result<Scenario, PathError> {
        serde_path_to_error::deserialize(self.0).map_err(|e| PathError::Refused {
            path: e.path().to_string(),
            why: e.inner().to_string(),
        })
    }

    /// Every path that leads to a number, in the order of the tree.
    pub fn paths(&self) -> Vec<String> {
        let mut found = Vec::new();
        collect(&self.0, "", &mut found);
        for path in &mut found {
            for form in ["opposed", "body"] {
                if let Some(rest) = path.strip_prefix(&format!("engine.{form}.")) {
                    *path = format!("engine.{rest}");
                }
            }
        }
        found
    }

    fn pointer(&self, path: &str) -> String {
        let steps = path.replace(['.', '['], "/").replace(']', "");
        match steps.strip_prefix("engine/") {
            Some(rest) => {
                let form = self.0.get("engine").and_then(Value::as_object);
                let form = form.and_then(|f| f.keys().next());
                format!("/engine/{}/{rest}", form.map_or("", String::as_str))
            }
            None => format!("/{steps}"),
        }
    }

    fn unknown(&self, path: &str) -> PathError {
        let paths = self.paths();
        PathError::Unknown {
            path: path.to_owned(),
            near: nearest(path, paths.iter().map(String::as_str)).map(str::to_owned),
        }
    }
}

/// The number of a leaf: plain, or alone under its unit.
fn kept(leaf: &Value) -> Option<PathNumber> {
    let (unit, number) = match leaf {
        Value::Object(map) if map.len() == 1 => map.iter().next().map(|(u, n)| (Some(u), n))?,
        plain => (None, plain),
    };
    Some(PathNumber {
        value: number.as_f64()?,
        unit: unit.cloned(),
    })
}

fn collect(value: &Value, path: &str, found: &mut Vec<String>) {
    if kept(value).is_some() {
        found.push(path.to_owned());
        return;
    }
    match value {
        Value::Object(map) => {
            let dot = if path.is_empty() { "" } else { "." };
            // What is said about numbers is not one of them; a recorded night is given.
            let skipped = |key: &str| key == "unknowns" || key == "weather";
            for (key, value) in map.iter().filter(|(key, _)| !skipped(key)) {
                collect(value, &format!("{path}{dot}{key}"), found);
            }
        }
        Value::Array(items) => {
            for (i, value) in items.iter().enumerate() {
                collect(value, &format!("{path}[{i}]"), found);
            }
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::scenario;
    use super::*;
    use serde_json::json;

    #[test]
    fn a_number_is_read_and_set_in_any_of_its_units() {
        let mut tree = Tree::of(&scenario()).unwrap();
        assert_eq!(tree.number("hangar.lag").unwrap().value, 1.5 * 3600.0);
        tree.put("hangar.lag", json!({"h": 2.0})).unwrap();
        tree.put("engine.bay.fin_pen", json!(0.3)).unwrap();
        tree.put("heaters[0].kind.bay_fan.flow", json!({"g_s": 6.0}))
            .unwrap();
        let set = tree.scenario().unwrap();
        assert_eq!(set.hangar.lag.si(), 7200.0);
        let again = Tree::of(&set).unwrap();
        assert_eq!(again.number("engine.bay.fin_pen").unwrap().value, 0.3);
        let flow = again.number("heaters[0].kind.bay_fan.flow").unwrap();
        assert!((flow.value - 0.006).abs() < 1e-15 && flow.unit.as_deref() == Some("kg_s"));
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
        let error = tree.number("hangar.lagg").unwrap_err().to_string();
        assert!(error.contains("did you mean `hangar.lag`?"), "{error}");
        let error = tree.number("hangar.name").unwrap_err().to_string();
        assert!(error.contains("no number at `hangar.name`"), "{error}");
        tree.put("hangar.lag", json!({"kg": 2.0})).unwrap();
        let error = tree.scenario().unwrap_err().to_string();
        assert!(
            error.contains("hangar.lag") && error.contains("kg"),
            "{error}"
        );
    }
}
