//! The weather of a night file.

use super::super::fault::{Fault, FileError};
use super::super::library::{Kind, builtin};
use super::super::outline::Outline;
use super::super::sources::{Sources, label};
use super::note::{Note, NoteKind};
use super::options::{Month, WeatherError, WeatherOptions};
use super::read::{form_of, read};
use super::reading::{Form, Reading};
use crate::quantity::{Speed, Temperature};
use crate::scenario::clock::Clock;
use crate::scenario::weather::{LONGEST_GAP_S, Weather};
use serde::{Deserialize, Serialize};

/// Most notes that a night tells; the weather command tells all.
const MOST_TOLD: usize = 8;

/// The weather, steady or recorded.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum WeatherEntry {
    /// The same all night.
    steady {
        /// Temperature outdoors.
        outdoors: Temperature,
        /// Relative humidity, over ice below freezing.
        #[serde(default = "usual_humidity")]
        humidity: f64,
        /// Wind outdoors; none leaves the hangar its own draught.
        #[serde(default)]
        wind: Option<Speed>,
    },
    /// A built-in record, or a file beside the night that needs no more said about it.
    recorded(String),
    /// Aviation reports (METAR, SPECI) in a file beside the night.
    reports {
        /// The file.
        file: String,
        /// The station, of several.
        #[serde(default)]
        station: Option<String>,
        /// Year and month of the last report; those of the night if not given.
        #[serde(default)]
        month: Option<Month>,
    },
    /// A table (CSV) in a file beside the night.
    table {
        /// The file.
        file: String,
        /// The station, of several.
        #[serde(default)]
        station: Option<String>,
        /// The IANA zone of times that tell none; the night's if not given.
        #[serde(default)]
        zone: Option<String>,
        /// The wind, if no column holds it.
        #[serde(default)]
        wind: Option<Speed>,
    },
}

fn usual_humidity() -> f64 {
    0.8
}

/// The weather that an entry stands for; what was told about it goes to the sources.
///
/// *Errors*: a name that leads nowhere, or a file that gives no record.
pub fn resolve(
    entry: &WeatherEntry,
    clock: &Clock,
    night: &str,
    sources: &mut Sources,
) -> Result<Weather, FileError> {
    let span = clock
        .begin
        .date
        .and_then(|_| clock.resolve().ok())
        .map(|clock| (clock.begin_unix_s(), clock.begin_unix_s() + clock.night_s()));
    let plain = WeatherOptions {
        zone: clock.zone.clone(),
        night: span,
        ..WeatherOptions::default()
    };
    let (name, form, wanted) = match entry {
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
        WeatherEntry::recorded(name) => (name, None, plain),
        WeatherEntry::reports {
            file,
            station,
            month,
        } => {
            let (station, month) = (station.clone(), *month);
            (
                file,
                Some(Form::Reports),
                WeatherOptions {
                    station,
                    month,
                    ..plain
                },
            )
        }
        WeatherEntry::table {
            file,
            station,
            zone,
            wind,
        } => {
            let (station, wind) = (station.clone(), *wind);
            let zone = zone.clone().or(plain.zone.clone());
            (
                file,
                Some(Form::Table),
                WeatherOptions {
                    station,
                    zone,
                    wind,
                    ..plain
                },
            )
        }
    };
    let text = sources.text(Kind::Weather, name, night)?;
    let found = form_of(&text);
    if form.is_some_and(|form| form != found) {
        let (is, write) = match found {
            Form::Reports => ("aviation reports", "reports"),
            Form::Table => ("a table", "table"),
        };
        let fault = Fault::of(night, format!("`{name}` holds {is}"))
            .help(format!("write weather: {write}(file: \"{name}\")"));
        let key = Some("file");
        return Err(located(
            WeatherError {
                fault: Box::new(fault),
                key,
            },
            night,
            sources,
        )
        .into());
    }
    let reading = read(&label(Kind::Weather, name), &text, &wanted)
        .map_err(|refused| located(refused, night, sources))?;
    for told in notes_of(&reading, name, span) {
        sources.tell(told);
    }
    Ok(Weather::recorded(reading.record))
}

/// The fault at the key of the night's weather that it is about, unless it has a place of its own.
fn located(refused: WeatherError, night: &str, sources: &Sources) -> Fault {
    let WeatherError { fault, key } = refused;
    let mut fault = *fault;
    if fault.place.is_some() {
        return fault;
    }
    let path = key.map_or("weather".to_owned(), |key| format!("weather.{key}"));
    let Some((name, text)) = sources.named_text(night) else {
        return fault;
    };
    let Some(found) = Outline::of(text).find(&path) else {
        return fault;
    };
    if fault.file != name {
        fault.what = format!("{} (in {})", fault.what, fault.file);
        name.clone_into(&mut fault.file);
    }
    let first = text[found.value.clone()].lines().next().unwrap_or("").len();
    fault.at(text, found.value.start..found.value.start + first)
}

/// What the night should know of its weather: notes on the whole file and on its own hours, the rest counted.
fn notes_of(reading: &Reading, name: &str, night: Option<(f64, f64)>) -> Vec<String> {
    let near = |note: &Note| match (note.unix_s, night) {
        (Some(at), Some((begin, end))) => at > begin - LONGEST_GAP_S && at < end + LONGEST_GAP_S,
        _ => true,
    };
    if builtin(Kind::Weather, name).is_some() {
        return Vec::new();
    }
    let told: Vec<&Note> = reading
        .notes
        .iter()
        .filter(|note| note.care != NoteKind::Unused && near(note))
        .collect();
    let mut words: Vec<String> = told
        .iter()
        .take(MOST_TOLD)
        .map(|note| format!("{name}, {note} [{}]", note.care.word()))
        .collect();
    if told.len() > MOST_TOLD {
        let more = told.len() - MOST_TOLD;
        words.push(format!(
            "{name}: {more} more; `coldsoak weather {name}` tells them all"
        ));
    }
    words
}
