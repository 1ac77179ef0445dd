//! Recorded weather from a CSV file with the columns `time_utc`, `temp_c`, `dewpoint_c` and `wind_m_s`.
//!
//! The dew point is over liquid water at all temperatures, as stations report it. Nothing is filled in: a
//! cell that is missing or cannot be true is refused with its line.

use super::fault::Fault;
use crate::scenario::weather::{Observation, Record};
use jiff::civil::DateTime;
use jiff::tz::TimeZone;
use std::ops::Range;

/// The columns that must be there.
const COLUMNS: [&str; 4] = ["time_utc", "temp_c", "dewpoint_c", "wind_m_s"];
/// Temperatures that can be true near the ground, °C (the records are −89 and 57).
const TEMPERATURES_C: Range<f64> = -90.0..60.0;
/// Wind speeds that can be true for a station's mean, m/s.
const WINDS_M_S: Range<f64> = 0.0..90.0;
/// A dew point may exceed the temperature by this much, the rounding of both, K.
const DEW_POINT_ROUNDING_K: f64 = 0.6;

/// A record from the text of a CSV file.
///
/// *Errors*: the first cell that is missing, is no number, or cannot be true, with its line.
pub fn read(file: &str, text: &str) -> Result<Record, Fault> {
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        .comment(Some(b'#'))
        .from_reader(text.as_bytes());
    let headers = reader
        .headers()
        .map_err(|e| Fault::of(file, format!("this is no CSV file: {e}")))?
        .clone();
    let mut places = [0; COLUMNS.len()];
    for (place, column) in places.iter_mut().zip(COLUMNS) {
        *place = headers.iter().position(|h| h == column).ok_or_else(|| {
            let there: Vec<&str> = headers.iter().collect();
            Fault::of(file, format!("the column `{column}` is missing")).help(format!(
                "the first line names the columns; it has {}",
                there.join(", ")
            ))
        })?;
    }
    let mut readings = Vec::new();
    for row in reader.records() {
        let row = row.map_err(|e| Fault::of(file, format!("this is no CSV file: {e}")))?;
        let line = row.position().map_or(0, csv::Position::line) as usize;
        let cells = places.map(|place| row.get(place).unwrap_or(""));
        readings.push(observation(cells).map_err(|what| {
            let span = line_span(text, line);
            Fault::of(file, what).at(text, span)
        })?);
    }
    Ok(Record {
        name: file.to_owned(),
        readings,
    })
}

fn observation([time, temp, dew_point, wind]: [&str; 4]) -> Result<Observation, String> {
    let number = |column: &str, cell: &str, range: &Range<f64>| {
        let value: f64 = cell.parse().map_err(|_| match cell {
            "" => format!("`{column}` is missing here; leave the line out if it was not measured"),
            _ => format!("`{cell}` in column `{column}` is no number"),
        })?;
        if range.contains(&value) {
            Ok(value)
        } else {
            Err(format!("{value} in column `{column}` cannot be true"))
        }
    };
    let temp_c = number(COLUMNS[1], temp, &TEMPERATURES_C)?;
    let dew_point_c = number(COLUMNS[2], dew_point, &TEMPERATURES_C)?;
    if dew_point_c > temp_c + DEW_POINT_ROUNDING_K {
        return Err(format!(
            "the dew point {dew_point_c} °C is above the temperature {temp_c} °C"
        ));
    }
    Ok(Observation {
        unix_s: unix_seconds(time)?,
        temp_c,
        dew_point_c,
        wind_m_s: number(COLUMNS[3], wind, &WINDS_M_S)?,
    })
}

/// Seconds since 1970 of a UTC time such as `1996-02-05T07:00Z`.
fn unix_seconds(text: &str) -> Result<f64, String> {
    let plain = text.strip_suffix('Z').unwrap_or(text);
    let local: DateTime = plain
        .parse()
        .map_err(|_| format!("`{text}` is no UTC time: write it as in 1996-02-05T07:00Z"))?;
    let zoned = TimeZone::UTC
        .to_timestamp(local)
        .map_err(|e| format!("`{text}` is no time that can be counted: {e}"))?;
    Ok(zoned.as_second() as f64)
}

/// The bytes of a line, counted from one.
fn line_span(text: &str, line: usize) -> Range<usize> {
    let mut start = 0;
    for (number, content) in text.split_inclusive('\n').enumerate() {
        if number + 1 == line {
            return start..start + content.trim_end().len();
        }
        start += content.len();
    }
    start..start
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_shipped_record_is_read_as_it_stands() {
        let text = include_str!("../../models/weather/greensboro_nc_1996-02-04.csv");
        let record = read("greensboro", text).unwrap();
        assert_eq!(record.readings.len(), 49);
        let first = record.readings[0];
        assert_eq!(
            (first.temp_c, first.dew_point_c, first.wind_m_s),
            (-8.9, -14.4, 4.1)
        );
        // 4 February 1996 17:00 UTC, by the calendar: 9530 days and 17 hours after 1970 began.
        assert_eq!(first.unix_s, 9530.0 * 86_400.0 + 17.0 * 3600.0);
    }

    #[test]
    fn a_bad_cell_is_refused_with_its_line() {
        let head = "time_utc,temp_c,dewpoint_c,wind_m_s\n1996-02-04T17:00Z,-8,-9,1\n";
        for (row, told) in [
            ("1996-02-04T18:00Z,,-9,1", "missing"),
            ("1996-02-04T18:00Z,-8,-9,1048", "cannot be true"),
            ("1996-02-04T18:00Z,-8,-5,1", "above the temperature"),
            ("yesterday,-8,-9,1", "no UTC time"),
            ("1996-02-04T18:00Z,cold,-9,1", "no number"),
            ("1996-02-04T18:00Z,NaN,-9,1", "cannot be true"),
        ] {
            let fault = read("own.csv", &format!("{head}{row}\n")).unwrap_err();
            assert!(fault.what.contains(told), "{}", fault.what);
            assert_eq!(fault.line_and_column(), Some((3, 1)));
        }
        let fault = read("own.csv", "time_utc,temp_c\n").unwrap_err();
        assert!(
            fault.what.contains("`dewpoint_c` is missing"),
            "{}",
            fault.what
        );
    }
}
