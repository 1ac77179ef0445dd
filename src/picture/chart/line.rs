//! Lines of a chart, and where they come from in a trace.

use crate::picture::draw::colour::{self, Colour};
use crate::quantity::Units;
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
    /// Its colour.
    pub colour: Colour,
    /// Its thickness in pixels.
    pub width: f64,
    /// Length of its dashes and of the space between them, if it is dashed.
    pub dashes: Option<(f64, f64)>,
}

/// Dashes of every second line, so that it does not hide a line it runs along with.
const EVERY_SECOND: (f64, f64) = (12.0, 6.0);
/// Dashes of the second set of lines, when there are more lines than inks.
const SECOND_SET: (f64, f64) = (3.0, 3.0);

/// The look of the k-th line of a chart: its colour and its dashes.
pub fn look(k: usize) -> (Colour, Option<(f64, f64)>) {
    let inks = colour::SERIES.len();
    let dashes = match (k / inks, k % 2) {
        (0, 0) => None,
        (0, _) => Some(EVERY_SECOND),
        _ => Some(SECOND_SET),
    };
    (colour::SERIES[k % inks], dashes)
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
        colour: colour::MUTED,
        width: 1.4,
        dashes: dashed.then_some((2.0, 3.0)),
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
