//! What the heaters ask of the circuit.

use super::model::Fact;
use crate::findings::{CONTINUOUS_SHARE, CircuitFinding, CordFinding, DROP_WORTH_A_WORD};

/// Metres in a foot.
const FOOT_M: f64 = 0.3048;
/// Slack for the rounding of sums of currents, A.
const ROUNDING_A: f64 = 1e-9;

/// The current, what of it is continuous, each heater's, and the cord; without a heater nothing that people read.
pub fn facts(c: &CircuitFinding) -> Vec<Fact> {
    let peak = |text: String| Fact::new("peak_current_a", "Current", c.peak_current_a, text);
    if c.heaters.is_empty() {
        return vec![peak(String::new())];
    }
    let at_most = |n: usize| match n {
        0 => "too much for this circuit".to_owned(),
        n => format!("at most {n} on this circuit"),
    };
    let each = c.heaters.iter();
    let each = each.map(|h| format!("{} {:.1} A ({})", h.name, h.amps, at_most(h.at_most)));
    let each: Vec<String> = each.collect();
    let mut facts = vec![
        peak(format!(
            "{:.1} A by the heaters, {:.1} A by other loads, on a breaker of {:.0} A ({:.0} %)",
            c.peak_current_a,
            c.other_current_a,
            c.breaker_a,
            100.0 * c.load_share
        )),
        Fact::text("Continuous", continuous(c)),
        Fact::text(
            "Each heater",
            format!("at {:.0} V: {}", c.volts, each.join("; ")),
        ),
    ];
    facts.extend(c.cord.iter().map(|cord| Fact::text("Cord", long(cord))));
    facts
}

/// What the circuit carries, in a line.
pub fn in_a_line(c: &CircuitFinding) -> String {
    format!(
        "{:.1} A + {:.1} A other load, limit {:.1} A (80 % of the {:.0} A breaker)",
        c.peak_current_a,
        c.other_current_a,
        CONTINUOUS_SHARE * c.breaker_a,
        c.breaker_a
    )
}

fn continuous(c: &CircuitFinding) -> String {
    let limit_a = CONTINUOUS_SHARE * c.breaker_a;
    let limit = format!("limit {limit_a:.1} A (80 % of the breaker)");
    if !c.continuous {
        return format!("nothing for three hours or more; {limit}");
    }
    let over = match c.continuous_current_a > limit_a + ROUNDING_A {
        true => "; above the limit",
        false => "",
    };
    format!(
        "{:.1} A with other loads for three hours or more, {limit}{over}",
        c.continuous_current_a
    )
}

fn long(cord: &CordFinding) -> String {
    let advice = match cord.drop_share > DROP_WORTH_A_WORD {
        true => "; more than 3 %: take a shorter or thicker cord",
        false => "",
    };
    format!(
        "{:.0} ft ({:.0} m), {} AWG: {:.1} V lost ({:.1} %), a plain heater keeps {:.0} % of its power{advice}",
        cord.length_m / FOOT_M,
        cord.length_m,
        cord.gauge_awg,
        cord.drop_v,
        100.0 * cord.drop_share,
        100.0 * cord.power_share,
    )
}
