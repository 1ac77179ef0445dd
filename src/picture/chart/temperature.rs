//! One night as a chart: the temperature of each group of parts by the clock, the air around, the threshold, the
//! departure, when the heaters were on, how far the inner walls stand above the dew point, and when water settles.

use super::axis::tick_label;
use super::figure::Figure;
use super::line::{COLDEST, Line, PLAIN, air, coldest, degrees, look, points, weighted};
use super::panel::{Limit, Panel, Strip};
use super::stack::Stack;
use super::view::{Chart, ChartView, Unit};
use crate::findings::{DewMarginSeries, TRACE_FILM_G_PER_M2};
use crate::picture::draw::{Size, colour};
use crate::trace::{ReadingNote, Trace};

/// How high the panel of temperatures is.
const HIGH: f64 = 350.0;
/// How high the panel of the dew point is.
const DEW_HIGH: f64 = 76.0;

/// The chart. Lines are the coldest part and the groups of the legend, without the single cylinders unless there is
/// nothing else.
pub fn temperature(trace: &Trace, view: &ChartView) -> Chart {
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
            ribbon: None,
            colour: look(k).0,
            width: PLAIN,
            dashes: look(k).1,
        });
    }
    if trace.legend.cells.iter().any(|cell| cell.engine) {
        lines.push(Line {
            key: "coldest_part".to_owned(),
            name: "coldest part".to_owned(),
            points: degrees(coldest(trace), units),
            ribbon: None,
            colour: colour::TEXT,
            width: COLDEST,
            dashes: &[],
        });
    }
    let mut panels = vec![degrees_panel(view, lines)];
    let mut strips = heaters(trace);
    let mut what = format!("{}; coldest part, and means of part groups", units.symbol());
    if let Some(dew) = DewMarginSeries::of(trace).filter(|dew| !dew.groups.is_empty()) {
        panels.push(dew_panel(trace, view, &dew));
        strips.push(condensing(&dew));
        what = format!("{what}; {}", counted());
    }
    let found = match view.coldest(trace) {
        Some((coldest, said)) => format!("Coldest part: {}, {said}", coldest.label),
        None => "No engine part was computed".to_owned(),
    };
    Figure::of(trace, view, (found, &what), panels, strips).chart()
}

/// A panel of temperatures with the minimum.
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
            name: format!("minimum {told} {}", view.units.symbol()),
        }],
    }
}

