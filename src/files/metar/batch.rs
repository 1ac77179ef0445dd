//! Many reports in any order, to the weather record of one station.

use super::bulletin::{self, Piece};
use super::calendar::Calendar;
use super::fault::MetarError;
use super::order::{Placed, in_order};
use super::quality::{Note, Oddity, odd_courses};
use super::report::{Report, from_groups};
use crate::scenario::weather::{AIR_C, DEW_POINT_ABOVE_K, DEW_POINT_C, Observation, Record};
use jiff::Timestamp;
use std::collections::BTreeSet;

/// The reports of one station, read.
#[derive(Debug, Clone, PartialEq)]
pub struct Batch {
    /// The station.
    pub station: String,
    /// Its readings.
    pub record: Record,
    /// What was odd, in the order of the lines.
    pub notes: Vec<Note>,
    /// Whether the given month was needed: not if a full date stands before every report.
    pub by_month: bool,
    /// Whether some reports were taken to be of the month before the given one.
    pub month_before: bool,
}

/// Reads reports into the record of one station, as [`read_dated`], their month given.
///
/// *Errors*: as [`read_dated`].
pub fn read_batch(
    text: &str,
    station: Option<&str>,
    year: i32,
    month: u8,
) -> Result<(Record, Vec<Note>), MetarError> {
    read_dated(text, station, Some((year, month))).map(|batch| (batch.record, batch.notes))
}

/// Reads reports into the record of one station, and tells what was odd about them.
///
/// The reports come one a line, wrapped over several lines, or several on a line with `=` between them, in any
/// order; blank lines and lines that begin with `#` are passed over. If they are of several stations, `station`
/// chooses one. A report tells only its day; a full date before it tells the rest, and without one `month`, the year
/// and month of the last report, does: if the days leave out more than ten days in a row, those after the pause belong
/// to the month before, and a note says so.
///
/// Of several reports of one minute a correction is taken before others, else the one that comes later in the text.
/// A report that cannot be read, or lacks temperature, dew point or wind, is left out with a note; nothing is put in
/// its place. Gaps of more than 90 minutes are told, and temperatures more than 8 K off both neighbours, which are
/// kept. Dew points stay over liquid water, as reported. The notes are in the order of the lines.
///
/// *Errors*: no report, none that can be read, none of the station, several stations and no choice, no such month
/// or day, no month where one is needed, or not one report with all three readings.
pub fn read_dated(
    text: &str,
    station: Option<&str>,
    month: Option<(i32, u8)>,
) -> Result<Batch, MetarError> {
    let text = text.to_ascii_uppercase();
    let (reports, mut notes) = read_all(&text)?;
    let reports = of_station(reports, station)?;
    let undated = || reports.iter().filter(|placed| placed.date.is_none());
    let by_month = undated().next().is_some();
    let calendar = match month {
        Some((year, month)) => {
            let days = undated().map(|placed| placed.report.day);
            Some(Calendar::new(year, month, days).ok_or(MetarError::Month { year, month })?)
        }
        None => None,
    };
    let (first, count) = (reports.first().map(describe), reports.len());
    let by_time = in_order(reports, calendar, &mut notes)?;

    let mut readings = Vec::new();
    let mut origins = Vec::new();
    for (unix_s, placed) in &by_time {
        let told = |oddity: Oddity| Note {
            unix_s: Some(*unix_s as f64),
            ..placed.note(oddity)
        };
        let own = placed.report.notes.iter().cloned();
        match observation(*unix_s as f64, &placed.report) {
            Some(reading) if believed(&reading) => {
                notes.extend(own.map(told));
                readings.push(reading);
                origins.push(placed);
            }
            // What would be odd in a report that is kept is not told of one that is left out.
            Some(Observation {
                temp_c,
                dew_point_c,
                ..
            }) => {
                notes.extend(own.filter(Oddity::leaves_out).map(told));
                notes.push(told(Oddity::CannotBe {
                    temp_c,
                    dew_point_c,
                }));
            }
            None => notes.extend(own.map(told)),
        }
    }
    let Some(start) = origins.first() else {
        let (station, first) = first.unwrap_or_default();
        return Err(MetarError::NoReading {
            station,
            reports: count,
            first,
        });
    };
    let course: Vec<_> = readings.iter().map(|r| (r.unix_s, r.temp_c)).collect();
    for (at, oddity) in odd_courses(&course) {
        if let (Some(placed), Some((unix_s, _))) = (origins.get(at), course.get(at)) {
            let unix_s = Some(*unix_s);
            notes.push(Note {
                unix_s,
                ..placed.note(oddity)
            });
        }
    }
    let name = title(start, course.first(), course.last());
    let station = start.report.station.clone();
    notes.sort_by_key(|note| note.line);
    let before = |note: &Note| matches!(note.oddity, Oddity::MonthBefore { .. });
    Ok(Batch {
        station,
        month_before: notes.iter().any(before),
        record: Record { name, readings },
        notes,
        by_month,
    })
}

