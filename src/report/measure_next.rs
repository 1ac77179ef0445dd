//! What to measure next: the inputs that move the margin most, and where to write what was found.

use super::format::size;
use super::input_names;
use crate::quantity::Units;
use crate::study::spread::Influence;
use crate::study::summary::Summary;
use crate::study::uncertain_inputs::{UncertainInput, model};

/// An input that moves the margin by less than this is not worth measuring, K (estimate: a thermometer's error).
const WORTH_K: f64 = 0.5;
/// Inputs that are named.
const NAMED: usize = 3;

/// What to measure next, in sentences.
pub fn advice(inputs: &[UncertainInput], summary: &Summary, units: Units) -> String {
    let worth = summary.influences.iter().filter(|i| i.swing_k() >= WORTH_K);
    let worth: Vec<&Influence> = worth.take(NAMED).collect();
    let Some((first, rest)) = worth.split_first() else {
        return format!(
            "Measure next: nothing. No uncertain input alone moves the margin by {}.",
            size(WORTH_K, units)
        );
    };
    let named = |i: &Influence| {
        let input = &inputs[i.doubt];
        let words = input_names::words(&input.path);
        format!("{words} (`{}`: {})", input.path, input.source)
    };
    let swing = |i: &Influence| size(i.swing_k(), units);
    let mut text = format!(
        "Measure next: {}. Alone, over its range, it moves the margin at departure by {}.",
        named(first),
        swing(first)
    );
    let rest = rest.iter().map(|i| format!("{}: {}", named(i), swing(i)));
    let rest: Vec<String> = rest.collect();
    if !rest.is_empty() {
        text += &format!(" Then {}.", rest.join("; "));
    }
    text += " Write what you find into your file, with a narrower range under `uncertain`.";
    if let Some(kind) = worth.iter().find_map(|i| model(&inputs[i.doubt].path)) {
        text += &format!(
            " Numbers of the {kind} are in a file of its own: `coldsoak catalogue {kind} NAME > my-{kind}.ron` prints a \
built-in one to change; name it in the night."
        );
    }
    text + " On the day, use a thermometer on the coldest part."
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::scenario::uncertain::Distribution;
    use crate::study::paired::Bands;

    pub fn input(path: &str, low: f64, high: f64, unit: Option<&str>) -> UncertainInput {
        UncertainInput {
            path: path.to_owned(),
            value: low,
            unit: unit.map(str::to_owned),
            low,
            high,
            distribution: Distribution::uniform,
            source: format!("what {path} is"),
            usual: false,
        }
    }

    pub fn summary(influences: Vec<Influence>) -> Summary {
        Summary {
            failed: 0,
            fault: None,
            bands: Bands::of("a night", []),
            warm_not_ready: Default::default(),
            oil_mm2_s: None,
            groups: vec![],
            influences,
            indices: vec![],
        }
    }

    #[test]
    fn the_strongest_unknown_is_what_to_measure_next() {
        let inputs = [
            input("plug", 0.6, 0.97, None),
            input("mass", 3.0, 4.0, Some("kg")),
        ];
        let strong = Influence {
            doubt: 0,
            at_low_k: -3.0,
            at_high_k: 2.0,
        };
        let weak = Influence {
            doubt: 1,
            at_low_k: 0.1,
            at_high_k: 0.2,
        };
        let text = advice(
            &inputs,
            &summary(vec![strong, weak.clone()]),
            Units::Celsius,
        );
        assert!(
            text.starts_with("Measure next: plug (`plug`: what plug is)."),
            "{text}"
        );
        assert!(
            text.contains("by 5.0 K") && !text.contains("mass"),
            "{text}"
        );
        let text = advice(&inputs, &summary(vec![weak]), Units::Celsius);
        assert!(text.contains("nothing"), "{text}");
    }

    /// A night cannot hold a number of its engine; it can hold the watts of a heater.
    #[test]
    fn where_to_write_a_number_of_the_engine_is_told() {
        let inputs = [
            input("heaters[0].power", 225.0, 262.0, Some("W")),
            input("engine.g_sump_case", 0.6, 4.0, Some("W_K")),
        ];
        let moving = |doubt, at_high_k| Influence {
            doubt,
            at_low_k: 0.0,
            at_high_k,
        };
        let way = "`coldsoak catalogue engine NAME > my-engine.ron`";
        let of = |influences| advice(&inputs, &summary(influences), Units::Celsius);
        let text = of(vec![moving(0, 3.0), moving(1, 2.0)]);
        assert!(text.contains(way), "{text}");
        let text = of(vec![moving(0, 3.0), moving(1, 0.1)]);
        assert!(!text.contains("catalogue"), "{text}");
    }
}
