//! Recorded weather from a table: CSV with any of the usual separators and names of columns.
//!
//! The dew point is over liquid water at all temperatures, as stations report it; a relative humidity is taken over
//! water too (World Meteorological Organization, WMO-No. 8, Guide to Instruments, part I chapter 4; from memory).
//! Nothing is filled in: a row that lacks something, cannot be read or cannot be true is left out and told.

use super::super::fault::Fault;
use super::course::ordered;
use super::layout::{Head, layout};
use super::note::{Note, NoteKind};
use super::options::{WeatherError, WeatherOptions};
use super::reading::{Form, Reading};
use super::row::Rows;
use super::rows::read_rows;
use super::settle::{of_station, order, share, zone};
use super::sheet::{Line, cells, lines, separator};
use super::stamp;
use crate::scenario::weather::Record;

/// How it is told that the wind is not the table's own.
pub(super) const AS_THE_NIGHT_SAYS: &str = "as the night says";
/// How it is told that the zone is not the table's own.
pub(super) const BY_CLOCK: &str = "are taken by the clock of";

/// Whether the first line of the text names columns of weather.
pub fn is_table(text: &str) -> bool {
    lines(text).first().is_some_and(|head| {
        let names = cells(head.text, separator(head.text));
        super::layout::is_head(&names.iter().collect::<Vec<_>>())
    })
}

/// The record of a table.
///
/// *Errors*: columns, units, a station, a zone or a wind that are missing; no row that can be used, or many that cannot
/// be true.
pub fn read(file: &str, text: &str, wanted: &WeatherOptions) -> Result<Reading, WeatherError> {
    if wanted.month.is_some() {
        let fault = Fault::of(
            file,
            "this is a table, whose times tell their months themselves",
        );
        return Err(WeatherError {
            fault: Box::new(
                fault.help("leave the month out: it is for reports (METAR), which tell none"),
            ),
            key: Some("month"),
        });
    }
    let lines = lines(text);
    let Some((head, rows)) = lines.split_first() else {
        return Err(Fault::of(file, "the file is empty").into());
    };
    let separator = separator(head.text);
    let names = cells(head.text, separator);
    let names: Vec<&str> = names.iter().collect();
    let place = Head {
        file,
        text,
        start: head.start,
        line: head.text,
    };
    let (layout, mut notes) = layout(&names, &place, wanted)?;
    let rows: Vec<(Line, csv::StringRecord)> = rows
        .iter()
        .map(|line| (*line, cells(line.text, separator)))
        .collect();
    let (station, rows) = of_station(file, &layout, rows, wanted, head, text)?;
    let zone = zone(file, &layout, wanted)?;
    let comma = separator != b',';
    let share = share(&layout, &rows, comma, &mut notes);
    let order = match layout.unix {
        true => stamp::Order::DayFirst,
        false => order(file, text, &layout, &rows)?,
    };
    let reader = Rows {
        layout: &layout,
        decimal_comma: comma,
        order,
        zone: zone.as_ref(),
        share,
        wind: wanted.wind,
    };
    if let (None, Some(wind)) = (&layout.wind, wanted.wind) {
        let what = format!(
            "no column holds the wind; {:.1} m/s is taken, {AS_THE_NIGHT_SAYS}",
            wind.si()
        );
        notes.push(Note::of(NoteKind::Assumed, what));
    }
    let lined = read_rows(file, text, &reader, &rows, &mut notes)?;
    if let (Some(zone), false) = (
        wanted
            .zone
            .as_deref()
            .filter(|_| !layout.utc && !layout.unix),
        lined.is_empty(),
    ) {
        let what = format!("times without an offset {BY_CLOCK} {zone}");
        notes.push(Note::of(NoteKind::Assumed, what));
    }
    let readings = ordered(lined, &mut notes);
    let name = match &station {
        Some(station) => format!("{file}, {station}"),
        None => file.to_owned(),
    };
    Ok(Reading {
        form: Form::Table,
        station,
        record: Record { name, readings },
        notes,
    })
}
