//! What must be settled before the rows of a table can be read: station, zone, order of dates, unit of humidity.

use super::super::fault::Fault;
use super::layout::Layout;
use super::note::{Note, NoteKind};
use super::number::{Cell, cell};
use super::options::{WeatherError, WeatherOptions, choose};
use super::sheet::{Line, Read};
use super::stamp;
use jiff::tz::TimeZone;
use std::collections::BTreeSet;

/// A humidity without a unit that never passes this is told in parts of one.
const GREATEST_SHARE: f64 = 1.05;

/// The rows of the chosen station, or of the only one.
pub fn of_station<'a>(
    file: &str,
    layout: &Layout,
    mut rows: Read<'a>,
    wanted: &WeatherOptions,
    head: &Line,
    text: &str,
) -> Result<(Option<String>, Read<'a>), WeatherError> {
    let Some(place) = &layout.station else {
        let Some(station) = &wanted.station else {
            return Ok((None, rows));
        };
        let what = format!("no column names a station, so none can be `{station}`");
        let fault = head.fault(file, text, what).help("leave the station out");
        return Err(WeatherError {
            fault: Box::new(fault),
            key: Some("station"),
        });
    };
    let at = |row: &csv::StringRecord| row.get(place.at).unwrap_or("").to_ascii_uppercase();
    let found: BTreeSet<String> = rows
        .iter()
        .map(|(_, row)| at(row))
        .filter(|s| !s.is_empty())
        .collect();
    let found: Vec<String> = found.into_iter().collect();
    let chosen = wanted
        .station
        .as_ref()
        .map(|s| s.trim().to_ascii_uppercase());
    let refused = |what: String| {
        let fault = Fault::of(file, what).help(choose(&found));
        WeatherError {
            fault: Box::new(fault),
            key: Some("station"),
        }
    };
    match (chosen, found.as_slice()) {
        (None, []) => Ok((None, rows)),
        (None, [only]) => Ok((Some(only.clone()), rows)),
        (None, several) => Err(refused(format!(
            "the table is of several stations: {}",
            several.join(", ")
        ))),
        (Some(chosen), found) if found.contains(&chosen) => {
            rows.retain(|(_, row)| at(row) == chosen);
            Ok((Some(chosen), rows))
        }
        (Some(chosen), found) => Err(refused(format!(
            "no line is of `{chosen}`; there are {}",
            found.join(", ")
        ))),
    }
}

/// The zone of times that name none: UTC if the column says so, else that which was given.
pub fn zone(
    file: &str,
    layout: &Layout,
    wanted: &WeatherOptions,
) -> Result<Option<TimeZone>, WeatherError> {
    if layout.utc {
        return Ok(Some(TimeZone::UTC));
    }
    let Some(name) = &wanted.zone else {
        return Ok(None);
    };
    TimeZone::get(name).map(Some).map_err(|_| WeatherError {
        fault: Box::new(
            Fault::of(
                file,
                format!("`{name}` is not a time zone of the IANA database"),
            )
            .help("such as America/Denver, Europe/Oslo or UTC"),
        ),
        key: Some("zone"),
    })
}

/// Whether days or months come first in the dates.
pub fn order(
    file: &str,
    text: &str,
    layout: &Layout,
    rows: &Read,
) -> Result<stamp::Order, WeatherError> {
    let place = layout.date.as_ref().unwrap_or(&layout.time);
    let dates = || rows.iter().map(|(_, row)| row.get(place.at).unwrap_or(""));
    stamp::order(dates()).map_err(|doubtful| {
        let what = format!("`{doubtful}` may be month/day or day/month, and no other date in the table proves which");
        let line = dates().position(|date| date == doubtful).and_then(|at| rows.get(at));
        let fault = match line {
            Some((line, _)) => line.fault(file, text, what),
            None => Fault::of(file, what),
        };
        fault.help("write the year first: 2018-01-09 22:35").into()
    })
}

/// Whether humidity is told in parts of one; told if the unit had to be found from the numbers.
pub fn share(layout: &Layout, rows: &Read, comma: bool, notes: &mut Vec<Note>) -> bool {
    let Some(place) = layout
        .humidity
        .as_ref()
        .filter(|place| place.unit.is_none())
    else {
        return false;
    };
    let numbers = rows
        .iter()
        .filter_map(|(_, row)| match cell(row.get(place.at)?, comma) {
            Cell::Number(number) => Some(number),
            _ => None,
        });
    let share = numbers.fold(0.0, f64::max) <= GREATEST_SHARE;
    let unit = if share {
        "in parts of one"
    } else {
        "in per cent"
    };
    let what = format!(
        "`{}` names no unit; by its numbers it is {unit}",
        place.name
    );
    notes.push(Note::of(NoteKind::Assumed, what));
    share
}
