//! The groups of a report, one function each: text in, numbers out, or nothing if the text is no such group.
//!
//! Source: WMO-No. 306, Manual on Codes, vol. I.1, FM 15 METAR, Regulations 15.2 to 15.12; for the tenths in the
//! remarks US Federal Meteorological Handbook No. 1, 12.7.2 d. Every step takes characters that it has looked at,
//! so no text can make it fail.

use crate::quantity::Speed;

/// The greatest speed the code provides for (Regulation 15.5.6, note), in knots.
const GREATEST_KT: f64 = 199.0;
/// Pascals in a conventional inch of mercury at 0 °C, over 100 (NIST SP 811, appendix B).
const HPA_PER_INCH: f64 = 33.86389;

/// One group and the line it stands on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Group<'a> {
    pub line: usize,
    pub text: &'a str,
}

/// What is left of a group.
struct Rest<'a>(&'a str);

impl<'a> Rest<'a> {
    /// Whether `word` comes next; it is taken.
    fn takes(&mut self, word: &str) -> bool {
        self.0.strip_prefix(word).is_some_and(|rest| {
            self.0 = rest;
            true
        })
    }
    /// The number of `least` to `most` digits that comes next; it is taken.
    fn number(&mut self, least: usize, most: usize) -> Option<u16> {
        let digits = self.0.bytes().take_while(u8::is_ascii_digit).count();
        let (number, rest) = self.0.split_at_checked(digits.min(most))?;
        if number.len() < least {
            return None;
        }
        self.0 = rest;
        number.parse().ok()
    }
    fn ends(&self) -> bool {
        self.0.is_empty()
    }
}

/// Whether the group can be a station: a letter, then three letters or digits.
pub fn is_station(group: &str) -> bool {
    group.len() == 4
        && group.starts_with(|c: char| c.is_ascii_uppercase())
        && group
            .bytes()
            .all(|b| b.is_ascii_uppercase() || b.is_ascii_digit())
}

/// Day, hour and minute of `111435Z`.
///
/// *Errors*: what is wrong with it.
pub fn time(group: &str) -> Result<[i8; 3], &'static str> {
    let mut rest = Rest(group);
    let mut two = || rest.number(2, 2).and_then(|n| i8::try_from(n).ok());
    let (Some(day), Some(hour), Some(minute)) = (two(), two(), two()) else {
        return Err("it does not begin with six digits");
    };
    match rest.0 {
        "" => Err("its Z is missing"),
        "Z" if !(1..=31).contains(&day) => Err("the day is not 01 to 31"),
        "Z" if hour > 23 => Err("the hour is not 00 to 23"),
        "Z" if minute > 59 => Err("the minute is not 00 to 59"),
        "Z" => Ok([day, hour, minute]),
        _ => Err("it is not six digits and a Z"),
    }
}

/// The wind of `33004KT`, `VRB03KT`, `29012G16KT`, `00000MPS`, `/////KT`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wind {
    pub speed_m_s: Option<f64>,
    pub gust_m_s: Option<f64>,
    pub variable: bool,
    pub calm: bool,
    /// A `P` before a speed: it was at least so much.
    pub at_least: bool,
}

/// The wind, if the group is one and its numbers can be: direction to 360°, speed to 199 kt.
pub fn wind(group: &str) -> Option<Wind> {
    let mut rest = Rest(group);
    let variable = rest.takes("VRB");
    let direction = if variable || rest.takes("///") {
        None
    } else {
        Some(rest.number(3, 3).filter(|&d| d <= 360)?)
    };
    let (speed, speed_at_least) = wind_speed(&mut rest)?;
    let gust = rest.takes("G").then(|| wind_speed(&mut rest));
    let (gust, gust_at_least) = gust.unwrap_or(Some((None, false)))?;
    let to_m_s = if rest.takes("KT") {
        Speed::kt
    } else if rest.takes("MPS") {
        Speed::m_s
    } else if rest.takes("KMH") {
        Speed::km_h
    } else {
        return None;
    };
    let m_s = |n: Option<u16>| n.map(|n| to_m_s(f64::from(n)).si());
    let wind = Wind {
        speed_m_s: m_s(speed),
        gust_m_s: m_s(gust),
        variable,
        calm: direction == Some(0) && speed == Some(0),
        at_least: speed_at_least || gust_at_least,
    };
    let greatest = wind.speed_m_s.into_iter().chain(wind.gust_m_s);
    let possible = greatest.fold(0.0, f64::max) <= Speed::kt(GREATEST_KT + 0.5).si();
    (rest.ends() && possible).then_some(wind)
}

