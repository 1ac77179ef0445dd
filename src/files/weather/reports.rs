//! Recorded weather from aviation reports, with the month that they leave out.

use super::super::fault::Fault;
use super::super::metar::{Batch, MetarError, read_dated};
use super::course::oddity_care;
use super::note::{Note, NoteKind};
use super::options::{Month, WeatherError, WeatherOptions, choose};
use super::reading::{Form, Reading};
use jiff::Timestamp;
use jiff::tz::Offset;

/// How the month is said.
const SAY_MONTH: &str = "say the year and month of the last report: month: \"2018-01\" in the night's reports(...), --month \
2018-01 on the command line";

/// What a weather file may be.
const NEITHER: &str = "a weather file holds METAR reports, each beginning like \"KMMH 111435Z\", or a table whose first line \
names the columns, as in time_utc,temp_c,dewpoint_c,wind_m_s";

/// The record of a text of reports.
///
/// *Errors*: those of [`read_dated`], at their lines; a month that neither the user nor the night tells.
pub fn read(file: &str, text: &str, wanted: &WeatherOptions) -> Result<Reading, WeatherError> {
    let given = wanted.month.map(|m| (m.year, m.month));
    let nights = wanted
        .night
        .and_then(|(begin, end)| Some((month(begin)?, month(end)?)));
    let month = given.or(nights.map(|(_, end)| (end.year, end.month)));
    let batch = read_dated(text, wanted.station.as_deref(), month)
        .map_err(|e| refused(file, text, &e, given.is_none()))?;
    let mut notes = Vec::new();
    if let (None, true, Some((begin, end))) = (given, batch.by_month, nights) {
        if batch.month_before != (begin != end) {
            let what = if batch.month_before {
                "the reports run into a new month, and the night does not: their month is in doubt"
            } else {
                "the night runs into a new month, and the reports do not: their month is in doubt"
            };
            let fault = Fault::of(file, what).help(SAY_MONTH);
            return Err(WeatherError {
                fault: Box::new(fault),
                key: Some("month"),
            });
        }
        let what =
            format!("the reports tell no month; the last is taken to be of {end}, the night's");
        notes.push(Note::of(NoteKind::Assumed, what));
    }
    let Batch {
        station,
        record,
        notes: odd,
        ..
    } = batch;
    notes.extend(odd.into_iter().map(|note| {
        let heading = if note.report.is_empty() {
            String::new()
        } else {
            format!("{}: ", note.report)
        };
        Note {
            care: oddity_care(&note.oddity),
            line: Some(note.line),
            unix_s: note.unix_s,
            what: format!("{heading}{}", note.oddity),
        }
    }));
    Ok(Reading {
        form: Form::Reports,
        station: Some(station),
        record,
        notes,
    })
}

/// The month of a moment, UTC.
fn month(unix_s: f64) -> Option<Month> {
    let at = Timestamp::from_second(unix_s as i64).ok()?;
    let at = Offset::UTC.to_datetime(at);
    Some(Month {
        year: at.year().into(),
        month: u8::try_from(at.month()).ok()?,
    })
}

/// An error as a fault of the file: at its line, or about a key of the night.
fn refused(file: &str, text: &str, error: &MetarError, month_assumed: bool) -> WeatherError {
    let at = |line: usize, what: String| {
        let (start, words) = line_of(text, line);
        Fault::of(file, what).at(text, start..start + words.trim_end().len())
    };
    // The place tells the line; the sentence need not.
    let told = error.to_string();
    let plain = |line: usize| told.replacen(&format!("line {line}: "), "", 1);
    match error {
        MetarError::NoMonth { line, .. } => WeatherError {
            fault: Box::new(at(*line, plain(*line)).help(SAY_MONTH)),
            key: Some("month"),
        },
        MetarError::Day { line, .. } => {
            let fault = at(*line, plain(*line));
            let help = if month_assumed {
                format!("the month was taken from the night; {SAY_MONTH}")
            } else {
                SAY_MONTH.to_owned()
            };
            WeatherError {
                fault: Box::new(fault.help(help)),
                key: None,
            }
        }
        MetarError::Unreadable { first, reports } => {
            let what = format!(
                "none of the {reports} reports can be read; the first: {}",
                first.fault
            );
            at(first.line, what).help(NEITHER).into()
        }
        MetarError::Choose { found } | MetarError::Absent { found, .. } => WeatherError {
            fault: Box::new(Fault::of(file, told).help(choose(found))),
            key: Some("station"),
        },
        MetarError::Month { .. } => WeatherError {
            fault: Box::new(Fault::of(file, told)),
            key: Some("month"),
        },
        MetarError::Empty => Fault::of(file, "there is no weather in the file")
            .help(NEITHER)
            .into(),
        MetarError::NoReading { .. } => Fault::of(file, told).into(),
    }
}

/// Where a line begins, and its text; lines are counted from one.
fn line_of(text: &str, line: usize) -> (usize, &str) {
    let mut start = 0;
    for (number, words) in (1..).zip(text.split_inclusive('\n')) {
        if number == line {
            return (start, words);
        }
        start += words.len();
    }
    (start, "")
}
