//! Times of day and moments, as they are written.

use crate::document::{Node, Read, Reader, Value};
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::TimeZone;
use serde::Serialize;
use std::fmt;

/// A time of day, spelt `"06:30"`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(into = "String")]
pub struct ClockTime(pub(super) Time);

/// A time that cannot be read: what is wrong, and what to write.
type Unreadable = (String, String);

impl ClockTime {
    fn of(text: &str) -> Result<Self, Unreadable> {
        let time = Time::strptime("%H:%M", text.trim());
        time.map(Self).map_err(|_| no_time(text))
    }
}

impl TryFrom<String> for ClockTime {
    type Error = String;
    fn try_from(text: String) -> Result<Self, String> {
        Self::of(&text).map_err(in_one)
    }
}

fn in_one((what, write): Unreadable) -> String {
    format!("{what}: write {write}")
}

/// Reads what is written as a text.
fn from_text<T: Read>(
    node: &Node,
    reader: &mut Reader,
    of: impl FnOnce(&str) -> Result<T, Unreadable>,
) -> Option<T> {
    match &node.value {
        Value::Text(text) => match of(text) {
            Ok(read) => Some(read),
            Err((message, write)) => {
                // A suggestion of one time, and not of other brackets.
                let fits = write.starts_with('"') && write.ends_with('"');
                let write = match fits {
                    true => reader.instead(node.span, &write),
                    false => write,
                };
                reader.report(node.span, message, Some(write));
                None
            }
        },
        Value::Word(word) if ClockTime::of(word).is_ok() => {
            reader.wanted(node, T::WANTED, Some(format!("\"{word}\"")))
        }
        Value::Group(None, items) if items.len() > 1 => {
            let times: Vec<&str> = items.iter().filter_map(Node::text).collect();
            let pairs: Vec<String> = times
                .chunks_exact(2)
                .map(|pair| format!("(\"{}\", \"{}\")", pair[0], pair[1]))
                .collect();
            let message = "one time is needed here; found more".to_owned();
            let write = format!(
                "between([{}]) for a heater that is on from one time to another",
                pairs.join(", ")
            );
            reader.report(node.span, message, Some(write));
            None
        }
        _ => reader.wanted(node, T::WANTED, Some(T::EXAMPLE.to_owned())),
    }
}

impl Read for ClockTime {
    const WANTED: &'static str = "a time of day in quotes";
    const EXAMPLE: &'static str = "\"06:30\"";
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        from_text(node, reader, Self::of)
    }
}

/// What is wrong with a time of day, and how the very time is written if it was meant by noon and midnight.
fn no_time(text: &str) -> Unreadable {
    let tidy = text.trim().to_ascii_uppercase().replace('.', "");
    let meant = ["%I:%M%n%p", "%I:%M%p", "%I%n%p", "%I%p"]
        .iter()
        .find_map(|form| Time::strptime(form, &tidy).ok());
    // "7.30" is a time as well.
    let dotted = text.trim().replace('.', ":");
    let meant = meant.or_else(|| Time::strptime("%H:%M", &dotted).ok());
    // A span in one text, as in "02:00-06:00".
    let halves = ["-", "–", " to ", ","].iter().find_map(|between| {
        let (on, off) = text.split_once(between)?;
        let time = |half: &str| Time::strptime("%H:%M", half.trim()).ok();
        Some((time(on)?, time(off)?))
    });
    if let Some((on, off)) = halves {
        let (on, off) = (on.strftime("%H:%M"), off.strftime("%H:%M"));
        return (
            format!("`{text}` are two times, and one is needed here"),
            format!(
                "between([(\"{on}\", \"{off}\")]) for a heater that is on from the one to the other"
            ),
        );
    }
    let what = format!("`{text}` is not a time of day by twenty-four hours");
    match meant {
        Some(time) => (what, format!("\"{}\"", time.strftime("%H:%M"))),
        None => (
            what,
            "hours and minutes, as in \"06:30\" or \"19:30\"".to_owned(),
        ),
    }
}

impl From<ClockTime> for String {
    fn from(t: ClockTime) -> String {
        t.to_string()
    }
}
impl fmt::Display for ClockTime {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:02}:{:02}", self.0.hour(), self.0.minute())
    }
}

/// A moment by the local clock, spelt `"1996-02-04 19:00"`, or `"19:00"` where no date matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(into = "String")]
pub struct Moment {
    /// The day, if one was given.
    pub date: Option<Date>,
    /// The time of day.
    pub time: ClockTime,
}

impl Moment {
    fn of(text: &str) -> Result<Self, Unreadable> {
        let text = text.trim();
        let Some((date, time)) = text.split_once([' ', 'T']) else {
            return Ok(Self {
                date: None,
                time: ClockTime::of(text)?,
            });
        };
        // A time with a word behind it, such as "7 pm", and no date at all.
        if !date.contains(['-', '.', '/']) {
            return Err(no_time(text));
        }
        let date = date.parse().map_err(|_| {
            (
                format!("`{date}` is no date"),
                "year-month-day, as in \"1996-02-04 19:00\"".to_owned(),
            )
        })?;
        Ok(Self {
            date: Some(date),
            time: ClockTime::of(time)?,
        })
    }
}

impl TryFrom<String> for Moment {
    type Error = String;
    fn try_from(text: String) -> Result<Self, String> {
        Self::of(&text).map_err(in_one)
    }
}

impl Read for Moment {
    const WANTED: &'static str = "a time in quotes";
    const EXAMPLE: &'static str = "\"19:00\"";
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        from_text(node, reader, Self::of)
    }
}

impl Moment {
    /// Seconds since 1970 UTC of a dated moment by the clock of a zone; nothing without a date.
    pub fn unix_s(&self, zone: &TimeZone) -> Option<f64> {
        let at = instant(zone, self.date?.to_datetime(self.time.0))?;
        Some(at.as_second() as f64)
    }
}
impl From<Moment> for String {
    fn from(m: Moment) -> String {
        match m.date {
            Some(date) => format!("{date} {}", m.time),
            None => m.time.to_string(),
        }
    }
}

impl Moment {
    /// So many minutes earlier by the same clock; a moment without a date only turns its hands back.
    pub fn earlier_by_minutes(self, minutes: usize) -> Self {
        let back = jiff::SignedDuration::from_mins(i64::try_from(minutes).unwrap_or(i64::MAX / 60));
        match self.date {
            // Before the first day of the calendar there is none earlier.
            Some(date) => date
                .to_datetime(self.time.0)
                .checked_sub(back)
                .map_or(self, |at| Self {
                    date: Some(at.date()),
                    time: ClockTime(at.time()),
                }),
            None => Self {
                date: None,
                time: ClockTime(self.time.0.wrapping_sub(back)),
            },
        }
    }
}

/// The instant of a local time, by the clock of a zone.
pub(super) fn instant(zone: &TimeZone, local: DateTime) -> Option<jiff::Timestamp> {
    zone.to_ambiguous_timestamp(local).compatible().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_times_in_one_are_told_as_what_they_are() {
        for text in ["02:00-06:00", "02:00 – 06:00", "02:00 to 06:00"] {
            let said = ClockTime::try_from(text.to_owned()).unwrap_err();
            assert!(said.contains("between([(\"02:00\", \"06:00\")])"), "{said}");
        }
        let said = ClockTime::try_from("06-30".to_owned()).unwrap_err();
        assert!(!said.contains("between"), "{said}");
    }
}
