//! Ranges that are taken where no file says how far a number may be off: plugs and water (estimates).

use super::input::UncertainInput;
use crate::scenario::document::Scenario;
use crate::scenario::uncertain::Distribution;

/// How far plugs and water may be off, but for those that are found already.
pub fn usual(scenario: &Scenario, found: &[UncertainInput]) -> Vec<UncertainInput> {
    let covers = &scenario.covers;
    // An engine said part by part may have no openings that a plug could close.
    let plugs = [
        (
            "covers.inlet_plug",
            covers.inlet_plug,
            "how well the inlet plugs close",
        ),
        (
            "covers.outlet_plug",
            covers.outlet_plug,
            "how well the outlet is closed",
        ),
    ];
    let mut usual: Vec<UncertainInput> = plugs
        .into_iter()
        .filter(|(_, closed, _)| *closed > 0.0 && *closed < 1.0)
        .map(|(path, closed, source)| UncertainInput {
            path: path.to_owned(),
            value: closed,
            unit: None,
            low: (1.0 - 2.0 * (1.0 - closed)).max(0.0),
            high: 1.0 - 0.5 * (1.0 - closed),
            distribution: Distribution::uniform,
            source: source.to_owned(),
            usual: true,
        })
        .collect();
    let grams = scenario.initial.water_in_oil.si() * 1e3;
    if grams > 0.0 {
        usual.push(UncertainInput {
            path: "initial.water_in_oil".to_owned(),
            value: grams,
            unit: Some("g".to_owned()),
            low: grams / 3.0,
            high: grams * 2.0,
            distribution: Distribution::log_uniform,
            source: "water left in the oil".to_owned(),
            usual: true,
        });
    }
    usual.retain(|doubt| !found.iter().any(|f| f.path == doubt.path));
    usual
}
