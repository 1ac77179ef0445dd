//! The groups of a night over time, each with its band: the middle as a line, the 10 and 90 percent lines thin and dotted.

use super::canvas::DrawError;
use super::chart::{ChartView, look, plot};
use super::plot::Line;
use crate::night::Night;
use crate::study::harvest::APART_H;
use crate::study::quantile::Band;
use crate::study::summary::Summary;

/// Dashes of the outer lines.
const OUTER: (f64, f64) = (2.0, 4.0);
/// The most groups in one chart.
const MOST: usize = 3;

/// The coldest groups at departure, as SVG.
///
/// *Errors*: the drawing failed, which is a fault of the program.
pub fn groups(night: &Night, summary: &Summary, view: &ChartView) -> Result<String, DrawError> {
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
            samples
                .map(|(i, band)| (i as f64 * APART_H * 3600.0, of(band)))
                .collect()
        };
        for points in [points(|b| b.p10), points(|b| b.p90)] {
            lines.push(Line {
                name: String::new(),
                points,
                ink: look(k).0,
                width: 1.2,
                dashes: Some(OUTER),
            });
        }
        lines.push(Line {
            name: reading.label.clone(),
            points: points(|b| b.p50),
            ink: look(k).0,
            width: 2.6,
            dashes: None,
        });
    }
    plot(&night.trace, view, lines, vec![]).svg()
}
