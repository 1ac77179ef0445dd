//! One night as a chart: the temperature of each group of parts by the clock, the air around, the threshold, the
//! departure, and when the heaters were on.

use super::canvas::{DrawError, Ink, ink};
use super::plot::{Line, Plot, Strip};
use crate::quantity::{Temperature, Units};
use crate::scenario::clock::NightClock;
use crate::trace::{ReadingNote, Trace};

/// What a chart needs beside the record.
#[derive(Debug, Clone, Copy)]
pub struct ChartView<'a> {
    /// Its heading.
    pub title: &'a str,
    /// A second, smaller heading.
    pub subtitle: &'a str,
    /// The local clock.
    pub clock: &'a NightClock,
    /// The degrees a reader thinks in.
    pub units: Units,
    /// The temperature that is asked for.
    pub threshold: Temperature,
}

/// Dashes of every second line, so that it does not hide a line it runs along with.
const EVERY_SECOND: (f64, f64) = (12.0, 6.0);
/// Dots of the coldest engine part.
const COLDEST: (f64, f64) = (2.0, 2.0);
/// Dashes of the second set of lines, when there are more lines than inks.
const SECOND_SET: (f64, f64) = (3.0, 3.0);

/// The look of the k-th line of a chart: its ink and its dashes.
pub(super) fn look(k: usize) -> (Ink, Option<(f64, f64)>) {
    let inks = ink::SERIES.len();
    let dashes = match (k / inks, k % 2) {
        (0, 0) => None,
        (0, _) => Some(EVERY_SECOND),
        _ => Some(SECOND_SET),
    };
    (ink::SERIES[k % inks], dashes)
}

/// The chart of one night, as SVG. Lines are the groups of the legend, without the single cylinders unless
/// there is nothing else.
///
/// *Errors*: the drawing failed, which is a fault of the program.
pub fn night(trace: &Trace, view: &ChartView) -> Result<String, DrawError> {
    let mut lines = vec![
        air("outdoors", trace, trace.legend.outdoors, Some((2.0, 3.0))),
        air("hangar air", trace, trace.legend.hangar, None),
    ];
    for (k, reading) in chosen(trace).into_iter().enumerate() {
        lines.push(Line {
            name: reading.label.clone(),
            points: weighted(trace, &reading.columns),
            ink: look(k).0,
            width: 2.2,
            dashes: look(k).1,
        });
    }
    if trace.legend.cells.iter().any(|cell| cell.engine) {
        lines.push(Line {
            name: "coldest part".to_owned(),
            points: coldest(trace),
            ink: ink::TEXT,
            width: 1.6,
            dashes: Some(COLDEST),
        });
    }
    plot(trace, view, lines, strips(trace)).svg()
}

/// The frame both kinds of chart share.
pub(super) fn plot<'a>(
    trace: &Trace,
    view: &ChartView<'a>,
    lines: Vec<Line>,
    strips: Vec<Strip>,
) -> Plot<'a> {
    Plot {
        title: view.title,
        subtitle: view.subtitle,
        clock: view.clock,
        units: view.units,
        threshold: view.threshold,
        departure_s: trace.departure_s,
        end_s: trace.times_s.last().copied().unwrap_or(0.0),
        range: None,
        lines,
        strips,
    }
}

/// A thin line of the air around.
pub(super) fn air(name: &str, trace: &Trace, column: usize, dashes: Option<(f64, f64)>) -> Line {
    Line {
        name: name.to_owned(),
        points: weighted(trace, &[(column, 1.0)]),
        ink: ink::QUIET,
        width: 1.4,
        dashes,
    }
}

/// The groups that get a line: not the single cylinders, which would crowd the rest out.
fn chosen(trace: &Trace) -> Vec<&ReadingNote> {
    let legend = &trace.legend;
    let single = |r: &ReadingNote| legend.cylinders.iter().any(|c| c.key == r.key);
    let groups: Vec<_> = legend.readings.iter().filter(|r| !single(r)).collect();
    if groups.is_empty() {
        legend.readings.iter().collect()
    } else {
        groups
    }
}

/// A weighted sum of columns at every sample; a column that is not there is a gap.
fn weighted(trace: &Trace, columns: &[(usize, f64)]) -> Vec<(f64, f64)> {
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

/// The lowest temperature among engine parts at every sample; a gap where there is none.
pub(super) fn coldest(trace: &Trace) -> Vec<(f64, f64)> {
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

fn strips(trace: &Trace) -> Vec<Strip> {
    trace
        .legend
        .heaters
        .iter()
        .enumerate()
        .map(|(k, heater)| Strip {
            name: heater.name.clone(),
            spans: trace.on_spans(k),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::synthetic;
    use super::*;

    #[test]
    fn a_chart_names_every_group_the_air_and_the_threshold() {
        let night_trace = synthetic::trace();
        let clock = synthetic::clock();
        let svg = night(&night_trace, &synthetic::view(&clock)).unwrap();
        for reading in &night_trace.legend.readings {
            assert!(svg.contains(&reading.label), "{}", reading.label);
        }
        for words in [
            "outdoors",
            "hangar air",
            "threshold 40 °F",
            "coldest part",
            "departure 07:30",
            "top heater",
        ] {
            assert!(svg.contains(words), "{words}");
        }
    }

    /// A line that leaves the range is cut there: no point of it lies on the edge but where it crosses.
    #[test]
    fn a_line_outside_the_range_is_not_drawn_at_the_edge() {
        let clock = synthetic::clock();
        let view = synthetic::view(&clock);
        let night_trace = synthetic::trace();
        let hot = Line {
            name: "hot".to_owned(),
            points: (0..100).map(|k| (f64::from(k) * 60.0, 85.0)).collect(),
            ink: ink::SERIES[0],
            width: 3.0,
            dashes: None,
        };
        let mut shown = plot(&night_trace, &view, vec![hot.clone()], vec![]);
        shown.range = Some((-20.0, 60.0));
        let cut = shown.svg().unwrap();
        shown.lines.clear();
        assert_eq!(
            cut,
            shown.svg().unwrap(),
            "something of the hot line was drawn"
        );
        shown.range = Some((-20.0, 90.0));
        shown.lines.push(hot);
        assert_ne!(cut, shown.svg().unwrap());
    }

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
    fn a_record_of_nothing_is_an_empty_frame() {
        let clock = synthetic::clock();
        let svg = night(&Trace::default(), &synthetic::view(&clock)).unwrap();
        assert!(svg.ends_with("</svg>\n"));
    }
}
