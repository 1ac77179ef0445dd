//! Parts and groups of a night as tables: how warm at departure, and by when at the minimum.

use super::columns::{Show, Table};
use super::format::{crossing, degrees, hours, step, temperature};
use crate::findings::{Findings, PartFinding};
use crate::night::Night;
use crate::quantity::Units;

/// Parts that are listed in short.
const SHOWN: usize = 8;

/// The engine parts, the coldest first, in two columns: how warm at departure, and by when at the minimum.
pub fn in_short(night: &Night) -> Table {
    let (f, units) = (&night.findings, night.scenario.scenario().units);
    let clock = night.scenario.clock();
    let at = |hours: f64| clock.dated((f.first_on_h + hours) * 3600.0);
    let mut parts: Vec<[String; 3]> = Vec::new();
    let mut engine: Vec<&PartFinding> = f.parts.iter().filter(|p| p.engine).collect();
    engine.sort_by(|a, b| a.min_c.total_cmp(&b.min_c));
    for part in engine {
        let row = [
            part.label.clone(),
            temperature(part.min_c, units),
            crossing(&part.reached, at),
        ];
        if parts.len() < SHOWN && parts.iter().all(|known| known[0] != row[0]) {
            parts.push(row);
        }
    }
    let half = parts.len().div_ceil(2);
    let rows: Vec<(&[String; 3], Option<&[String; 3]>)> = (0..half)
        .map(|k| (&parts[k], parts.get(half + k)))
        .collect();
    let minimum = temperature(f.threshold.threshold_c, units);
    let leave = clock.dated(night.trace.departure_s);
    let when = format!("{minimum} at").replace(' ', "\u{a0}");
    let right = |r: &(&[String; 3], Option<&[String; 3]>), k: usize| {
        r.1.map_or(String::new(), |part| part[k].clone())
    };
    Table::of("", &rows)
        .words("", "Part", |r| r.0[0].clone())
        .number("", leave.clone(), |r| r.0[1].clone())
        .number("", when.clone(), |r| r.0[2].clone())
        .words("", "Part", move |r| right(r, 0))
        .number("", leave, move |r| right(r, 1))
        .number("", when, move |r| right(r, 2))
        .table()
}

/// Every group of parts by the hour until departure.
pub fn hourly(night: &Night) -> Table {
    let (trace, units) = (&night.trace, night.scenario.scenario().units);
    let leave_s = trace.departure_s;
    let mut times: Vec<f64> = (0..)
        .map(|hour| 3600.0 * f64::from(hour))
        .take_while(|t| *t < leave_s)
        .collect();
    times.push(leave_s);
    at(night, "hourly", &times, units)
}

/// Every group of parts at one time, s after the beginning.
pub fn at_time(night: &Night, time_s: f64) -> Table {
    let mut table = at(night, "at", &[time_s], night.scenario.scenario().units);
    // People read the same in a row for each group.
    for head in &mut table.heads {
        head.show = Show::Json;
    }
    table
}

/// The groups of parts at one time, a row each.
pub fn groups_at(night: &Night, time_s: f64) -> Table {
    let (trace, units) = (&night.trace, night.scenario.scenario().units);
    let row = trace.at(time_s);
    let rows: Vec<(&str, f64)> = (trace.legend.readings.iter())
        .map(|group| {
            let celsius = group
                .columns
                .iter()
                .map(|&(c, weight)| weight * row[c])
                .sum();
            (group.label.as_str(), celsius)
        })
        .collect();
    Table::of("", &rows)
        .words("", "Group of parts", |r| r.0)
        .number("", night.scenario.clock().dated(time_s), |r| {
            temperature(r.1, units)
        })
        .table()
}

fn at(night: &Night, key: &'static str, times: &[f64], units: Units) -> Table {
    let (trace, clock) = (&night.trace, night.scenario.clock());
    let rows: Vec<(f64, Vec<f64>)> = times.iter().map(|&t| (t, trace.at(t))).collect();
    let mut table = Table::of(key, &rows)
        .json("time_h", |r| r.0 / 3600.0)
        .words("clock", "Time", |r| clock.dated(r.0));
    for group in &trace.legend.readings {
        let columns = group.columns.clone();
        table = table.number(format!("{}_c", group.key), group.label.clone(), move |r| {
            let celsius = columns
                .iter()
                .map(|&(c, weight)| weight * r.1[c])
                .sum::<f64>();
            degrees(celsius, units)
        });
    }
    table.table()
}

/// Groups of parts, the coldest part first: how warm at the departure, and by when at the minimum.
pub fn groups(night: &Night) -> Table {
    let (f, units) = (&night.findings, night.scenario.scenario().units);
    let clock = night.scenario.clock();
    let at = |hours: f64| clock.dated((f.first_on_h + hours) * 3600.0);
    let coldest = f.coldest.iter();
    let coldest = coldest.map(|c| (&c.label, c.temp_c, &f.threshold.all_parts));
    let groups = f.groups_c.iter().filter_map(|g| {
        let times = f.threshold.readings.iter().find(|r| r.key == g.key)?;
        Some((&g.label, g.temp_c, &times.reach))
    });
    let rows: Vec<_> = coldest.chain(groups).collect();
    let minimum = temperature(f.threshold.threshold_c, units);
    let leave = clock.dated(night.trace.departure_s);
    let when = format!("{minimum} at").replace(' ', "\u{a0}");
    Table::of("", &rows)
        .words("", "Part or group", |r| r.0.as_str())
        .number("", leave, |r| temperature(r.1, units))
        .number("", when, |r| crossing(r.2, at))
        .table()
}

/// Every part.
pub fn table(f: &Findings, units: Units) -> Table {
    let margin = format!("Above {}", temperature(f.threshold.threshold_c, units));
    Table::of("parts", &f.parts)
        .json("part", |p| p.part.as_str())
        .words("label", "Part", |p| p.label.as_str())
        .number("temp_c", "Departure", |p| degrees(p.temp_c, units))
        .number("time_to_threshold_h", "Warm after", |p| hours(&p.reached))
        .json("first_crossing_h", |p| p.reached.first.hours())
        .number("margin_k", margin, |p| step(p.margin_k, units))
        .words("engine", "", |p| match p.engine {
            true => (true, ""),
            false => (false, "need not be warm"),
        })
        .table()
}
