//! Lines of a chart, and where they come from in a trace.

use crate::picture::draw::colour::{self, Colour};
use crate::quantity::Units;
use crate::study::quantile::Band;
use crate::study::sample_result::OUTPUT_INTERVAL_H;
use crate::trace::Trace;

/// One line of a panel.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its name in machine output.
    pub key: String,
    /// Its name; none is written for a line that goes with another.
    pub name: String,
    /// Seconds after the beginning, and the value in the unit of its panel.
    pub points: Vec<(f64, f64)>,
    /// The ribbon around it, if it has one.
    pub ribbon: Option<Ribbon>,
    /// Its colour.
    pub colour: Colour,
    /// Its thickness in pixels.
    pub width: f64,
    /// Lengths of its dashes and of the gaps after them, if it is dashed.
    pub dashes: &'static [f64],
}

/// A band around a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Ribbon {
    /// The names of its lower and its upper edge in machine output.
    pub keys: [String; 2],
    /// Seconds after the beginning, the lower and the upper edge.
    pub points: Vec<(f64, f64, f64)>,
}

/// How much a ribbon covers what lies under it.
pub const RIBBON: f64 = 0.25;
/// The width of the line of the coldest part, thicker than all others.
pub const COLDEST: f64 = 3.6;
/// The width of other lines that matter, and of those that matter less.
pub const PLAIN: f64 = 2.2;
/// Choices that are not ready, and the air around, which is the last to be named.
pub const THIN: f64 = 1.4;
const AIR: f64 = 1.2;

/// Dashes of the lines of a chart, by turns.
const DASHES: [&[f64]; 4] = [&[], &[12.0, 5.0], &[3.0, 3.0], &[12.0, 4.0, 3.0, 4.0]];

/// The look of the k-th line of a chart: its colour and its dashes, which differ among any four that follow each other.
pub fn look(k: usize) -> (Colour, &'static [f64]) {
    let inks = colour::SERIES.len();
    (colour::SERIES[k % inks], DASHES[(k + k / inks) % inks])
}

/// The median of bands in °C every [`OUTPUT_INTERVAL_H`] as a line, and 10 to 90 % as its ribbon.
pub fn median(key: &str, name: &str, bands: &[Band], units: Units, k: usize) -> Line {
    let told = |(i, band): (usize, &Band)| {
        let [low, middle, high] = [band.p10, band.p50, band.p90].map(|c| units.temperature(c));
        (i as f64 * OUTPUT_INTERVAL_H * 3600.0, low, middle, high)
    };
    let rows: Vec<_> = bands.iter().enumerate().map(told).collect();
    Line {
        key: format!("{key}_p50"),
        name: name.to_owned(),
        points: rows.iter().map(|row| (row.0, row.2)).collect(),
        ribbon: Some(Ribbon {
            keys: [format!("{key}_p10"), format!("{key}_p90")],
            points: rows.iter().map(|row| (row.0, row.1, row.3)).collect(),
        }),
        colour: look(k).0,
        width: PLAIN,
        dashes: look(k).1,
    }
}

/// Points in °C as temperatures of the reader.
pub fn degrees(points: Vec<(f64, f64)>, units: Units) -> Vec<(f64, f64)> {
    let told = |(t, celsius): (f64, f64)| (t, units.temperature(celsius));
    points.into_iter().map(told).collect()
}

/// One value a sample as points.
pub fn points(trace: &Trace, values: impl IntoIterator<Item = f64>) -> Vec<(f64, f64)> {
    trace.times_s.iter().copied().zip(values).collect()
}

/// A thin line of the air around.
pub fn air(name: &str, trace: &Trace, column: usize, dashed: bool, units: Units) -> Line {
    Line {
        key: name.replace(' ', "_"),
        name: name.to_owned(),
        points: degrees(weighted(trace, &[(column, 1.0)]), units),
        ribbon: None,
        colour: colour::MUTED,
        width: AIR,
        dashes: if dashed { &[2.0, 3.0] } else { &[] },
    }
}

/// A weighted sum of columns at every sample, °C; a column that is not there is a gap.
pub fn weighted(trace: &Trace, columns: &[(usize, f64)]) -> Vec<(f64, f64)> {
    (0..trace.len())
        .map(|k| {
            let sample = trace.sample(k);
            let value = columns
                .iter()
                .map(|(c, share)| share * sample.get(*c).copied().unwrap_or(f64::NAN))
                .sum();
            (trace.times_s[k], value)
        })
        .collect()
}

/// The lowest temperature among engine parts at every sample, as seconds and °C; a gap where there is none.
pub fn coldest(trace: &Trace) -> Vec<(f64, f64)> {
    let columns: Vec<usize> = trace
        .legend
        .cells
        .iter()
        .filter(|cell| cell.engine)
        .map(|cell| cell.column)
        .collect();
    (0..trace.len())
        .map(|k| {
            let sample = trace.sample(k);
            let lowest = columns
                .iter()
                .filter_map(|c| sample.get(*c).copied())
                .fold(f64::NAN, f64::min);
            (trace.times_s[k], lowest)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawn_night;

    #[test]
    fn the_coldest_engine_part_is_followed_through_the_night() {
        let trace = drawn_night::trace();
        let line = coldest(&trace);
        assert_eq!(line.len(), trace.len());
        let engine: Vec<_> = trace.legend.cells.iter().filter(|c| c.engine).collect();
        let last = trace.sample(trace.len() - 1);
        let lowest = engine
            .iter()
            .map(|c| last[c.column])
            .fold(f64::MAX, f64::min);
        assert_eq!(line[trace.len() - 1].1, lowest);
    }
}
