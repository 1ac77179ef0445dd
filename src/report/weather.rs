//! A weather record: hour by hour, its coldest hour, and what was noted in it.

use super::columns::Table;
use super::format::temperature;
use super::model::{Fact, Report, Section};
use crate::physics::vapour::saturation_pressure_over_water_pa;
use crate::quantity::Units;
use crate::scenario::weather::{LONGEST_GAP_S, Observation, Record, utc};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde_json::{Value, json};

/// Metres a second in a knot.
const KNOT_M_S: f64 = 1852.0 / 3600.0;
/// Hours that stand in rows; of longer weather, as many around the coldest.
const MOST_ROWS: usize = 36;
/// Notes of one kind that stand; the rest are counted.
const MOST_NOTES: usize = 12;
/// Seconds of an hour.
const HOUR_S: f64 = 3600.0;

/// A record, with what is known of it.
pub struct WeatherFile<'a> {
    /// The file.
    pub file: &'a str,
    /// What it is.
    pub form: &'a str,
    /// The station, if it names one.
    pub station: Option<&'a str>,
    /// The readings.
    pub record: &'a Record,
    /// The zone of local times, and its name.
    pub zone: Option<(&'a TimeZone, &'a str)>,
    /// What was left out, corrected or odd: the kind and the words, kind after kind.
    pub notes: &'a [(&'a str, String)],
    /// How a night names this weather.
    pub entry: &'a str,
    /// The reader's degrees.
    pub units: Units,
}

/// The report of a weather file; programs read every reading, in UTC, °C and m/s.
pub fn report(weather: &WeatherFile) -> Report {
    let readings = &weather.record.readings;
    let rows = hourly(readings);
    let cold = coldest(&rows);
    let from = match cold {
        Some((at, _)) if rows.len() > MOST_ROWS => {
            at.saturating_sub(MOST_ROWS / 2).min(rows.len() - MOST_ROWS)
        }
        _ => 0,
    };
    let shown = &rows[from..rows.len().min(from + MOST_ROWS)];
    let cut = (rows.len() > MOST_ROWS).then(|| {
        format!(
            "{MOST_ROWS} of {} hours, around the coldest; --from and --to choose others.",
            rows.len()
        )
    });
    let zone = weather.zone.map(|(_, name)| name);
    let lacking = zone
        .is_none()
        .then(|| "Local times require --zone, such as America/Denver.".to_owned());
    let mut facts = vec![
        Fact::new("file", "File", weather.file, weather.file),
        Fact::new("form", "Form", weather.form, form(weather)),
    ];
    facts.extend(span(weather));
    facts.extend(cold.map(|(_, r)| {
        let at = temperature(r.temp_c, weather.units);
        Fact::text("Coldest", format!("{at}, {}", utc(r.unix_s)))
    }));
    facts.push(Fact::new(
        "night_entry",
        "In a night",
        weather.entry,
        weather.entry,
    ));
    Report::new("weather", weather.file, None)
        .with(Section::new("").facts(facts))
        .with(
            Section::new("")
                .block(hours(shown, weather))
                .say(cut)
                .say([
                    "At full hours, on straight lines between the readings. Dew point and humidity over liquid water, as \
stations report them."
                        .to_owned(),
                ])
                .say(lacking),
        )
        .with(notes(weather.notes))
        .with(Section::json([
            Fact::json("station", weather.station),
            Fact::json("zone", zone),
            Fact::json("readings", readings.iter().map(reading).collect::<Vec<_>>()),
            Fact::json("coldest", coldest(readings).map(|(_, r)| reading(r))),
            Fact::json("input_notes", noted(weather.notes)),
        ]))
}

/// Relative humidity over liquid water, from 0 to 1, as stations report it.
fn humidity(r: &Observation) -> f64 {
    saturation_pressure_over_water_pa(r.dew_point_c) / saturation_pressure_over_water_pa(r.temp_c)
}

fn local(unix_s: f64, zone: &TimeZone, form: &str) -> String {
    match Timestamp::from_second(unix_s as i64) {
        Ok(at) => at
            .to_zoned_datetime(zone.clone())
            .strftime(form)
            .to_string(),
        Err(_) => format!("{unix_s} s"),
    }
}

/// The weather between two readings, on the straight line that a night uses.
fn between(a: &Observation, b: &Observation, unix_s: f64) -> Observation {
    let share = (unix_s - a.unix_s) / (b.unix_s - a.unix_s);
    let along = |a: f64, b: f64| a + (b - a) * share;
    Observation {
        unix_s,
        temp_c: along(a.temp_c, b.temp_c),
        dew_point_c: along(a.dew_point_c, b.dew_point_c),
        wind_m_s: along(a.wind_m_s, b.wind_m_s),
    }
}