/// All reports that can be read, and a note for each that cannot.
fn read_all(text: &str) -> Result<(Vec<Placed>, Vec<Note>), MetarError> {
    let (mut placed, mut notes, mut first_fault) = (Vec::new(), Vec::new(), None);
    for Piece { date, groups } in bulletin::reports(text) {
        let line = groups.first().map_or(1, |group| group.line);
        match from_groups(&groups) {
            Ok(report) => placed.push(Placed { line, date, report }),
            Err(error) => {
                notes.push(Note {
                    line: error.line,
                    report: String::new(),
                    unix_s: None,
                    oddity: Oddity::Unreadable(error.fault.clone()),
                });
                first_fault.get_or_insert(error);
            }
        }
    }
    match first_fault {
        Some(first) if placed.is_empty() => Err(MetarError::Unreadable {
            reports: notes.len(),
            first,
        }),
        None if placed.is_empty() => Err(MetarError::Empty),
        _ => Ok((placed, notes)),
    }
}

/// The reports of the chosen station, or of the only one.
fn of_station(reports: Vec<Placed>, station: Option<&str>) -> Result<Vec<Placed>, MetarError> {
    let stations: BTreeSet<&str> = reports.iter().map(|p| p.report.station.as_str()).collect();
    let found = || stations.iter().map(|&name| name.to_owned()).collect();
    let Some(wanted) = station.map(|name| name.trim().to_ascii_uppercase()) else {
        if stations.len() > 1 {
            return Err(MetarError::Choose { found: found() });
        }
        return Ok(reports);
    };
    if !stations.contains(wanted.as_str()) {
        let found = found();
        return Err(MetarError::Absent { wanted, found });
    }
    let mut reports = reports;
    reports.retain(|placed| placed.report.station == wanted);
    Ok(reports)
}

fn observation(unix_s: f64, report: &Report) -> Option<Observation> {
    Some(Observation {
        unix_s,
        temp_c: report.temp_c?,
        dew_point_c: report.dew_point_c?,
        wind_m_s: report.wind_m_s?,
    })
}

/// Whether the numbers can be true.
fn believed(reading: &Observation) -> bool {
    AIR_C.contains(&reading.temp_c)
        && DEW_POINT_C.contains(&reading.dew_point_c)
        && reading.dew_point_c <= reading.temp_c + DEW_POINT_ABOVE_K
}

/// The station, and the report with what is odd about it.
fn describe(placed: &Placed) -> (String, String) {
    let mut first = format!("line {}, {}", placed.line, placed.report.heading());
    for oddity in &placed.report.notes {
        first.push_str(&format!(", {oddity}"));
    }
    (placed.report.station.clone(), first)
}

/// The station, the code, and the times of the first and last reading.
fn title(start: &Placed, first: Option<&(f64, f64)>, last: Option<&(f64, f64)>) -> String {
    let told = |reading: Option<&(f64, f64)>| {
        let at = reading.and_then(|(unix_s, _)| Timestamp::from_second(*unix_s as i64).ok());
        at.map_or_else(String::new, |at| at.strftime("%Y-%m-%d %H:%M").to_string())
    };
    let station = &start.report.station;
    format!(
        "{station}, METAR reports, {} to {} UTC",
        told(first),
        told(last)
    )
}

