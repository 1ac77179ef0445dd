//! Nights on weather files: a night on reports is the night on the record they were made from, and notes reach the user.

use super::{TempProject, readings};
use serde_json::Value;

/// How far a night may move when the winds are given in whole knots, K.
const WIND_ROUNDING_K: f64 = 0.1;

/// A block of aluminium in the open night of Greensboro.
fn night(weather: &str, begin: &str) -> String {
    format!(
        "(\n    title: \"a block outdoors\",\n    clock: (begin: \"{begin}\", departure: \"1996-02-05 07:30\", zone: \"America/New_York\"),\n    \
         engine: \"aluminium-block\",\n    hangar: \"shut\",\n    weather: {weather},\n    \
         initial: (temperature: values(all: degC(20), parts: {{}}), water_in_oil: g(0)),\n)\n"
    )
}

const BEGIN: &str = "1996-02-04 18:00";

/// The built-in record of Greensboro as reports, tenths in the remarks and winds in whole knots.
fn reports(desk: &TempProject) -> String {
    let shown = desk.weather(&["greensboro_nc_1996-02-04"]);
    let tenths = |t: f64| format!("{}{:03.0}", u8::from(t < 0.0), (t.abs() * 10.0).round());
    let whole = |t: f64| format!("{}{:02.0}", if t < 0.0 { "M" } else { "" }, t.abs().round());
    readings(&shown)
        .iter()
        .map(|(time, temp, dew, wind)| {
            let (day, hour) = (&time[8..10], &time[11..13]);
            let knots = wind * 3600.0 / 1852.0;
            format!(
                "KGSO {day}{hour}00Z 270{knots:02.0}KT 10SM CLR {}/{} A3000 RMK AO2 T{}{}\n",
                whole(*temp),
                whole(*dew),
                tenths(*temp),
                tenths(*dew)
            )
        })
        .rev()
        .collect()
}

