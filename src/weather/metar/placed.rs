//! The reports of a text, each with its line and date.

use super::bulletin::{self, Piece};
use super::report::{Report, ReportError, from_groups};
use crate::scenario::weather::Observation;
use crate::weather::error::WeatherError;
use crate::weather::note::{Detail, Note, NoteKind};
use crate::weather::series::{Entry, impossible};
use jiff::civil::Date;
use jiff::tz::Offset;
use std::ops::Range;

/// What a weather file may be.
const EXPECTED: &str = "a weather file holds METAR reports, each beginning like \"KMMH 111435Z\", or a table whose first line \
names the columns, as in time_utc,temp_c,dewpoint_c,wind_m_s";

/// A report, the line it begins on, and the date that stands before it.
pub struct Placed {
    pub line: usize,
    pub date: Option<Date>,
    pub report: Report,
}

impl Placed {
    /// A note on it.
    pub fn note(&self, detail: Detail) -> Note {
        Note {
            line: Some(self.line),
            report: Some(self.report.heading()),
            ..detail.into()
        }
    }

    /// The report at its moment; without a reading if something is missing or cannot be true.
    pub fn entry(&self, unix_s: f64) -> Entry {
        let report = &self.report;
        let mut details = report.notes.clone();
        let mut reading = observation(unix_s, report);
        if let Some(detail) = reading.as_ref().and_then(impossible) {
            reading = None;
            // What would be odd in a report that is kept does not matter in one that is skipped.
            details.retain(|detail| detail.kind() == NoteKind::Skipped);
            details.push(detail);
        }
        Entry {
            line: self.line,
            report: Some(report.heading()),
            unix_s,
            rank: (!report.nil, report.corrected),
            reading,
            details,
        }
    }
}

/// All reports that can be read, and a note for each that cannot.
pub fn parse_all(text: &str, notes: &mut Vec<Note>) -> Result<Vec<Placed>, WeatherError> {
    let capitals = text.to_ascii_uppercase();
    let mut placed = Vec::new();
    let mut first = None;
    for Piece { date, groups } in bulletin::reports(&capitals) {
        let line = groups.first().map_or(1, |group| group.line);
        match from_groups(&groups) {
            Ok(report) => placed.push(Placed { line, date, report }),
            Err(ReportError { line, message }) => {
                first.get_or_insert((line, message.clone()));
                notes.push(Note {
                    line: Some(line),
                    ..Detail::Unreadable(message).into()
                });
            }
        }
    }
    match first {
        Some((line, message)) if placed.is_empty() => {
            let count = notes.len();
            let message = format!("none of the {count} reports can be read; the first: {message}");
            Err(WeatherError::new(message)
                .at(line_span(text, line))
                .suggest(EXPECTED))
        }
        None if placed.is_empty() => {
            Err(WeatherError::new("there is no weather in the file").suggest(EXPECTED))
        }
        _ => Ok(placed),
    }
}

/// The day of a report with a date before it: that date, or the day before or after (a report may be received on
/// another day than it was made).
pub fn near(date: Date, day: i8) -> Option<Date> {
    let near = [Ok(date), date.yesterday(), date.tomorrow()];
    near.into_iter().flatten().find(|date| date.day() == day)
}

/// Seconds since 1970 UTC.
pub fn utc_s(day: Date, report: &Report) -> Option<f64> {
    let at = Offset::UTC.to_timestamp(day.at(report.hour, report.minute, 0, 0));
    Some(at.ok()?.as_second() as f64)
}

fn observation(unix_s: f64, report: &Report) -> Option<Observation> {
    Some(Observation {
        unix_s,
        temp_c: report.temp_c?,
        dew_point_c: report.dew_point_c?,
        wind_m_s: report.wind_m_s?,
    })
}

/// Where a line lies in the text; lines are counted from one.
pub fn line_span(text: &str, line: usize) -> Range<usize> {
    let mut lines = text.split_inclusive('\n');
    let start = lines.by_ref().take(line - 1).map(str::len).sum();
    start..start + lines.next().unwrap_or("").trim_end().len()
}
