//! Numbers of a night outside the ranges that the night itself gives them, and where such a number can be mended.

use super::kept::{in_unit_of, rounded};
use crate::scenario::check::Problem;
use crate::scenario::document::Scenario;
use crate::scenario::uncertain::UncertainRange;
use crate::study::path::{Tree, spelt};

/// The kind of file that alone can hold the number at a path, in the words of `coldsoak catalogue`: numbers of engine, oil
/// and hangar, and how a heater gives off its heat. None where the night can hold it.
pub fn model(path: &str) -> Option<&'static str> {
    let path = spelt(path);
    let heater = path
        .strip_prefix("heaters[")
        .and_then(|rest| rest.split_once("]."));
    match (path.split_once('.'), heater) {
        (Some(("engine", _)), _) => Some("engine"),
        (Some(("oil", _)), _) => Some("oil"),
        // The night has a key of its own for it, `hangar_start`.
        (Some(("hangar", rest)), _) => (rest != "start").then_some("hangar"),
        (_, Some((_, rest))) => rest.starts_with("kind.").then_some("heater"),
        _ => None,
    }
}

/// The numbers of a night that lie outside the ranges that the night itself gives them.
///
/// A choice of a comparison may move a number out of the range its night gives; a night by itself contradicts itself.
pub fn contradictions(scenario: &Scenario) -> Vec<Problem> {
    let Ok(tree) = Tree::of(scenario) else {
        return Vec::new();
    };
    let outside = |(path, unknown): (&String, &UncertainRange)| {
        let value = in_unit_of(&tree, path, unknown).ok()?.value;
        let unit = unknown
            .unit
            .as_deref()
            .map(|u| format!(" {u}"))
            .unwrap_or_default();
        let told = |x: f64| format!("{}{unit}", rounded(x));
        (!(unknown.low..=unknown.high).contains(&value)).then(|| Problem {
            path: format!("uncertain.{path}"),
            word: Some(path.clone()),
            what: format!(
                "`{path}` is {}, outside the range this night gives it, {} to {}",
                told(value),
                told(unknown.low),
                told(unknown.high)
            ),
            help: Some(help(path)),
            instead: None,
        })
    };
    scenario.uncertain.iter().filter_map(outside).collect()
}

fn help(path: &str) -> String {
    let correction = "correct the number or its range: one of them is not what you know";
    match model(path) {
        None => correction.to_owned(),
        Some(kind) => format!(
            "{correction}; the number stands in the file of the {kind}: `coldsoak catalogue {kind} NAME > my-{kind}.ron` prints a \
built-in one, to be changed and named in the night, `{kind}: \"my-{kind}.ron\"`"
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_stands_in_the_file_that_can_hold_it() {
        for (path, kind) in [
            ("engine.g_sump_case", Some("engine")),
            ("engine.bay.seam_area", Some("engine")),
            ("oil.at_40", Some("oil")),
            ("hangar.time_constant", Some("hangar")),
            ("hangar.start", None),
            ("heaters[1].kind.bay_fan.flow", Some("heater")),
            ("heaters.1.kind.bay_fan.flow", Some("heater")),
            ("heaters[0].power", None),
            ("heaters[0].thermostat.on_at", None),
            ("covers.inlet_plug", None),
            ("initial.water_in_oil", None),
        ] {
            assert_eq!(model(path), kind, "{path}");
        }
    }
}
