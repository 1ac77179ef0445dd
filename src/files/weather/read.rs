//! A weather file of either form.

use super::super::fault::Fault;
use super::super::metar::has_reports;
use super::options::{WeatherError, WeatherOptions};
use super::reading::{Form, Reading};
use super::{reports, table};
use crate::scenario::weather::Record;

/// What a text is: a table if its first line names columns, else reports if it has any.
pub(super) fn form_of(text: &str) -> Form {
    if table::is_table(text) || !has_reports(text) && text.contains([',', ';', '\t']) {
        Form::Table
    } else {
        Form::Reports
    }
}

/// Whether a text is weather beyond doubt: a table by its head, or lines that begin like reports.
pub fn holds_weather(text: &str) -> bool {
    table::is_table(text) || has_reports(text)
}

/// Reads a file that says all about itself, as the built-in records do.
///
/// *Errors*: why it gives no record.
pub fn read_plain(file: &str, text: &str) -> Result<Record, Fault> {
    match read(file, text, &WeatherOptions::default()) {
        Ok(reading) => Ok(reading.record),
        Err(refused) => Err(*refused.fault),
    }
}

/// Reads a weather file.
///
/// *Errors*: why it gives no record that a night can use, with the place where that is known.
pub fn read(file: &str, text: &str, wanted: &WeatherOptions) -> Result<Reading, WeatherError> {
    match form_of(text) {
        Form::Reports => reports::read(file, text, wanted),
        Form::Table => table::read(file, text, wanted),
    }
}
