//! Ready or not, what is short, and what it costs, in a few words.

use super::bands_text::step_symbol;
use super::format::{size, temperature};
use super::verdict::water;
use crate::findings::{Findings, Unmet};
use crate::quantity::Units;
use crate::study::when::Probe;

/// Ready or not, and by how much.
pub fn outcome(probe: &Probe, units: Units) -> String {
    if probe.ready.ready_at_departure {
        let margin = spare(probe.ready.margin_k.unwrap_or(0.0), units);
        return format!("ready with {margin} to spare");
    }
    let unmet = probe.ready.unmet.iter();
    let lacks: Vec<String> = unmet.map(|u| lacks(u, units)).collect();
    format!("NOT ready, {}", lacks.join(", and "))
}

/// What is to spare, with no more digits than mean something: a start found to the minute leaves thousandths of a degree.
pub fn spare(kelvin: f64, units: Units) -> String {
    if units.step(kelvin).abs() < 0.05 {
        return format!("less than 0.1 {}", step_symbol(units));
    }
    size(kelvin, units)
}

/// What would not be met a minute later.
pub fn decides(unmet: &Unmet, units: Units) -> String {
    match unmet {
        Unmet::Cold {
            label, threshold_c, ..
        } => format!(
            "a minute later the {label} would still be under {}",
            temperature(*threshold_c, units)
        ),
        Unmet::Wet { limit_g, .. } => format!(
            "a minute later {} g of water or more would stand on the upper walls inside",
            water(*limit_g, *limit_g).1
        ),
        Unmet::ColdOil { threshold_c, .. } => format!(
            "a minute later the oil would still be under {}",
            temperature(*threshold_c, units)
        ),
        Unmet::NoOil => "there is no oil to be warm".to_owned(),
        Unmet::NoEngine => "there is no engine part to be warm".to_owned(),
    }
}

fn lacks(unmet: &Unmet, units: Units) -> String {
    match unmet {
        Unmet::Cold {
            label,
            temp_c,
            threshold_c,
            ..
        } => format!("the {label} {} short", size(threshold_c - temp_c, units)),
        Unmet::Wet { upper_g, limit_g } => {
            let (upper, limit) = water(*upper_g, *limit_g);
            format!("{upper} g of water on the upper walls inside (limit {limit} g)")
        }
        Unmet::ColdOil {
            temp_c,
            threshold_c,
        } => format!("the oil {} short", size(threshold_c - temp_c, units)),
        Unmet::NoOil => "no oil".to_owned(),
        Unmet::NoEngine => "no part marked as engine".to_owned(),
    }
}

/// The energy, and its cost if there is a tariff.
pub fn cost(f: &Findings) -> String {
    match f.energy.cost {
        Some(cost) => format!("{:.1} kWh ({cost:.2} {})", f.energy.kwh, f.energy.currency),
        None => format!("{:.1} kWh", f.energy.kwh),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A start found to the minute leaves a thousandth of a degree, which nobody can measure.
    #[test]
    fn what_is_to_spare_has_no_digits_that_mean_nothing() {
        assert_eq!(spare(0.0006, Units::Fahrenheit), "less than 0.1 °F");
        assert_eq!(spare(0.0, Units::Celsius), "less than 0.1 K");
        assert_eq!(spare(0.06, Units::Celsius), "0.1 K");
        assert_eq!(spare(3.0, Units::Fahrenheit), "5 °F");
    }
}
