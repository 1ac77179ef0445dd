//! The worked examples in the texts of the code forms.
//!
//! WMO-No. 306, Manual on Codes, 1995 edition with supplements to 2001, vol. I.1, part A, FM 15 METAR; US Federal
//! Meteorological Handbook No. 1 (FMH-1), chapter 12. Neither gives a whole report with its reading, so each example
//! group stands in a report made around it.

use coldsoak::weather::Detail;
use coldsoak::weather::metar::{Report, parse_report};

fn read(groups: &str) -> Report {
    parse_report(&format!("METAR KXYZ 111435Z {groups}")).unwrap()
}

/// WMO-No. 306, Regulations 15.11.2 and 15.11.3: +9 °C is 09, -9 °C is M09, -0.5 °C is M00.
#[test]
fn whole_degrees_are_as_in_regulation_15_11() {
    let r = read("00000KT 9999 09/M09 Q1013");
    assert_eq!((r.temp_c, r.dew_point_c), (Some(9.0), Some(-9.0)));
    let temp_c = read("00000KT 9999 M00/M01 Q1013").temp_c.unwrap();
    assert!(temp_c == 0.0 && temp_c.is_sign_negative());
}

/// WMO-No. 306, Regulation 15.12.2 and note 2: 995.6 hPa is Q0995; 29.91 in is A2991, 30.27 in is A3027.
/// An inch of mercury at 0 °C is 33.86389 hPa (NIST SP 811, appendix B).
#[test]
fn pressures_are_as_in_regulation_15_12() {
    let qnh = |group: &str| {
        read(&format!("00000KT 9999 09/M09 {group}"))
            .qnh_hpa
            .unwrap()
    };
    assert_eq!(qnh("Q0995"), 995.0);
    assert!((qnh("A2991") - 29.91 * 33.86389).abs() < 1e-9);
    assert!((qnh("A3027") - 30.27 * 33.86389).abs() < 1e-9);
}

/// WMO-No. 306, Regulations 15.5.4 and 15.5.6: calm is 00000; 100 kt, 50 m/s, 200 km/h or more is P99KT, P49MPS,
/// P199KMH.
#[test]
fn winds_are_as_in_regulation_15_5() {
    for unit in ["KT", "MPS", "KMH"] {
        let r = read(&format!("00000{unit} 9999 09/M09 Q1013"));
        assert_eq!((r.calm, r.wind_m_s), (true, Some(0.0)));
    }
    for (group, m_s) in [
        ("P99KT", 99.0 * 1852.0 / 3600.0),
        ("P49MPS", 49.0),
        ("P199KMH", 199.0 / 3.6),
    ] {
        let r = read(&format!("240{group} 9999 09/M09 Q1013"));
        assert!((r.wind_m_s.unwrap() - m_s).abs() < 1e-9, "{group}");
        assert!(matches!(r.notes[..], [Detail::AtLeast(_)]), "{:?}", r.notes);
    }
}

/// FMH-1 12.6.10: 4 °C with -2 °C is 04/M02; 0.3 °C is 00; 1.5 °C and no dew point is 02/.
#[test]
fn whole_degrees_are_as_in_the_us_handbook() {
    let r = read("00000KT 10SM 04/M02 A3031");
    assert_eq!((r.temp_c, r.dew_point_c), (Some(4.0), Some(-2.0)));
    assert!(
        read("00000KT 10SM 00/M02 A3031")
            .temp_c
            .unwrap()
            .is_sign_positive()
    );
    let r = read("00000KT 10SM 02/ A3031");
    assert_eq!((r.temp_c, r.dew_point_c), (Some(2.0), None));
}

/// FMH-1 12.7.2 d: 2.6 °C with -1.5 °C is 03/M01 and T00261015, without contradiction.
#[test]
fn tenths_are_as_in_the_us_handbook() {
    let r = read("00000KT 10SM 03/M01 A3031 RMK AO2 T00261015");
    assert_eq!(
        (r.temp_c, r.dew_point_c, r.tenths),
        (Some(2.6), Some(-1.5), true)
    );
    assert_eq!(r.notes, []);
}
