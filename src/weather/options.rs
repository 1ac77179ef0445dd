//! What the user says about a weather file that the file may not say itself.

use crate::document::{Node, Read, Reader};
use crate::quantity::Speed;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::Offset;
use serde::Serialize;
use std::fmt;

/// How a weather file is to be read.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WeatherOptions {
    /// The station, of several.
    pub station: Option<String>,
    /// Year and month of the last report.
    pub month: Option<Month>,
    /// The IANA zone of times without an offset.
    pub zone: Option<String>,
    /// The wind of a table that has no wind column.
    pub wind: Option<Speed>,
    /// When the night begins and ends, in seconds since 1970 UTC: reports without a month may be of its month.
    pub night: Option<(f64, f64)>,
}

/// A year and a month, spelt `"2018-01"`; held as its first day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(into = "String")]
pub struct Month(Date);

impl Month {
    /// The month of a moment, UTC.
    pub(super) fn of(unix_s: f64) -> Option<Self> {
        let at = Timestamp::from_second(unix_s as i64).ok()?;
        Some(Self(Offset::UTC.to_datetime(at).date().first_of_month()))
    }
    /// The month before; none before the first of the calendar.
    pub(super) fn before(self) -> Option<Self> {
        Some(Self(self.0.yesterday().ok()?.first_of_month()))
    }
    /// A day of this month, if it has that day.
    pub(super) fn day(self, day: i8) -> Option<Date> {
        self.0.with().day(day).build().ok()
    }
}

impl Read for Month {
    const WANTED: &'static str = "a year and a month in quotes";
    const EXAMPLE: &'static str = "\"2018-01\"";
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        match node.text().map(str::parse) {
            Some(Ok(month)) => Some(month),
            _ => reader.wanted(node, Self::WANTED, Some(Self::EXAMPLE.to_owned())),
        }
    }
}

impl std::str::FromStr for Month {
    type Err = String;
    fn from_str(text: &str) -> Result<Self, String> {
        let first = format!("{}-01", text.trim()).parse();
        first
            .map(Self)
            .map_err(|_| format!("`{text}` is no month: write year and month, as in \"2018-01\""))
    }
}
impl From<Month> for String {
    fn from(month: Month) -> String {
        month.to_string()
    }
}
impl fmt::Display for Month {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0.strftime("%Y-%m"))
    }
}
