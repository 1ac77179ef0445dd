//! One night over all that is uncertain about it: the coldest part and the coldest group, each the median as a line and
//! 10 to 90 % of the simulated nights as a ribbon.

use super::figure::Figure;
use super::line::{COLDEST, Line, median};
use super::temperature::degrees_panel;
use super::view::{Chart, ChartView};
use crate::night::Night;
use crate::study::quantile::Band;
use crate::study::summary::Summary;

/// The coldest part, and the group of parts that is coldest at departure.
pub fn groups(night: &Night, summary: &Summary, view: &ChartView) -> Chart {
    let single = |key: &str| night.trace.legend.cylinders.iter().any(|c| c.key == key);
    let readings = night.trace.legend.readings.iter().zip(&summary.groups);
    let middle = |band: Option<Band>| band.map_or(f64::INFINITY, |b| b.p50);
    let group = readings
        .filter(|(reading, _)| !single(&reading.key))
        .min_by(|a, b| middle(a.1.at_departure_c).total_cmp(&middle(b.1.at_departure_c)));
    let coldest = &summary.bands.coldest_over_time_c;
    let mut lines = vec![Line {
        width: COLDEST,
        ..median("coldest_part", "coldest part", coldest, view.units, 0)
    }];
    lines.extend(group.map(|(reading, group)| {
        median(
            &reading.key,
            &reading.label,
            &group.over_time_c,
            view.units,
            1,
        )
    }));
    let found = summary.bands.ready.map_or(String::new(), |ready| {
        let departure = view.clock.dated(night.trace.departure_s);
        let (count, of) = (ready.count, ready.of);
        format!("Ready at {departure} in {count} of {of} simulated nights")
    });
    let what = format!(
        "{}; lines: medians; ribbons: 10 to 90 % of the nights; the coldest part and the coldest group",
        view.units.symbol()
    );
    let panels = vec![degrees_panel(view, lines)];
    Figure::of(&night.trace, view, (found, &what), panels, vec![]).chart()
}
