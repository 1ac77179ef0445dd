//! Many reports in any order, to the readings of one station.

use super::archive::{GIVE_MONTH, months};
use super::calendar::Calendar;
use super::placed::{Placed, line_span, near, parse_all, utc_s};
use super::report::Report;
use crate::weather::error::WeatherError;
use crate::weather::note::{Detail, Note};
use crate::weather::options::{Month, WeatherOptions};
use crate::weather::series::{Series, ordered};
use crate::weather::station::choose;
use std::collections::BTreeSet;

/// Reads reports into the readings of one station.
///
/// The reports come one a line, wrapped over several lines, or several on a line with `=` between them, in any
/// order; blank lines and lines that begin with `#` are passed over. If they are of several stations, the options
/// choose one. A report gives only its day; a full date before it gives the rest, and without one the month of the last
/// report does, from the options or that in which the night ends: if the days leave out more than ten days in a row,
/// those after the pause belong to the month before, and a note says so.
///
/// Of several reports of one minute a correction is taken before others, else the one that comes later in the text.
/// A report that cannot be read, or lacks temperature, dew point or wind, is skipped with a note; nothing is put in
/// its place. Gaps of more than 90 minutes are noted, and temperatures more than 8 K off both neighbours, which are
/// kept. Dew points stay over liquid water, as reported.
///
/// *Errors*: no report, none that can be read, none of the station, several stations and no choice, a day that the
/// month does not have, no month where one is needed or one that may not be the night's, or not one report with all
/// three readings.
pub fn read(text: &str, options: &WeatherOptions) -> Result<Series, WeatherError> {
    let mut notes = Vec::new();
    let mut reports = parse_all(text, &mut notes)?;
    let stations = reports.iter().map(|placed| placed.report.station.as_str());
    let station = choose(stations, options.station.as_deref())?.unwrap_or_default();
    reports.retain(|placed| placed.report.station == station);
    let undated = reports.iter().filter(|placed| placed.date.is_none());
    let days: Vec<i8> = undated.map(|placed| placed.report.day).collect();
    let mut archive = months(&days, options)?.into_iter();
    let calendar = match archive.len() {
        0 => calendar(&days, options, &mut notes)?,
        _ => None,
    };

    let mut entries = Vec::new();
    let mut noted = BTreeSet::new();
    for placed in &reports {
        let Placed { line, date, report } = placed;
        let group = report.time_group();
        let day = match (date, calendar) {
            (Some(date), _) => near(*date, report.day),
            (None, None) if archive.len() > 0 => match archive.next() {
                None => None,
                Some(month) => {
                    let day = month.day(report.day);
                    Some(day.ok_or_else(|| no_such_day(text, *line, report, month, options))?)
                }
            },
            (None, Some(calendar)) => {
                let month = calendar.month_of(report.day);
                if calendar.is_before(report.day) && noted.insert(report.day) {
                    notes.push(placed.note(Detail::MonthBefore(report.day, month)));
                }
                let day = month.day(report.day);
                Some(day.ok_or_else(|| no_such_day(text, *line, report, month, options))?)
            }
            (None, None) => {
                let message = format!("`{group}` gives the day of the month only");
                let error = WeatherError::new(message).at(line_span(text, *line));
                return Err(error.key("month").suggest(GIVE_MONTH));
            }
        };
        match day.and_then(|day| utc_s(day, report)) {
            Some(unix_s) => entries.push(placed.entry(unix_s)),
            None => {
                let date = date.map_or(String::new(), |date| date.to_string());
                let why = format!("the date {date} stands before `{group}`, which is another day");
                notes.push(placed.note(Detail::Unreadable(why)));
            }
        }
    }
    let readings = ordered(entries, &mut notes);
    if readings.is_empty() {
        return Err(no_reading(&station, &reports));
    }
    Ok(Series {
        station: Some(station),
        readings,
        notes,
    })
}

/// The months of the reports without a date, if a month is given or that of the night serves.
fn calendar(
    days: &[i8],
    options: &WeatherOptions,
    notes: &mut Vec<Note>,
) -> Result<Option<Calendar>, WeatherError> {
    let of = |month| Some(Calendar::new(month, days.iter().copied()));
    let of_night = options
        .night
        .map(|(begin, end)| (Month::of(begin), Month::of(end)));
    match (options.month, of_night) {
        (None, Some((Some(begin), Some(end)))) if !days.is_empty() => {
            let calendar = of(end);
            let crosses = |calendar: Calendar| days.iter().any(|&day| calendar.is_before(day));
            if calendar.is_some_and(crosses) == (begin != end) {
                notes.push(Detail::MonthOfNight(end).into());
                return Ok(calendar);
            }
            let message = if begin == end {
                "the reports run into a new month, and the night does not: their month is uncertain"
            } else {
                "the night runs into a new month, and the reports do not: their month is uncertain"
            };
            Err(WeatherError::new(message).key("month").suggest(GIVE_MONTH))
        }
        (month, _) => Ok(month.and_then(of)),
    }
}

