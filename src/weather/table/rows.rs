//! All rows of a table, to the readings of one station.
//!
//! The dew point is over liquid water at all temperatures, as stations report it; a relative humidity is taken over
//! water too (World Meteorological Organization, WMO-No. 8, Guide to Instruments, part I chapter 4; from memory).
//! Nothing is filled in: a row that lacks something, cannot be read or cannot be true is skipped with a note.

use super::cell::{Cell, parse_cell};
use super::clock_change::RepeatedHour;
use super::head::{Head, is_head, read_head};
use super::row::{Row, RowError, RowReader};
use super::sheet::{Line, Sheet};
use super::time;
use crate::scenario::weather::Observation;
use crate::weather::error::WeatherError;
use crate::weather::note::{Detail, Note};
use crate::weather::options::WeatherOptions;
use crate::weather::series::{Entry, Series, ordered};
use crate::weather::station::choose;
use jiff::tz::TimeZone;

/// A humidity without a unit that never passes this is in parts of one.
const GREATEST_FRACTION: f64 = 1.05;
/// More impossible rows than one in so many are no errors of a station: the unit is wrong.
const ONE_IMPOSSIBLE_IN: usize = 10;
/// So few impossible rows prove nothing.
const FEW: usize = 3;

/// Whether the first line of the text names columns of weather.
pub fn is_table(text: &str) -> bool {
    Sheet::head(text).is_some_and(|(_, names, _)| is_head(names.iter()))
}

/// Reads a table.
///
/// *Errors*: columns, units, a station, a zone or a wind that are missing; no row that can be used, or many that cannot
/// be true.
pub fn read(text: &str, options: &WeatherOptions) -> Result<Series, WeatherError> {
    if options.month.is_some() {
        let error = WeatherError::new("this is a table, whose times name their months themselves");
        let help = "leave the month out: it is for reports (METAR), which name none";
        return Err(error.key("month").suggest(help));
    }
    let mut notes = Vec::new();
    let mut sheet = Sheet::of(text).ok_or_else(|| WeatherError::new("the file is empty"))?;
    let head = read_head(
        &sheet.names,
        &sheet.head,
        options.wind.is_some(),
        &mut notes,
    )?;
    let station = of_station(&head, &mut sheet, options)?;
    let zone = match &options.zone {
        _ if head.utc() => Some(TimeZone::UTC),
        Some(name) => Some(TimeZone::get(name).map_err(|_| {
            let message = format!("`{name}` is not a time zone of the IANA database");
            let help = "such as America/Denver, Europe/Oslo or UTC";
            WeatherError::new(message).key("zone").suggest(help)
        })?),
        None => None,
    };
    let reader = RowReader {
        decimal_comma: sheet.decimal_comma,
        fraction: is_fraction(&head, &sheet, &mut notes),
        order: order(&head, &sheet)?,
        zone: zone.as_ref(),
        wind: options.wind,
        head: &head,
    };
    if let (None, Some(wind)) = (&head.wind, options.wind) {
        notes.push(Detail::WindOfNight(wind.si()).into());
    }
    let entries = read_rows(&reader, &sheet, &mut notes)?;
    if let Some(zone) = options
        .zone
        .as_ref()
        .filter(|_| !head.utc() && !head.unix())
    {
        notes.push(Detail::ZoneOfNight(zone.clone()).into());
    }
    Ok(Series {
        station,
        readings: ordered(entries, &mut notes),
        notes,
    })
}

/// The chosen station or the only one; rows of others are dropped.
fn of_station(
    head: &Head,
    sheet: &mut Sheet,
    options: &WeatherOptions,
) -> Result<Option<String>, WeatherError> {
    let Some(column) = &head.station else {
        return match &options.station {
            None => Ok(None),
            Some(station) => {
                let message = format!("no column names a station, so none can be `{station}`");
                let error = sheet.head.error(message).key("station");
                Err(error.suggest("leave the station out"))
            }
        };
    };
    let names = sheet
        .rows
        .iter()
        .map(|(_, row)| column.cell(row).to_ascii_uppercase());
    let names: Vec<String> = names.filter(|name| !name.is_empty()).collect();
    let station = choose(names.iter().map(String::as_str), options.station.as_deref())?;
    if let Some(station) = options.station.as_ref().and(station.as_ref()) {
        sheet
            .rows
            .retain(|(_, row)| column.cell(row).eq_ignore_ascii_case(station));
    }
    Ok(station)
}

/// Whether days or months come first in the dates.
fn order(head: &Head, sheet: &Sheet) -> Result<time::Order, WeatherError> {
    if head.unix() {
        return Ok(time::Order::DayFirst);
    }
    let column = head.date.as_ref().unwrap_or(&head.time);
    let dates = || sheet.rows.iter().map(|(_, row)| column.cell(row));
    time::order(dates()).map_err(|date| {
        let message = format!(
            "`{date}` may be month/day or day/month, and no other date in the table proves which"
        );
        let row = dates().position(|other| other == date);
        let line = row
            .and_then(|at| sheet.rows.get(at))
            .map_or(&sheet.head, |(line, _)| line);
        line.error(message)
            .suggest("write the year first: 2018-01-09 22:35")
    })
}

