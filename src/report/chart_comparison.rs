//! Several nights in one chart: the coldest engine part of each choice, and the threshold.

use super::canvas::DrawError;
use super::chart::{ChartView, air, coldest, look, plot};
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

#[cfg(test)]
mod tests {
    use super::super::synthetic;
    use super::*;

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
