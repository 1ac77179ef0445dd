//! What to measure next: the inputs that move the margin most, and where to write what was found.

use super::format::size;
use super::input_names;
use crate::quantity::Units;
use crate::study::spread::Influence;
use crate::study::summary::Summary;
use crate::study::uncertain_inputs::{UncertainInput, model};

/// An input that moves the margin by less than this is not worth measuring, K (estimate: a thermometer's error).
const WORTH_K: f64 = 0.5;

/// What to measure next, in a sentence.
pub fn measure_next(inputs: &[UncertainInput], summary: &Summary, units: Units) -> String {
    match worth(summary).next() {
        None => format!(
            "Measure next: nothing. No uncertain input alone moves the margin by {}.",
            size(WORTH_K, units)
        ),
        Some(first) => format!(
            "Measure next: {}. It moves the margin by {}.",
            input_names::words(&inputs[first.doubt].path),
            size(first.swing_k(), units)
        ),
    }
}

/// Where to write what was measured.
pub fn where_to_write(inputs: &[UncertainInput], summary: &Summary) -> String {
    let Some(first) = worth(summary).next() else {
        return String::new();
    };
    let path = &inputs[first.doubt].path;
    let mut text =
        format!("Write what you measure into your file, or try it with `--set {path}=VALUE`.");
    if let Some(kind) = model(path) {
        text += &format!(
            " Numbers of the {kind} are in a file of its own: `coldsoak catalogue {kind} NAME > my-{kind}.ron` prints a \
built-in one to change."
        );
    }
    text
}

/// The inputs that are worth measuring, the strongest first.
fn worth(summary: &Summary) -> impl Iterator<Item = &Influence> {
    summary.influences.iter().filter(|i| i.swing_k() >= WORTH_K)
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
        let all = summary(vec![strong, weak.clone()]);
        let text = measure_next(&inputs, &all, Units::Celsius);
        assert_eq!(text, "Measure next: plug. It moves the margin by 5.0 K.");
        let text = measure_next(&inputs, &summary(vec![weak]), Units::Celsius);
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
        let of = |influences| where_to_write(&inputs, &summary(influences));
        let text = of(vec![moving(1, 3.0), moving(0, 2.0)]);
        assert!(text.contains(way), "{text}");
        let text = of(vec![moving(0, 3.0), moving(1, 0.1)]);
        assert!(!text.contains("catalogue"), "{text}");
        assert!(text.contains("`--set heaters[0].power=VALUE`"), "{text}");
    }
}