/// A speed, none for `//`, and whether a `P` stands before it.
fn wind_speed(rest: &mut Rest) -> Option<(Option<u16>, bool)> {
    if rest.takes("//") {
        return Some((None, false));
    }
    let at_least = rest.takes("P");
    Some((Some(rest.number(2, 3)?), at_least))
}

/// Whether the group is the two extreme directions of a wind, as in `220V280`.
pub fn is_wind_range(group: &str) -> bool {
    let mut rest = Rest(group);
    rest.number(3, 3).is_some() && rest.takes("V") && rest.number(3, 3).is_some() && rest.ends()
}

/// Temperature and dew point of `M05/M07`, in °C; no dew point in `03/` and `03///`.
///
/// `M00` is below zero by half a degree at most (Regulation 15.11.3) and comes out as minus zero.
pub fn temperatures(group: &str) -> Option<(f64, Option<f64>)> {
    let (temp, dew_point) = group.split_once('/')?;
    let dew_point_c = match dew_point {
        "" | "//" => None,
        given => Some(whole_degrees(given)?),
    };
    Some((whole_degrees(temp)?, dew_point_c))
}

fn whole_degrees(text: &str) -> Option<f64> {
    let mut rest = Rest(text);
    let sign = if rest.takes("M") { -1.0 } else { 1.0 };
    let degrees = sign * f64::from(rest.number(2, 2)?);
    rest.ends().then_some(degrees)
}

/// Whether the group may have been meant as a temperature: digits, `M` and a stroke, with a digit in it.
pub fn is_like_temperatures(group: &str) -> bool {
    group.contains('/')
        && group.bytes().any(|b| b.is_ascii_digit())
        && group
            .bytes()
            .all(|b| b.is_ascii_digit() || b"M/-X".contains(&b))
}

/// Temperature and dew point of the remark `T10531075`, in °C to the tenth; no dew point in the short `T0021`.
pub fn tenths(group: &str) -> Option<(f64, Option<f64>)> {
    let (temp, dew_point) = group.strip_prefix('T')?.split_at_checked(4)?;
    let dew_point_c = match dew_point {
        "" => None,
        given => Some(signed_tenths(given)?),
    };
    Some((signed_tenths(temp)?, dew_point_c))
}

/// Three digits behind a sign digit: 0 at or above zero, 1 below.
fn signed_tenths(text: &str) -> Option<f64> {
    let mut rest = Rest(text);
    let number = rest.number(4, 4).filter(|_| rest.ends())?;
    match (number / 1000, f64::from(number % 1000)) {
        (0, tenths) => Some(tenths / 10.0),
        (1, tenths) => Some(-tenths / 10.0),
        _ => None,
    }
}

/// The pressure group, `Q0995` in hPa or `A2991` in hundredths of an inch of mercury.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pressure {
    /// In hPa.
    Given(f64),
    /// `Q////` or `A////`.
    Missing,
    /// The letter and four digits, but no pressure: `Q` wants 0 or 1 next, `A` 2 or 3 (Regulation 15.12, note 2).
    Impossible,
}

