//! Water that settled on each wall inside the engine, as bars: at departure, and the most there was on the way.

use super::bars::{Bars, Row};
use super::view::{Chart, ChartView};
use crate::picture::draw::colour;
use crate::trace::{Trace, WallNote};

/// A wall that never held this much, g, is given in numbers only.
const LEAST_G: f64 = 0.01;

/// The chart; the wettest wall at departure comes first.
pub fn water(trace: &Trace, view: &ChartView) -> Chart {
    let departure = if trace.is_empty() {
        Vec::new()
    } else {
        trace.at(trace.departure_s)
    };
    let until = trace.times_s.partition_point(|t| *t <= trace.departure_s);
    let row = |wall: &WallNote| {
        let now = departure.get(wall.film).map_or(0.0, |g| g.max(0.0));
        let most = trace.column(wall.film).take(until).fold(now, f64::max);
        Row {
            name: wall.label.clone(),
            bars: vec![(0.0, now, colour::WET)],
            mark: Some(most),
            figures: format!("{now:.2} g, most {most:.2}"),
            numbers: vec![now, most],
        }
    };
    let mut rows: Vec<Row> = trace.legend.walls.iter().map(row).collect();
    rows.sort_by(|a, b| {
        let (a, b) = (&a.numbers, &b.numbers);
        b[0].total_cmp(&a[0]).then(b[1].total_cmp(&a[1]))
    });
    rows.sort_by_key(|row| row.numbers[1] < LEAST_G);
    let drawn = rows.iter().filter(|r| r.numbers[1] >= LEAST_G).count();
    let rest = match rows.len() - drawn {
        0 => String::new(),
        _ if drawn == 0 => String::new(),
        n => format!("; {n} more walls below {LEAST_G} g"),
    };
    let found = match rows.first().filter(|_| drawn > 0) {
        Some(row) => format!(
            "Most water at departure: {}, {:.2} g",
            row.name, row.numbers[0]
        ),
        None if rows.is_empty() => "No water computed: this engine has no air inside".to_owned(),
        None => format!("No inner wall held {LEAST_G} g of water"),
    };
    Bars {
        view: *view,
        found,
        what: format!(
            "g on each inner wall; bar: at departure; stroke: most during the night{rest}"
        ),
        axis: "water, g".to_owned(),
        heads: vec!["at_departure_g".to_owned(), "most_g".to_owned()],
        rows,
        drawn,
    }
    .chart()
}