/// Whether humidity is in parts of one; noted if the unit had to be found from the numbers.
fn is_fraction(head: &Head, sheet: &Sheet, notes: &mut Vec<Note>) -> bool {
    let Some(column) = head
        .humidity
        .as_ref()
        .filter(|column| column.unit.is_none())
    else {
        return false;
    };
    let numbers = sheet.rows.iter().filter_map(|(_, row)| {
        match parse_cell(column.cell(row), sheet.decimal_comma) {
            Cell::Number(number) => Some(number),
            _ => None,
        }
    });
    let fraction = numbers.fold(0.0, f64::max) <= GREATEST_FRACTION;
    let column = column.name.clone();
    notes.push(Detail::HumidityUnit { column, fraction }.into());
    fraction
}

/// Reads all rows; what is skipped or corrected goes to `notes`.
///
/// *Errors*: a time without a zone; no row that can be used; many that cannot be true.
fn read_rows(
    reader: &RowReader,
    sheet: &Sheet,
    notes: &mut Vec<Note>,
) -> Result<Vec<Entry>, WeatherError> {
    let rows = sheet.rows.iter();
    let mut rows: Vec<(Line, Result<Row, RowError>)> =
        rows.map(|(line, row)| (*line, reader.read(row))).collect();
    if newest_first(&rows) {
        rows.reverse();
        notes.push(Detail::Reversed.into());
    }
    let mut entries: Vec<Entry> = Vec::new();
    let mut skipped: Vec<(Line, Detail)> = Vec::new();
    let mut repeated_hour = RepeatedHour::default();
    for (line, read) in rows {
        match read {
            Ok(row) => {
                let before_s = entries.last().map(|entry| entry.unix_s);
                let (unix_s, note) = repeated_hour.settle(row.moment, line, before_s);
                notes.extend(note);
                entries.push(Entry {
                    line: line.number,
                    report: None,
                    unix_s,
                    rank: (true, false),
                    reading: Some(row.reading).map(|reading| Observation { unix_s, ..reading }),
                    details: row.corrections,
                });
            }
            Err(RowError::NoZone(time)) => return Err(no_zone(line, reader, &time)),
            Err(RowError::Unfit(detail)) => skipped.push((line, detail)),
        }
    }
    notes.extend(repeated_hour.unsettled());
    skipped.sort_by_key(|(line, _)| line.number);
    notes.extend(skipped.iter().map(|(line, detail)| Note {
        line: Some(line.number),
        ..detail.clone().into()
    }));
    check_usable(sheet, entries.is_empty(), &skipped)?;
    if !entries.is_sorted_by(|a, b| a.unix_s <= b.unix_s) {
        notes.push(Detail::Sorted.into());
    }
    Ok(entries)
}

/// Whether more rows are older than the row above them than newer.
fn newest_first(rows: &[(Line, Result<Row, RowError>)]) -> bool {
    let read = rows.iter().filter_map(|(_, read)| read.as_ref().ok());
    let times: Vec<f64> = read.map(|row| row.moment.unix_s).collect();
    let falls = times.windows(2).filter(|pair| pair[1] < pair[0]).count();
    let rises = times.windows(2).filter(|pair| pair[1] > pair[0]).count();
    falls > rises
}

fn no_zone(line: Line, reader: &RowReader, time: &str) -> WeatherError {
    let column = &reader.head.time;
    let message = if column.local && !column.utc {
        let column = &column.name;
        format!("`{time}` is by a local clock, as `{column}` says, and no zone says which")
    } else {
        format!("`{time}` names no time zone, and no zone is given")
    };
    line.error(message).key("zone").suggest(
        "call the column time_utc if it is UTC, write the offset after each time (-07:00), or name the \
         zone: zone: \"America/Denver\" in the night, --zone America/Denver on the command line",
    )
}

/// Refuses a table of which nothing is left, or much cannot be true.
fn check_usable(
    sheet: &Sheet,
    nothing_left: bool,
    skipped: &[(Line, Detail)],
) -> Result<(), WeatherError> {
    let rows = sheet.rows.len();
    let impossible = skipped.iter().filter(|(_, detail)| {
        matches!(
            detail,
            Detail::Impossible(_) | Detail::ImpossibleDewPoint(..)
        )
    });
    let impossible: Vec<&(Line, Detail)> = impossible.collect();
    match (impossible.first(), skipped.first()) {
        (Some((line, first)), _) if impossible.len() > FEW.max(rows / ONE_IMPOSSIBLE_IN) => {
            let count = impossible.len();
            let message =
                format!("{count} of {rows} lines hold what cannot be true; the first: {first}");
            let help = "is the unit in the column's name the right one?";
            Err(line.error(message).suggest(help))
        }
        _ if !nothing_left => Ok(()),
        (_, Some((line, first))) => Err(line.error(format!(
            "none of the {rows} lines can be used; the first: {first}"
        ))),
        (_, None) => Err(WeatherError::new(
            "the table has a head and no lines under it",
        )),
    }
}
