//! A weather file of either form.

use super::error::WeatherError;
use super::note::Note;
use super::options::WeatherOptions;
use super::{metar, table};
use crate::scenario::weather::{Record, utc};

/// What a weather file is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Aviation reports.
    Reports,
    /// A table.
    Table,
}

impl Form {
    /// Its name in output.
    pub fn word(self) -> &'static str {
        match self {
            Self::Reports => "METAR reports",
            Self::Table => "a table",
        }
    }
}

/// A weather file that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// What it is.
    pub form: Form,
    /// The station, if the file names one.
    pub station: Option<String>,
    /// Its readings.
    pub record: Record,
    /// What was assumed, skipped, corrected or odd, by line.
    pub notes: Vec<Note>,
}

/// What a text is: a table if its first line names columns, else reports if it has any.
pub fn form_of(text: &str) -> Form {
    if table::is_table(text) || !metar::has_reports(text) && text.contains([',', ';', '\t']) {
        Form::Table
    } else {
        Form::Reports
    }
}

/// Whether a text certainly is weather: a table by its head, or lines that begin like reports.
pub fn holds_weather(text: &str) -> bool {
    table::is_table(text) || metar::has_reports(text)
}

/// Reads a weather file; `file` is its name in the record.
///
/// *Errors*: why it gives no record that a night can use, with the place where that is known.
pub fn read(file: &str, text: &str, options: &WeatherOptions) -> Result<Reading, WeatherError> {
    let form = form_of(text);
    let series = match form {
        Form::Reports => metar::read(text, options)?,
        Form::Table => table::read(text, options)?,
    };
    let readings = series.readings;
    let name = match (form, &series.station, readings.first(), readings.last()) {
        (Form::Reports, Some(station), Some(first), Some(last)) => {
            let first = utc(first.unix_s);
            let first = first.trim_end_matches(" UTC");
            format!(
                "{station}, {}, {first} to {}",
                form.word(),
                utc(last.unix_s)
            )
        }
        (_, Some(station), ..) => format!("{file}, {station}"),
        (_, None, ..) => file.to_owned(),
    };
    Ok(Reading {
        form,
        station: series.station,
        record: Record { name, readings },
        notes: series.notes,
    })
}