fn no_such_day(
    text: &str,
    line: usize,
    report: &Report,
    month: Month,
    options: &WeatherOptions,
) -> WeatherError {
    let (group, day) = (report.time_group(), report.day);
    let message = format!("`{group}` names day {day}, which {month} does not have");
    let assumed = match options.month {
        Some(_) => "",
        None => "the month was taken from the night; ",
    };
    let error = WeatherError::new(message).at(line_span(text, line));
    error.suggest(format!("{assumed}{GIVE_MONTH}"))
}

fn no_reading(station: &str, reports: &[Placed]) -> WeatherError {
    let first = reports.first().map_or(String::new(), |placed| {
        let heading = format!("line {}, {}", placed.line, placed.report.heading());
        let notes = placed.report.notes.iter();
        notes.fold(heading, |first, note| format!("{first}, {note}"))
    });
    WeatherError::new(format!(
        "none of the {} reports of {station} has temperature, dew point and wind, as in \"33004KT ... M05/M07\"; the \
         first: {first}",
        reports.len()
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scenario::weather::Observation;

    fn of_month(month: &str, station: Option<&str>) -> WeatherOptions {
        WeatherOptions {
            month: Some(month.parse().unwrap()),
            station: station.map(str::to_owned),
            ..WeatherOptions::default()
        }
    }
    fn january(text: &str) -> (Vec<Observation>, Vec<Note>) {
        let series = read(text, &of_month("2018-01", None)).unwrap();
        (series.readings, series.notes)
    }
    fn temps(readings: &[Observation]) -> Vec<f64> {
        readings.iter().map(|r| r.temp_c).collect()
    }
    fn words(notes: &[Note]) -> Vec<String> {
        notes.iter().map(Note::to_string).collect()
    }

    #[test]
    fn reports_in_any_order_come_out_in_order_of_time() {
        let (readings, notes) = january(
            "KMMH 111555Z 00000KT M07/M09 A3031\nKMMH 111455Z 00000KT\n M05/M07 A3031\n# noon\n\nKMMH 111525Z 18004KT M06/M08 A3031=",
        );
        assert_eq!(temps(&readings), [-5.0, -6.0, -7.0]);
        assert_eq!(readings[1].unix_s - readings[0].unix_s, 1800.0);
        assert_eq!(readings[0].dew_point_c, -7.0);
        assert_eq!(notes, []);
    }

    #[test]
    fn a_correction_wins_then_the_later() {
        let report =
            |mark: &str, temp: &str| format!("KMMH 111455Z {mark} 00000KT {temp}/M09 A3031\n");
        let of = |parts: &[String]| {
            let (readings, notes) = january(&parts.concat());
            (temps(&readings), words(&notes))
        };
        let (first, cor, second) = (report("", "M05"), report("COR", "M06"), report("", "M07"));
        let (kept, notes) = of(&[cor.clone(), first.clone()]);
        assert_eq!(kept, [-6.0]);
        assert_eq!(
            notes,
            ["line 2: KMMH 111455Z: replaced by line 1 of the same minute, which is a correction"]
        );
        assert_eq!(of(&[first.clone(), cor]).0, [-6.0]);
        let (kept, notes) = of(&[first.clone(), second]);
        assert_eq!(kept, [-7.0]);
        assert_eq!(
            notes,
            [
                "line 1: KMMH 111455Z: replaced by line 2 of the same minute, which comes later or says more"
            ]
        );
        let (kept, notes) = of(&[first.clone(), first.clone()]);
        assert_eq!(kept, [-5.0]);
        assert_eq!(notes, ["line 1: KMMH 111455Z: a repetition of line 2"]);
        assert_eq!(of(&[first, "KMMH 111455Z NIL\n".to_owned()]).0, [-5.0]);
    }

    /// An archive of three months keeps them: before, all its days were of the last.
    #[test]
    fn an_archive_of_several_months_keeps_its_months() {
        let line = |day: &u8| format!("KMMH {day:02}1200Z 00000KT M05/M07 A3031\n");
        let days: Vec<u8> = (5..=31).chain(1..=28).chain(1..=9).collect();
        let text: String = days.iter().map(line).collect();
        let series = read(&text, &of_month("2018-03", None)).unwrap();
        assert_eq!(series.readings.len(), days.len());
        // 5 January to 9 March 2018, noon UTC: 63 days.
        let span = series.readings.last().unwrap().unix_s - series.readings[0].unix_s;
        assert_eq!(span, 63.0 * 86_400.0);
        let error = read(&text, &WeatherOptions::default()).unwrap_err();
        assert!(error.message.contains("run over 3 months"), "{error:?}");
        let pieces: String = (15..=31).chain(1..=14).map(|d: u8| line(&d)).collect();
        let error = read(&pieces, &of_month("2018-03", None)).unwrap_err();
        assert!(
            error.message.contains("one month in two pieces"),
            "{error:?}"
        );
    }

    #[test]
    fn a_night_may_cross_into_a_new_month() {
        let text = "KMMH 010055Z 00000KT M07/M09 A3031\nKMMH 312355Z 00000KT M06/M09 A3031";
        let (readings, notes) = january(text);
        assert_eq!(temps(&readings), [-6.0, -7.0]);
        assert_eq!(readings[1].unix_s - readings[0].unix_s, 3600.0);
        assert_eq!(readings[1].unix_s, 1_514_764_800.0 + 55.0 * 60.0);
        assert_eq!(
            words(&notes),
            [
                "line 2: KMMH 312355Z: day 31 is taken to be of 2017-12, the month before the last report's"
            ]
        );
    }

    #[test]
    fn what_is_missing_is_skipped_with_a_note() {
        let (readings, notes) = january(
            "KMMH 111400Z 00000KT M05/M07 A3031\nKMMH 111410Z 00000KT M05/ A3031\nKMMH 111420Z /////KT M05/M07 A3031\n\
             KMMH 111430Z 00000KT A3031\nKMMH 111440Z NIL\nKMMH 1114Z\nTAF KMMH 091720Z 0918/1018",
        );
        assert_eq!(readings.len(), 1);
        let details: Vec<_> = notes
            .into_iter()
            .map(|note| (note.line, note.detail))
            .collect();
        let group = Some("/////KT".to_owned());
        for noted in [
            (Some(2), Detail::NoDewPoint),
            (Some(3), Detail::NoWind(group)),
            (Some(4), Detail::NoTemperature(None)),
            (Some(5), Detail::Nil),
        ] {
            assert!(details.contains(&noted), "{noted:?}: {details:?}");
        }
        let forecast = details.iter().find(|(line, _)| *line == Some(7)).unwrap();
        assert!(forecast.1.to_string().contains("forecast"));
    }

    #[test]
    fn a_report_that_cannot_be_true_has_one_note() {
        let (readings, notes) = january(
            "KMMH 111400Z 00000KT M05/M07 A3031\nKMMH 111500Z 00000KT M99/M07 A3031\nKMMH 111600Z 00000KT M05/10 A3031",
        );
        assert_eq!(readings.len(), 1);
        assert_eq!(
            words(&notes),
            [
                "line 2: KMMH 111500Z: -99.0 °C with a dew point of -7.0 °C cannot be true",
                "line 3: KMMH 111600Z: -5.0 °C with a dew point of 10.0 °C cannot be true",
            ]
        );
        let (_, notes) =
            january("KMMH 111400Z 00000KT M05/M07 A3031\nKMMH 111910Z 00000KT M05/M07 A3031");
        assert_eq!(
            words(&notes),
            [
                "line 2: KMMH 111910Z: 310 minutes after the reading before it; nothing is put into the gap, and a night \
that lies in it is refused"
            ]
        );
    }

    #[test]
    fn gaps_and_spikes_are_noted_and_kept() {
        let (readings, notes) = january(
            "KMMH 111400Z 00000KT M05/M07 A3031\nKMMH 111500Z 00000KT 08/M07 A3031\nKMMH 111600Z 00000KT M05/M07 A3031\n\
             KMMH 111800Z 00000KT M05/M07 A3031",
        );
        assert_eq!(readings.len(), 4);
        assert_eq!(
            words(&notes),
            [
                "line 2: KMMH 111500Z: 8 °C between -5 °C and -5 °C: a spike, kept as it stands",
                "line 4: KMMH 111800Z: 120 minutes after the reading before it; a straight line bridges the gap",
            ]
        );
    }

    #[test]
    fn several_stations_require_a_choice() {
        let text = "KMMH 111400Z 00000KT M05/M07 A3031\nKBIH 111400Z 00000KT M03/M05 A3031";
        let error = |station| read(text, &of_month("2018-01", station)).unwrap_err();
        for (station, message) in [
            (None, "KBIH, KMMH"),
            (Some("KTRK"), "no report is from `KTRK`"),
        ] {
            let error = error(station);
            assert!(error.message.contains(message), "{error}");
            assert_eq!(error.key, Some("station"));
        }
        let bishop = read(text, &of_month("2018-01", Some("kbih"))).unwrap();
        assert_eq!(temps(&bishop.readings), [-3.0]);
    }

    #[test]
    fn what_gives_no_record_says_why() {
        let error = |text, month| {
            let error = read(text, &of_month(month, None)).unwrap_err();
            (error.message, error.span)
        };
        let good = "# a comment\nKMMH 301400Z 00000KT M05/M07 A3031";
        assert!(
            error("# nothing\n", "2018-01")
                .0
                .contains("no weather in the file")
        );
        let page = error("a page\nof something else", "2018-01");
        assert!(
            page.0
                .contains("none of the 1 reports can be read; the first: `A`")
        );
        assert_eq!(page.1, Some(0..6));
        let day = error(good, "2018-02");
        assert!(
            day.0
                .contains("`301400Z` names day 30, which 2018-02 does not have")
        );
        assert_eq!(day.1, Some(12..46));
        let none = error("KMMH 301400Z 00000KT M05/ A3031", "2018-01").0;
        assert!(
            none.contains("none of the 1 reports of KMMH") && none.contains("no dew point"),
            "{none}"
        );
    }
}
