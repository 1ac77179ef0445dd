//! The weather: steady and sane, or a record that covers the night without long gaps.

use super::super::clock::NightClock;
use super::super::document::Scenario;
use super::super::weather::{Record, Weather};
use super::horizon::end_s;
use super::problem::Problems;
use jiff::Timestamp;

/// Air temperatures that are believed, °C: beyond the coldest and the hottest air recorded at the ground
/// (-89.2 and 56.7 °C, World Meteorological Organization, World Weather and Climate Extremes Archive; from memory).
const AIR_C: (f64, f64) = (-90.0, 60.0);
/// Winds that are believed, m/s: beyond the strongest gust recorded (113 m/s, the same archive; from memory).
const WIND_M_S: (f64, f64) = (0.0, 120.0);
/// How far a dew point may lie above the temperature, K: stations round both.
const DEW_POINT_ABOVE_K: f64 = 0.5;
/// The longest time between two readings, in seconds.
const LONGEST_GAP_S: f64 = 3.0 * 3600.0;

/// Checks the weather against the night.
pub(super) fn check(scenario: &Scenario, clock: Option<&NightClock>, problems: &mut Problems) {
    match &scenario.weather {
        Weather::steady {
            outdoors,
            humidity,
            wind,
        } => {
            let (low, high) = AIR_C;
            problems.within("weather.outdoors", outdoors.celsius(), low, high, "°C");
            problems.within("weather.humidity", *humidity, 0.0, 1.0, "");
            if let Some(wind) = wind {
                let (low, high) = WIND_M_S;
                problems.within("weather.wind", wind.si(), low, high, "m/s");
            }
        }
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
        if !r.unix_s.is_finite() {
            problems.tell(path("unix_s"), "`unix_s` must be finite");
        }
        let (low, high) = AIR_C;
        problems.within(path("temp_c"), r.temp_c, low, high, "°C");
        problems.within(path("dew_point_c"), r.dew_point_c, -120.0, high, "°C");
        if r.dew_point_c > r.temp_c + DEW_POINT_ABOVE_K {
            problems.tell(
                path("dew_point_c"),
                format!(
                    "the dew point {} °C lies above the temperature {} °C",
                    r.dew_point_c, r.temp_c
                ),
            );
        }
        let (low, high) = WIND_M_S;
        problems.within(path("wind_m_s"), r.wind_m_s, low, high, "m/s");
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
    if first.unix_s > begin || last.unix_s < end {
        problems
            .tell(
                "weather",
                format!(
                    "the weather record `{}` runs from {} to {}, the night from {} to {}",
                    record.name,
                    utc(first.unix_s),
                    utc(last.unix_s),
                    utc(begin),
                    utc(end)
                ),
            )
            .help(
                "the record must cover the whole night; is `clock.zone` the zone of the station?",
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

/// `1996-02-05 01:00 UTC`.
fn utc(unix_s: f64) -> String {
    match Timestamp::from_second(unix_s.round() as i64) {
        Ok(at) => at.strftime("%Y-%m-%d %H:%M UTC").to_string(),
        Err(_) => format!("{unix_s} s"),
    }
}
