//! Reports put in order of time, one a moment.

use super::calendar::Calendar;
use super::fault::{Fault, MetarError};
use super::quality::{Note, Oddity};
use super::report::Report;
use jiff::civil::Date;
use std::collections::{BTreeMap, BTreeSet};

/// A report, the line it begins on, and the date that stands before it.
pub struct Placed {
    pub line: usize,
    pub date: Option<Date>,
    pub report: Report,
}

impl Placed {
    /// Something odd about it.
    pub fn note(&self, oddity: Oddity) -> Note {
        Note {
            line: self.line,
            report: self.report.heading(),
            unix_s: None,
            oddity,
        }
    }
}

/// One report for each moment (whole seconds since 1970), with notes on those it takes the place of.
pub fn in_order(
    reports: Vec<Placed>,
    calendar: Option<Calendar>,
    notes: &mut Vec<Note>,
) -> Result<BTreeMap<i64, Placed>, MetarError> {
    let mut by_time: BTreeMap<i64, Placed> = BTreeMap::new();
    let mut told = BTreeSet::new();
    for placed in reports {
        let unix_s = match (placed.date, calendar) {
            (Some(date), _) => match dated_s(date, &placed.report) {
                Some(unix_s) => unix_s,
                None => {
                    let (date, group) = (date.to_string(), placed.report.time_group());
                    notes.push(placed.note(Oddity::Unreadable(Fault::OtherDay { date, group })));
                    continue;
                }
            },
            (None, Some(calendar)) => {
                let day = placed.report.day;
                let (year, month, before) = calendar.month_of(day);
                if before && told.insert(day) {
                    notes.push(placed.note(Oddity::MonthBefore { day, year, month }));
                }
                by_calendar(calendar, &placed)?
            }
            (None, None) => {
                return Err(MetarError::NoMonth {
                    line: placed.line,
                    group: placed.report.time_group(),
                });
            }
        };
        let kept = match by_time.remove(&(unix_s as i64)) {
            Some(earlier) => better(earlier, placed, unix_s, notes),
            None => placed,
        };
        by_time.insert(unix_s as i64, kept);
    }
    Ok(by_time)
}

fn by_calendar(calendar: Calendar, placed: &Placed) -> Result<f64, MetarError> {
    let Report {
        day, hour, minute, ..
    } = placed.report;
    let (year, month, _) = calendar.month_of(day);
    calendar
        .unix_s(day, hour, minute)
        .ok_or_else(|| MetarError::Day {
            line: placed.line,
            group: placed.report.time_group(),
            day,
            year,
            month,
        })
}

/// Seconds since 1970 of a report with a date before it: its own day is that date, or the day before or after (a report
/// may be received on another day than it was made). Nothing if it is neither.
fn dated_s(date: Date, report: &Report) -> Option<f64> {
    let near = [Ok(date), date.yesterday(), date.tomorrow()];
    let day = i8::try_from(report.day).ok()?;
    let date = near.into_iter().flatten().find(|date| date.day() == day)?;
    let month = u8::try_from(date.month()).ok()?;
    Calendar::new(date.year().into(), month, [report.day])?.unix_s(
        report.day,
        report.hour,
        report.minute,
    )
}

/// The one of two reports of the same moment that is taken; the note on the other goes to `notes`.
fn better(earlier: Placed, later: Placed, unix_s: f64, notes: &mut Vec<Note>) -> Placed {
    let rank = |placed: &Placed| (!placed.report.nil, placed.report.corrected);
    let (kept, left) = if rank(&later) >= rank(&earlier) {
        (later, earlier)
    } else {
        (earlier, later)
    };
    let oddity = if kept.report == left.report {
        Oddity::Repeated { kept: kept.line }
    } else {
        Oddity::Replaced {
            kept: kept.line,
            corrected: kept.report.corrected && !left.report.corrected,
        }
    };
    let unix_s = Some(unix_s);
    notes.push(Note {
        unix_s,
        ..left.note(oddity)
    });
    kept
}
