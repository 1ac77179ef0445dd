//! Which column of a table holds what.

use super::column::{Column, Holds};
use super::sheet::Line;
use crate::weather::error::WeatherError;
use crate::weather::note::{Detail, Note};

/// What every table needs.
const REQUIRED: &str = "a table needs a time, a temperature, a dew point or relative humidity, and a wind, each with its unit in \
the column's name: time_utc, temp_c, dewpoint_c, wind_m_s, or the like (F, K; humidity in %; kt, mph, km/h)";

/// The columns that are read.
#[derive(Debug, Clone, PartialEq)]
pub struct Head {
    /// The time, or seconds since 1970 UTC.
    pub time: Column,
    /// The date beside a time of day.
    pub date: Option<Column>,
    pub station: Option<Column>,
    pub temperature: Column,
    pub dew_point: Option<Column>,
    pub humidity: Option<Column>,
    pub wind: Option<Column>,
}

impl Head {
    /// Whether the time column counts seconds since 1970 UTC.
    pub fn unix(&self) -> bool {
        self.time.holds == Holds::UnixSeconds
    }
    /// Whether a name says that times are UTC.
    pub fn utc(&self) -> bool {
        self.time.utc || self.date.as_ref().is_some_and(|date| date.utc)
    }
}

/// Whether these names are the head of a table with weather in it.
pub fn is_head<'a>(names: impl Iterator<Item = &'a str>) -> bool {
    let holds: Vec<Holds> = names.map(|name| Column::named(0, name).holds).collect();
    let any = |of: &[Holds]| holds.iter().any(|h| of.contains(h));
    any(&[Holds::Time, Holds::Date, Holds::UnixSeconds])
        && any(&[Holds::Temperature, Holds::DewPoint])
}

/// The columns by their names in the line of the head; notes on those that are not used go to `notes`.
///
/// *Errors*: a column that is missing (the wind not if `wind_given`), or a unit.
pub fn read_head(
    names: &csv::StringRecord,
    line: &Line,
    wind_given: bool,
    notes: &mut Vec<Note>,
) -> Result<Head, WeatherError> {
    let named = names.iter().enumerate();
    let columns: Vec<Column> = named.map(|(at, name)| Column::named(at, name)).collect();
    let find = |holds: Holds| {
        let of = || columns.iter().filter(move |c| c.holds == holds);
        let with_unit = of().find(|c| c.unit.is_some() || c.utc);
        with_unit.or(of().next()).cloned()
    };
    let missing = |what: &str| {
        let there: Vec<String> = columns.iter().map(quoted).collect();
        let message = format!("no column holds {what}; there are {}", there.join(", "));
        line.error(message).suggest(REQUIRED)
    };
    let (clock, date, unix) = (
        find(Holds::Time),
        find(Holds::Date),
        find(Holds::UnixSeconds),
    );
    let head = Head {
        date: date.clone().filter(|_| clock.is_some() && unix.is_none()),
        time: [&unix, &clock, &date]
            .into_iter()
            .find_map(Clone::clone)
            .ok_or_else(|| missing("the time"))?,
        station: find(Holds::Station),
        temperature: find(Holds::Temperature).ok_or_else(|| missing("the temperature"))?,
        dew_point: find(Holds::DewPoint),
        humidity: find(Holds::Humidity),
        wind: find(Holds::Wind),
    };
    if head.dew_point.is_none() && head.humidity.is_none() {
        return Err(missing("the dew point or the relative humidity"));
    }
    if head.wind.is_none() && !wind_given {
        return Err(missing("the wind").key("wind").suggest(
            "add a column such as wind_m_s, or give the wind of the whole night: wind: m_s(1) in the night's table(...)",
        ));
    }
    for (column, example) in [
        (Some(&head.temperature), "temp_c, temp_f or temp_k"),
        (
            head.dew_point.as_ref(),
            "dewpoint_c, dewpoint_f or dewpoint_k",
        ),
        (
            head.wind.as_ref(),
            "wind_m_s, wind_kt, wind_mph or wind_km_h",
        ),
    ] {
        if let Some(column) = column.filter(|column| column.unit.is_none()) {
            let error = line.error(format!(
                "the column {} does not name its unit",
                quoted(column)
            ));
            let start = line.start + line.text.find(&column.name).unwrap_or(0);
            let help = format!("put the unit into the name, as in {example}");
            return Err(error.at(start..start + column.name.len()).suggest(help));
        }
    }
    note_unused(&head, &columns, [clock, date, unix], notes);
    Ok(head)
}

/// Notes on columns beside those that are used: which of two is the outdoor air, the file does not say.
fn note_unused(head: &Head, columns: &[Column], times: [Option<Column>; 3], notes: &mut Vec<Note>) {
    let measured = [&head.station, &head.dew_point, &head.humidity, &head.wind];
    let measured = || measured.into_iter().flatten().chain([&head.temperature]);
    for used in times.iter().flatten().chain(measured()) {
        let others = columns
            .iter()
            .filter(|other| other.holds == used.holds && other.at != used.at);
        notes.extend(others.map(|other| {
            let numbered = |column: &Column| (column.at + 1, column.name.clone());
            let (used, unused) = (numbered(used), numbered(other));
            Note::from(Detail::TwoColumns { used, unused })
        }));
    }
    let used: Vec<usize> = measured()
        .chain([&head.time])
        .chain(&head.date)
        .map(|c| c.at)
        .collect();
    let unused = columns
        .iter()
        .filter(|c| !used.contains(&c.at) && !c.name.is_empty());
    let unused: Vec<String> = unused.map(quoted).collect();
    if !unused.is_empty() {
        notes.push(Detail::NotUsed(unused.join(", ")).into());
    }
    if let (Some(_), Some(humidity)) = (&head.dew_point, &head.humidity) {
        notes.push(Detail::UsedIfMissing(humidity.name.clone()).into());
    }
}

fn quoted(column: &Column) -> String {
    format!("`{}`", column.name)
}
