//! Where the heat of the night went until the departure: what came in, what stayed, what left and by which way.

use super::data::{Budget, Row};
use crate::night::Night;
use crate::report::heat::path;
use crate::trace::Trace;

/// Joules in a kilowatt-hour.
const KWH_J: f64 = 3.6e6;

/// What "lost" means.
const LOST: &str = "Lost: out of the engine and the air under the cowl, to the hangar; through the firewall, to the cabin.";

/// Where the heat of a night went; `whose` is the name of its choice.
pub fn budget(night: &Night, whose: Option<&str>) -> Budget {
    Budget {
        whose: whose.map(str::to_owned),
        rows: rows(night),
        lost: LOST,
    }
}

/// The rows: a name, kWh until the departure, watts in the last hour, and whether it is a sum.
pub fn rows(night: &Night) -> Vec<Row> {
    let trace = &night.trace;
    if trace.is_empty() {
        return Vec::new();
    }
    let (begin, leave) = (trace.at(0.0), trace.at(trace.departure_s));
    let span_s = trace.departure_s.min(3600.0);
    let hour = trace.at(trace.departure_s - span_s);
    let change = |of: &dyn Fn(&[f64]) -> f64| {
        (
            (of(&leave) - of(&begin)) / KWH_J,
            (of(&leave) - of(&hour)) / span_s,
        )
    };
    let mut rows = Vec::new();
    let mut put = |name: String, (kwh, watts): (f64, f64), sum: bool| {
        rows.push(Row {
            name,
            cells: vec![told(kwh, 2), told(watts, 0)],
            strong: sum,
        });
    };
    let legend = &trace.legend;
    let (mut total, mut out) = ((0.0, 0.0), (0.0, 0.0));
    for heater in &legend.heaters {
        let drawn = change(&|row| row[heater.energy]);
        total = (total.0 + drawn.0, total.1 + drawn.1);
        put(format!("drawn by {}", heater.name), drawn, false);
    }
    let engine = change(&|row| stored(trace, row, true));
    let rest = change(&|row| stored(trace, row, false));
    put("kept by engine parts and oil".to_owned(), engine, false);
    put("kept by mount, cowl, propeller".to_owned(), rest, false);
    for (way, column) in &legend.losses {
        let lost = change(&|row| row[*column]);
        out = (out.0 + lost.0, out.1 + lost.1);
        if lost.0.abs() >= 0.005 || lost.1.abs() >= 0.5 {
            put(format!("lost: {}", path(*way)), lost, false);
        }
    }
    put("lost in all".to_owned(), out, true);
    // Feeds have no column of their own, so with them nothing is said of what is left over.
    if night.ledger.fed_j == 0.0 {
        let left = (
            total.0 - engine.0 - rest.0 - out.0,
            total.1 - engine.1 - rest.1 - out.1,
        );
        put(
            "what is left: air, water that froze or dried".to_owned(),
            left,
            false,
        );
    }
    rows
}

/// Energy in the cells of the engine, or in all others, over that at 0 °C, J.
fn stored(trace: &Trace, row: &[f64], engine: bool) -> f64 {
    let cells = trace.legend.cells.iter().filter(|c| c.engine == engine);
    cells.map(|c| c.heat_capacity_j_per_k * row[c.column]).sum()
}

/// A number with a true minus; minus nothing is nothing.
fn told(value: f64, digits: usize) -> String {
    let text = format!("{value:.digits$}");
    match text
        .trim_start_matches('-')
        .trim_matches(['0', '.'])
        .is_empty()
    {
        true => text.trim_start_matches('-').to_owned(),
        false => text.replace('-', "\u{2212}"),
    }
}
