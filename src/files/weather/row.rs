//! One row of a table, as a reading.

use super::columns::Unit;
use super::layout::{Layout, Place};
use super::number::{Cell, cell};
use super::stamp::{Order, Stamp, stamp};
use crate::physics::vapour;
use crate::quantity::Speed;
use crate::scenario::weather::{AIR_C, DEW_POINT_ABOVE_K, DEW_POINT_C, Observation, WIND_M_S};
use jiff::civil::DateTime;
use jiff::tz::{AmbiguousOffset, TimeZone};

/// Humidities that are believed, in parts of one: sensors near saturation tell a little too much.
const MOST_HUMIDITY: f64 = 1.05;
/// The least humidity that is believed: a dew point cannot be had from none.
const LEAST_HUMIDITY: f64 = 0.005;

/// How rows are read.
pub struct Rows<'a> {
    pub layout: &'a Layout,
    pub decimal_comma: bool,
    pub order: Order,
    /// The zone of times that tell none.
    pub zone: Option<&'a TimeZone>,
    /// Humidity is told in parts of one, not in per cent.
    pub share: bool,
    /// The wind where there is no such column.
    pub wind: Option<Speed>,
}

/// Why a row gives no reading.
#[derive(Debug, Clone, PartialEq)]
pub enum Unfit {
    /// Something is not there.
    Missing(String),
    /// Something cannot be read.
    Garbage(String),
    /// Something cannot be true.
    Impossible(String),
    /// The time names no zone, and none was given.
    NoZone(String),
}

impl Unfit {
    /// Why, in words.
    pub fn words(&self) -> &str {
        match self {
            Self::Missing(what)
            | Self::Garbage(what)
            | Self::Impossible(what)
            | Self::NoZone(what) => what,
        }
    }
}

/// A row that was read.
pub struct Fit {
    pub reading: Observation,
    /// What was mended in it.
    pub repairs: Vec<String>,
    /// Its time occurs twice that night: this is the earlier, and so much the later comes after it, in seconds.
    pub again_s: Option<f64>,
}

