//! What happened when: heaters on and off, groups and the whole engine warm for the first time, and lost again.

use super::coldest::lowest_series;
use super::readings::series;
use super::threshold::{CrossingTimes, ThresholdFinding, lost_at_s};
use crate::trace::{SwitchCause, Trace};
use serde::Serialize;

/// Something that happened.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Event {
    /// When, hours after the beginning.
    pub time_h: f64,
    /// What.
    pub what: EventKind,
}

/// What can happen.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum EventKind {
    /// A heater went on.
    HeaterOn {
        /// Its name.
        heater: String,
        /// What switched it.
        cause: SwitchCause,
    },
    /// A heater went off.
    HeaterOff {
        /// Its name.
        heater: String,
        /// What switched it.
        cause: SwitchCause,
    },
    /// A group came to the threshold for the first time.
    Warm {
        /// Its key in machine output.
        key: String,
        /// What people call it.
        label: String,
    },
    /// Every engine part was at the threshold for the first time.
    AllPartsWarm,
    /// A group that had come to the threshold fell below it, to the end.
    Lost {
        /// Its key in machine output.
        key: String,
        /// What people call it.
        label: String,
    },
    /// Some engine part fell below the threshold, to the end, after all had been at it.
    AllPartsLost,
    /// The departure.
    Departure,
}

/// What happened in a trace, in order. A group that was warm enough from the first has no event.
pub(super) fn events(trace: &Trace, threshold: &ThresholdFinding, first_on_h: f64) -> Vec<Event> {
    let mut events: Vec<Event> = trace
        .switchings
        .iter()
        .filter_map(|s| {
            let heater = trace.legend.heaters.get(s.heater)?.name.clone();
            let cause = s.cause;
            let what = if s.on {
                EventKind::HeaterOn { heater, cause }
            } else {
                EventKind::HeaterOff { heater, cause }
            };
            Some(Event {
                time_h: s.time_s / 3600.0,
                what,
            })
        })
        .collect();
    let mut warm = |reach: &CrossingTimes, what: EventKind| {
        if let Some(hours) = reach.first.hours().filter(|h| *h > 0.0) {
            events.push(Event {
                time_h: first_on_h + hours,
                what,
            });
        }
    };
    for reading in &threshold.readings {
        let (key, label) = (reading.key.clone(), reading.label.clone());
        warm(&reading.reach, EventKind::Warm { key, label });
    }
    warm(&threshold.all_parts, EventKind::AllPartsWarm);
    let mut lost = |reach: &CrossingTimes, values: &dyn Fn() -> Vec<f64>, what: EventKind| {
        let at = || lost_at_s(&trace.times_s, &values(), threshold.threshold_c);
        if let Some(time_s) = reach.lost().then(at).flatten() {
            let time_h = time_s / 3600.0;
            events.push(Event { time_h, what });
        }
    };
    for (reading, note) in threshold.readings.iter().zip(&trace.legend.readings) {
        let (key, label) = (reading.key.clone(), reading.label.clone());
        let values = || series(trace, &note.columns);
        lost(&reading.reach, &values, EventKind::Lost { key, label });
    }
    let coldest = || lowest_series(trace);
    lost(&threshold.all_parts, &coldest, EventKind::AllPartsLost);
    events.push(Event {
        time_h: trace.departure_s / 3600.0,
        what: EventKind::Departure,
    });
    events.sort_by(|a, b| a.time_h.total_cmp(&b.time_h));
    events
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Temperature;
    use crate::scenario::criteria::Criteria;
    use crate::test_traces::Handmade;

    #[test]
    fn events_come_in_order_with_their_cause_and_first_crossings_on_the_nights_clock() {
        let mut night = Handmade::hours(&[0.0, 2.0, 4.0, 6.0]);
        night.heater("pad", 100.0, &[0.0]);
        night.switch(2.0, 0, true, SwitchCause::Hours);
        night.switch(5.0, 0, false, SwitchCause::Thermostat);
        let head = night.cell("head", &[0.0, 0.0, 10.0, 10.0]).column;
        let sump = night.cell("sump", &[20.0]).column;
        night.reading("head", &[head]);
        night.reading("sump", &[sump]);
        let trace = night.trace();
        let criteria = Criteria {
            min_temperature: Temperature::degC(5.0),
            ..Criteria::default()
        };
        let threshold = ThresholdFinding::of(&trace, &criteria);
        let found: Vec<_> = events(&trace, &threshold, 2.0)
            .into_iter()
            .map(|e| (e.time_h, e.what))
            .collect();
        let name = |text: &str| text.to_owned();
        let expected = [
            (
                2.0,
                EventKind::HeaterOn {
                    heater: name("pad"),
                    cause: SwitchCause::Hours,
                },
            ),
            (
                3.0,
                EventKind::Warm {
                    key: name("head"),
                    label: name("the head"),
                },
            ),
            (3.0, EventKind::AllPartsWarm),
            (
                5.0,
                EventKind::HeaterOff {
                    heater: name("pad"),
                    cause: SwitchCause::Thermostat,
                },
            ),
            (6.0, EventKind::Departure),
        ];
        assert_eq!(found, expected);
    }

    /// From 10 °C at 4 h to 0 °C at 6 h: 5 °C at 5 h.
    #[test]
    fn what_fell_below_again_is_told_with_its_time() {
        let mut night = Handmade::hours(&[0.0, 2.0, 4.0, 6.0]);
        night.heater("pad", 100.0, &[0.0]);
        let head = night.cell("head", &[0.0, 0.0, 10.0, 0.0]).column;
        night.reading("head", &[head]);
        let trace = night.trace();
        let criteria = Criteria {
            min_temperature: Temperature::degC(5.0),
            ..Criteria::default()
        };
        let threshold = ThresholdFinding::of(&trace, &criteria);
        let found = events(&trace, &threshold, 0.0);
        let lost: Vec<_> = found.iter().filter(|e| e.time_h == 5.0).collect();
        assert!(
            matches!(
                lost[..],
                [
                    Event {
                        what: EventKind::Lost { .. },
                        ..
                    },
                    Event {
                        what: EventKind::AllPartsLost,
                        ..
                    }
                ]
            ),
            "{found:?}"
        );
    }
}