fn block_c(desk: &TempProject, file: &str) -> f64 {
    let ran = desk.run(&["night", file, "--json"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let shown: Value = serde_json::from_str(&ran.out).unwrap();
    shown["parts"][0]["temp_c"].as_f64().unwrap()
}

#[test]
fn a_night_on_reports_is_the_night_on_their_record() {
    let desk = TempProject::with(&[
        (
            "recorded.ron",
            &night("recorded(\"greensboro_nc_1996-02-04\")", BEGIN),
        ),
        (
            "reports.ron",
            &night("reports(file: \"kgso.txt\", month: \"1996-02\")", BEGIN),
        ),
        ("plain.ron", &night("recorded(\"kgso.txt\")", BEGIN)),
        ("table.ron", &night("table(file: \"clean.csv\")", BEGIN)),
    ]);
    std::fs::write(desk.path().join("kgso.txt"), reports(&desk)).unwrap();
    let clean = desk.run(&["weather", "kgso.txt", "--month", "1996-02", "--csv"]);
    std::fs::write(desk.path().join("clean.csv"), clean.out).unwrap();
    let recorded = block_c(&desk, "recorded.ron");
    let shown = block_c(&desk, "reports.ron");
    assert!(
        (shown - recorded).abs() < WIND_ROUNDING_K,
        "{shown} {recorded}"
    );
    assert!((block_c(&desk, "table.ron") - shown).abs() < 0.01);
    // Without a month the night's is taken, and that is noted.
    let ran = desk.run(&["night", "plain.ron"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(
        ran.err.contains("note: kgso.txt") && ran.err.contains("1996-02, the night's"),
        "{}",
        ran.err
    );
    assert_eq!(desk.run(&["night", "plain.ron", "--quiet"]).err, "");
}

#[test]
fn weather_that_does_not_cover_the_night_is_refused_in_the_night_file() {
    let desk = TempProject::with(&[(
        "late.ron",
        &night(
            "reports(file: \"kgso.txt\", month: \"1996-02\")",
            "1996-02-01 18:00",
        ),
    )]);
    std::fs::write(desk.path().join("kgso.txt"), reports(&desk)).unwrap();
    let ran = desk.run(&["night", "late.ron"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(
        ran.err.contains("late.ron, line 6") && ran.err.contains("begins 66.0 h after the night"),
        "{}",
        ran.err
    );
}

#[test]
fn slips_in_the_entry_are_told_at_their_place() {
    let table = "time_utc,temp_c,dewpoint_c,wind_kt\n1996-02-04T22:00Z,-4,-6,10\n";
    let two = "KGSO 042300Z 27008KT M09/M14 A3000\nKINT 042300Z 27008KT M09/M14 A3000\n";
    for (weather, word) in [
        ("reports(file: \"two.txt\")", "choose one station"),
        (
            "reports(file: \"two.txt\", station: \"KXXX\")",
            "no report is from `KXXX`",
        ),
        ("reports(file: \"own.csv\")", "holds a table"),
        (
            "table(file: \"two.txt\", station: \"KGSO\")",
            "holds aviation reports",
        ),
        (
            "table(file: \"own.csv\", station: \"KGSO\")",
            "no column names a station",
        ),
        (
            "reports(file: \"two.txt\", month: \"1996-13\")",
            "a year and a month in quotes is needed",
        ),
        ("reports(file: \"none.txt\")", "could not be read"),
    ] {
        let text = night(weather, BEGIN);
        let desk = TempProject::with(&[("own.ron", &text), ("own.csv", table), ("two.txt", two)]);
        let ran = desk.run(&["night", "own.ron"]);
        assert_eq!(ran.code, 2, "{}", ran.err);
        assert!(
            ran.err.contains(word)
                && (ran.err.contains("own.ron, line 6") || ran.err.contains("own.csv, line 1")),
            "{weather}: {}",
            ran.err
        );
    }
}

/// A night across the turn of a month, and reports that are not.
#[test]
fn a_month_in_doubt_is_asked_for() {
    let text = "(title: \"turn\", clock: (begin: \"2018-01-31 18:00\", departure: \"2018-02-01 07:30\", zone: \"UTC\"), \
                engine: \"aluminium-block\", hangar: \"shut\",\n weather: recorded(\"kmmh.txt\"))\n";
    let one = "KMMH 311700Z 00000KT M05/M07 A3031\nKMMH 312000Z 00000KT M05/M07 A3031\n";
    let desk = TempProject::with(&[("turn.ron", text), ("kmmh.txt", one)]);
    let ran = desk.run(&["night", "turn.ron"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("month: \"2018-01\""), "{}", ran.err);
}

/// A night reads its weather by the right hour: eastern standard time is five hours behind UTC in February (US Code,
/// title 15, section 261), so 18:00 there is 23:00 UTC, and 07:30 is half an hour after 12:00 UTC.
///
/// Source: the record of Greensboro (`models/weather/README.md`), read line by line.
#[test]
fn a_night_begins_at_the_recorded_hour_of_its_own_clock() {
    let recorded = include_str!("../../models/weather/greensboro_nc_1996-02-04.csv");
    let at = |utc: &str| -> f64 {
        let line = recorded.lines().find(|l| l.starts_with(utc)).unwrap();
        line.split(',').nth(1).unwrap().parse().unwrap()
    };
    let night = coldsoak::night::run(
        &coldsoak::files::night::load_builtin("demo")
            .unwrap()
            .scenario,
    );
    let trace = night.unwrap().trace;
    let outdoors = |hours: f64| trace.at(hours * 3600.0)[trace.legend.outdoors];
    assert!((outdoors(0.0) - at("1996-02-04T23:00Z")).abs() < 1e-9);
    assert!((outdoors(1.0) - at("1996-02-05T00:00Z")).abs() < 1e-9);
    let half = 0.5 * (at("1996-02-05T12:00Z") + at("1996-02-05T13:00Z"));
    assert!((outdoors(13.5) - half).abs() < 1e-9);
    // An hour sooner or later is another reading.
    assert!(at("1996-02-04T23:00Z") - at("1996-02-05T00:00Z") > 1.0);
}
