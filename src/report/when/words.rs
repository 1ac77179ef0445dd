//! Clock times, starts and outcomes of an answer in a few words.

use crate::findings::{Findings, Unmet};
use crate::quantity::Units;
use crate::report::change;
use crate::report::format::{size, temperature};
use crate::report::verdict::water;
use crate::scenario::clock::NightClock;
use crate::scenario::document::Scenario;
use crate::study::change::Change;
use crate::study::when::{Probe, SCAN_MIN, When};

/// An answer with what its words are looked up in.
pub struct Words<'a> {
    pub when: &'a When,
    pub scenario: &'a Scenario,
    pub clock: &'a NightClock,
    pub units: Units,
}

impl<'a> Words<'a> {
    pub fn of(when: &'a When, scenario: &'a Scenario) -> Self {
        Self {
            when,
            scenario,
            clock: when.whole_time.scenario.clock(),
            units: scenario.units,
        }
    }

    /// The clock time so many minutes before the departure.
    pub fn before(&self, minutes: usize) -> String {
        self.clock
            .dated(self.clock.night_s() - 60.0 * minutes as f64)
    }

    pub fn departure(&self) -> String {
        self.before(0)
    }

    pub fn name(&self, heater: usize) -> &str {
        &self.scenario.heaters[heater].name
    }

    pub fn change(&self, what: &Change) -> String {
        change::words(what, self.scenario, self.clock, self.units)
    }

    /// The switch-on times of heaters that are needed, each with its name if there are several.
    pub fn starts(&self, starts: &[usize]) -> String {
        let heaters = &self.when.switches.heaters;
        let needed = heaters.iter().zip(starts).filter(|(_, m)| **m > 0);
        let on: Vec<String> = needed
            .map(|(&heater, &minutes)| match heaters.len() {
                1 => self.before(minutes),
                _ => format!("{} at {}", self.name(heater), self.before(minutes)),
            })
            .collect();
        on.join(", ")
    }

    /// Times of the scan, rising in minutes before the departure, as spans of the clock: `from 19:00 to 21:30`.
    pub fn spans(&self, minutes: &[usize]) -> String {
        let spans: Vec<String> = minutes
            .chunk_by(|a, b| b - a <= SCAN_MIN)
            .rev()
            .map(|span| match span {
                [one] => format!("at {}", self.before(*one)),
                [last, .., first] => {
                    format!("from {} to {}", self.before(*first), self.before(*last))
                }
                [] => String::new(),
            })
            .collect();
        spans.join(" or ")
    }

    /// Ready or not, and by how much.
    pub fn outcome(&self, probe: &Probe) -> String {
        if probe.ready.ready_at_departure {
            return format!("ready, {}", self.above(probe.ready.margin_k));
        }
        let unmet = probe.ready.unmet.iter();
        let lacks: Vec<String> = unmet.map(|u| lack(u, self.units)).collect();
        format!("not ready ({})", lacks.join(", "))
    }

    /// How far the coldest part is above the minimum, with no more digits than mean something: a start found to the
    /// minute leaves thousandths of a degree.
    pub fn above(&self, margin_k: Option<f64>) -> String {
        format!(
            "{} above the minimum",
            least(margin_k.unwrap_or(0.0), self.units)
        )
    }

    /// What would not be met a minute later.
    pub fn limit(&self, unmet: &Unmet) -> String {
        let below = |label: &str, minimum_c: f64| {
            let minimum = temperature(minimum_c, self.units);
            format!("{label}: a minute later it would be below {minimum}")
        };
        match unmet {
            Unmet::Cold {
                label, threshold_c, ..
            } => below(label, *threshold_c),
            Unmet::ColdOil { threshold_c, .. } => below("oil", *threshold_c),
            Unmet::Wet { limit_g, .. } => format!(
                "water: a minute later {} g or more would be on the upper inner walls",
                water(*limit_g, *limit_g).1
            ),
            Unmet::NoOil => "there is no oil to be warm".to_owned(),
            Unmet::NoEngine => "there is no engine part to be warm".to_owned(),
        }
    }
}

fn least(kelvin: f64, units: Units) -> String {
    match units.step(kelvin).abs() < 0.05 {
        true => format!("less than 0.1 {}", units.step_symbol()),
        false => size(kelvin, units),
    }
}

fn lack(unmet: &Unmet, units: Units) -> String {
    match unmet {
        Unmet::Cold {
            label,
            temp_c,
            threshold_c,
            ..
        } => format!(
            "{label} {} below the minimum",
            size(threshold_c - temp_c, units)
        ),
        Unmet::Wet { upper_g, limit_g } => {
            let (upper, limit) = water(*upper_g, *limit_g);
            format!("{upper} g of water on the upper inner walls, limit {limit} g")
        }
        Unmet::ColdOil {
            temp_c,
            threshold_c,
        } => format!(
            "oil {} below its minimum",
            size(threshold_c - temp_c, units)
        ),
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
    fn a_margin_has_no_digits_that_mean_nothing() {
        assert_eq!(least(0.0006, Units::Fahrenheit), "less than 0.1 °F");
        assert_eq!(least(0.0, Units::Celsius), "less than 0.1 K");
        assert_eq!(least(0.06, Units::Celsius), "0.1 K");
        assert_eq!(least(3.0, Units::Fahrenheit), "5 °F");
    }
}
