//! The chance of being ready against the switch-on time, with what is required and the start that was chosen.

use super::figure::Figure;
use super::line::{COLDEST, Line, Ribbon};
use super::panel::{Limit, Panel};
use super::stack::Stack;
use super::view::{Chart, ChartView, Unit};
use crate::picture::draw::colour;
use crate::study::when::When;

/// How high the panel is.
const HIGH: f64 = 300.0;

/// The chance of one switch-on time, all fractions from 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StartChance {
    /// When the heaters are switched on, seconds after the beginning of the night.
    pub on_s: f64,
    /// The chance.
    pub chance: f64,
    /// The lower end of its 95 % interval.
    pub low: f64,
    /// The upper end of its 95 % interval.
    pub high: f64,
}

/// The chance against the switch-on time of an answer.
pub fn chances(when: &When, view: &ChartView) -> Chart {
    let departure_s = when.night.trace.departure_s;
    let on_s = |minutes: usize| departure_s - 60.0 * minutes as f64;
    let starts = when.curve.iter().map(|(minutes, share)| StartChance {
        on_s: on_s(*minutes),
        chance: share.share,
        low: share.low,
        high: share.high,
    });
    let chosen = Some(on_s(when.found.minutes)).filter(|_| when.found.minutes > 0);
    chance(
        &starts.collect::<Vec<_>>(),
        when.options.target,
        chosen,
        departure_s,
        view,
    )
}

/// The chance at each start, in their order; `chosen_s` is the start that was chosen, if any is. The headline is the
/// view's.
pub fn chance(
    starts: &[StartChance],
    required: f64,
    chosen_s: Option<f64>,
    departure_s: f64,
    view: &ChartView,
) -> Chart {
    let percent = |fraction: f64| 100.0 * fraction;
    let line = Line {
        key: "ready".to_owned(),
        name: "ready at departure".to_owned(),
        points: starts.iter().map(|s| (s.on_s, percent(s.chance))).collect(),
        ribbon: Some(Ribbon {
            keys: ["ready_ci95_low", "ready_ci95_high"].map(str::to_owned),
            points: starts
                .iter()
                .map(|s| (s.on_s, percent(s.low), percent(s.high)))
                .collect(),
        }),
        colour: colour::SERIES[0],
        width: COLDEST,
        dashes: &[],
    };
    let chosen = chosen_s.map(|s| (s, "switch on".to_owned()));
    let departure = (departure_s, "departure".to_owned());
    Figure {
        view: *view,
        found: String::new(),
        what: "%; chance of ready against the switch-on time; ribbon: 95 % interval".to_owned(),
        marks: chosen.into_iter().chain([departure]).collect(),
        end_s: departure_s,
        panels: vec![Panel {
            unit: Unit::PERCENT,
            heading: String::new(),
            high: HIGH,
            range: Some((0.0, 100.0)),
            lines: vec![line],
            stack: Stack::default(),
            limits: vec![Limit {
                value: percent(required),
                name: format!("required {:.0} %", percent(required)),
            }],
        }],
        strips: vec![],
    }
    .chart()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawn_night;
    use crate::picture::draw::Shape;

    #[test]
    fn the_chance_has_its_interval_what_is_required_and_the_chosen_start() {
        let clock = drawn_night::clock();
        let view = drawn_night::view(&clock);
        let departure_s = 12.5 * 3600.0;
        let starts: Vec<StartChance> = (0..=12)
            .map(|hour| {
                let chance = 0.98 - 0.006 * f64::from(hour * hour);
                StartChance {
                    on_s: 3600.0 * f64::from(hour),
                    chance,
                    low: chance - 0.05,
                    high: (chance + 0.03).min(1.0),
                }
            })
            .collect();
        let drawn = chance(&starts, 0.95, Some(2.0 * 3600.0), departure_s, &view);
        let shapes = || drawn.picture.shapes.iter();
        let words = |text: &str| shapes().any(|s| matches!(s, Shape::Words(w) if w.text == text));
        for text in ["required 95 %", "switch on 21:00", "departure 07:30", "100"] {
            assert!(words(text), "{text}");
        }
        let ribbon = shapes().find_map(|s| match s {
            Shape::Area(area) if area.opacity == 0.25 => Some(area.outline.bounds()),
            _ => None,
        });
        let frame = shapes().find_map(|s| match s {
            Shape::Line(points, stroke) if stroke.colour == colour::FRAME => Some(points.clone()),
            _ => None,
        });
        let ((_, top), (_, foot)) = ribbon.unwrap();
        let frame = frame.unwrap();
        let (ceiling, floor) = (frame[0].1, frame[2].1);
        let y = |chance: f64| floor - chance * (floor - ceiling);
        assert!((top - y(1.0)).abs() < 0.1, "{top} {ceiling}");
        assert!((foot - y(starts[12].low)).abs() < 0.1, "{foot}");
        let csv = String::from_utf8(drawn.csv).unwrap();
        let head = "time_h,clock,ready_percent,ready_ci95_low_percent,ready_ci95_high_percent\n";
        assert!(csv.starts_with(head), "{csv:.100}");
        assert!(
            csv.contains("\n2.00000,21:00,95.6000,90.6000,98.6000\n"),
            "{csv}"
        );
    }
}
