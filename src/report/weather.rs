//! A weather record told: as words and hourly rows, or for other programs.

use super::format::wrapped;
use super::table::drawn;
use crate::physics::vapour::saturation_pressure_over_water_pa;
use crate::quantity::Units;
use crate::scenario::weather::{LONGEST_GAP_S, Observation, Record, utc};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde::Serialize;

/// Metres a second in a knot.
const KNOT_M_S: f64 = 1852.0 / 3600.0;
/// Hours told in rows; of longer weather, as many around the coldest.
const MOST_ROWS: usize = 36;
/// Notes of one kind that are told; the rest are counted.
const MOST_NOTES: usize = 12;
/// Seconds of an hour.
const HOUR_S: f64 = 3600.0;

/// What is told.
pub struct Told<'a> {
    /// The file.
    pub file: &'a str,
    /// What it is.
    pub form: &'a str,
    /// The station, if it names one.
    pub station: Option<&'a str>,
    /// The readings.
    pub record: &'a Record,
    /// The zone of local times.
    pub zone: Option<&'a TimeZone>,
    /// Its name.
    pub zone_name: Option<&'a str>,
    /// What was skipped, corrected or odd: the kind and the words.
    pub notes: &'a [(&'a str, String)],
    /// How a night names this weather.
    pub entry: &'a str,
    /// The reader's degrees.
    pub units: Units,
}

/// Relative humidity over liquid water, from 0 to 1, as stations tell it.
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

/// The weather between two readings, on the straight line that a night draws.
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
    let by_temp =
        |a: &(usize, &Observation), b: &(usize, &Observation)| a.1.temp_c.total_cmp(&b.1.temp_c);
    rows.iter().enumerate().min_by(by_temp)
}

/// The weather in words.
pub fn text(told: &Told, width: u16) -> String {
    let readings = &told.record.readings;
    let mut text = format!("{}: {}", told.file, told.form);
    if let Some(station) = told.station {
        text += &format!(" of {station}");
    }
    text += &format!(", {} readings", readings.len());
    if let (Some(first), Some(last)) = (readings.first(), readings.last()) {
        text += &format!(", {} to {}", utc(first.unix_s), utc(last.unix_s));
        if let Some(zone) = told.zone {
            let form = "%Y-%m-%d %H:%M";
            let name = told.zone_name.unwrap_or("");
            text += &format!(
                "\n({} to {}, {name})",
                local(first.unix_s, zone, form),
                local(last.unix_s, zone, form)
            );
        }
    }
    text += "\n\n";
    let rows = hourly(readings);
    let cold = coldest(&rows);
    let from = match cold {
        Some((at, _)) if rows.len() > MOST_ROWS => {
            at.saturating_sub(MOST_ROWS / 2).min(rows.len() - MOST_ROWS)
        }
        _ => 0,
    };
    let shown = rows.iter().skip(from).take(MOST_ROWS);
    text += &table(shown, told, width);
    text += "\n";
    if rows.len() > MOST_ROWS {
        text += &format!(
            "{MOST_ROWS} of {} hours are shown, around the coldest; --from and --to choose others.\n",
            rows.len()
        );
    }
    text += "At full hours, on straight lines between the readings. Dew point and humidity are over liquid water, as stations tell them.\n";
    if told.zone.is_none() {
        text += "Local times need a zone: --zone America/Denver, or the like.\n";
    }
    if let Some((_, cold)) = cold {
        text += &format!(
            "\nColdest hour: {}, {}\n",
            super::format::temperature(cold.temp_c, told.units),
            utc(cold.unix_s)
        );
    }
    text += &notes(told.notes, width);
    text += &format!("\nIn a night file: {}\n", told.entry);
    text
}

