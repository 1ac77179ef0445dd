//! Ready or not and why, and whether the margin can be trusted.

use super::format::{apart, size};
use crate::findings::{Findings, Unmet, water_told};
use crate::quantity::Units;

/// Ready or not, and why, in a sentence.
pub fn verdict(f: &Findings, units: Units) -> String {
    if f.ready.ready_at_departure {
        let margin = size(f.ready.margin_k.unwrap_or(0.0), units);
        let slack = f.ready.slack_h;
        let before = slack.map(|h| format!(", warm everywhere {h:.1} h before"));
        let before = before.unwrap_or_default();
        return format!("Ready at departure, with {margin} to spare{before}.");
    }
    let unmet: Vec<String> = f.ready.unmet.iter().map(|u| lacks(u, units)).collect();
    format!("NOT ready at departure: {}.", unmet.join("; "))
}

/// That a margin is thin, and what to do about it.
pub fn thin(f: &Findings) -> Option<String> {
    let coldest = f.coldest.as_ref().filter(|_| f.ready.is_thin())?;
    Some(format!(
        "That is a thin margin: how well the cowl is closed can undo it, so plug and cover it better, or put a \
thermometer on the {} before you trust it.",
        coldest.label
    ))
}

fn lacks(unmet: &Unmet, units: Units) -> String {
    match unmet {
        Unmet::Cold {
            label,
            temp_c,
            threshold_c,
            ..
        } => {
            let (at, asked) = apart(*temp_c, *threshold_c, units);
            format!("the {label} is at {at}, {asked} is asked")
        }
        Unmet::Wet { upper_g, limit_g } => {
            let (upper, limit) = water_told(*upper_g, *limit_g);
            format!(
                "{upper} g of water stand on the upper inner walls, less than {limit} g is asked"
            )
        }
        Unmet::ColdOil {
            temp_c,
            threshold_c,
        } => {
            let (at, asked) = apart(*temp_c, *threshold_c, units);
            format!("the oil is at {at}, {asked} is asked")
        }
        Unmet::NoOil => "an oil temperature is asked, but there is no oil".to_owned(),
        Unmet::NoEngine => "no part is marked as part of the engine".to_owned(),
    }
}
