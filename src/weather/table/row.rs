//! One row of a table, as a reading.

use super::cell::{Cell, parse_cell};
use super::clock_change::{Moment, moment};
use super::column::{Column, Unit};
use super::head::Head;
use super::time::{self, Order, Written};
use crate::physics::vapour;
use crate::quantity::Speed;
use crate::scenario::weather::{AIR_C, DEW_POINT_C, Observation, WIND_M_S};
use crate::weather::note::Detail;
use crate::weather::series::impossible;
use csv::StringRecord;
use jiff::tz::TimeZone;
use std::ops::RangeInclusive;

/// Plausible humidities, in parts of one: sensors near saturation show a little too much, and a dew point cannot be
/// had from none.
const HUMIDITY: RangeInclusive<f64> = 0.005..=1.05;

/// How rows are read.
pub struct RowReader<'a> {
    pub head: &'a Head,
    pub decimal_comma: bool,
    pub order: Order,
    /// The zone of times without an offset.
    pub zone: Option<&'a TimeZone>,
    /// Humidity is in parts of one, not in per cent.
    pub fraction: bool,
    /// The wind where there is no such column.
    pub wind: Option<Speed>,
}

/// Why a row gives no reading.
#[derive(Debug, Clone, PartialEq)]
pub enum RowError {
    /// Something is missing, cannot be read or cannot be true.
    Unfit(Detail),
    /// The time has no offset, and no zone was given.
    NoZone(String),
}

impl From<Detail> for RowError {
    fn from(detail: Detail) -> Self {
        Self::Unfit(detail)
    }
}

/// A row that was read.
pub struct Row {
    pub moment: Moment,
    pub reading: Observation,
    /// What was corrected in it.
    pub corrections: Vec<Detail>,
}

impl RowReader<'_> {
    /// Reads a row.
    pub fn read(&self, row: &StringRecord) -> Result<Row, RowError> {
        let head = self.head;
        let moment = self.time(row)?;
        let temp_c = self.required(row, &head.temperature, &AIR_C, "°C")?;
        let mut corrections = Vec::new();
        let dew_point = match &head.dew_point {
            Some(column) => self.optional(row, column, &DEW_POINT_C, "°C")?,
            None => None,
        };
        let dew_point_c = match (dew_point, &head.humidity, &head.dew_point) {
            (Some(dew_point_c), ..) => dew_point_c,
            (None, Some(humidity), beside) => {
                let humid = self.humidity(row, humidity)?;
                let water_pa = vapour::saturation_pressure_over_water_pa(temp_c);
                let dew_point_c = vapour::dew_point_over_water_c(humid.min(1.0) * water_pa);
                let name = humidity.name.clone();
                if humid > 1.0 {
                    let cell = humidity.cell(row).to_owned();
                    corrections.push(Detail::AboveSaturation(cell, name.clone()));
                }
                if beside.is_some() {
                    corrections.push(Detail::DewPointFrom(name, dew_point_c));
                }
                dew_point_c
            }
            (None, None, Some(column)) => return Err(missing(column).into()),
            (None, None, None) => return Err(Detail::NoDewPoint.into()),
        };
        let wind_m_s = match &head.wind {
            Some(column) => self.required(row, column, &WIND_M_S, "m/s")?,
            None => self.wind.map_or(0.0, Speed::si),
        };
        let reading = Observation {
            unix_s: moment.unix_s,
            temp_c,
            dew_point_c,
            wind_m_s,
        };
        match impossible(&reading) {
            Some(detail) => Err(detail.into()),
            None => Ok(Row {
                moment,
                reading,
                corrections,
            }),
        }
    }

    /// The number in a column, in °C or m/s, none if it is missing.
    fn number(&self, row: &StringRecord, column: &Column) -> Result<Option<f64>, Detail> {
        match parse_cell(column.cell(row), self.decimal_comma) {
            Cell::Missing => Ok(None),
            Cell::Number(number) => Ok(Some(column.unit.map_or(number, |unit| unit.si(number)))),
            Cell::Garbage => Err(Detail::Unreadable(format!(
                "`{}` in `{}` is no number",
                column.cell(row),
                column.name
            ))),
        }
    }

    /// The same, within a plausible range.
    fn optional(
        &self,
        row: &StringRecord,
        column: &Column,
        range: &RangeInclusive<f64>,
        unit: &str,
    ) -> Result<Option<f64>, Detail> {
        match self.number(row, column)? {
            Some(number) if !range.contains(&number) => {
                let what = format!("is {number:.0} {unit}, which cannot be true");
                Err(implausible(row, column, &what))
            }
            number => Ok(number),
        }
    }

    fn required(
        &self,
        row: &StringRecord,
        column: &Column,
        range: &RangeInclusive<f64>,
        unit: &str,
    ) -> Result<f64, Detail> {
        let number = self.optional(row, column, range, unit)?;
        number.ok_or_else(|| missing(column))
    }

    /// The humidity in parts of one.
    fn humidity(&self, row: &StringRecord, column: &Column) -> Result<f64, Detail> {
        let number = self.number(row, column)?.ok_or_else(|| missing(column))?;
        let percent = column.unit == Some(Unit::Percent) || !self.fraction;
        let humid = if percent { number / 100.0 } else { number };
        if HUMIDITY.contains(&humid) {
            Ok(humid)
        } else {
            Err(implausible(row, column, "cannot be true"))
        }
    }

    fn time(&self, row: &StringRecord) -> Result<Moment, RowError> {
        let head = self.head;
        let cell = head.time.cell(row);
        let once = |unix_s| Moment {
            unix_s,
            again_s: None,
        };
        if head.unix() {
            return match parse_cell(cell, false) {
                Cell::Number(unix_s) if unix_s.abs() < 1e11 => Ok(once(unix_s.round())),
                _ => {
                    let what = format!("`{cell}` is no count of seconds since 1970");
                    Err(Detail::Unreadable(what).into())
                }
            };
        }
        let whole = match &head.date {
            Some(date) => format!("{} {cell}", date.cell(row)),
            None => cell.to_owned(),
        };
        if whole.trim().is_empty() {
            return Err(Detail::NoTime.into());
        }
        // Beside a date, the time column may hold the whole of it.
        let written = time::parse(&whole, self.order)
            .or_else(|what| time::parse(cell, self.order).map_err(|_| what));
        match (written, self.zone) {
            (Ok(Written::Instant(unix_s)), _) => Ok(once(unix_s)),
            (Ok(Written::Clock(clock)), Some(zone)) => Ok(moment(zone, clock)?),
            (Ok(Written::Clock(_)), None) => Err(RowError::NoZone(whole)),
            (Err(what), _) => {
                let what = format!("`{}` is {what}", whole.trim());
                Err(Detail::Unreadable(what).into())
            }
        }
    }
}

fn missing(column: &Column) -> Detail {
    Detail::Missing(column.name.clone())
}

fn implausible(row: &StringRecord, column: &Column, what: &str) -> Detail {
    Detail::Impossible(format!("{} in `{}` {what}", column.cell(row), column.name))
}