#[cfg(test)]
mod tests {
    use super::super::fault::Fault;
    use super::*;

    fn january(text: &str) -> (Record, Vec<Note>) {
        read_batch(text, None, 2018, 1).unwrap()
    }
    fn temps(record: &Record) -> Vec<f64> {
        record.readings.iter().map(|r| r.temp_c).collect()
    }
    fn told(notes: &[Note]) -> Vec<String> {
        notes.iter().map(Note::to_string).collect()
    }

    #[test]
    fn reports_in_any_order_come_out_in_order_of_time() {
        let (record, notes) = january(
            "KMMH 111555Z 00000KT M07/M09 A3031\nKMMH 111455Z 00000KT\n M05/M07 A3031\n# noon\n\nKMMH 111525Z 18004KT M06/M08 A3031=",
        );
        assert_eq!(temps(&record), [-5.0, -6.0, -7.0]);
        assert_eq!(
            record.name,
            "KMMH, METAR reports, 2018-01-11 14:55 to 2018-01-11 15:55 UTC"
        );
        assert_eq!(
            record.readings[1].unix_s - record.readings[0].unix_s,
            1800.0
        );
        assert_eq!(record.readings[0].dew_point_c, -7.0);
        assert_eq!(notes, []);
    }

    #[test]
    fn a_correction_wins_then_the_later() {
        let report =
            |mark: &str, temp: &str| format!("KMMH 111455Z {mark} 00000KT {temp}/M09 A3031\n");
        let of = |parts: &[String]| {
            let (record, notes) = january(&parts.concat());
            (temps(&record), told(&notes))
        };
        let (first, cor, second) = (report("", "M05"), report("COR", "M06"), report("", "M07"));
        let (kept, notes) = of(&[cor.clone(), first.clone()]);
        assert_eq!(kept, [-6.0]);
        assert_eq!(
            notes,
            [
                "line 2: KMMH 111455Z: replaced by the report of the same minute on line 1, which is a correction"
            ]
        );
        assert_eq!(of(&[first.clone(), cor]).0, [-6.0]);
        let (kept, notes) = of(&[first.clone(), second]);
        assert_eq!(kept, [-7.0]);
        assert_eq!(
            notes,
            [
                "line 1: KMMH 111455Z: replaced by the report of the same minute on line 2, which comes later or tells more"
            ]
        );
        let (kept, notes) = of(&[first.clone(), first.clone()]);
        assert_eq!(kept, [-5.0]);
        assert_eq!(
            notes,
            ["line 1: KMMH 111455Z: a repetition of the report on line 2, left out"]
        );
        assert_eq!(of(&[first, "KMMH 111455Z NIL\n".to_owned()]).0, [-5.0]);
    }

    #[test]
    fn a_night_may_cross_into_a_new_month() {
        let text = "KMMH 010055Z 00000KT M07/M09 A3031\nKMMH 312355Z 00000KT M06/M09 A3031";
        let (record, notes) = january(text);
        assert_eq!(temps(&record), [-6.0, -7.0]);
        assert_eq!(
            record.readings[1].unix_s - record.readings[0].unix_s,
            3600.0
        );
        assert_eq!(record.readings[1].unix_s, 1_514_764_800.0 + 55.0 * 60.0);
        assert_eq!(
            told(&notes),
            [
                "line 2: KMMH 312355Z: day 31 is taken to be of 2017-12, the month before the last report's"
            ]
        );
    }

