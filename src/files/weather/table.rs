//! Recorded weather from a table: CSV with any of the usual separators and names of columns.
//!
//! The dew point is over liquid water at all temperatures, as stations report it; a relative humidity is taken over
//! water too (World Meteorological Organization, WMO-No. 8, Guide to Instruments, part I chapter 4; from memory).
//! Nothing is filled in: a row that lacks something, cannot be read or cannot be true is left out and told.

use super::super::fault::Fault;
use super::course::{Lined, ordered};
use super::layout::{Head, layout};
use super::note::{Care, Note};
use super::reading::{Form, Reading};
use super::row::{Fit, Rows, Unfit};
use super::settle::{of_station, order, share, zone};
use super::sheet::{Line, cells, lines, separator};
use super::stamp;
use super::wanted::{Refused, Wanted};
use crate::scenario::weather::Record;

/// More impossible rows than one in so many are no slips of a station: the unit is wrong.
const ONE_IMPOSSIBLE_IN: usize = 10;
/// So few impossible rows prove nothing.
const FEW: usize = 3;

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
pub fn read(file: &str, text: &str, wanted: &Wanted) -> Result<Reading, Refused> {
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
            "no column holds the wind; {:.1} m/s is taken, as the night says",
            wind.si()
        );
        notes.push(Note::of(Care::Assumed, what));
    }
    let lined = read_rows(file, text, &reader, &rows, &mut notes)?;
    if let (Some(zone), false) = (
        wanted
            .zone
            .as_deref()
            .filter(|_| !layout.utc && !layout.unix),
        lined.is_empty(),
    ) {
        let what = format!("times without an offset are taken by the clock of {zone}");
        notes.push(Note::of(Care::Assumed, what));
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

/// Reads all rows; what is left out or mended goes to `notes`.
fn read_rows(
    file: &str,
    text: &str,
    reader: &Rows,
    rows: &[(Line, csv::StringRecord)],
    notes: &mut Vec<Note>,
) -> Result<Vec<Lined>, Refused> {
    let mut lined: Vec<Lined> = Vec::new();
    let mut impossible: Vec<(Line, String)> = Vec::new();
    let mut first_fault: Option<Fault> = None;
    for (line, cells) in rows {
        let cells: Vec<&str> = cells.iter().collect();
        let what = match reader.read(&cells) {
            Ok(Fit {
                mut reading,
                repairs,
                again_s,
            }) => {
                let before = lined.last().map(|l| l.reading.unix_s);
                if let (Some(again_s), Some(before)) = (again_s, before)
                    && before >= reading.unix_s
                {
                    reading.unix_s += again_s;
                    let what = "the clocks were put back: this time was told twice, and this is taken to be the second";
                    notes.push(
                        Note::of(Care::Assumed, what)
                            .line(line.number)
                            .at(reading.unix_s),
                    );
                }
                let told = |what| {
                    Note::of(Care::Repaired, what)
                        .line(line.number)
                        .at(reading.unix_s)
                };
                notes.extend(repairs.into_iter().map(told));
                lined.push(Lined {
                    line: line.number,
                    reading,
                });
                continue;
            }
            Err(Unfit::NoZone(time)) => {
                let what = format!("`{time}` names no time zone, and no zone is given");
                let fault = line.fault(file, text, what).help(
                    "call the column time_utc if it is UTC, write the offset behind each time (-07:00), or name the \
                     zone: zone: \"America/Denver\" in the night, --zone America/Denver on the command line",
                );
                return Err(Refused::from(fault));
            }
            Err(Unfit::Impossible(what)) => {
                impossible.push((*line, what.clone()));
                what
            }
            Err(Unfit::Missing(what) | Unfit::Garbage(what)) => what,
        };
        first_fault.get_or_insert_with(|| line.fault(file, text, what.clone()));
        notes.push(Note::of(Care::LeftOut, what).line(line.number));
    }
    if let Some((line, what)) = impossible.first()
        && impossible.len() > FEW.max(rows.len() / ONE_IMPOSSIBLE_IN)
    {
        let told = format!(
            "{} of {} lines hold what cannot be true; the first: {what}",
            impossible.len(),
            rows.len()
        );
        let fault = line.fault(file, text, told);
        return Err(fault
            .help("is the unit in the column's name the right one?")
            .into());
    }
    match first_fault {
        _ if !lined.is_empty() => Ok(lined),
        Some(mut fault) => {
            fault.what = format!(
                "none of the {} lines can be used; the first: {}",
                rows.len(),
                fault.what
            );
            Err(fault.into())
        }
        None => Err(Fault::of(file, "the table has a head and no lines under it").into()),
    }
}
