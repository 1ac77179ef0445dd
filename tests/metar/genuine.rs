//! The 39 genuine reports against what they say, read by eye (`README.md`).

use super::any_text::options;
use coldsoak::weather::Detail;
use coldsoak::weather::metar::{parse_report, read};

pub const REPORTS: &str = include_str!("metars_cold_2018-01.txt");
const EXPECTED: &str = include_str!("expected.csv");

/// The last printed digit of `expected.csv` for speeds, m/s.
const SPEED_ROUNDING_M_S: f64 = 0.5e-4 * 1.01;
/// The last printed digit of `expected.csv` for pressures, hPa.
const PRESSURE_ROUNDING_HPA: f64 = 0.5e-2 * 1.01;

#[derive(Debug, serde::Deserialize)]
struct Row {
    station: String,
    time_utc: String,
    temp_c: Option<f64>,
    dew_point_c: Option<f64>,
    wind_m_s: Option<f64>,
    gust_m_s: Option<f64>,
    calm: String,
    variable: String,
    tenths: String,
    qnh_hpa: Option<f64>,
}

fn near(found: Option<f64>, wanted: Option<f64>, tolerance: f64) -> bool {
    match (found, wanted) {
        (Some(found), Some(wanted)) => (found - wanted).abs() <= tolerance,
        (None, None) => true,
        _ => false,
    }
}

#[test]
fn every_genuine_report_is_read_as_by_eye() {
    let rows: Vec<Row> = csv::Reader::from_reader(EXPECTED.as_bytes())
        .deserialize()
        .collect::<Result<_, _>>()
        .unwrap();
    assert_eq!((rows.len(), REPORTS.lines().count()), (39, 39));
    for (line, row) in REPORTS.lines().zip(rows) {
        let report = parse_report(line).unwrap();
        let time = format!(
            "2018-01-{:02}T{:02}:{:02}Z",
            report.day, report.hour, report.minute
        );
        assert_eq!(
            (&report.station, time),
            (&row.station, row.time_utc),
            "{line}"
        );
        assert_eq!(
            (report.temp_c, report.dew_point_c),
            (row.temp_c, row.dew_point_c),
            "{line}"
        );
        assert!(
            near(report.wind_m_s, row.wind_m_s, SPEED_ROUNDING_M_S),
            "{line}"
        );
        assert!(
            near(report.gust_m_s, row.gust_m_s, SPEED_ROUNDING_M_S),
            "{line}"
        );
        assert!(
            near(report.qnh_hpa, row.qnh_hpa, PRESSURE_ROUNDING_HPA),
            "{line}"
        );
        for (found, wanted) in [
            (report.calm, &row.calm),
            (report.wind_variable, &row.variable),
            (report.tenths, &row.tenths),
            (
                report.auto,
                &if ["PAKU", "KTRK"].contains(&&*row.station) {
                    "no"
                } else {
                    "yes"
                }
                .to_owned(),
            ),
        ] {
            assert_eq!(if found { "yes" } else { "no" }, wanted, "{line}");
        }
        let wanted: &[Detail] = if row.dew_point_c.is_none() {
            &[Detail::NoDewPoint]
        } else {
            &[]
        };
        assert_eq!(report.notes, wanted, "{line}");
    }
}

/// 11 January 2018 14:40 UTC is 1515681600 s after 1970: 48 years with 12 leap days, ten days, 880 minutes.
#[test]
fn the_reports_of_one_station_become_its_record() {
    let series = read(REPORTS, &options(Some("KEAT"), "2018-01")).unwrap();
    let start_s = f64::from((48 * 365 + 12 + 10) * 86_400 + 880 * 60);
    let found: Vec<_> = series
        .readings
        .iter()
        .map(|r| (r.unix_s - start_s, r.temp_c, r.dew_point_c))
        .collect();
    assert_eq!(
        found,
        [(0.0, -0.6, -0.6), (900.0, -0.6, -0.6), (1440.0, -0.6, -0.6)]
    );
    assert_eq!(series.notes, []);
}

#[test]
fn the_whole_snapshot_wants_a_station() {
    let error = |station| read(REPORTS, &options(station, "2018-01")).unwrap_err();
    let choose = error(None);
    assert_eq!(choose.key, Some("station"));
    assert!(choose.message.contains("34 stations"), "{choose}");
    let lacks = error(Some("KFRH")).message;
    assert!(
        lacks.ends_with("the first: line 11, KFRH 092235Z, no dew point"),
        "{lacks}"
    );
}
