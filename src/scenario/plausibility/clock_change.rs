//! Clock times that never were, or came twice, as the clocks were put forward or back.

use super::super::clock::{ClockTime, Moment};
use super::super::document::Scenario;
use super::super::hours::Hours;
use super::warning::PlausibilityWarnings;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::{AmbiguousOffset, TimeZone};

/// What is usual of a time.
const ONCE: &str =
    "a time that the clock shows once (the computation follows the clock through the change)";

/// PlausibilityWarnings every time of a dated night that its clock showed never, or twice.
pub(super) fn turned(scenario: &Scenario, doubts: &mut PlausibilityWarnings) {
    let clock = &scenario.clock;
    let zone = clock
        .zone
        .as_deref()
        .and_then(|zone| TimeZone::get(zone).ok());
    let (Some(zone), Some(first), Ok(night)) = (zone, clock.begin.date, clock.resolve()) else {
        return;
    };
    let mut moment = |path: &str, moment: &Moment| {
        let at = moment.date.and_then(|date| on(date, moment.time));
        if let Some(what) = at.and_then(|at| odd(&zone, at)) {
            doubts.odd(path, what, ONCE);
        }
    };
    moment("clock.begin", &clock.begin);
    moment("clock.departure", &clock.departure);
    // The days of the night, and no more of them than a record is long.
    let days = (night.night_s() / 86_400.0).ceil() as usize + 1;
    let dates: Vec<Date> = std::iter::successors(Some(first), |date| date.tomorrow().ok())
        .take(days.min(366))
        .collect();
    for (i, heater) in scenario.heaters.iter().enumerate() {
        let times: Vec<ClockTime> = match &heater.hours {
            Hours::from(time) => vec![*time],
            Hours::between(pairs) => pairs.iter().flat_map(|(on, off)| [*on, *off]).collect(),
            Hours::always | Hours::never | Hours::before_departure(_) => Vec::new(),
        };
        for time in times {
            let found = dates
                .iter()
                .filter_map(|date| on(*date, time))
                .find_map(|at| odd(&zone, at));
            if let Some(what) = found {
                let what = format!("{what}, for `{}`", heater.name);
                doubts.odd(format!("heaters[{i}].hours"), what, ONCE);
            }
        }
    }
}

fn on(date: Date, time: ClockTime) -> Option<DateTime> {
    Some(date.to_datetime(time.to_string().parse::<Time>().ok()?))
}

/// What is odd about a local time, and how it is taken.
fn odd(zone: &TimeZone, at: DateTime) -> Option<String> {
    let found = zone.to_ambiguous_timestamp(at);
    let shown = |at: DateTime| at.strftime("%Y-%m-%d %H:%M").to_string();
    match found.offset() {
        AmbiguousOffset::Unambiguous { .. } => None,
        AmbiguousOffset::Gap { .. } => {
            let taken = found
                .compatible()
                .ok()?
                .to_zoned_datetime(zone.clone())
                .datetime();
            Some(format!(
                "{} never was, as the clocks were put forward over it; {} is taken",
                shown(at),
                taken.strftime("%H:%M")
            ))
        }
        AmbiguousOffset::Fold { .. } => Some(format!(
            "{} comes twice, as the clocks were put back; the first is taken",
            shown(at)
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 2018: clocks in New York went from 02:00 to 03:00 on 11 March and from 02:00 to 01:00 on 4 November (US Energy
    /// Policy Act of 2005).
    #[test]
    fn times_in_the_gap_and_in_the_hour_told_twice_are_odd() {
        let zone = TimeZone::get("America/New_York").unwrap();
        let said = |at: &str| odd(&zone, at.parse().unwrap());
        let gap = said("2018-03-11T02:30").unwrap();
        assert!(
            gap.contains("never was") && gap.ends_with("03:30 is taken"),
            "{gap}"
        );
        assert!(said("2018-11-04T01:30").unwrap().contains("comes twice"));
        for fine in [
            "2018-03-11T01:59",
            "2018-03-11T03:00",
            "2018-11-04T02:00",
            "2018-07-01T02:30",
        ] {
            assert_eq!(said(fine), None, "{fine}");
        }
    }
}