fn dew_panel(trace: &Trace, view: &ChartView, dew: &DewMarginSeries) -> Panel {
    let units = view.units;
    let least = dew.least_k().into_iter().map(|k| units.step(k));
    Panel {
        unit: Unit::step(units),
        heading: match view.look.size {
            Size::Phone => "Coldest inner wall above dew point",
            _ => "Coldest inner wall above the dew point inside; below zero, water condenses",
        }
        .to_owned(),
        high: DEW_HIGH,
        range: None,
        lines: vec![Line {
            key: "dew_margin".to_owned(),
            name: "above the dew point".to_owned(),
            points: points(trace, least),
            ribbon: None,
            colour: colour::WET,
            width: PLAIN,
            dashes: &[],
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
            key: format!("heater_{}_{}_on", k + 1, super::numbers::slug(&heater.name)),
            name: heater.name.clone(),
            spans: trace.on_spans(k),
            colour: colour::HEAT,
        })
        .collect()
}

/// What the strip of condensing water counts.
pub fn counted() -> String {
    format!("condensing: from {TRACE_FILM_G_PER_M2} g/m² of water on a wall")
}

/// The strip of the hours in which water condenses.
pub fn condensing(dew: &DewMarginSeries) -> Strip {
    Strip {
        key: "condensing".to_owned(),
        name: "condensing inside".to_owned(),
        spans: dew.condensing_s.clone(),
        colour: colour::WET,
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
    use crate::picture::draw::colour::Colour;
    use crate::picture::draw::{Point, Shape};

    fn words(chart: &Chart) -> Vec<&str> {
        let shapes = chart.picture.shapes.iter();
        let words = shapes.filter_map(|s| match s {
            Shape::Words(w) => Some(w.text.as_str()),
            _ => None,
        });
        words.collect()
    }
    /// All points of the lines of a colour.
    fn points_of(chart: &Chart, colour: Colour) -> Vec<Point> {
        let shapes = chart.picture.shapes.iter();
        let lines = shapes.filter_map(|s| match s {
            Shape::Line(points, stroke) if stroke.colour == colour => Some(points.clone()),
            _ => None,
        });
        lines.flatten().collect()
    }
    fn line(name: &str, points: Vec<Point>) -> Line {
        Line {
            key: name.to_owned(),
            name: name.to_owned(),
            points,
            ribbon: None,
            colour: colour::SERIES[0],
            width: 3.0,
            dashes: &[],
        }
    }

    #[test]
    fn a_chart_names_every_group_the_air_and_the_minimum() {
        let (night, clock) = (drawn_night::trace(), drawn_night::clock());
        let chart = temperature(&night, &drawn_night::view(&clock));
        let words = words(&chart);
        for reading in &night.legend.readings {
            assert!(words.contains(&reading.label.as_str()), "{}", reading.label);
        }
        for name in [
            "outdoors",
            "hangar air",
            "minimum 40 °F",
            "coldest part",
            "departure 07:30",
            "top heater",
        ] {
            assert!(words.contains(&name), "{name}");
        }
    }

    /// A line that leaves the range is cut there, not drawn along the edge; wholly outside it is not even named.
    #[test]
    fn a_line_outside_the_range_is_not_drawn_at_the_edge() {
        let (clock, night) = (drawn_night::clock(), drawn_night::trace());
        let view = drawn_night::view(&clock);
        let hot = (0..100).map(|k| (f64::from(k) * 60.0, 185.0)).collect();
        let mut panel = degrees_panel(&view, vec![line("hot", hot)]);
        let drawn = |panel: &Panel| {
            Figure::of(
                &night,
                &view,
                (String::new(), ""),
                vec![panel.clone()],
                vec![],
            )
            .chart()
        };
        panel.range = Some((0.0, 140.0));
        let outside = drawn(&panel);
        assert!(points_of(&outside, colour::SERIES[0]).is_empty());
        assert!(!words(&outside).contains(&"hot"));
        panel.range = Some((0.0, 194.0));
        let inside = drawn(&panel);
        assert!(!points_of(&inside, colour::SERIES[0]).is_empty());
        assert!(words(&inside).contains(&"hot"));
    }

    /// A hundred thousand samples with one peak of a minute: the picture stays small and shows the peak, the numbers
    /// keep every sample.
    #[test]
    fn a_long_record_is_thinned_with_its_peaks_kept() {
        let (clock, night) = (drawn_night::clock(), drawn_night::trace());
        let view = drawn_night::view(&clock);
        let mut points: Vec<(f64, f64)> = (0..100_000)
            .map(|k| (f64::from(k) * 0.45, 50.0 + (f64::from(k) / 900.0).sin()))
            .collect();
        points[61_803].1 = 150.0;
        let mut panel = degrees_panel(&view, vec![line("spiky", points)]);
        panel.range = Some((0.0, 150.0));
        let chart = Figure::of(&night, &view, (String::new(), ""), vec![panel], vec![]).chart();
        let kept = points_of(&chart, colour::SERIES[0]);
        assert!(kept.len() < 3_000, "{} points", kept.len());
        // The top of the panel, where its frame begins.
        let frame = points_of(&chart, colour::FRAME);
        assert!(kept.iter().any(|p| p.1 == frame[0].1), "no peak");
        let rows = chart.csv.iter().filter(|b| **b == b'\n').count();
        assert_eq!(rows, 100_001);
    }

    #[test]
    fn a_record_of_nothing_is_an_empty_frame() {
        let clock = drawn_night::clock();
        let chart = temperature(&Trace::default(), &drawn_night::view(&clock));
        for series in colour::SERIES {
            assert!(points_of(&chart, series).is_empty());
        }
        assert!(!points_of(&chart, colour::FRAME).is_empty());
        let words = words(&chart);
        assert!(words.contains(&"minimum 40 °F") && !words.contains(&"coldest part"));
        assert_eq!(chart.csv.iter().filter(|b| **b == b'\n').count(), 1);
    }
}
