//! What happens when; the many switchings of a thermostat are counted.

use super::model::{Fact, Section};
use crate::findings::{Event, EventKind};
use crate::scenario::clock::NightClock;
use crate::trace::SwitchCause;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// Switchings by one thermostat that stand by themselves before the rest are counted.
const SINGLE: usize = 2;

/// What happens when; programs read each event by itself.
pub fn section(events: &[Event], clock: &NightClock) -> Section {
    let all = Fact::json("events", json(events, clock));
    Section::wide("Events").facts(facts(events, clock).into_iter().chain([all]))
}

/// A clock time and what happens then, in order. Of a thermostat the first two switchings, then how many more there are
/// and when the last is.
fn facts(events: &[Event], clock: &NightClock) -> Vec<Fact> {
    let at = |hours: f64| clock.dated(hours * 3600.0);
    let mut facts = Vec::new();
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    for event in events {
        let mut put = |words: String| facts.push(Fact::text(at(event.time_h), words));
        let Some(heater) = by_thermostat(event) else {
            put(words(event));
            continue;
        };
        let all = || events.iter().filter(|e| by_thermostat(e) == Some(heater));
        let count = seen.entry(heater).or_default();
        *count += 1;
        if *count <= SINGLE || all().count() == SINGLE + 1 {
            put(words(event));
        } else if *count == SINGLE + 1 {
            let last = all().next_back().map_or(event.time_h, |e| e.time_h);
            let more = all().count() - SINGLE;
            put(format!(
                "{heater} switched {more} more times by its thermostat, last at {}",
                at(last)
            ));
        }
    }
    facts
}

/// The events for programs, each by itself.
fn json(events: &[Event], clock: &NightClock) -> Value {
    let one = |e: &Event| {
        let (what, subject, cause) = match &e.what {
            EventKind::HeaterOn { heater, cause } => ("heater_on", Some(heater), Some(cause)),
            EventKind::HeaterOff { heater, cause } => ("heater_off", Some(heater), Some(cause)),
            EventKind::Warm { key, .. } => ("group_warm", Some(key), None),
            EventKind::AllPartsWarm => ("all_parts_warm", None, None),
            EventKind::Lost { key, .. } => ("group_lost", Some(key), None),
            EventKind::AllPartsLost => ("all_parts_lost", None, None),
            EventKind::Departure => ("departure", None, None),
        };
        let cause = cause.map(|cause| match cause {
            SwitchCause::Hours => "hours",
            SwitchCause::Thermostat => "thermostat",
        });
        let at = clock.to_text(e.time_h * 3600.0);
        json!({"time_h": e.time_h, "clock": at, "what": what, "subject": subject, "cause": cause})
    };
    events.iter().map(one).collect()
}

/// The heater a thermostat switched, if one did.
fn by_thermostat(event: &Event) -> Option<&str> {
    match &event.what {
        EventKind::HeaterOn { heater, cause } | EventKind::HeaterOff { heater, cause }
            if *cause == SwitchCause::Thermostat =>
        {
            Some(heater)
        }
        _ => None,
    }
}

fn words(event: &Event) -> String {
    let by = |cause: &SwitchCause| match cause {
        SwitchCause::Hours => "by timer",
        SwitchCause::Thermostat => "by its thermostat",
    };
    match &event.what {
        EventKind::HeaterOn { heater, cause } => format!("{heater} on, {}", by(cause)),
        EventKind::HeaterOff { heater, cause } => format!("{heater} off, {}", by(cause)),
        EventKind::Warm { label, .. } => format!("{label} at the minimum"),
        EventKind::AllPartsWarm => "every part at the minimum".to_owned(),
        EventKind::Lost { label, .. } => format!("{label} below the minimum again"),
        EventKind::AllPartsLost => "some part below the minimum again".to_owned(),
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
    fn a_thermostat_stands_twice_and_is_then_counted() {
        let mut events = vec![switched(0.0, true, SwitchCause::Hours)];
        for k in 1..=10 {
            events.push(switched(f64::from(k), k % 2 == 0, SwitchCause::Thermostat));
        }
        let facts = facts(&events, &drawn_night::clock());
        assert_eq!(facts.len(), 4, "{facts:?}");
        let last = &facts[3].cell.text;
        assert!(last.contains("switched 8 more times"), "{last}");
        assert_eq!(
            json(&events, &drawn_night::clock())
                .as_array()
                .unwrap()
                .len(),
            11
        );
    }

    #[test]
    fn three_switchings_stand_one_by_one() {
        let events: Vec<_> = (1..=3)
            .map(|k| switched(f64::from(k), k % 2 == 0, SwitchCause::Thermostat))
            .collect();
        let facts = facts(&events, &drawn_night::clock());
        assert_eq!(facts.len(), 3);
        assert!(facts.iter().all(|f| !f.cell.text.contains("more times")));
    }
}
