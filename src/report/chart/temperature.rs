//! One night as a chart: the temperature of each group of parts by the clock, the air around, the threshold, the
//! departure, when the heaters were on, how far the inner walls stand above the dew point, and when water settles.

use super::super::axis::tick_label;
use super::super::canvas::DrawError;
use super::super::colour;
use super::figure::Figure;
use super::line::{Line, air, coldest, degrees, look, points, weighted};
use super::panel::{Limit, Panel};
use super::stack::Stack;
use super::strip::Strip;
use super::view::{Breadth, ChartView, Picture, Unit};
use crate::findings::{DewMarginSeries, TRACE_FILM_G_PER_M2};
use crate::trace::{ReadingNote, Trace};

/// Dots of the coldest engine part.
const COLDEST: (f64, f64) = (2.0, 2.0);
/// The key of the strip of settling water.
const SETTLES: &str = "water_settles";
/// How high the panel of temperatures is, in pixels.
const HIGH: f64 = 350.0;
/// How high the panel of the dew point is.
const DEW_HIGH: f64 = 76.0;

/// The chart. Lines are the groups of the legend, without the single cylinders unless there is nothing else.
///
/// *Errors*: the drawing failed, which is a fault of the program.
pub fn temperature(trace: &Trace, view: &ChartView) -> Result<Picture, DrawError> {
    let units = view.units;
    let mut lines = vec![
        air("outdoors", trace, trace.legend.outdoors, true, units),
        air("hangar air", trace, trace.legend.hangar, false, units),
    ];
    for (k, reading) in chosen(trace).into_iter().enumerate() {
        lines.push(Line {
            key: reading.key.clone(),
            name: reading.label.clone(),
            points: degrees(weighted(trace, &reading.columns), units),
            ink: look(k).0,
            width: 2.2,
            dashes: look(k).1,
        });
    }
    if trace.legend.cells.iter().any(|cell| cell.engine) {
        lines.push(Line {
            key: "coldest_part".to_owned(),
            name: "coldest part".to_owned(),
            points: degrees(coldest(trace), units),
            ink: colour::TEXT,
            width: 1.8,
            dashes: Some(COLDEST),
        });
    }
    let mut panels = vec![degrees_panel(view, lines)];
    let mut strips = heaters(trace);
    if let Some(dew) = DewMarginSeries::of(trace).filter(|dew| !dew.groups.is_empty()) {
        panels.push(dew_panel(trace, view, &dew));
        strips.push(settling(&dew));
    }
    let told = match (strips.iter().any(|s| s.key == SETTLES), view.breadth) {
        (false, _) => "means over groups of parts".to_owned(),
        (true, Breadth::Sheet) => format!("means over groups of parts; {}", settles()),
        (true, Breadth::Phone) => {
            format!("means over groups; water: from {TRACE_FILM_G_PER_M2} g/m²")
        }
    };
    figure(trace, view, &told, panels, strips).picture()
}

/// A figure over the hours of this trace.
pub fn figure<'a>(
    trace: &Trace,
    view: &ChartView<'a>,
    what: &str,
    panels: Vec<Panel>,
    strips: Vec<Strip>,
) -> Figure<'a> {
    Figure {
        view: *view,
        what: what.to_owned(),
        departure_s: trace.departure_s,
        end_s: trace.times_s.last().copied().unwrap_or(0.0),
        panels,
        strips,
    }
}

/// A panel of temperatures with the threshold.
pub fn degrees_panel(view: &ChartView, lines: Vec<Line>) -> Panel {
    let degrees = view.units.temperature(view.threshold.celsius());
    // To a tenth: 40 °F is 4.4 °C.
    let told = tick_label((degrees * 10.0).round() / 10.0);
    Panel {
        unit: Unit::temperature(view.units),
        heading: String::new(),
        high: HIGH,
        range: None,
        lines,
        stack: Stack::default(),
        limits: vec![Limit {
            value: degrees,
            name: format!("threshold {told} {}", view.units.symbol()),
        }],
    }
}

