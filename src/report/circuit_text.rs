//! What the heaters ask of the circuit, in lines.

use super::format::wrapped;
use crate::findings::{CONTINUOUS_SHARE, CircuitFinding, DROP_WORTH_A_WORD};

/// Metres in a foot.
const FOOT_M: f64 = 0.3048;

/// The lines, each indented by two; none where there is no heater.
pub fn told(c: &CircuitFinding, width: u16) -> String {
    let mut lines = Vec::new();
    let each: Vec<String> = c
        .heaters
        .iter()
        .map(|h| {
            let many = match h.at_most {
                0 => "not even one should hang on this circuit".to_owned(),
                1 => "no second one beside it".to_owned(),
                n => format!("{n} such at most on this circuit"),
            };
            format!("{} {:.1} A ({many})", h.name, h.amps)
        })
        .collect();
    if each.is_empty() {
        return String::new();
    }
    lines.push(format!("at {:.0} V: {}", c.volts, each.join("; ")));
    lines.push(format!(
        "together up to {:.1} A by the heaters, {:.1} A besides, on a breaker of {:.0} A ({:.0} percent)",
        c.peak_current_a,
        c.other_current_a,
        c.breaker_a,
        100.0 * c.load_share
    ));
    let allowed_a = CONTINUOUS_SHARE * c.breaker_a;
    lines.push(if c.continuous {
        let kept = if c.continuous_current_a <= allowed_a + 1e-9 {
            "within"
        } else {
            "OVER"
        };
        format!(
            "on for three hours or more: {:.1} A with what else is on, {kept} the {allowed_a:.1} A (80 percent) of good practice",
            c.continuous_current_a
        )
    } else {
        format!(
            "never on for three hours; a load that is should stay within {allowed_a:.1} A (80 percent)"
        )
    });
    if let Some(cord) = &c.cord {
        let verdict = if cord.drop_share > DROP_WORTH_A_WORD {
            "; more than 3 percent: take a shorter or thicker cord"
        } else {
            ""
        };
        lines.push(format!(
            "cord of {:.0} ft ({:.0} m), {} AWG: {:.1} V lost ({:.1} percent), a plain heater is left with {:.0} percent of its power{verdict}",
            cord.length_m / FOOT_M,
            cord.length_m,
            cord.gauge_awg,
            cord.drop_v,
            100.0 * cord.drop_share,
            100.0 * cord.power_share,
        ));
    }
    lines.push("local code and a licensed electrician have the last word".to_owned());
    let line = |l: &String| wrapped(&format!("  {l}"), width, "    ") + "\n";
    lines.iter().map(line).collect()
}