/// The weather at every full hour, but for gaps that no night may use; the readings where there is none between.
fn hourly(readings: &[Observation]) -> Vec<Observation> {
    let mut rows: Vec<Observation> = Vec::new();
    for pair in readings.windows(2) {
        let (a, b) = (&pair[0], &pair[1]);
        if b.unix_s - a.unix_s > LONGEST_GAP_S {
            continue;
        }
        let hours = (a.unix_s / HOUR_S).ceil() as i64..=(b.unix_s / HOUR_S).floor() as i64;
        for hour in hours.map(|hour| hour as f64 * HOUR_S) {
            // An hour that ends one pair begins the next.
            if rows.last().is_none_or(|last| last.unix_s < hour) {
                rows.push(between(a, b, hour));
            }
        }
    }
    if rows.is_empty() {
        readings.to_vec()
    } else {
        rows
    }
}

fn coldest(rows: &[Observation]) -> Option<(usize, &Observation)> {
    let rows = rows.iter().enumerate();
    rows.min_by(|a, b| a.1.temp_c.total_cmp(&b.1.temp_c))
}

fn form(weather: &WeatherFile) -> String {
    let station = weather
        .station
        .map_or(String::new(), |s| format!(" of {s}"));
    format!(
        "{}{station}, {} readings",
        weather.form,
        weather.record.readings.len()
    )
}

/// From when to when, in UTC and in local times.
fn span(weather: &WeatherFile) -> Option<Fact> {
    let readings = &weather.record.readings;
    let (first, last) = (readings.first()?.unix_s, readings.last()?.unix_s);
    let zoned = weather.zone.map_or(String::new(), |(zone, name)| {
        let at = |unix_s| local(unix_s, zone, "%Y-%m-%d %H:%M");
        format!(" ({} to {}, {name})", at(first), at(last))
    });
    Some(Fact::text(
        "Span",
        format!("{} to {}{zoned}", utc(first), utc(last)),
    ))
}

fn hours(rows: &[Observation], weather: &WeatherFile) -> Table {
    let at = |zone| move |r: &Observation| local(r.unix_s, zone, "%m-%d %H:%M");
    let greenwich = TimeZone::UTC;
    let mut table = Table::of("", rows).words("", "UTC", at(&greenwich));
    if let Some((zone, _)) = weather.zone {
        table = table.words("", "Local", at(zone));
    }
    let units = weather.units;
    table
        .number("", "Temperature", |r| temperature(r.temp_c, units))
        .number("", "Dew point", |r| temperature(r.dew_point_c, units))
        .number("", "Humidity", |r| format!("{:.0} %", humidity(r) * 100.0))
        .number("", "Wind, m/s", |r| format!("{:.1}", r.wind_m_s))
        .number("", "Wind, kt", |r| format!("{:.0}", r.wind_m_s / KNOT_M_S))
        .table()
}

/// The notes, kind by kind.
fn notes(notes: &[(&str, String)]) -> Section {
    if notes.is_empty() {
        return Section::new("").say(["Nothing was skipped, corrected or odd.".to_owned()]);
    }
    let kinds = notes.chunk_by(|a, b| a.0 == b.0);
    let lines = kinds.flat_map(|of| {
        let more = of.len().saturating_sub(MOST_NOTES);
        let more = (more > 0).then(|| format!("and {more} more {}; --json has all", of[0].0));
        let shown = of.iter().take(MOST_NOTES);
        shown
            .map(|(kind, words)| format!("{kind}: {words}"))
            .chain(more)
    });
    Section::new("Notes").list("", lines)
}

fn noted(notes: &[(&str, String)]) -> Vec<Value> {
    let notes = notes.iter();
    notes
        .map(|(kind, words)| json!({"kind": kind, "message": words}))
        .collect()
}

fn reading(r: &Observation) -> Value {
    json!({
        "time_utc": local(r.unix_s, &TimeZone::UTC, "%Y-%m-%dT%H:%M:%SZ"),
        "temp_c": digits(r.temp_c),
        "dew_point_c": digits(r.dew_point_c),
        "relative_humidity": digits(humidity(r)),
        "wind_m_s": digits(r.wind_m_s),
    })
}

/// Four digits behind the point; what is behind them is the noise of changing units.
fn digits(number: f64) -> f64 {
    (number * 1e4).round() / 1e4
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reading(hours: f64, temp_c: f64) -> Observation {
        Observation {
            unix_s: hours * HOUR_S,
            temp_c,
            dew_point_c: temp_c - 2.0,
            wind_m_s: 1.0,
        }
    }

    #[test]
    fn full_hours_come_once_each_and_none_inside_a_gap() {
        // A year mistyped: nine centuries lie between the second reading and the third.
        let far = 900.0 * 365.25 * 24.0;
        let rows = hourly(&[
            reading(0.0, 0.0),
            reading(2.0, -4.0),
            reading(far, 0.0),
            reading(far + 0.5, 1.0),
        ]);
        let found: Vec<_> = rows.iter().map(|r| (r.unix_s / HOUR_S, r.temp_c)).collect();
        assert_eq!(found, [(0.0, 0.0), (1.0, -2.0), (2.0, -4.0), (far, 0.0)]);
    }
}