fn dew_panel(trace: &Trace, view: &ChartView, dew: &DewMarginSeries) -> Panel {
    let units = view.units;
    let least = dew.least_k().into_iter().map(|k| units.step(k));
    Panel {
        unit: Unit::step(units),
        heading: match view.breadth {
            Breadth::Sheet => {
                "Coldest inner wall above the dew point inside; below zero, water begins to settle"
            }
            Breadth::Phone => "Coldest inner wall above the dew point",
        }
        .to_owned(),
        high: DEW_HIGH,
        range: None,
        lines: vec![Line {
            key: "dew_margin".to_owned(),
            name: "above the dew point".to_owned(),
            points: points(trace, least),
            ink: colour::WET,
            width: 2.0,
            dashes: None,
        }],
        stack: Stack::default(),
        limits: vec![Limit {
            value: 0.0,
            name: String::new(),
        }],
    }
}

/// A strip for each heater.
pub fn heaters(trace: &Trace) -> Vec<Strip> {
    let heaters = trace.legend.heaters.iter().enumerate();
    heaters
        .map(|(k, heater)| Strip {
            key: format!("heater_{}_{}", k + 1, super::numbers::slug(&heater.name)),
            name: heater.name.clone(),
            spans: trace.on_spans(k),
            ink: colour::HEAT,
        })
        .collect()
}

/// What the strip of settling water counts, in a few words.
pub fn settles() -> String {
    format!(
        "water is told to settle once the film on a wall is over {TRACE_FILM_G_PER_M2} g/m², some time after it is below the dew point"
    )
}

/// The strip of the hours in which water settles.
pub fn settling(dew: &DewMarginSeries) -> Strip {
    Strip {
        key: SETTLES.to_owned(),
        name: "water settles inside".to_owned(),
        spans: dew.condensing_s.clone(),
        ink: colour::WET,
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawn_night;

    #[test]
    fn a_chart_names_every_group_the_air_and_the_threshold() {
        let night = drawn_night::trace();
        let clock = drawn_night::clock();
        let svg = temperature(&night, &drawn_night::view(&clock)).unwrap().svg;
        for reading in &night.legend.readings {
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
        let clock = drawn_night::clock();
        let (view, night) = (drawn_night::view(&clock), drawn_night::trace());
        let hot = Line {
            key: "hot".to_owned(),
            name: "hot".to_owned(),
            points: (0..100).map(|k| (f64::from(k) * 60.0, 185.0)).collect(),
            ink: colour::SERIES[0],
            width: 3.0,
            dashes: None,
        };
        let mut panel = degrees_panel(&view, vec![hot.clone()]);
        panel.range = Some((0.0, 140.0));
        let drawn = |panel: &Panel| {
            let shown = figure(&night, &view, "", vec![panel.clone()], vec![]);
            shown.picture().unwrap().svg
        };
        assert!(
            !drawn(&panel).contains(">\nhot\n<"),
            "the hot line is named"
        );
        panel.range = Some((0.0, 194.0));
        assert!(drawn(&panel).contains(">\nhot\n<"));
    }

    /// A hundred thousand samples with one peak of a minute: the picture stays small and shows the peak, the numbers
    /// keep every sample.
    #[test]
    fn a_long_record_is_thinned_with_its_peaks_kept() {
        let clock = drawn_night::clock();
        let (view, night) = (drawn_night::view(&clock), drawn_night::trace());
        let mut points: Vec<(f64, f64)> = (0..100_000)
            .map(|k| (f64::from(k) * 0.45, 50.0 + (f64::from(k) / 900.0).sin()))
            .collect();
        points[61_803].1 = 150.0;
        let line = Line {
            key: "spiky".to_owned(),
            name: "spiky".to_owned(),
            points,
            ink: colour::SERIES[0],
            width: 2.0,
            dashes: None,
        };
        let mut panel = degrees_panel(&view, vec![line]);
        panel.range = Some((0.0, 150.0));
        let shown = figure(&night, &view, "", vec![panel], vec![]);
        let picture = shown.picture().unwrap();
        assert!(picture.svg.len() < 60_000, "{} bytes", picture.svg.len());
        // The top of the panel, drawn four times as large.
        let top = 4.0 * 100.0;
        assert!(
            picture.svg.contains(&format!(",{top} ")),
            "no peak at {top}"
        );
        let rows = picture.csv.iter().filter(|b| **b == b'\n').count();
        assert_eq!(rows, 100_001);
    }

    #[test]
    fn a_record_of_nothing_is_an_empty_frame() {
        let clock = drawn_night::clock();
        let drawn = temperature(&Trace::default(), &drawn_night::view(&clock)).unwrap();
        assert!(drawn.svg.ends_with("</svg>\n"));
    }
}
