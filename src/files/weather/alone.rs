//! A weather file by itself, without the night that says what the file does not.

use super::super::fault::Fault;
use super::note::{Note, NoteKind};
use super::options::{Month, WeatherOptions};
use super::read::read;
use super::reading::{Form, Reading};
use super::table::{AS_THE_NIGHT_SAYS, BY_CLOCK};
use crate::quantity::Speed;

/// The month that stands in for one that a night is to say; of 31 days, so that any day is one of it.
const ANY_MONTH: Month = Month {
    year: 2018,
    month: 1,
};

/// What a weather file is by itself.
#[derive(Debug)]
pub struct Alone {
    /// In a few words.
    pub what: String,
    /// What was told about it, with what a night must say of it first.
    pub notes: Vec<Note>,
}

/// Reads a weather file as far as it can be without a night: what a night has to say of it (the month of reports, the
/// station of several, the zone of a table, its wind) is a note and no fault, and is stood in for.
///
/// *Errors*: what is wrong with it whatever a night says.
pub fn alone(file: &str, text: &str) -> Result<Alone, Fault> {
    let mut wanted = WeatherOptions::default();
    let mut notes = Vec::new();
    // One round for each thing that may be missing.
    loop {
        let refused = match read(file, text, &wanted) {
            Ok(reading) => {
                let stood_in = |note: &&Note| {
                    wanted.zone.is_some() && note.what.contains(BY_CLOCK)
                        || wanted.wind.is_some() && note.what.contains(AS_THE_NIGHT_SAYS)
                };
                notes.extend(reading.notes.iter().filter(|n| !stood_in(n)).cloned());
                return Ok(Alone {
                    what: said(&reading),
                    notes,
                });
            }
            Err(refused) => refused,
        };
        let fault = *refused.fault;
        // Its help tells what to do better than the rest of the sentence.
        let what = match (&fault.help, fault.what.split(';').next()) {
            (Some(help), Some(first)) => format!("{first}; {help}"),
            _ => fault.what.clone(),
        };
        let note = Note::of(NoteKind::Assumed, what);
        match refused.key {
            Some("month") if wanted.month.is_none() => wanted.month = Some(ANY_MONTH),
            Some("zone") if wanted.zone.is_none() => wanted.zone = Some("UTC".to_owned()),
            Some("wind") if wanted.wind.is_none() => wanted.wind = Some(Speed::m_s(0.0)),
            Some("station") if wanted.station.is_none() => {
                notes.push(note);
                let what =
                    "weather of several stations; only one at a time can be looked into".to_owned();
                return Ok(Alone { what, notes });
            }
            _ => return Err(fault),
        }
        notes.push(note);
    }
}

fn said(reading: &Reading) -> String {
    let form = match reading.form {
        Form::Reports => "METAR reports",
        Form::Table => "a table",
    };
    let station = reading.station.as_ref();
    let of = station.map_or(String::new(), |station| format!(" of {station}"));
    let count = reading.record.readings.len();
    let readings = if count == 1 { "reading" } else { "readings" };
    format!("{form}{of}, {count} {readings}")
}
