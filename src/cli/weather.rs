//! `coldsoak weather`: the weather of a file as a night would use it.

use super::exit_code::{Failure, Outcome};
use super::flags::{Flags, flag_error};
use super::terminal;
use crate::files::fault::{FileError, InputError};
use crate::files::library::{Kind, builtin, names};
use crate::files::ron::text_of;
use crate::files::sources::label;
use crate::files::weather_entry::input_error;
use crate::quantity::Units;
use crate::report::weather::{WeatherFile, report};
use crate::scenario::clock::Moment;
use crate::scenario::weather::Observation;
use crate::weather::{Form, Month, NoteKind, Reading, WeatherOptions, read, to_csv};
use jiff::tz::TimeZone;
use std::io::Read;
use std::path::Path;

/// Examples in the help.
const EXAMPLES: &str = "Examples:\n  \
coldsoak weather ksea.txt --station KSEA --month 2018-01 --zone America/Los_Angeles\n  \
coldsoak weather logger.csv --zone Europe/Oslo --csv > clean.csv\n\n\
Built-in records: greensboro_nc_1996-02-04, chicago_il_1986-01-06, newark_nj_2013-01-22, alamosa_co_2016-01-01.";

/// Flags of `weather`.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub struct Weather {
    /// METAR reports or a table (CSV), a built-in record, or - for standard input
    pub file: String,
    /// The station, where the file holds several
    #[arg(long)]
    pub station: Option<String>,
    /// Year and month of the last report, where the reports have none
    #[arg(long, value_name = "YYYY-MM", value_parser = month)]
    pub month: Option<Month>,
    /// IANA time zone of local times, and of table times without one
    #[arg(long, value_name = "ZONE")]
    pub zone: Option<String>,
    /// From this time by --zone (or UTC), as in "2018-01-09 18:00"
    #[arg(long, value_name = "MOMENT", value_parser = moment)]
    pub from: Option<Moment>,
    /// To this time
    #[arg(long, value_name = "MOMENT", value_parser = moment)]
    pub to: Option<Moment>,
    /// Print JSON instead of text
    #[arg(long)]
    pub json: bool,
    /// Print a clean CSV that a night can name, instead of text
    #[arg(long, conflicts_with = "json")]
    pub csv: bool,
}

fn month(text: &str) -> Result<Month, String> {
    text.parse()
}

fn moment(text: &str) -> Result<Moment, String> {
    let moment = Moment::try_from(text.to_owned())?;
    match moment.date {
        Some(_) => Ok(moment),
        None => Err("name the day too, as in \"2018-01-09 18:00\"".to_owned()),
    }
}

/// Runs the command.
pub fn run(typed: &Weather, flags: &Flags) -> Result<Outcome, Failure> {
    let (file, content) = content(&typed.file)?;
    let zone = match &typed.zone {
        Some(name) => Some(TimeZone::get(name).map_err(|_| {
            let message = format!("\"{name}\" is not a time zone of the IANA database.");
            flag_error(
                "--zone",
                message,
                "--zone America/Denver, Europe/Oslo or UTC",
            )
        })?),
        None => None,
    };
    let options = WeatherOptions {
        station: typed.station.clone(),
        month: typed.month,
        zone: typed.zone.clone(),
        ..WeatherOptions::default()
    };
    let mut reading = read(&file, &content, &options)
        .map_err(|error| FileError::from(input_error(&file, &content, error)))?;
    let span = span(typed, zone.as_ref());
    within(&mut reading, &file, span)?;
    if typed.csv {
        if !flags.quiet {
            told_aside(&reading);
        }
        terminal::print(&to_csv(&reading.record))?;
        return Ok(Outcome::Done);
    }
    let entry = entry(typed, &file, &reading);
    let notes: Vec<(&str, String)> = NoteKind::ALL
        .iter()
        .flat_map(|kind| {
            reading
                .notes
                .iter()
                .filter(move |note| note.kind() == *kind)
        })
        .map(|note| (note.kind().word(), note.to_string()))
        .collect();
    let report = report(&WeatherFile {
        file: &file,
        form: reading.form.word(),
        station: reading.station.as_deref(),
        record: &reading.record,
        zone: zone.as_ref().zip(typed.zone.as_deref()),
        notes: &notes,
        entry: &entry,
        units: flags.units_or(Units::Celsius),
    });
    terminal::print(&match typed.json {
        true => report.json(),
        false => report.text(terminal::width(false)),
    })?;
    Ok(Outcome::Done)
}

