//! No text whatever makes the reader fail otherwise than by an error, and what it gives is in order.

use super::genuine::REPORTS;
use coldsoak::weather::WeatherOptions;
use coldsoak::weather::metar::{parse_report, read};
use proptest::prelude::*;

/// One genuine report with a piece of text put in place of some of its characters.
fn mutated() -> impl Strategy<Value = String> {
    let reports: Vec<&str> = REPORTS.lines().collect();
    let piece = prop_oneof![
        "[ -~]{0,6}",
        "[0-9MPRTQAVGZ/=#$ ]{0,8}",
        "\\PC{0,3}",
        "(KT|MPS|RMK|COR|NIL|SM|\n)"
    ];
    (
        prop::sample::select(reports),
        any::<prop::sample::Index>(),
        0usize..12,
        piece,
    )
        .prop_map(|(report, at, length, piece)| {
            let at = at.index(report.len() + 1);
            let after = (at + length).min(report.len());
            format!("{}{piece}{}", &report[..at], &report[after..])
        })
}

/// A station and a month, if it is one.
pub fn options(station: Option<&str>, month: &str) -> WeatherOptions {
    WeatherOptions {
        station: station.map(str::to_owned),
        month: month.parse().ok(),
        ..WeatherOptions::default()
    }
}

/// Whether a reading is what a report can say.
fn check(text: &str) -> Result<(), TestCaseError> {
    if let Ok(report) = parse_report(text) {
        prop_assert!(report.temp_c.is_none_or(|t| t.abs() < 100.0));
        prop_assert!(report.dew_point_c.is_none_or(|t| t.abs() < 100.0));
        prop_assert!(report.wind_m_s.is_none_or(|w| (0.0..103.0).contains(&w)));
        prop_assert!((1..=31).contains(&report.day) && report.hour < 24 && report.minute < 60);
    }
    if let Ok(series) = read(text, &options(None, "2018-01")) {
        prop_assert!(!series.readings.is_empty());
        prop_assert!(series.readings.is_sorted_by(|a, b| a.unix_s < b.unix_s));
    }
    Ok(())
}

proptest! {
    #![proptest_config(crate::kit::cases(2000))]

    #[test]
    fn any_ascii_is_read_or_refused(text in "[\\x00-\\x7f]{0,120}") {
        check(&text)?;
    }

    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,80}", tail in "\\PC{0,80}") {
        check(&text)?;
        check(&format!("KMMH 111435Z {text} RMK {tail}"))?;
    }

    #[test]
    fn a_mutated_report_is_read_or_refused(report in mutated()) {
        check(&report)?;
    }

    #[test]
    fn mutated_reports_together_are_read_or_refused(
        reports in prop::collection::vec(mutated(), 1..8),
        month in 0_u8..14,
        year in -9999_i32..10_000,
    ) {
        let text = reports.join("\n");
        let _ = read(&text, &options(Some("KEAT"), &format!("{year:04}-{month:02}")));
        check(&text)?;
    }

    /// The order of the reports in the text does not change the record, as long as no two are of one minute.
    #[test]
    fn the_order_of_the_text_does_not_matter(order in Just(REPORTS.lines().collect::<Vec<_>>()).prop_shuffle()) {
        let shuffled = order.join("\n");
        for station in ["KEAT", "PAFM", "KMMH"] {
            let options = options(Some(station), "2018-01");
            let readings = |text| read(text, &options).map(|series| series.readings);
            prop_assert_eq!(readings(&shuffled), readings(REPORTS));
        }
    }
}
