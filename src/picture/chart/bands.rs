//! The groups of a night over time, each with its band: the middle as a line, the 10 and 90 percent lines thin and dotted.

use super::line::{Line, look};
use super::temperature::{degrees_panel, figure};
use super::view::{Chart, ChartView};
use crate::night::Night;
use crate::study::quantile::Band;
use crate::study::sample_result::OUTPUT_INTERVAL_H;
use crate::study::summary::Summary;

/// Dashes of the outer lines.
const OUTER: (f64, f64) = (2.0, 4.0);
/// The most groups in one chart.
const MOST: usize = 3;

/// The coldest groups at departure.
pub fn groups(night: &Night, summary: &Summary, view: &ChartView) -> Chart {
    let single = |key: &str| night.trace.legend.cylinders.iter().any(|c| c.key == key);
    let readings = night.trace.legend.readings.iter();
    let mut shown: Vec<_> = readings
        .zip(&summary.groups)
        .filter(|(reading, _)| !single(&reading.key))
        .collect();
    let middle = |band: Option<Band>| band.map_or(f64::INFINITY, |b| b.p50);
    shown.sort_by(|a, b| middle(a.1.at_departure_c).total_cmp(&middle(b.1.at_departure_c)));
    shown.truncate(MOST);
    let mut lines = Vec::new();
    for (k, (reading, group)) in shown.into_iter().enumerate() {
        let points = |of: fn(&Band) -> f64| -> Vec<(f64, f64)> {
            let samples = group.over_time_c.iter().enumerate();
            let told = |(i, band)| {
                (
                    i as f64 * OUTPUT_INTERVAL_H * 3600.0,
                    view.units.temperature(of(band)),
                )
            };
            samples.map(told).collect()
        };
        let line = |key: &str, name: &str, points, width, dashes| Line {
            key: format!("{}_{key}", reading.key),
            name: name.to_owned(),
            points,
            colour: look(k).0,
            width,
            dashes,
        };
        lines.push(line("p10", "", points(|b| b.p10), 1.4, Some(OUTER)));
        lines.push(line("p50", &reading.label, points(|b| b.p50), 2.6, None));
        lines.push(line("p90", "", points(|b| b.p90), 1.4, Some(OUTER)));
    }
    let what = "the three coldest groups of parts: half of the plausible nights lie below the thick line, one in ten \
below and above the dotted ones";
    figure(
        &night.trace,
        view,
        what,
        vec![degrees_panel(view, lines)],
        vec![],
    )
    .chart()
}
