//! Which column of a table holds what.

use super::super::fault::Fault;
use super::columns::{Column, Holds, Unit};
use super::note::{Note, NoteKind};
use super::options::{WeatherError, WeatherOptions};

/// What every table needs, for those who have to mend one.
const NEEDED: &str = "a table needs a time, a temperature, a dew point or relative humidity, and a wind, each with its unit in \
the column's name: time_utc, temp_c, dewpoint_c, wind_m_s, or the like (F, K; humidity in %; kt, mph, km/h)";

/// A column that is read: where it is, its name and its unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    pub at: usize,
    pub name: String,
    pub unit: Option<Unit>,
}

/// The places of the columns.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    pub time: Place,
    /// The time column says UTC.
    pub utc: bool,
    /// The time column says that it is by a local clock.
    pub local: bool,
    /// The time column counts seconds since 1970.
    pub unix: bool,
    pub date: Option<Place>,
    pub station: Option<Place>,
    pub temperature: Place,
    pub dew_point: Option<Place>,
    pub humidity: Option<Place>,
    pub wind: Option<Place>,
}

/// Whether these names are the head of a table with weather in it.
pub fn is_head(names: &[&str]) -> bool {
    let holds: Vec<Holds> = names.iter().map(|name| Column::named(name).holds).collect();
    let time = [Holds::Time, Holds::Date, Holds::UnixSeconds];
    holds.iter().any(|h| time.contains(h))
        && holds
            .iter()
            .any(|h| matches!(h, Holds::Temperature | Holds::DewPoint))
}

/// The layout told by the names in the head, and notes on columns that are not used.
///
/// *Errors*: a column that is missing, or a unit.
pub fn layout(
    names: &[&str],
    head: &Head,
    wanted: &WeatherOptions,
) -> Result<(Layout, Vec<Note>), WeatherError> {
    let columns: Vec<Column> = names.iter().map(|name| Column::named(name)).collect();
    let place = |at: usize| {
        columns.get(at).map(|column| Place {
            at,
            name: column.name.clone(),
            unit: column.unit,
        })
    };
    let find = |holds: Holds| {
        let of = |c: &Column| c.holds == holds;
        let with_unit = columns
            .iter()
            .position(|c| of(c) && (c.unit.is_some() || c.utc));
        with_unit.or(columns.iter().position(of))
    };
    let missing = |what: &str| {
        let there = names.iter().map(|name| format!("`{}`", name.trim()));
        let there: Vec<String> = there.collect();
        let what = format!("no column holds {what}; there are {}", there.join(", "));
        WeatherError::from(head.fault(what, None).help(NEEDED))
    };
    let clock = find(Holds::Time);
    let date = find(Holds::Date);
    let unix = find(Holds::UnixSeconds);
    let time_at = unix.or(clock).or(date);
    let time_at = time_at.ok_or_else(|| missing("the time"))?;
    let date = date.filter(|_| clock.is_some() && unix.is_none());
    let temperature = find(Holds::Temperature).ok_or_else(|| missing("the temperature"))?;
    let dew_point = find(Holds::DewPoint);
    let humidity = find(Holds::Humidity);
    if dew_point.or(humidity).is_none() {
        return Err(missing("the dew point or the relative humidity"));
    }
    let wind = find(Holds::Wind);
    if wind.is_none() && wanted.wind.is_none() {
        let mut refused = missing("the wind");
        refused.fault.help = Some(
            "add a column such as wind_m_s, or say the wind for the whole night: wind: m_s(1) in the night's table(...)"
                .to_owned(),
        );
        refused.key = Some("wind");
        return Err(refused);
    }
    for (at, example) in [
        (Some(temperature), "temp_c, temp_f or temp_k"),
        (dew_point, "dewpoint_c, dewpoint_f or dewpoint_k"),
        (wind, "wind_m_s, wind_kt, wind_mph or wind_km_h"),
    ] {
        if let Some(column) = at
            .and_then(|at| columns.get(at))
            .filter(|c| c.unit.is_none())
        {
            let what = format!("the column `{}` does not name its unit", column.name);
            let help = format!("put the unit into the name, as in {example}");
            return Err(head.fault(what, Some(&column.name)).help(help).into());
        }
    }
    let used = [
        Some(time_at),
        date,
        find(Holds::Station),
        Some(temperature),
        dew_point,
        humidity,
        wind,
    ];
    let mut notes = Vec::new();
    // Which of two is the outdoor air, the file does not say.
    for (at, holds) in [
        (clock, Holds::Time),
        (date, Holds::Date),
        (unix, Holds::UnixSeconds),
        (Some(temperature), Holds::Temperature),
        (dew_point, Holds::DewPoint),
        (humidity, Holds::Humidity),
        (wind, Holds::Wind),
        (find(Holds::Station), Holds::Station),
    ] {
        let Some((at, taken)) = at.and_then(|at| Some((at, columns.get(at)?))) else {
            continue;
        };
        let others = columns.iter().enumerate();
        for (place, other) in others.filter(|(place, c)| c.holds == holds && *place != at) {
            let what = if other.name == taken.name {
                let (at, place) = (at + 1, place + 1);
                format!(
                    "two columns are called `{}`: column {at} is taken, and column {place} is not",
                    taken.name
                )
            } else {
                format!("`{}` is taken, and `{}` is not", taken.name, other.name)
            };
            notes.push(Note::of(NoteKind::Assumed, what));
        }
    }
    let unused = columns.iter().enumerate();
    let unused: Vec<String> = unused
        .filter(|(at, column)| !used.contains(&Some(*at)) && !column.name.is_empty())
        .map(|(_, column)| format!("`{}`", column.name))
        .collect();
    if !unused.is_empty() {
        let what = format!("the night does not use {}", unused.join(", "));
        notes.push(Note::of(NoteKind::Unused, what));
    }
    if let (Some(_), Some(Some(humidity))) = (dew_point, humidity.map(|at| columns.get(at))) {
        let what = format!(
            "`{}` is used only where the dew point is missing",
            humidity.name
        );
        notes.push(Note::of(NoteKind::Unused, what));
    }
    let time = place(time_at).ok_or_else(|| missing("the time"))?;
    let layout = Layout {
        utc: columns.get(time_at).is_some_and(|c| c.utc)
            || date.and_then(|at| columns.get(at)).is_some_and(|c| c.utc),
        local: columns.get(time_at).is_some_and(|c| c.local && !c.utc),
        unix: unix.is_some(),
        time,
        date: date.and_then(place),
        station: find(Holds::Station).and_then(place),
        temperature: place(temperature).ok_or_else(|| missing("the temperature"))?,
        dew_point: dew_point.and_then(place),
        humidity: humidity.and_then(place),
        wind: wind.and_then(place),
    };
    Ok((layout, notes))
}

/// The line of a table that names its columns, for faults.
#[derive(Debug, Clone, Copy)]
pub struct Head<'a> {
    pub file: &'a str,
    pub text: &'a str,
    /// Where the line begins in the text.
    pub start: usize,
    pub line: &'a str,
}

impl Head<'_> {
    fn fault(&self, what: String, word: Option<&str>) -> Fault {
        let within = word.and_then(|word| Some((self.line.find(word)?, word.len())));
        let (at, length) = within.unwrap_or((0, self.line.trim_end().len()));
        let start = self.start + at;
        Fault::of(self.file, what).at(self.text, start..start + length)
    }
}