/// The name and the text of what is to be read.
fn content(name: &str) -> Result<(String, String), FileError> {
    if name == "-" {
        let file = "standard input".to_owned();
        let mut bytes = Vec::new();
        let most = crate::files::ron::LONGEST as u64 + 1;
        let read = std::io::stdin().take(most).read_to_end(&mut bytes);
        read.map_err(|source| FileError::Read {
            file: file.clone(),
            source,
        })?;
        let text = text_of(&file, bytes)?;
        return Ok((file, text));
    }
    match builtin(Kind::Weather, name).filter(|_| !Path::new(name).is_file()) {
        Some(text) => Ok((label(Kind::Weather, name), text.to_owned())),
        None => {
            let file = name.to_owned();
            let known = || format!("built in are {}", names(Kind::Weather).join(", "));
            let opened = std::fs::File::open(name);
            if opened.is_err() && Path::new(name).extension().is_none() {
                let what =
                    format!("there is no file and no built-in weather record called `{name}`");
                return Err(InputError::of(name, what).help(known()).into());
            }
            let mut bytes = Vec::new();
            let most = crate::files::ron::LONGEST as u64 + 1;
            opened
                .and_then(|opened| opened.take(most).read_to_end(&mut bytes))
                .map_err(|source| FileError::Read {
                    file: file.clone(),
                    source,
                })?;
            let text = text_of(&file, bytes)?;
            Ok((file, text))
        }
    }
}

/// The span that was asked for, in seconds since 1970 UTC.
fn span(typed: &Weather, zone: Option<&TimeZone>) -> (f64, f64) {
    let zone = zone.cloned().unwrap_or(TimeZone::UTC);
    let at = |moment: &Option<Moment>| moment.as_ref().and_then(|moment| moment.unix_s(&zone));
    (
        at(&typed.from).unwrap_or(f64::NEG_INFINITY),
        at(&typed.to).unwrap_or(f64::INFINITY),
    )
}

/// Keeps the readings within a span, with the one before and the one after it, so that straight lines reach its ends.
fn within(reading: &mut Reading, file: &str, (from, to): (f64, f64)) -> Result<(), Failure> {
    let readings = &reading.record.readings;
    let first = readings.iter().rposition(|r| r.unix_s <= from);
    let last = readings.iter().position(|r| r.unix_s >= to);
    let short = (from.is_finite() && first.is_none()).then_some("begins after --from");
    let short = short.or((to.is_finite() && last.is_none()).then_some("ends before --to"));
    if from > to {
        return Err(flag_error(
            "--from",
            "it is after --to.",
            "--from before --to",
        ));
    }
    let told = |r: Option<&Observation>| {
        r.map_or(String::new(), |r| crate::scenario::weather::utc(r.unix_s))
    };
    if let Some(short) = short {
        let span = format!("{} to {}", told(readings.first()), told(readings.last()));
        let fault = InputError::of(file, format!("the weather {short}: it runs from {span}"));
        return Err(fault.help("a night needs weather from its beginning to its end; --from and --to are by the clock of --zone, UTC without it").into());
    }
    let kept = first.unwrap_or(0)..last.map_or(readings.len(), |last| last + 1);
    let kept: Vec<Observation> = readings.get(kept).unwrap_or(&[]).to_vec();
    let begin = kept.first().map_or(from, |r| r.unix_s).min(from);
    let end = kept.last().map_or(to, |r| r.unix_s).max(to);
    let inside = |at: Option<f64>| at.is_none_or(|at| at >= begin && at <= end);
    reading.notes.retain(|note| inside(note.unix_s));
    reading.record.readings = kept;
    Ok(())
}

/// How a night names this weather.
fn entry(typed: &Weather, file: &str, reading: &Reading) -> String {
    if builtin(Kind::Weather, &typed.file).is_some() && file != typed.file {
        return format!("weather: recorded(\"{}\")", typed.file);
    }
    let name = match typed.file.as_str() {
        "-" => "weather.csv",
        file => Path::new(file)
            .file_name()
            .and_then(|name| name.to_str())
            .unwrap_or(file),
    };
    if typed.file == "-" {
        return format!("weather: recorded(\"{name}\"), once --csv has written it to {name}");
    }
    let mut keys = vec![format!("file: \"{name}\"")];
    if typed.station.is_some() {
        keys.extend(
            reading
                .station
                .as_ref()
                .map(|s| format!("station: \"{s}\"")),
        );
    }
    let word = match reading.form {
        Form::Reports => {
            keys.extend(typed.month.map(|m| format!("month: \"{m}\"")));
            "reports"
        }
        Form::Table => {
            keys.extend(typed.zone.as_ref().map(|z| format!("zone: \"{z}\"")));
            "table"
        }
    };
    format!("weather: {word}({})", keys.join(", "))
}

/// Notes beside a CSV, on standard error.
fn told_aside(reading: &Reading) {
    for note in &reading.notes {
        anstream::eprintln!("note: {note} [{}]", note.kind().word());
    }
}
