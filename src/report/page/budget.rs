//! Where the heat of the night went until the departure: what came in, what stayed, what left and by which way.

use crate::night::Night;
use crate::report::heat::path;
use crate::report::model::Section;
use crate::report::{Show, Table};
use crate::trace::Trace;

/// Joules in a kilowatt-hour.
const KWH_J: f64 = 3.6e6;

/// What "lost" means.
const LOST: &str = "Lost: out of the engine and the air under the cowl, to the hangar; through the firewall, to the cabin.";

/// The budget of a night; `choice` is the name of its choice, if there are others.
pub fn section(night: &Night, choice: Option<&str>) -> Section {
    let whose = choice.map_or(String::new(), |name| format!(" of {name}"));
    let rows = rows(night);
    let table = Table::of("", &rows)
        .words("", "until departure", |r| r.0.as_str())
        .number("", "kWh", |r| text(r.1, 2))
        .number("", "W, last hour", |r| text(r.2, 0));
    Section::new(format!("Where the heat{whose} went"))
        .shown(Show::Page)
        .block(table)
        .say([LOST.to_owned()])
}

/// The rows: a name, kWh until the departure, watts in the last hour.
fn rows(night: &Night) -> Vec<(String, f64, f64)> {
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
    let mut put = |name: String, (kwh, watts): (f64, f64)| rows.push((name, kwh, watts));
    let legend = &trace.legend;
    let (mut total, mut out) = ((0.0, 0.0), (0.0, 0.0));
    for heater in &legend.heaters {
        let drawn = change(&|row| row[heater.energy]);
        total = (total.0 + drawn.0, total.1 + drawn.1);
        put(format!("drawn by {}", heater.name), drawn);
    }
    let engine = change(&|row| stored(trace, row, true));
    let rest = change(&|row| stored(trace, row, false));
    put("kept by engine parts and oil".to_owned(), engine);
    put("kept by mount, cowl, propeller".to_owned(), rest);
    for (way, column) in &legend.losses {
        let lost = change(&|row| row[*column]);
        out = (out.0 + lost.0, out.1 + lost.1);
        if lost.0.abs() >= 0.005 || lost.1.abs() >= 0.5 {
            put(format!("lost: {}", path(*way)), lost);
        }
    }
    put("lost in all".to_owned(), out);
    // Feeds have no column of their own, so with them nothing is said of what is left over.
    if night.ledger.fed_j == 0.0 {
        let left = (
            total.0 - engine.0 - rest.0 - out.0,
            total.1 - engine.1 - rest.1 - out.1,
        );
        put(
            "what is left: air, water that froze or dried".to_owned(),
            left,
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
fn text(value: f64, digits: usize) -> String {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::night::load_named_from;
    use crate::files::sources::Outside;
    use crate::night::run;

    /// What heaters draw is what is kept and lost, but for the little that the air holds.
    #[test]
    fn the_heat_adds_up() {
        for name in ["demo", "radial-underneath", "thermostat-pad"] {
            let night = run(&load_named_from(name, Outside::Refused).unwrap().scenario).unwrap();
            let rows = rows(&night);
            let (left, kwh, _) = rows.last().unwrap();
            assert!(
                left.starts_with("what is left") && kwh.abs() <= 0.02,
                "{name}: {kwh}"
            );
        }
    }
}
