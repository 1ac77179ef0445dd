//! What the user says about a weather file that the file may not say itself.

use super::super::fault::Fault;
use crate::quantity::Speed;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use std::fmt;

/// What is wanted of a weather file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WeatherOptions {
    /// The station, of several.
    pub station: Option<String>,
    /// Year and month of the last report.
    pub month: Option<Month>,
    /// The IANA zone of times that tell none.
    pub zone: Option<String>,
    /// The wind of a table that has no wind column.
    pub wind: Option<Speed>,
    /// When the night begins and ends, in seconds since 1970 UTC: reports without a month may be of its month.
    pub night: Option<(f64, f64)>,
}

/// A weather file that cannot be used, and the key of the night's weather that this is about, if any.
#[derive(Debug, Clone, PartialEq)]
pub struct WeatherError {
    /// What is wrong.
    pub fault: Box<Fault>,
    /// `station`, `month`, `zone` or `wind`.
    pub key: Option<&'static str>,
}

impl From<Fault> for WeatherError {
    fn from(fault: Fault) -> Self {
        Self {
            fault: Box::new(fault),
            key: None,
        }
    }
}

/// A year and a month, spelt `"2018-01"`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Month {
    /// The year.
    pub year: i32,
    /// The month, 1 to 12.
    pub month: u8,
}

impl std::str::FromStr for Month {
    type Err = String;
    fn from_str(text: &str) -> Result<Self, String> {
        let first: Option<Date> = format!("{}-01", text.trim()).parse().ok();
        first
            .and_then(|first| {
                Some(Self {
                    year: first.year().into(),
                    month: u8::try_from(first.month()).ok()?,
                })
            })
            .ok_or_else(|| format!("`{text}` is no month: write year and month, as in \"2018-01\""))
    }
}
impl TryFrom<String> for Month {
    type Error = String;
    fn try_from(text: String) -> Result<Self, String> {
        text.parse()
    }
}
impl From<Month> for String {
    fn from(month: Month) -> String {
        month.to_string()
    }
}
impl fmt::Display for Month {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-{:02}", self.year, self.month)
    }
}

/// How one of several stations is chosen.
pub fn choose(found: &[String]) -> String {
    let first = found.first().map_or("", String::as_str);
    format!("choose one: station: \"{first}\" in the night, --station {first} on the command line")
}