fn table<'a>(rows: impl Iterator<Item = &'a Observation>, told: &Told, width: u16) -> String {
    let mut head = vec!["UTC".to_owned()];
    head.extend(told.zone.map(|_| "local".to_owned()));
    head.extend(
        [
            "temperature",
            "dew point",
            "humidity",
            "wind, m/s",
            "wind, kt",
        ]
        .map(str::to_owned),
    );
    let cells = rows.map(|r| {
        let mut row = vec![local(r.unix_s, &TimeZone::UTC, "%m-%d %H:%M")];
        row.extend(told.zone.map(|zone| local(r.unix_s, zone, "%m-%d %H:%M")));
        row.push(super::format::temperature(r.temp_c, told.units));
        row.push(super::format::temperature(r.dew_point_c, told.units));
        row.push(format!("{:.0} %", humidity(r) * 100.0));
        row.push(format!("{:.1}", r.wind_m_s));
        row.push(format!("{:.0}", r.wind_m_s / KNOT_M_S));
        row
    });
    let names: &[usize] = if told.zone.is_some() { &[0, 1] } else { &[0] };
    drawn(head, cells, names, width)
}

/// The notes under their kinds.
fn notes(notes: &[(&str, String)], width: u16) -> String {
    if notes.is_empty() {
        return "\nNothing was skipped, corrected or odd.\n".to_owned();
    }
    let mut text = String::new();
    for (at, (kind, _)) in notes.iter().enumerate() {
        if notes
            .get(at.wrapping_sub(1))
            .is_some_and(|before| before.0 == *kind)
        {
            continue;
        }
        let of: Vec<&String> = notes
            .iter()
            .filter(|n| n.0 == *kind)
            .map(|n| &n.1)
            .collect();
        let mut capital = kind.chars();
        let first: String = capital
            .next()
            .into_iter()
            .flat_map(char::to_uppercase)
            .collect();
        text += &format!("\n{first}{} ({}):\n", capital.as_str(), of.len());
        for what in of.iter().take(MOST_NOTES) {
            text += &wrapped(&format!("  {what}"), width, "    ");
            text.push('\n');
        }
        if of.len() > MOST_NOTES {
            text += &format!("  and {} more; --json tells all\n", of.len() - MOST_NOTES);
        }
    }
    text
}

#[derive(Serialize)]
struct WeatherJson<'a> {
    version: &'a str,
    file: &'a str,
    form: &'a str,
    station: Option<&'a str>,
    zone: Option<&'a str>,
    readings: Vec<ReadingJson>,
    coldest: Option<ReadingJson>,
    notes: Vec<NoteJson<'a>>,
    night_entry: &'a str,
}

#[derive(Serialize)]
struct ReadingJson {
    time_utc: String,
    temp_c: f64,
    dew_point_c: f64,
    relative_humidity: f64,
    wind_m_s: f64,
}

#[derive(Serialize)]
struct NoteJson<'a> {
    kind: &'a str,
    what: &'a str,
}

/// The weather for other programs: every reading, in UTC, °C and m/s.
///
/// *Errors*: none but those of the writer.
pub fn json(told: &Told) -> serde_json::Result<String> {
    let readings = &told.record.readings;
    serde_json::to_string_pretty(&WeatherJson {
        version: env!("CARGO_PKG_VERSION"),
        file: told.file,
        form: told.form,
        station: told.station,
        zone: told.zone_name,
        readings: readings.iter().map(reading).collect(),
        coldest: coldest(readings).map(|(_, r)| reading(r)),
        notes: told
            .notes
            .iter()
            .map(|(kind, what)| NoteJson { kind, what })
            .collect(),
        night_entry: told.entry,
    })
}

fn reading(r: &Observation) -> ReadingJson {
    ReadingJson {
        time_utc: local(r.unix_s, &TimeZone::UTC, "%Y-%m-%dT%H:%M:%SZ"),
        temp_c: digits(r.temp_c),
        dew_point_c: digits(r.dew_point_c),
        relative_humidity: digits(humidity(r)),
        wind_m_s: digits(r.wind_m_s),
    }
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
    fn full_hours_are_told_each_once_and_none_inside_a_gap() {
        // A year mistyped: nine centuries lie between the second reading and the third.
        let far = 900.0 * 365.25 * 24.0;
        let rows = hourly(&[
            reading(0.0, 0.0),
            reading(2.0, -4.0),
            reading(far, 0.0),
            reading(far + 0.5, 1.0),
        ]);
        let told: Vec<_> = rows.iter().map(|r| (r.unix_s / HOUR_S, r.temp_c)).collect();
        assert_eq!(told, [(0.0, 0.0), (1.0, -2.0), (2.0, -4.0), (far, 0.0)]);
    }
}
