//! Recorded weather from a table: CSV with any of the usual separators and names of columns.
//!
//! The dew point is over liquid water at all temperatures, as stations report it; a relative humidity is taken over
//! water too (World Meteorological Organization, WMO-No. 8, Guide to Instruments, part I chapter 4; from memory).
//! Nothing is filled in: a row that lacks something, cannot be read or cannot be true is left out and told.

use super::super::fault::Fault;
use super::course::{Lined, ordered};
use super::layout::{Head, Layout, layout};
use super::note::{Care, Note};
use super::number::{Cell, cell};
use super::reading::{Form, Reading};
use super::row::{Fit, Rows, Unfit};
use super::stamp;
use super::wanted::{Refused, Wanted, choose};
use crate::scenario::weather::Record;
use jiff::tz::TimeZone;
use std::collections::BTreeSet;

/// More impossible rows than one in so many are no slips of a station: the unit is wrong.
const ONE_IMPOSSIBLE_IN: usize = 10;
/// So few impossible rows prove nothing.
const FEW: usize = 3;
/// A humidity without a unit that never passes this is told in parts of one.
const GREATEST_SHARE: f64 = 1.05;

/// A line with its number and where it begins.
#[derive(Clone, Copy)]
struct Line<'a> {
    number: usize,
    start: usize,
    text: &'a str,
}

impl Line<'_> {
    fn fault(&self, file: &str, text: &str, what: impl Into<String>) -> Fault {
        let span = self.start..self.start + self.text.trim_end().len();
        Fault::of(file, what).at(text, span)
    }
}

/// The lines that hold something: no comment, not blank.
fn lines(text: &str) -> Vec<Line<'_>> {
    let mut start = 0;
    let mut lines = Vec::new();
    for (number, content) in (1..).zip(text.split_inclusive('\n')) {
        let plain = content.trim();
        if !plain.is_empty() && !plain.starts_with('#') {
            let text = content.trim_end_matches(['\n', '\r']);
            lines.push(Line {
                number,
                start,
                text,
            });
        }
        start += content.len();
    }
    lines
}

/// The separator of a head: that of tab, semicolon and comma that stands there most often.
fn separator(head: &str) -> u8 {
    let often = |separator: &u8| head.bytes().filter(|b| b == separator).count();
    b",;\t".iter().copied().max_by_key(often).unwrap_or(b',')
}

/// The cells of a line.
fn cells(line: &str, separator: u8) -> csv::StringRecord {
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(separator)
        .has_headers(false)
        .flexible(true)
        .trim(csv::Trim::All)
        .buffer_capacity(line.len().max(16))
        .from_reader(line.as_bytes());
    let mut record = csv::StringRecord::new();
    // A line of text always is a record; the reader only fails on what is not UTF-8.
    let _ = reader.read_record(&mut record);
    record
}

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
                return Err(Refused { fault, key: None });
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

/// Rows of the table, each with its line.
type Read<'a> = Vec<(Line<'a>, csv::StringRecord)>;

/// The rows of the chosen station, or of the only one.
fn of_station<'a>(
    file: &str,
    layout: &Layout,
    mut rows: Read<'a>,
    wanted: &Wanted,
    head: &Line,
    text: &str,
) -> Result<(Option<String>, Read<'a>), Refused> {
    let Some(place) = &layout.station else {
        let Some(station) = &wanted.station else {
            return Ok((None, rows));
        };
        let what = format!("no column names a station, so none can be `{station}`");
        let fault = head.fault(file, text, what).help("leave the station out");
        return Err(Refused {
            fault,
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
        Refused {
            fault,
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

fn zone(file: &str, layout: &Layout, wanted: &Wanted) -> Result<Option<TimeZone>, Refused> {
    if layout.utc {
        return Ok(Some(TimeZone::UTC));
    }
    let Some(name) = &wanted.zone else {
        return Ok(None);
    };
    TimeZone::get(name).map(Some).map_err(|_| Refused {
        fault: Fault::of(
            file,
            format!("`{name}` is not a time zone of the IANA database"),
        )
        .help("such as America/Denver, Europe/Oslo or UTC"),
        key: Some("zone"),
    })
}

fn order(file: &str, text: &str, layout: &Layout, rows: &Read) -> Result<stamp::Order, Refused> {
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
fn share(layout: &Layout, rows: &Read, comma: bool, notes: &mut Vec<Note>) -> bool {
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
    notes.push(Note::of(Care::Assumed, what));
    share
}
