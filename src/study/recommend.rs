//! What to do, in plain words, from ranked nights.

use crate::findings::Findings;
use crate::night::Night;
use crate::quantity::Units;

/// A margin under this is thinner than the doubt about how well the cowl is closed, K (estimate: inlet plugs
/// between 0.84 and 0.97 move the coldest part of the built-in night by about so much).
const THIN_MARGIN_K: f64 = 5.0;

/// The recommendation over ranked nights, the best first.
pub fn recommend(nights: &[(String, Night)]) -> String {
    let Some((name, best)) = nights.first() else {
        return "There was nothing to choose from.".to_owned();
    };
    let units = best.scenario.scenario().units;
    let findings = &best.findings;
    if findings.ready.ready_at_departure {
        ready(name, findings, nights, units)
    } else {
        not_ready(nights, units)
    }
}

fn ready(name: &str, best: &Findings, nights: &[(String, Night)], units: Units) -> String {
    let margin = degrees(best.ready.margin_k.unwrap_or(0.0), units);
    let last = best
        .coldest
        .as_ref()
        .map_or(String::new(), |c| format!(" (the {} is last)", c.label));
    let warm = match best.ready.slack_h {
        Some(slack) if best.energy.kwh > 0.0 => {
            format!(", warm everywhere {slack:.1} h before you leave")
        }
        _ => String::new(),
    };
    let mut told = format!(
        "Use \"{name}\": every part is ready at departure with {margin} to spare{last}{warm}, for {:.1} kWh{}.",
        best.energy.kwh,
        dryness(best),
    );
    if best.ready.margin_k.is_some_and(|m| m < THIN_MARGIN_K) {
        told += " That is a thin margin: how well the cowl is closed can undo it, so plug and cover it better, \
or put a thermometer on that part before you trust it.";
    }
    let others: Vec<_> = nights[1..]
        .iter()
        .filter(|(_, night)| night.findings.ready.ready_at_departure)
        .collect();
    let unready = nights.len() - 1 - others.len();
    if let Some((second, night)) = others.first() {
        let more = night.findings.energy.kwh - best.energy.kwh;
        let margin = degrees(night.findings.ready.margin_k.unwrap_or(0.0), units);
        told += &if more.abs() < 0.05 {
            format!(" \"{second}\" would also do, with {margin} to spare for the same energy.")
        } else {
            format!(" \"{second}\" would also do, with {margin} to spare, for {more:.1} kWh more.")
        };
    }
    told += &match unready {
        0 => String::new(),
        1 => " The other choice is not ready in time.".to_owned(),
        n => format!(" {n} choices are not ready in time."),
    };
    told
}

fn dryness(best: &Findings) -> &'static str {
    match &best.condensation {
        Some(c) if c.upper_g < 0.05 => ", and the upper walls inside stay dry",
        Some(_) => ", with little water on the upper walls inside",
        None => "",
    }
}

/// None is ready: the one that comes closest, and what it lacks.
fn not_ready(nights: &[(String, Night)], units: Units) -> String {
    let short = |night: &Night| night.findings.ready.margin_k.unwrap_or(f64::NEG_INFINITY);
    let Some((name, night)) = nights
        .iter()
        .max_by(|a, b| short(&a.1).total_cmp(&short(&b.1)))
    else {
        return String::new();
    };
    let findings = &night.findings;
    let margin = findings.ready.margin_k.unwrap_or(0.0);
    let lack = match &findings.coldest {
        Some(c) if margin < 0.0 => format!(
            "the {} is {} short of the threshold",
            c.label,
            degrees(-margin, units)
        ),
        _ => "it is warm enough".to_owned(),
    };
    let water = findings
        .condensation
        .as_ref()
        .filter(|c| findings.ready.unmet.len() > usize::from(margin < 0.0) && c.upper_g > 0.0)
        .map_or(String::new(), |c| {
            format!(
                ", and {:.1} g of water stand on the upper walls inside",
                c.upper_g
            )
        });
    format!(
        "None of these is ready at departure. \"{name}\" comes closest: {lack}{water}. Start earlier, close the cowl better, or use more watts; do not start the engine on these."
    )
}

fn degrees(kelvin: f64, units: Units) -> String {
    match units {
        Units::Celsius => format!("{:.1} K", units.step(kelvin)),
        Units::Fahrenheit => format!("{:.0} °F", units.step(kelvin)),
    }
}
