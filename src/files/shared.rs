//! The night that the choices of a comparison share, and the night of each choice.

use super::fault::ErrorList;
use super::night;
use super::settings::{Changed, SetValue, Setting, in_night, in_scenario};
use super::sources::Sources;
use crate::document::Node;
use crate::scenario::cover::Covers;
use crate::scenario::document::Scenario;

/// What is named as a whole: what a night says of numbers in it does not hold for another.
const NAMED: [&str; 4] = ["engine", "oil", "hangar", "heaters"];

/// A choice of a comparison.
#[derive(Debug, Clone)]
pub struct Choice {
    /// What it is called.
    pub name: String,
    /// Its night.
    pub night: Scenario,
    /// What it changes in the night that all choices share.
    pub changes: Vec<SetValue>,
    /// What was set in that night before, and stands in this choice too.
    pub inherited: Vec<SetValue>,
}

/// The night that all choices share.
pub struct Shared<'a> {
    /// Its file, with what was set in it.
    pub changed: &'a Changed,
    /// The Scenario it stands for.
    pub base: &'a Scenario,
    /// What was set in its models.
    pub models: &'a [SetValue],
    /// Its text as a tree.
    pub written: Option<&'a Node>,
}

impl Shared<'_> {
    /// The choice with these settings. What is wrong with it goes to `errors`.
    pub fn choice(
        &self,
        name: &str,
        own: &[Setting],
        file: &str,
        sources: &mut Sources,
        errors: &mut ErrorList,
    ) -> Option<Choice> {
        let mut night = self.changed.night.clone();
        // What it replaces as a whole takes what the night says of its numbers along.
        let replaces = |path: &str| {
            let first = path.split(['.', '[']).next().unwrap_or_default();
            NAMED.contains(&first) && own.iter().any(|s| s.path == first)
        };
        night.uncertain.retain(|path, _| !replaces(path));
        let changed = in_night(&night, self.written, own, errors)?;
        let same_air = !own.iter().any(|s| {
            ["weather", "clock"]
                .iter()
                .any(|key| s.path.starts_with(key))
        });
        let weather = same_air.then(|| self.base.weather.clone());
        let night = errors.keep(night::resolve(&changed.night, weather, file, sources))?;
        // What was set in the models of the night, unless this choice has others.
        let before = self.changed.of_models.iter().filter(|s| !replaces(&s.path));
        let of_models: Vec<Setting> = before.chain(&changed.of_models).cloned().collect();
        let (mut night, models) = in_scenario(night, &of_models, errors)?;
        let covers = night.covers.clone();
        night.uncertain.retain(|path, _| stands(path, &covers));
        let own_model = |set: &&SetValue| changed.of_models.iter().any(|s| s.holds(&set.path));
        let changes: Vec<SetValue> = changed
            .values
            .into_iter()
            .chain(models.iter().filter(own_model).cloned())
            .collect();
        let inherited = self.changed.values.iter().chain(self.models);
        let inherited = inherited
            .filter(|set| !replaces(&set.path) && !changes.iter().any(|c| c.path == set.path));
        Some(Choice {
            name: name.to_owned(),
            night,
            inherited: inherited.cloned().collect(),
            changes,
        })
    }
}

/// Whether what the night gives a range for is still there under these covers: a plug that is not there has none.
fn stands(path: &str, covers: &Covers) -> bool {
    match path.strip_prefix("covers.") {
        Some("inlet_plug") => covers.inlet_plug > 0.0,
        Some("outlet_plug") => covers.outlet_plug > 0.0,
        Some("propeller") => covers.propeller.is_some(),
        Some(inner) if inner.starts_with("open_side") => covers.open_side.is_some(),
        Some(inner) => inner
            .strip_prefix("blankets.")
            .is_none_or(|pocket| covers.blankets.contains_key(pocket)),
        None => true,
    }
}
