//! What happened when, in words; the many switchings of a thermostat are told once.

use super::format::clock;
use crate::findings::{Event, EventKind};
use crate::scenario::clock::NightClock;
use crate::trace::SwitchCause;
use std::collections::BTreeMap;
use std::fmt::Write;

/// Switchings by one thermostat that are told one by one before the rest are counted.
const TOLD: usize = 2;

/// One line an event. A thermostat's first off and on are told, then how often it switched and when last.
pub fn told(events: &[Event], night: &NightClock) -> String {
    let mut text = String::new();
    let mut line = |time_h: f64, words: &str| {
        // Writing to a string cannot fail.
        let _ = writeln!(text, "  {}  {words}", clock(night, time_h));
    };
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    for event in events {
        let Some(heater) = by_thermostat(event) else {
            line(event.time_h, &happened(event));
            continue;
        };
        let all = || events.iter().filter(|e| by_thermostat(e) == Some(heater));
        let told = seen.entry(heater).or_default();
        *told += 1;
        if *told <= TOLD || all().count() == TOLD + 1 {
            line(event.time_h, &happened(event));
        } else if *told == TOLD + 1 {
            let last = all().next_back().map_or(event.time_h, |e| e.time_h);
            let more = all().count() - TOLD;
            let last = clock(night, last);
            line(
                event.time_h,
                &format!(
                    "{heater} switched {more} times more by its thermostat, the last at {last}"
                ),
            );
        }
    }
    text
}

/// The heater a thermostat switched, if one did.
fn by_thermostat(event: &Event) -> Option<&str> {
    match &event.what {
        EventKind::HeaterOn {
            heater,
            cause: SwitchCause::Thermostat,
        }
        | EventKind::HeaterOff {
            heater,
            cause: SwitchCause::Thermostat,
        } => Some(heater),
        _ => None,
    }
}

fn happened(event: &Event) -> String {
    let by = |cause: &SwitchCause| match cause {
        SwitchCause::Hours => "its hours",
        SwitchCause::Thermostat => "its thermostat",
    };
    match &event.what {
        EventKind::HeaterOn { heater, cause } => format!("{heater} on, by {}", by(cause)),
        EventKind::HeaterOff { heater, cause } => format!("{heater} off, by {}", by(cause)),
        EventKind::Warm { label, .. } => format!("{label} at the threshold"),
        EventKind::AllPartsWarm => "every part at the threshold".to_owned(),
        EventKind::Lost { label, .. } => format!("{label} below the threshold again"),
        EventKind::AllPartsLost => "not every part at the threshold any more".to_owned(),
        EventKind::Departure => "departure".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawn_night;

    fn switched(time_h: f64, on: bool, cause: SwitchCause) -> Event {
        let heater = "pad".to_owned();
        let what = if on {
            EventKind::HeaterOn { heater, cause }
        } else {
            EventKind::HeaterOff { heater, cause }
        };
        Event { time_h, what }
    }

    #[test]
    fn a_thermostat_is_told_twice_and_then_counted() {
        let mut events = vec![switched(0.0, true, SwitchCause::Hours)];
        for k in 1..=10 {
            events.push(switched(f64::from(k), k % 2 == 0, SwitchCause::Thermostat));
        }
        let text = told(&events, &drawn_night::clock());
        assert_eq!(text.lines().count(), 4, "{text}");
        assert!(
            text.contains("pad switched 8 times more by its thermostat"),
            "{text}"
        );
    }

    #[test]
    fn three_switchings_are_told_one_by_one() {
        let events: Vec<_> = (1..=3)
            .map(|k| switched(f64::from(k), k % 2 == 0, SwitchCause::Thermostat))
            .collect();
        let text = told(&events, &drawn_night::clock());
        assert_eq!(text.lines().count(), 3);
        assert!(!text.contains("times more"), "{text}");
    }
}
