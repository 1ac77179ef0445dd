//! The weather: steady and sane, or a record that covers the night without long gaps.

use super::super::clock::NightClock;
use super::super::document::Scenario;
use super::super::weather::{DEW_POINT_ABOVE_K, LONGEST_GAP_S, Record, Weather, utc};
use super::problem::Problems;
use super::simulated_time::end_s;

/// Checks the weather against the night.
pub(super) fn check(scenario: &Scenario, clock: Option<&NightClock>, problems: &mut Problems) {
    match &scenario.weather {
        Weather::steady { .. } => {}
        Weather::recorded(record) => {
            let dated = scenario.clock.begin.date.is_some();
            if !dated {
                problems
                    .tell(
                        "clock.begin",
                        "recorded weather needs a dated night, but `begin` names no date",
                    )
                    .help("write the day too, as in \"1996-02-04 19:00\"");
            }
            if scenario.clock.zone.is_none() {
                problems
                    .tell(
                        "clock.zone",
                        "recorded weather is in UTC, so the night needs a time zone, but none is named",
                    )
                    .word("clock")
                    .help("add zone: \"America/New_York\", or the like; zone: \"UTC\" if the clock is that");
            }
            if readings(record, problems)
                && dated
                && let Some(clock) = clock
            {
                let begin = clock.begin_unix_s();
                covers(record, begin, begin + end_s(scenario, clock), problems);
            }
        }
    }
}

/// Whether the readings are there, sane and in order.
fn readings(record: &Record, problems: &mut Problems) -> bool {
    let before = problems.count();
    let readings = &record.readings;
    if readings.is_empty() {
        let what = format!("the weather record `{}` is empty", record.name);
        problems.tell("weather", what);
    }
    for (i, r) in readings.iter().enumerate() {
        let path = |key: &str| format!("weather.readings[{i}].{key}");
        if r.dew_point_c > r.temp_c + DEW_POINT_ABOVE_K {
            problems.tell(
                path("dew_point_c"),
                format!(
                    "the dew point {} °C lies above the temperature {} °C",
                    r.dew_point_c, r.temp_c
                ),
            );
        }
    }
    for (i, pair) in readings.windows(2).enumerate() {
        if pair[1].unix_s <= pair[0].unix_s {
            problems.tell(
                format!("weather.readings[{}].unix_s", i + 1),
                format!(
                    "the reading of {} comes after that of {}: times must rise",
                    utc(pair[1].unix_s),
                    utc(pair[0].unix_s)
                ),
            );
        }
    }
    problems.count() == before
}

/// Whether the record reaches from the beginning to the end, with no long gap between.
fn covers(record: &Record, begin: f64, end: f64, problems: &mut Problems) {
    let (Some(first), Some(last)) = (record.readings.first(), record.readings.last()) else {
        return;
    };
    let hours = |seconds: f64| format!("{:.1} h", seconds / 3600.0);
    let late = (first.unix_s > begin)
        .then(|| format!("begins {} after the night", hours(first.unix_s - begin)));
    let early =
        (last.unix_s < end).then(|| format!("ends {} before the night", hours(end - last.unix_s)));
    let missed: Vec<String> = late.into_iter().chain(early).collect();
    if !missed.is_empty() {
        let what = format!(
            "the weather record `{}` {}: it runs from {} to {}, the night from {} to {}",
            record.name,
            missed.join(" and "),
            utc(first.unix_s),
            utc(last.unix_s),
            utc(begin),
            utc(end)
        );
        problems.tell("weather", what).help(
            "the record must cover the whole night; is `clock.zone` the zone of the station, and are the dates right?",
        );
    }
    for pair in record.readings.windows(2) {
        let (from, to) = (pair[0].unix_s, pair[1].unix_s);
        if to > begin && from < end && to - from > LONGEST_GAP_S {
            problems
                .tell(
                    "weather",
                    format!(
                        "the weather record `{}` has no reading between {} and {}",
                        record.name,
                        utc(from),
                        utc(to)
                    ),
                )
                .help("straight lines are drawn over three hours at most");
        }
    }
}
