//! A weather file by itself, without the night that says what the file does not.

use super::error::WeatherError;
use super::note::{Detail, Note};
use super::options::{Month, WeatherOptions};
use super::read::read;
use crate::quantity::Speed;

/// A moment of January 2018, the month that serves where a night is to say it; of 31 days, so that any day is one of it.
const ANY_MONTH_S: f64 = 1.515e9;

/// What a weather file is by itself.
#[derive(Debug)]
pub struct Standalone {
    /// In a few words.
    pub description: String,
    /// What a night must say of it, then the notes on its lines.
    pub notes: Vec<Note>,
}

/// Reads a weather file as far as it can be without a night. What a night must say of it (the month of reports, the
/// station of several, the zone of a table, its wind) is a note and no error, and any value serves for it.
///
/// *Errors*: what is wrong with it whatever a night says.
pub fn standalone(file: &str, text: &str) -> Result<Standalone, WeatherError> {
    let mut options = WeatherOptions::default();
    let mut notes = Vec::new();
    // Each round settles one thing that is missing.
    loop {
        let error = match read(file, text, &options) {
            Ok(reading) => {
                let by_night = |note: &Note| {
                    matches!(note.detail, Detail::ZoneOfNight(_) | Detail::WindOfNight(_))
                };
                let count = reading.record.readings.len();
                let station = reading
                    .station
                    .map_or(String::new(), |s| format!(" of {s}"));
                let plural = if count == 1 { "" } else { "s" };
                notes.extend(reading.notes.into_iter().filter(|note| !by_night(note)));
                return Ok(Standalone {
                    description: format!(
                        "{}{station}, {count} reading{plural}",
                        reading.form.word()
                    ),
                    notes,
                });
            }
            Err(error) => error,
        };
        // The suggestion says what to do better than the rest of the sentence.
        let message = error.message.split(';').next().unwrap_or("");
        let message = match &error.suggestion {
            Some(suggestion) => format!("{message}; {suggestion}"),
            None => error.message.clone(),
        };
        let note = Detail::NightMustSay(message).into();
        match error.key {
            Some("month") if options.month.is_none() => options.month = Month::of(ANY_MONTH_S),
            Some("zone") if options.zone.is_none() => options.zone = Some("UTC".to_owned()),
            Some("wind") if options.wind.is_none() => options.wind = Some(Speed::m_s(0.0)),
            Some("station") if options.station.is_none() => {
                notes.push(note);
                return Ok(Standalone {
                    description: "weather of several stations; one at a time can be checked"
                        .to_owned(),
                    notes,
                });
            }
            _ => return Err(error),
        }
        notes.push(note);
    }
}