/// The pressure at mean sea level by the standard atmosphere, if the group is one.
pub fn pressure(group: &str) -> Option<Pressure> {
    let mut rest = Rest(group);
    let inches = rest.takes("A");
    if !inches && !rest.takes("Q") {
        return None;
    }
    if rest.0 == "////" {
        return Some(Pressure::Missing);
    }
    let number = rest.number(4, 4)?;
    if !rest.ends() {
        return None;
    }
    Some(match (inches, number) {
        (true, 2000..4000) => Pressure::Given(f64::from(number) / 100.0 * HPA_PER_INCH),
        (false, 0..2000) => Pressure::Given(f64::from(number)),
        _ => Pressure::Impossible,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_visibility_or_a_runway_range_is_no_temperature() {
        for group in [
            "M1/4SM",
            "1/2SM",
            "1/4SM",
            "R09/P6000FT",
            "R06/P6000FT",
            "R24/M0050",
            "201/16",
            "5/3",
            "12",
            "M12",
            "12/",
            "/12",
            "/////",
            "//",
            "1012/",
            "32/M",
            "12/1",
            "12/123",
            "12//",
            "12////",
            "MM05/M07",
            "05/07Z",
            "R24/290062",
            "88//99//",
            "W15/S4",
            "١٢/١٢",
            "",
        ] {
            let wanted = (group == "12/").then_some((12.0, None));
            assert_eq!(temperatures(group), wanted, "{group}");
        }
    }

    #[test]
    fn a_missing_dew_point_is_written_in_three_ways() {
        assert_eq!(temperatures("03/"), Some((3.0, None)));
        assert_eq!(temperatures("M13///"), Some((-13.0, None)));
        assert_eq!(temperatures("03/M01"), Some((3.0, Some(-1.0))));
    }

    #[test]
    fn tenths_have_a_sign_digit_and_three_more() {
        assert_eq!(tenths("T10791112"), Some((-7.9, Some(-11.2))));
        assert_eq!(tenths("T0021"), Some((2.1, None)));
        for group in [
            "TSNO",
            "T",
            "T2021",
            "T002",
            "T00211",
            "T002110531",
            "T0021053X",
            "TS",
        ] {
            assert_eq!(tenths(group), None, "{group}");
        }
    }

    #[test]
    fn a_wind_comes_in_three_units() {
        let speed = |group| wind(group).and_then(|w| w.speed_m_s);
        assert!((speed("33004KT").unwrap() - 4.0 * 1852.0 / 3600.0).abs() < 1e-12);
        assert_eq!(speed("33004MPS"), Some(4.0));
        assert!((speed("33018KMH").unwrap() - 5.0).abs() < 1e-12);
        assert!(
            (wind("29012G16KT").unwrap().gust_m_s.unwrap() - 16.0 * 1852.0 / 3600.0).abs() < 1e-12
        );
    }

    #[test]
    fn a_variable_a_calm_and_a_missing_wind_are_distinguished() {
        let w = wind("VRB02KT").unwrap();
        assert!(w.variable && !w.calm && w.speed_m_s.is_some());
        let w = wind("00000KT").unwrap();
        assert!(w.calm && !w.variable && w.speed_m_s == Some(0.0));
        let w = wind("/////KT").unwrap();
        assert!(!w.calm && !w.variable && w.speed_m_s.is_none());
        let w = wind("///05KT").unwrap();
        assert!(!w.calm && w.speed_m_s.is_some());
        assert_eq!(wind("290//KT").unwrap().speed_m_s, None);
    }

    #[test]
    fn a_wind_that_cannot_be_is_none() {
        // A genuine archive holds an hour of 1048 miles an hour.
        for group in [
            "360911KT",
            "36200KT",
            "37005KT",
            "0903KT",
            "09003",
            "09003KTS",
            "KT",
            "09003G/KT",
            "VRBKT",
        ] {
            assert_eq!(wind(group), None, "{group}");
        }
        assert!(wind("360199KT").is_some());
    }

    /// What reports can say is within what is plausible in tables, in every unit.
    #[test]
    fn no_report_gives_an_implausible_wind() {
        let mut greatest = 0.0_f64;
        for unit in ["KT", "MPS", "KMH"] {
            for speed in 0..1000 {
                for group in [
                    format!("360{speed:02}{unit}"),
                    format!("36000G{speed:02}{unit}"),
                ] {
                    let speeds = wind(&group)
                        .into_iter()
                        .flat_map(|w| [w.speed_m_s, w.gust_m_s]);
                    greatest = speeds.flatten().fold(greatest, f64::max);
                }
            }
        }
        assert!(
            crate::scenario::weather::WIND_M_S.contains(&greatest),
            "{greatest}"
        );
        // 199 kt and 102 m/s can be written, so the limit is met.
        assert!(greatest > 100.0, "{greatest}");
    }

    #[test]
    fn a_pressure_begins_as_its_unit_demands() {
        assert_eq!(pressure("Q0995"), Some(Pressure::Given(995.0)));
        assert_eq!(pressure("Q2991"), Some(Pressure::Impossible));
        assert_eq!(pressure("A1013"), Some(Pressure::Impossible));
        assert_eq!(pressure("Q////"), Some(Pressure::Missing));
        for group in ["AO2", "AUTO", "A301", "A30261", "QNH", "SLP260", "1013"] {
            assert_eq!(pressure(group), None, "{group}");
        }
    }
}