    #[test]
    fn what_is_missing_is_left_out_and_told() {
        let (record, notes) = january(
            "KMMH 111400Z 00000KT M05/M07 A3031\nKMMH 111410Z 00000KT M05/ A3031\nKMMH 111420Z /////KT M05/M07 A3031\n\
             KMMH 111430Z 00000KT A3031\nKMMH 111440Z NIL\nKMMH 1114Z\nTAF KMMH 091720Z 0918/1018",
        );
        assert_eq!(record.readings.len(), 1);
        let oddities: Vec<_> = notes
            .into_iter()
            .map(|note| (note.line, note.oddity))
            .collect();
        let group = Some("/////KT".to_owned());
        assert_eq!(
            oddities[..4],
            [
                (2, Oddity::NoDewPoint),
                (3, Oddity::NoWind { group }),
                (4, Oddity::NoTemperature { group: None }),
                (5, Oddity::Nil),
            ]
        );
        assert!(oddities.contains(&(7, Oddity::Unreadable(Fault::Forecast))));
    }

    #[test]
    fn a_report_that_cannot_be_true_is_told_once() {
        let (record, notes) = january(
            "KMMH 111400Z 00000KT M05/M07 A3031\nKMMH 111500Z 00000KT M99/M07 A3031\nKMMH 111600Z 00000KT M05/10 A3031",
        );
        assert_eq!(record.readings.len(), 1);
        assert_eq!(
            told(&notes),
            [
                "line 2: KMMH 111500Z: -99 °C with a dew point of -7 °C cannot be true",
                "line 3: KMMH 111600Z: -5 °C with a dew point of 10 °C cannot be true",
            ]
        );
        let (_, notes) =
            january("KMMH 111400Z 00000KT M05/M07 A3031\nKMMH 111910Z 00000KT M05/M07 A3031");
        assert_eq!(
            told(&notes),
            [
                "line 2: KMMH 111910Z: 310 minutes after the reading before it; nothing is put into the gap, and a night \
that lies in it is refused"
            ]
        );
    }

    #[test]
    fn gaps_and_spikes_are_told_and_kept() {
        let (record, notes) = january(
            "KMMH 111400Z 00000KT M05/M07 A3031\nKMMH 111500Z 00000KT 08/M07 A3031\nKMMH 111600Z 00000KT M05/M07 A3031\n\
             KMMH 111800Z 00000KT M05/M07 A3031",
        );
        assert_eq!(record.readings.len(), 4);
        assert_eq!(
            told(&notes),
            [
                "line 2: KMMH 111500Z: 8 °C between -5 °C and -5 °C: a spike, kept as it stands",
                "line 4: KMMH 111800Z: 120 minutes after the reading before it; a straight line bridges the gap",
            ]
        );
    }

    #[test]
    fn several_stations_want_a_choice() {
        let text = "KMMH 111400Z 00000KT M05/M07 A3031\nKBIH 111400Z 00000KT M03/M05 A3031";
        let found = vec!["KBIH".to_owned(), "KMMH".to_owned()];
        assert_eq!(
            read_batch(text, None, 2018, 1),
            Err(MetarError::Choose {
                found: found.clone()
            })
        );
        let wanted = "KTRK".to_owned();
        assert_eq!(
            read_batch(text, Some("KTRK"), 2018, 1),
            Err(MetarError::Absent { wanted, found })
        );
        assert_eq!(
            temps(&read_batch(text, Some("kbih"), 2018, 1).unwrap().0),
            [-3.0]
        );
    }

    #[test]
    fn what_gives_no_record_says_why() {
        let told = |text, month| read_batch(text, None, 2018, month).unwrap_err().to_string();
        let good = "KMMH 301400Z 00000KT M05/M07 A3031";
        assert!(told("# nothing\n", 1).contains("no report in the text"));
        assert!(
            told("a page\nof something else", 1)
                .contains("none of the 1 reports can be read; the first fault is on line 1: `A`")
        );
        assert!(told(good, 13).contains("2018-13 is no month"));
        assert!(
            told(good, 2).contains("line 1: `301400Z` names day 30, which 2018-02 does not have")
        );
        let none = told("KMMH 301400Z 00000KT M05/ A3031", 1);
        assert!(
            none.contains("none of the 1 reports of KMMH") && none.contains("no dew point"),
            "{none}"
        );
    }
}
