//! What the files of a night say of what is uncertain; where two of them give a range for one number, the outer one counts.

use crate::scenario::document::Scenario;
use crate::scenario::engine::Engine;
use crate::scenario::uncertain::{Uncertain, UncertainRange};
use crate::study::path::spelt;

/// A range as a file gives it.
pub struct Told<'a> {
    /// The number in the Scenario.
    pub path: String,
    /// Where the range stands: its path, and the word it is found by in its file.
    pub place: (String, String),
    /// What is said.
    pub unknown: &'a UncertainRange,
}

/// The ranges of all files in their order: engine, oil, hangar, heaters, night. What a night says of a number of a model
/// takes the place of what the model says, in the list too.
pub fn told(scenario: &Scenario) -> Vec<Told<'_>> {
    let mut told: Vec<Told> = Vec::new();
    for (prefix, uncertain) in files(scenario) {
        for (path, unknown) in uncertain {
            let place = (format!("{prefix}uncertain.{path}"), path.clone());
            let later = Told {
                path: spelt(&format!("{prefix}{path}")),
                place,
                unknown,
            };
            match told.iter_mut().find(|before| before.path == later.path) {
                Some(before) => *before = later,
                None => told.push(later),
            }
        }
    }
    told
}

/// What each file says, and what its paths begin with in the Scenario.
fn files(scenario: &Scenario) -> Vec<(String, &Uncertain)> {
    let engine = match &scenario.engine {
        Engine::opposed(layout) => &layout.uncertain,
        Engine::body(body) => &body.uncertain,
    };
    let mut files = vec![
        ("engine.".to_owned(), engine),
        ("oil.".to_owned(), &scenario.oil.uncertain),
        ("hangar.".to_owned(), &scenario.hangar.uncertain),
    ];
    for (i, heater) in scenario.heaters.iter().enumerate() {
        files.push((format!("heaters[{i}]."), &heater.uncertain));
    }
    files.push((String::new(), &scenario.uncertain));
    files
}

#[cfg(test)]
mod tests {
    use super::super::{UncertainInput, uncertain_inputs};
    use super::*;
    use crate::scenario::uncertain::{Basis, Distribution};
    use crate::study::spread::{Spread, influences};
    use crate::study::tests::scenario;

    fn measured(low: f64, high: f64) -> UncertainRange {
        UncertainRange {
            low,
            high,
            unit: None,
            distribution: Distribution::uniform,
            basis: Basis::measured,
            source: "measured".to_owned(),
        }
    }

    #[test]
    fn a_range_of_the_night_stands_in_place_of_that_of_the_model() {
        let mut night = scenario();
        let before = uncertain_inputs(&night).unwrap();
        let plug = night.covers.inlet_plug;
        // The second is spelt otherwise and is the same number; of the third no file says anything.
        for (path, range) in [
            ("engine.g_sump_case", measured(1.25, 1.35)),
            ("heaters.0.power", measured(249.0, 251.0)),
            ("covers.inlet_plug", measured(plug, plug)),
        ] {
            night.uncertain.insert(path.to_owned(), range);
        }
        let after = uncertain_inputs(&night).unwrap();
        let paths = |all: &[UncertainInput]| -> Vec<String> {
            all.iter().map(|d| d.path.clone()).collect()
        };
        // None twice, and each where it was.
        assert_eq!(paths(&after), paths(&before));
        for (path, low, high) in [
            ("engine.g_sump_case", 1.25, 1.35),
            ("heaters[0].power", 249.0, 251.0),
            ("covers.inlet_plug", plug, plug),
        ] {
            let found: Vec<_> = after.iter().filter(|d| d.path == path).collect();
            assert_eq!(found.len(), 1, "{path}");
            assert_eq!((found[0].low, found[0].high), (low, high), "{path}");
            assert_eq!(found[0].source, "measured", "{path}");
        }
    }

    /// A slip in a range that is replaced is nothing to tell.
    #[test]
    fn a_range_that_is_replaced_is_not_asked() {
        let mut night = scenario();
        let Engine::opposed(layout) = &mut night.engine else {
            panic!()
        };
        layout.uncertain.get_mut("fin_eff").unwrap().high = 1.2;
        assert_eq!(uncertain_inputs(&night).unwrap_err().len(), 1);
        night
            .uncertain
            .insert("engine.fin_eff".to_owned(), measured(0.9, 0.99));
        assert!(uncertain_inputs(&night).is_ok());
    }

    /// What a number that was measured does to the margin shrinks with its range.
    #[test]
    fn the_influence_of_a_number_shrinks_with_its_range() {
        let swing = |night: &Scenario| {
            let study = Spread::of(night, 1).unwrap();
            let is_it = |d: &UncertainInput| d.path == "engine.g_sump_case";
            let number = study.inputs().iter().position(is_it).unwrap();
            let ends = study.singles()[2 * number..2 * number + 2].to_vec();
            influences(&study.nights(&ends))[0].swing_k()
        };
        let mut night = scenario();
        let wide = swing(&night);
        night
            .uncertain
            .insert("engine.g_sump_case".to_owned(), measured(1.25, 1.35));
        let narrow = swing(&night);
        // 0.1 W/K of 3.4: a tenth is far on the safe side.
        assert!(narrow > 0.0 && narrow < 0.1 * wide, "{narrow} of {wide}");
    }
}
