//! A record as the plain table that a night can name.

use crate::scenario::weather::Record;
use jiff::Timestamp;
use std::fmt::Write;

/// The record as CSV: UTC, °C, dew point over water in °C, m/s.
pub fn to_csv(record: &Record) -> String {
    let mut text = String::from("time_utc,temp_c,dewpoint_c,wind_m_s\n");
    for r in &record.readings {
        let Ok(at) = Timestamp::from_second(r.unix_s as i64) else {
            continue;
        };
        let time = at.strftime("%Y-%m-%dT%H:%M:%SZ");
        // Writing to a text cannot fail.
        let _ = writeln!(
            text,
            "{time},{:.2},{:.2},{:.2}",
            r.temp_c, r.dew_point_c, r.wind_m_s
        );
    }
    text
}
