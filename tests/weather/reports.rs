//! Reports through the command: the genuine ones, their station and their month.

use super::{TempProject, notes, readings, refused};

const GENUINE: &str = include_str!("../metar/metars_cold_2018-01.txt");

#[test]
fn genuine_reports_of_one_station_are_told() {
    let desk = TempProject::with(&[("all.txt", GENUINE)]);
    let shown = desk.weather(&["all.txt", "--station", "kmmh", "--month", "2018-01"]);
    let found = readings(&shown);
    assert_eq!(found.len(), 2);
    // 33004KT ... T10531075 and 00000KT ... T10491070.
    assert_eq!((found[0].1, found[0].2), (-5.3, -7.5));
    assert!((found[0].3 - 4.0 * 1852.0 / 3600.0).abs() < 1e-4);
    assert_eq!((found[1].1, found[1].2, found[1].3), (-4.9, -7.0, 0.0));
    assert_eq!(
        shown["night_entry"],
        "weather: reports(file: \"all.txt\", station: \"KMMH\", month: \"2018-01\")"
    );
    let text = desk.run(&[
        "weather",
        "all.txt",
        "--station",
        "KEAT",
        "--month",
        "2018-01",
        "--zone",
        "America/Los_Angeles",
    ]);
    for word in [
        "KEAT",
        "Coldest     -0.6 °C",
        "01-11 07:00",
        "100 %",
        "In a night  weather: reports(",
    ] {
        assert!(text.out.contains(word), "{word}: {}", text.out);
    }
}

#[test]
fn several_stations_or_no_month_are_asked_about() {
    let said = refused(GENUINE, &["--month", "2018-01"]);
    assert!(
        said.contains("KMMH") && said.contains("--station K2D5"),
        "{said}"
    );
    let said = refused(GENUINE, &["--station", "KEAT"]);
    assert!(
        said.contains("own.csv, line 29") && said.contains("--month"),
        "{said}"
    );
    let said = refused(GENUINE, &["--station", "KXYZ", "--month", "2018-01"]);
    assert!(said.contains("no report is from `KXYZ`"), "{said}");
    assert!(
        refused(
            "KMMH 301435Z 00000KT M05/M07 A3031\n",
            &["--month", "2018-02"]
        )
        .contains("own.csv, line 1")
    );
}

#[test]
fn a_date_before_each_report_tells_the_month() {
    let text: String = GENUINE
        .lines()
        .filter(|line| line.contains("KEAT"))
        .map(|line| format!("2018-01-11T15:00:00Z  {line}\n"))
        .collect();
    let desk = TempProject::with(&[("dated.txt", &text)]);
    let shown = desk.weather(&["dated.txt"]);
    assert_eq!(readings(&shown)[0].0, "2018-01-11T14:40:00Z");
    assert_eq!(readings(&shown).len(), 3);
}

#[test]
fn bad_lines_duplicates_and_nil_are_told() {
    let text = "KMMH 111435Z 33004KT 10SM M05/M07 A3031 RMK T10531075\n<html>a page</html>\nKMMH 111535Z NIL=\n\
                KMMH 111455Z VRB03MPS M1/4SM R06/P6000FT M05/M07 A3031\nKMMH 111455Z VRB03MPS M1/4SM R06/P6000FT M05/M07 A3031\n\
                KMMH 111515Z 18KT M05/M07 A3031\nSPECI KMMH 111525Z AUTO 00000KMH M06/M08 A3031\n";
    let desk = TempProject::with(&[("bad.txt", text)]);
    let shown = desk.weather(&["bad.txt", "--month", "2018-01"]);
    assert_eq!(readings(&shown).len(), 3);
    let left = notes(&shown, "skipped").join("\n");
    for word in [
        "line 2: cannot be read",
        "NIL",
        "line 4: KMMH 111455Z: a repetition",
        "`18KT` is none",
    ] {
        assert!(left.contains(word), "{word}: {left}");
    }
}
