//! The one spot for a thermometer, an hour before departure: what it must read, and how often its word is wrong.
//!
//! The rule is "leave if it reads so much or more". Of every engine part that a probe can reach, the least whole degree is
//! taken at which too early a "leave" is rare in the simulated nights; the coldest part is named, unless another has clearly fewer needless stays.
//! Both rates are counted on the nights the rule was made from.

use super::checkpoint::read_at;
use crate::night::Night;
use crate::quantity::{Temperature, Units};
use crate::study::case::Case;
use crate::study::quantile::Share;
use crate::study::simulate::{Job, Simulation, Subject};
use crate::trace::{CellInfo, Trace};

/// The largest share of the nights in which the rule may wrongly say "leave".
const WRONG_LEAVE: f64 = 0.02;

/// The largest share of the nights in which it says "leave" that may be wrong.
const WRONG_OF_LEAVES: f64 = 0.05;

/// A share of the nights by which needless stays differ clearly.
const CLEARLY: f64 = 0.02;

/// A reading to take before departure.
#[derive(Debug, Clone, PartialEq)]
pub struct Thermometer {
    /// When, seconds after the beginning: an hour before departure, or half-way if the heaters come on later.
    pub time_s: f64,
    /// The engine part.
    pub part: String,
    /// What people call it.
    pub label: String,
    /// Its temperature in the nominal night, °C; of its coldest cell if it is cut into several.
    pub temp_c: f64,
    /// How fast that changes from then to departure, K/h.
    pub rate_k_h: f64,
    /// The rule in whole degrees Celsius.
    pub celsius: Rule,
    /// The rule in whole degrees Fahrenheit.
    pub fahrenheit: Rule,
}

/// Leave if the thermometer reads so much or more.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rule {
    /// The limit, °C.
    pub limit_c: f64,
    /// Nights in which the rule says "leave" and the engine is not ready.
    pub wrong_leave: Share,
    /// Nights in which the rule says "stay" and the engine is ready.
    pub wrong_stay: Share,
}

impl Thermometer {
    /// The rule of a reader.
    pub fn rule(&self, units: Units) -> &Rule {
        match units {
            Units::Celsius => &self.celsius,
            Units::Fahrenheit => &self.fahrenheit,
        }
    }
}

/// The reading of a planned night, by its simulated nights; none without engine parts, if no heater comes on in it, or if no
/// simulated night is ready.
pub fn thermometer(
    simulation: &Simulation,
    subject: &Subject,
    planned: &Case,
    night: &Night,
) -> Option<Thermometer> {
    let trace = &night.trace;
    let (time_s, leave_s) = (read_at(trace)?, trace.departure_s);
    let spots = spots(trace);
    let jobs = (0..simulation.count.nights).map(|number| Job {
        subject,
        change: planned,
        number,
    });
    let least_c = subject.night.criteria.min_temperature.celsius();
    let columns: Vec<usize> = spots.iter().map(|spot| spot.column).collect();
    let rows = simulation.run_rows(&jobs.collect::<Vec<_>>(), |night| {
        let row = night.trace.at(time_s);
        let readings: Vec<f64> = columns.iter().map(|&column| row[column]).collect();
        (readings, night.findings.ready.ready_at_departure)
    });
    let nights: Vec<(Vec<f64>, bool)> = rows.into_iter().flatten().collect();
    // A rule that is never right to say "leave" is no rule: the night is hopeless, whatever a thermometer reads.
    let ready = nights.iter().filter(|(_, ready)| *ready).count();
    let useful = |rule: &Rule| rule.wrong_stay.count < ready;
    // The spot does not depend on the reader's unit.
    let rules = spots.iter().enumerate().filter_map(|(k, spot)| {
        let readings: Vec<(f64, bool)> = nights.iter().map(|(r, ready)| (r[k], *ready)).collect();
        let rules =
            [Units::Celsius, Units::Fahrenheit].map(|units| rule(&readings, least_c, units));
        let [Some(celsius), Some(fahrenheit)] = rules else {
            return None;
        };
        (useful(&celsius) && useful(&fahrenheit)).then_some((spot, celsius, fahrenheit))
    });
    let stays = |(_, c, f): &(&CellInfo, Rule, Rule)| c.wrong_stay.count + f.wrong_stay.count;
    let rules: Vec<(&CellInfo, Rule, Rule)> = rules.collect();
    let fewest = rules.iter().map(stays).min()?;
    // The coldest spot, unless another has clearly fewer needless stays.
    let more = (2.0 * CLEARLY * nights.len() as f64) as usize;
    let (spot, celsius, fahrenheit) = rules.into_iter().find(|r| stays(r) <= fewest + more)?;
    let temp_c = trace.at(time_s)[spot.column];
    let leaves_c = trace.at(leave_s)[spot.column];
    Some(Thermometer {
        time_s,
        part: spot.part.clone(),
        label: spot.label.clone(),
        temp_c,
        rate_k_h: (leaves_c - temp_c) * 3600.0 / (leave_s - time_s),
        celsius,
        fahrenheit,
    })
}

