//! The weather of a night file.

use super::fault::{FileError, InputError};
use super::library::{Kind, builtin};
use super::sources::{Sources, label};
use crate::document::{choice, parse};
use crate::quantity::{Speed, Temperature};
use crate::scenario::clock::Clock;
use crate::scenario::weather::{AIR_C, LONGEST_GAP_S, Record, WIND_M_S, Weather};
use crate::weather::{
    Form, Month, Note, NoteKind, Reading, WeatherError, WeatherOptions, form_of, read,
};

/// Most notes that a night shows; the weather command shows all.
const MOST_NOTES: usize = 8;

choice! {
    /// The weather, steady or recorded.
    pub enum WeatherEntry {
        /// The same all night.
        steady {
            /// Temperature outdoors.
            outdoors: Temperature, limits(*AIR_C.start(), *AIR_C.end());
            /// Relative humidity, over ice below freezing.
            humidity: f64, fraction() = 0.8;
            /// Wind outdoors; none leaves the hangar its own air movement.
            wind: Option<Speed>, limits(*WIND_M_S.start(), *WIND_M_S.end()) = None;
        },
        /// A built-in record, or a file beside the night that needs no options.
        recorded(String),
        /// Aviation reports (METAR, SPECI) in a file beside the night.
        reports {
            /// The file.
            file: String;
            /// The station, of several.
            station: Option<String> = None;
            /// Year and month of the last report; those of the night if not given.
            month: Option<Month> = None;
        },
        /// A table (CSV) in a file beside the night.
        table {
            /// The file.
            file: String;
            /// The station, of several.
            station: Option<String> = None;
            /// The IANA zone of times without an offset; the night's if not given.
            zone: Option<String> = None;
            /// The wind, if no column holds it.
            wind: Option<Speed>, limits(*WIND_M_S.start(), *WIND_M_S.end()) = None;
        },
    }
}

/// The weather that an entry stands for; notes on it go to the sources.
///
/// *Errors*: a name that leads nowhere, or a file that gives no record.
pub fn resolve(
    entry: &WeatherEntry,
    clock: &Clock,
    night: &str,
    sources: &mut Sources,
) -> Result<Weather, FileError> {
    let dated = clock.begin.date.and_then(|_| clock.resolve().ok());
    let span = dated.map(|c| (c.begin_unix_s(), c.begin_unix_s() + c.night_s()));
    let mut options = WeatherOptions {
        zone: clock.zone.clone(),
        night: span,
        ..WeatherOptions::default()
    };
    let (name, form) = match entry {
        WeatherEntry::steady {
            outdoors,
            humidity,
            wind,
        } => {
            return Ok(Weather::steady {
                outdoors: *outdoors,
                humidity: *humidity,
                wind: *wind,
            });
        }
        WeatherEntry::recorded(name) => (name, None),
        WeatherEntry::reports {
            file,
            station,
            month,
        } => {
            options.station.clone_from(station);
            options.month = *month;
            (file, Some(Form::Reports))
        }
        WeatherEntry::table {
            file,
            station,
            zone,
            wind,
        } => {
            options.station.clone_from(station);
            options.wind = *wind;
            options.zone = zone.clone().or(options.zone);
            (file, Some(Form::Table))
        }
    };
    let text = sources.text(Kind::Weather, name, night)?.text;
    let found = form_of(&text);
    if form.is_some_and(|form| form != found) {
        let (is, write) = match found {
            Form::Reports => ("aviation reports", "reports"),
            Form::Table => ("a table", "table"),
        };
        let fault = InputError::of(night, format!("`{name}` holds {is}"))
            .help(format!("write weather: {write}(file: \"{name}\")"));
        return Err(at_key(fault, "file", night, sources).into());
    }
    let file = label(Kind::Weather, name);
    let reading = read(&file, &text, &options).map_err(|error| {
        let key = error.key.unwrap_or_default();
        at_key(input_error(&file, &text, error), key, night, sources)
    })?;
    for note in notes_of(&reading, name, span) {
        sources.tell(note);
    }
    Ok(Weather::recorded(reading.record))
}

/// Reads a file that says all about itself, as the built-in records do.
///
/// *Errors*: why it gives no record.
pub fn read_plain(file: &str, text: &str) -> Result<Record, InputError> {
    let reading = read(file, text, &WeatherOptions::default());
    let reading = reading.map_err(|error| input_error(file, text, error))?;
    Ok(reading.record)
}

/// A weather file's error with the file and the text it is in.
pub fn input_error(file: &str, text: &str, error: WeatherError) -> InputError {
    let mut fault = InputError::of(file, error.message);
    fault.suggestion = error.suggestion;
    match error.span {
        Some(span) => fault.at(text, span),
        None => fault,
    }
}

/// The error at the key of the night's weather that it is about, unless it has a place of its own.
fn at_key(mut fault: InputError, key: &str, night: &str, sources: &Sources) -> InputError {
    if fault.place.is_some() {
        return fault;
    }
    let path = format!("weather.{key}");
    let Some(source) = sources.named(night) else {
        return fault;
    };
    let root = parse(source).root;
    let found = root.furthest(path.trim_end_matches('.')).0.span;
    if fault.file != source.file {
        fault.message = format!("{} (in {})", fault.message, fault.file);
        source.file.clone_into(&mut fault.file);
    }
    let first = source.text[found.range()]
        .lines()
        .next()
        .unwrap_or("")
        .len();
    let start = found.start as usize;
    fault
        .path(path)
        .at(source.text.clone(), start..start + first)
}

/// What the night should know of its weather: notes on the whole file and on its own hours, the rest counted.
fn notes_of(reading: &Reading, name: &str, night: Option<(f64, f64)>) -> Vec<String> {
    let near = |note: &&Note| match (note.unix_s, night) {
        (Some(at), Some((begin, end))) => at > begin - LONGEST_GAP_S && at < end + LONGEST_GAP_S,
        _ => true,
    };
    if builtin(Kind::Weather, name).is_some() {
        return Vec::new();
    }
    let used = reading
        .notes
        .iter()
        .filter(|note| note.kind() != NoteKind::Unused);
    let near: Vec<&Note> = used.filter(near).collect();
    let first = near.iter().take(MOST_NOTES);
    let mut words: Vec<String> = first
        .map(|note| format!("{name}, {note} [{}]", note.kind().word()))
        .collect();
    if near.len() > MOST_NOTES {
        let more = near.len() - MOST_NOTES;
        words.push(format!(
            "{name}: {more} more; `coldsoak weather {name}` shows them all"
        ));
    }
    words
}
