//! Several nights in one chart: the coldest engine part of each choice, and the threshold.

use super::canvas::DrawError;
use super::chart::{ChartView, air, look, plot};
use super::plot::Line;
use crate::trace::Trace;

/// The coldest engine part of each named night, by the clock, as SVG. Inks follow the order given, so that the
/// first of a ranking is the first ink. All nights share the first one's clock and hangar.
///
/// *Errors*: the drawing failed, which is a fault of the program.
pub fn coldest_parts(nights: &[(&str, &Trace)], view: &ChartView) -> Result<String, DrawError> {
    let empty = Trace::default();
    let first = nights.first().map_or(&empty, |n| n.1);
    let mut lines = vec![air("hangar air", first, first.legend.hangar, None)];
    for (k, (name, trace)) in nights.iter().enumerate() {
        lines.push(Line {
            name: (*name).to_owned(),
            points: coldest(trace),
            ink: look(k).0,
            width: 2.4,
            dashes: look(k).1,
        });
    }
    let mut shown = plot(first, view, lines, vec![]);
    shown.end_s = nights
        .iter()
        .filter_map(|(_, trace)| trace.times_s.last().copied())
        .fold(0.0, f64::max);
    shown.svg()
}

/// The lowest temperature among engine parts at every sample; a gap where there is none.
fn coldest(trace: &Trace) -> Vec<(f64, f64)> {
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
    use super::super::synthetic;
    use super::*;

    #[test]
    fn the_coldest_engine_part_is_followed_through_the_night() {
        let trace = synthetic::trace();
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

    #[test]
    fn every_choice_is_named() {
        let (one, clock) = (synthetic::trace(), synthetic::clock());
        let svg = coldest_parts(
            &[("top", &one), ("pad & plugs", &one)],
            &synthetic::view(&clock),
        );
        let svg = svg.unwrap();
        assert!(svg.contains("top") && svg.contains("pad &amp; plugs"));
    }
}