/// The least whole degree at which a wrong "leave" is rare, from readings with whether the engine was ready: few of all
/// nights, and few of those that read so much.
fn rule(readings: &[(f64, bool)], least_c: f64, units: Units) -> Option<Rule> {
    let mut not_ready: Vec<f64> = readings.iter().filter(|r| !r.1).map(|r| r.0).collect();
    not_ready.sort_by(|a, b| b.total_cmp(a));
    let most = (WRONG_LEAVE * readings.len() as f64).floor() as usize;
    let lowest = readings.iter().map(|r| r.0).fold(f64::INFINITY, f64::min);
    let share = |count| Share::of(count, readings.len());
    (0..=most).rev().find_map(|allowed| {
        // Above the warmest nights that are not ready, but for those allowed; where these are few, at the coldest reading.
        let whole = match not_ready.get(allowed) {
            Some(above) => units.temperature(*above).floor() + 1.0,
            None => units.temperature(lowest).floor(),
        };
        // Nothing below the minimum is warm enough to leave on.
        let whole = whole.max(units.temperature(least_c).ceil());
        let limit_c = celsius(whole, units);
        let leaves = |r: &&(f64, bool)| r.0 >= limit_c;
        let wrong = readings.iter().filter(leaves).filter(|r| !r.1).count();
        let all = readings.iter().filter(leaves).count();
        if wrong as f64 > WRONG_OF_LEAVES * all as f64 {
            return None;
        }
        Some(Rule {
            limit_c,
            wrong_leave: share(wrong)?,
            wrong_stay: share(readings.iter().filter(|r| !leaves(r) && r.1).count())?,
        })
    })
}

fn celsius(degrees: f64, units: Units) -> f64 {
    match units {
        Units::Celsius => degrees,
        Units::Fahrenheit => Temperature::degF(degrees).celsius(),
    }
}

/// Where a probe can be put: engine parts that the air round the engine reaches, the coldest cell of each at departure, the
/// coldest part first.
fn spots(trace: &Trace) -> Vec<CellInfo> {
    let row = trace.at(trace.departure_s);
    let reached = trace.legend.cells.iter();
    let mut cells: Vec<&CellInfo> = reached
        .filter(|cell| cell.engine && !cell.pockets.is_empty())
        .collect();
    cells.sort_by(|a, b| row[a.column].total_cmp(&row[b.column]));
    let mut spots: Vec<CellInfo> = Vec::new();
    for cell in cells {
        if spots.iter().all(|spot| spot.part != cell.part) {
            spots.push(cell.clone());
        }
    }
    spots
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 100 nights that read 0 to 99 °F; those below 50 are not ready, and so are the nights that read 60 and 61.
    #[test]
    fn the_rule_takes_the_least_degree_with_few_wrong_leaves() {
        let celsius = |f: f64| super::celsius(f, Units::Fahrenheit);
        let night = |k: usize| (celsius(k as f64), k >= 50 && k != 60 && k != 61);
        let readings: Vec<(f64, bool)> = (0..100).map(night).collect();
        let found = rule(&readings, -50.0, Units::Fahrenheit).unwrap();
        // Two wrong leaves are allowed, so it is the third warmest that is not ready, 49, that must stay.
        assert!(
            (found.limit_c - celsius(50.0)).abs() < 1e-9,
            "{}",
            found.limit_c
        );
        assert_eq!((found.wrong_leave.count, found.wrong_stay.count), (2, 0));
        // Of ten nights that are ready and one that reads as much, one in eleven "leaves" would be wrong: the limit is higher.
        let few = |k: usize| (celsius(k as f64), k > 90 || k == 89);
        let few: Vec<(f64, bool)> = (0..100).map(few).collect();
        let found = rule(&few, -50.0, Units::Fahrenheit).unwrap();
        assert!(
            (found.limit_c - celsius(91.0)).abs() < 1e-9,
            "{}",
            found.limit_c
        );
        // Nor is the limit below the minimum.
        let found = rule(&readings, celsius(70.5), Units::Fahrenheit).unwrap();
        assert!(
            (found.limit_c - celsius(71.0)).abs() < 1e-9,
            "{}",
            found.limit_c
        );
        let all: Vec<(f64, bool)> = readings.iter().map(|r| (r.0, true)).collect();
        let found = rule(&all, -50.0, Units::Fahrenheit).unwrap();
        assert_eq!((found.wrong_leave.count, found.wrong_stay.count), (0, 0));
    }
}
