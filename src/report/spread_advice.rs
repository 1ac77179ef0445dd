//! What to measure next: the unknowns that move the margin most, and where to write what was found.

use super::format::size;
use super::unknown_words;
use crate::quantity::Units;
use crate::study::summary::Summary;
use crate::study::uncertain_inputs::{UncertainInput, model};

/// An unknown that moves the margin by less than this is not worth measuring, K (estimate: a thermometer's error).
const WORTH_K: f64 = 0.5;

/// What to measure next, in plain words.
pub fn advice(doubts: &[UncertainInput], summary: &Summary, units: Units) -> String {
    let worth: Vec<_> = summary
        .influences
        .iter()
        .filter(|i| i.swing_k() >= WORTH_K)
        .take(3)
        .collect();
    let Some((first, rest)) = worth.split_first() else {
        return format!(
            "What to measure next: nothing. No uncertain number alone moves the margin by {}.",
            size(WORTH_K, units)
        );
    };
    let doubt = &doubts[first.doubt];
    let mut told = format!(
        "What to measure next: {} (`{}`: {}). Alone, from one end of its range to the other, it moves the margin at \
departure by {}.",
        unknown_words::told(&doubt.path),
        doubt.path,
        doubt.source,
        size(first.swing_k(), units)
    );
    let rest: Vec<String> = rest
        .iter()
        .map(|i| {
            let doubt = &doubts[i.doubt];
            format!(
                "{} (`{}`: {}; {})",
                unknown_words::told(&doubt.path),
                doubt.path,
                doubt.source,
                size(i.swing_k(), units)
            )
        })
        .collect();
    if !rest.is_empty() {
        told += &format!(" Then: {}.", rest.join("; "));
    }
    told += " Write what you find into your file, with a narrower range under `unknowns`.";
    if let Some(kind) = worth.iter().find_map(|i| model(&doubts[i.doubt].path)) {
        told += &format!(
            " Numbers of the {kind} stand in a file of its own: `coldsoak catalogue {kind} NAME > my-{kind}.ron` prints a \
built-in one, to be changed and named in the night."
        );
    }
    told += " On the day, go by a thermometer on the part called coldest.";
    told
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::scenario::unknowns::Distribution;
    use crate::study::paired::Bands;
    use crate::study::spread::Influence;

    pub fn doubt(path: &str, low: f64, high: f64, unit: Option<&str>) -> UncertainInput {
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
        let doubts = [
            doubt("plug", 0.6, 0.97, None),
            doubt("mass", 3.0, 4.0, Some("kg")),
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
        let told = advice(
            &doubts,
            &summary(vec![strong, weak.clone()]),
            Units::Celsius,
        );
        assert!(
            told.starts_with("What to measure next: plug (`plug`: what plug is)."),
            "{told}"
        );
        assert!(
            told.contains("by 5.0 K") && !told.contains("mass"),
            "{told}"
        );
        let told = advice(&doubts, &summary(vec![weak]), Units::Celsius);
        assert!(told.contains("nothing"), "{told}");
    }

    /// A night cannot hold a number of its engine; it can hold the watts of a heater.
    #[test]
    fn where_to_write_a_number_of_the_engine_is_told() {
        let doubts = [
            doubt("heaters[0].power", 225.0, 262.0, Some("W")),
            doubt("engine.g_sump_case", 0.6, 4.0, Some("W_K")),
        ];
        let moving = |doubt, at_high_k| Influence {
            doubt,
            at_low_k: 0.0,
            at_high_k,
        };
        let way = "`coldsoak catalogue engine NAME > my-engine.ron`";
        let of = |influences| advice(&doubts, &summary(influences), Units::Celsius);
        let told = of(vec![moving(0, 3.0), moving(1, 2.0)]);
        assert!(told.contains(way), "{told}");
        let told = of(vec![moving(0, 3.0), moving(1, 0.1)]);
        assert!(!told.contains("catalogue"), "{told}");
    }
}