impl Rows<'_> {
    /// Reads the cells of a row.
    pub fn read(&self, cells: &[&str]) -> Result<Fit, Unfit> {
        let layout = self.layout;
        let (unix_s, again_s) = self.time(cells)?;
        let temp = &layout.temperature;
        let temp_c = self.measured(cells, temp)?.ok_or_else(|| missing(temp))?;
        believe(temp, temp_c, &AIR_C, "°C", cells)?;
        let mut repairs = Vec::new();
        let told = match &layout.dew_point {
            Some(place) => self.measured(cells, place)?,
            None => None,
        };
        let dew_point_c = match (told, &layout.humidity, &layout.dew_point) {
            (Some(dew_point_c), _, _) => dew_point_c,
            (None, Some(place), dew_point) => {
                let share = self.humidity(cells, place)?;
                let water_pa = vapour::saturation_pressure_over_water_pa(temp_c);
                let dew_point_c = vapour::dew_point_over_water_c(share.min(1.0) * water_pa);
                if share > 1.0 {
                    repairs.push(format!(
                        "the humidity `{}` in `{}` is above saturation, and is taken as just saturated",
                        text(cells, place),
                        place.name
                    ));
                }
                if dew_point.is_some() {
                    repairs.push(format!(
                        "the missing dew point is worked out from `{}`: {dew_point_c:.1} °C",
                        place.name
                    ));
                }
                dew_point_c
            }
            (None, None, Some(place)) => return Err(missing(place)),
            (None, None, None) => return Err(Unfit::Missing("no dew point".to_owned())),
        };
        if let Some(place) = &layout.dew_point {
            believe(place, dew_point_c, &DEW_POINT_C, "°C", cells)?;
        }
        if dew_point_c > temp_c + DEW_POINT_ABOVE_K {
            let what = format!(
                "the dew point {dew_point_c:.1} °C is above the temperature {temp_c:.1} °C, which cannot be true"
            );
            return Err(Unfit::Impossible(what));
        }
        let wind_m_s = match (&layout.wind, self.wind) {
            (Some(place), _) => {
                let wind = self.measured(cells, place)?.ok_or_else(|| missing(place))?;
                believe(place, wind, &WIND_M_S, "m/s", cells)?;
                wind
            }
            (None, wind) => wind.map_or(0.0, Speed::si),
        };
        let reading = Observation {
            unix_s,
            temp_c,
            dew_point_c,
            wind_m_s,
        };
        Ok(Fit {
            reading,
            repairs,
            again_s,
        })
    }

    /// The number in a column, in °C or m/s.
    fn measured(&self, cells: &[&str], place: &Place) -> Result<Option<f64>, Unfit> {
        match cell(text(cells, place), self.decimal_comma) {
            Cell::Missing => Ok(None),
            Cell::Number(number) => Ok(Some(place.unit.map_or(number, |unit| unit.si(number)))),
            Cell::Garbage => Err(Unfit::Garbage(format!(
                "`{}` in `{}` is no number",
                text(cells, place),
                place.name
            ))),
        }
    }

    fn humidity(&self, cells: &[&str], place: &Place) -> Result<f64, Unfit> {
        let number = self.measured(cells, place)?.ok_or_else(|| missing(place))?;
        let percent = place.unit == Some(Unit::Percent) || !self.share;
        let share = if percent { number / 100.0 } else { number };
        if (LEAST_HUMIDITY..=MOST_HUMIDITY).contains(&share) {
            Ok(share)
        } else {
            Err(Unfit::Impossible(format!(
                "{number} in `{}` cannot be true",
                place.name
            )))
        }
    }

    fn time(&self, cells: &[&str]) -> Result<(f64, Option<f64>), Unfit> {
        let layout = self.layout;
        let told = text(cells, &layout.time);
        if layout.unix {
            return match cell(told, false) {
                Cell::Number(unix_s) if unix_s.abs() < 1e11 => Ok((unix_s.round(), None)),
                _ => Err(Unfit::Garbage(format!(
                    "`{told}` is no count of seconds since 1970"
                ))),
            };
        }
        let whole = match &layout.date {
            Some(date) => format!("{} {told}", text(cells, date)),
            None => told.to_owned(),
        };
        if whole.trim().is_empty() {
            return Err(Unfit::Missing("no time".to_owned()));
        }
        let read = stamp(&whole, self.order);
        // Beside a date, the time column may hold the whole of it.
        let read = read.or_else(|e| stamp(told, self.order).map_err(|_| e));
        match read.map_err(Unfit::Garbage)? {
            Stamp::Instant(unix_s) => Ok((unix_s, None)),
            Stamp::Clock(clock) => match self.zone {
                Some(zone) => by(zone, clock),
                None => Err(Unfit::NoZone(whole)),
            },
        }
    }
}

/// A moment by the clock of a zone, and how much later its clock told that time again, if it did.
fn by(zone: &TimeZone, clock: DateTime) -> Result<(f64, Option<f64>), Unfit> {
    let never = || Unfit::Impossible(format!("the clocks were put forward: {clock} never was"));
    let at = zone.to_ambiguous_timestamp(clock);
    let again_s = match at.offset() {
        AmbiguousOffset::Gap { .. } => return Err(never()),
        AmbiguousOffset::Fold { before, after } => {
            Some(f64::from(before.seconds() - after.seconds()))
        }
        AmbiguousOffset::Unambiguous { .. } => None,
    };
    let earlier = at.earlier().map_err(|_| never())?;
    Ok((earlier.as_second() as f64, again_s))
}

fn text<'a>(cells: &[&'a str], place: &Place) -> &'a str {
    cells.get(place.at).copied().unwrap_or("").trim()
}

fn missing(place: &Place) -> Unfit {
    Unfit::Missing(format!("`{}` is missing", place.name))
}

fn believe(
    place: &Place,
    number: f64,
    range: &std::ops::RangeInclusive<f64>,
    unit: &str,
    cells: &[&str],
) -> Result<(), Unfit> {
    if range.contains(&number) {
        return Ok(());
    }
    let told = text(cells, place);
    let what = format!(
        "{told} in `{}` is {number:.0} {unit}, which cannot be true",
        place.name
    );
    Err(Unfit::Impossible(what))
}
