//! One report, from its groups.

use super::fault::{Fault, ReportError};
use super::groups::{self, Group, Pressure};
use super::quality::Oddity;

/// Words that end the observation: what follows is remarks or a trend forecast.
const OBSERVATION_ENDS: [&str; 5] = ["RMK", "RMKS", "NOSIG", "BECMG", "TEMPO"];

/// Which of the two code names a report bears.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A routine report.
    Metar,
    /// A special report.
    Speci,
}

/// One report.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// The station, as four letters or digits.
    pub station: String,
    /// The code name, where the report bears it.
    pub kind: Option<Kind>,
    /// Made without a human observer.
    pub auto: bool,
    /// A correction of an earlier report (`COR`, or `CCA` to `CCZ`).
    pub corrected: bool,
    /// No observation was made.
    pub nil: bool,
    /// Day of the month, UTC.
    pub day: u8,
    /// Hour, UTC.
    pub hour: u8,
    /// Minute.
    pub minute: u8,
    /// Air temperature, °C; minus zero for `M00`.
    pub temp_c: Option<f64>,
    /// Dew point over liquid water at all temperatures, °C (FMH-1 10.4.3).
    pub dew_point_c: Option<f64>,
    /// Whether the temperature is from the remarks, to a tenth, and not from the body, to a whole degree.
    pub tenths: bool,
    /// Mean wind speed, m/s.
    pub wind_m_s: Option<f64>,
    /// Strongest gust, m/s.
    pub gust_m_s: Option<f64>,
    /// The wind had no one direction: `VRB`, or two extremes as in `220V280`.
    pub wind_variable: bool,
    /// The wind was reported calm (`00000`).
    pub calm: bool,
    /// Pressure reduced to mean sea level by the standard atmosphere, rounded down by the station, hPa.
    pub qnh_hpa: Option<f64>,
    /// What is odd about it.
    pub notes: Vec<Oddity>,
}

/// Reads one report, on one line or several; text after its `=` is not looked at.
///
/// The temperature of the body is the last group of the form `M05/M07` before the pressure, so that no visibility
/// or runway group is taken for it; the tenths in the remarks are preferred to it.
///
/// *Source*: WMO-No. 306, vol. I.1, FM 15; tenths FMH-1 12.7.2 d. *Errors*: a report without a readable station and
/// time. Anything else that is missing is left out and told in `notes`.
///
/// ```
/// let report = coldsoak::files::metar::parse_report(
///     "KMMH 111435Z AUTO 33004KT 10SM SCT080 M05/M07 A3031 RMK AO2 T10531075",
/// )?;
/// assert_eq!((report.temp_c, report.dew_point_c), (Some(-5.3), Some(-7.5)));
/// # Ok::<(), coldsoak::files::metar::ReportError>(())
/// ```
pub fn parse_report(text: &str) -> Result<Report, ReportError> {
    let text = text.to_ascii_uppercase();
    let text = text.split('=').next().unwrap_or("");
    let groups: Vec<Group> = (1..)
        .zip(text.lines())
        .flat_map(|(line, words)| {
            words
                .split_whitespace()
                .map(move |text| Group { line, text })
        })
        .collect();
    from_groups(&groups)
}

/// The report made of these groups, in capitals.
pub fn from_groups(groups: &[Group]) -> Result<Report, ReportError> {
    let first_line = groups.first().map_or(1, |group| group.line);
    let mut left = groups.iter().copied().peekable();
    let mut report = Report::bare();
    if let Some(name) = left.next_if(|g| ["METAR", "SPECI"].contains(&g.text)) {
        report.kind = Some(if name.text == "METAR" {
            Kind::Metar
        } else {
            Kind::Speci
        });
    }
    report.corrected = left.next_if(|g| is_correction(g.text)).is_some();
    let fail = |line, fault| Err(ReportError { line, fault });
    let Some(station) = left.next() else {
        return fail(first_line, Fault::Empty);
    };
    if station.text == "TAF" {
        return fail(station.line, Fault::Forecast);
    }
    if !groups::is_station(station.text) {
        let group = station.text.to_owned();
        return fail(station.line, Fault::Station { group });
    }
    report.station = station.text.to_owned();
    let Some(time) = left.next() else {
        let station = report.station;
        return fail(first_line, Fault::NoTime { station });
    };
    (report.day, report.hour, report.minute) = groups::time(time.text).map_err(|fault| {
        let line = time.line;
        ReportError { line, fault }
    })?;
    while let Some(word) = left.next_if(|g| g.text == "AUTO" || is_correction(g.text)) {
        report.auto |= word.text == "AUTO";
        report.corrected |= word.text != "AUTO";
    }
    let body: Vec<&str> = left.map(|group| group.text).collect();
    report.observe(&body);
    Ok(report)
}

/// `COR`, or the numbered corrections `CCA` to `CCZ`.
fn is_correction(group: &str) -> bool {
    let numbered = group.strip_prefix("CC").map(str::as_bytes);
    group == "COR" || matches!(numbered, Some([b'A'..=b'Z']))
}

impl Report {
    fn bare() -> Self {
        Self {
            station: String::new(),
            kind: None,
            auto: false,
            corrected: false,
            nil: false,
            day: 1,
            hour: 0,
            minute: 0,
            temp_c: None,
            dew_point_c: None,
            tenths: false,
            wind_m_s: None,
            gust_m_s: None,
            wind_variable: false,
            calm: false,
            qnh_hpa: None,
            notes: Vec::new(),
        }
    }

    /// Station and time as they were written, such as `KMMH 111435Z`.
    pub fn heading(&self) -> String {
        format!("{} {}", self.station, self.time_group())
    }

    /// The time as it was written, such as `111435Z`.
    pub fn time_group(&self) -> String {
        format!("{:02}{:02}{:02}Z", self.day, self.hour, self.minute)
    }

    /// Takes in the groups after the heading.
    fn observe(&mut self, groups: &[&str]) {
        let end = groups
            .iter()
            .position(|group| OBSERVATION_ENDS.contains(group));
        let (body, after) = groups.split_at(end.unwrap_or(groups.len()));
        if body.contains(&"NIL") {
            self.nil = true;
            self.notes.push(Oddity::Nil);
            return;
        }
        let remarks = after.iter().skip_while(|group| !group.starts_with("RMK"));
        self.take_wind(body);
        self.take_pressure(body);
        self.take_temperatures(body, remarks.copied().find_map(groups::tenths));
        if groups.contains(&"$") {
            self.notes.push(Oddity::Maintenance);
        }
    }

    fn take_wind(&mut self, body: &[&str]) {
        let found = body
            .iter()
            .find_map(|&group| Some((group, groups::wind(group)?)));
        let speed = found.and_then(|(_, wind)| wind.speed_m_s);
        if let Some((group, wind)) = found {
            self.wind_m_s = wind.speed_m_s;
            self.gust_m_s = wind.gust_m_s;
            self.calm = wind.calm;
            self.wind_variable =
                wind.variable || body.iter().any(|group| groups::is_wind_range(group));
            if wind.at_least {
                let group = group.to_owned();
                self.notes.push(Oddity::AtLeast { group });
            }
        }
        if speed.is_none() {
            let ends_in_unit = |g: &&&str| ["KT", "MPS", "KMH"].iter().any(|u| g.ends_with(u));
            let group = body.iter().find(ends_in_unit);
            self.notes.push(Oddity::NoWind {
                group: group.map(|&group| group.to_owned()),
            });
        }
    }

    fn take_pressure(&mut self, body: &[&str]) {
        for group in body {
            match groups::pressure(group) {
                Some(Pressure::Given(hpa)) => {
                    self.qnh_hpa = Some(hpa);
                    return;
                }
                Some(Pressure::Impossible) => self.notes.push(Oddity::Pressure {
                    group: (*group).to_owned(),
                }),
                Some(Pressure::Missing) | None => {}
            }
        }
    }

    fn take_temperatures(&mut self, body: &[&str], tenths: Option<(f64, Option<f64>)>) {
        let pressure_at = body.iter().position(|g| groups::pressure(g).is_some());
        let (before, after) = body.split_at(pressure_at.unwrap_or(body.len()));
        let last = |groups: &[&str]| {
            let mut found = groups.iter().rev();
            found.find_map(|&group| Some((group.to_owned(), groups::temperatures(group)?)))
        };
        let whole = last(before).or_else(|| {
            let (group, read) = last(after)?;
            let told = group.clone();
            self.notes.push(Oddity::OutOfOrder { group: told });
            Some((group, read))
        });
        let whole = whole.map(|(_, read)| read);
        if let (Some((body_c, _)), Some((tenths_c, _))) = (whole, tenths) {
            // A half may have been rounded either way, whatever the rule; a tenth more may not.
            if (tenths_c - body_c).abs() > 0.55 {
                self.notes.push(Oddity::TenthsDisagree { tenths_c, body_c });
            }
        }
        self.tenths = tenths.is_some();
        self.temp_c = tenths.or(whole).map(|(temp_c, _)| temp_c);
        self.dew_point_c = tenths
            .and_then(|(_, dew)| dew)
            .or(whole.and_then(|(_, dew)| dew));
        match (self.temp_c, self.dew_point_c) {
            (None, _) => {
                let like = before
                    .iter()
                    .rev()
                    .find(|g| groups::is_like_temperatures(g));
                let group = like.map(|&group| group.to_owned());
                self.notes.push(Oddity::NoTemperature { group });
            }
            (_, None) => self.notes.push(Oddity::NoDewPoint),
            (Some(temp_c), Some(dew_point_c)) if dew_point_c > temp_c => {
                self.notes.push(Oddity::DewPointAbove {
                    temp_c,
                    dew_point_c,
                });
            }
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A report with these groups after its time.
    fn read(groups: &str) -> Report {
        parse_report(&format!("KMMH 111435Z {groups}")).unwrap()
    }

    #[test]
    fn what_stands_before_the_wind_is_told() {
        let r = parse_report("SPECI COR KMMH 111435Z AUTO 00000KT M05/M07 Q1013=").unwrap();
        assert_eq!(
            (r.kind, r.corrected, r.auto),
            (Some(Kind::Speci), true, true)
        );
        assert_eq!(
            (r.station.as_str(), r.day, r.hour, r.minute),
            ("KMMH", 11, 14, 35)
        );
        let r = parse_report("metar kmmh 111435z cor 00000kt m05/m07 q1013").unwrap();
        assert_eq!(
            (r.kind, r.corrected, r.auto),
            (Some(Kind::Metar), true, false)
        );
        assert!(read("CCB 00000KT M05/M07 A3031").corrected);
        let r = read("00000KT M05/M07 A3031");
        assert_eq!((r.kind, r.corrected, r.notes.len()), (None, false, 0));
    }

    #[test]
    fn the_last_temperature_before_the_pressure_counts() {
        let r = read(
            "00000KT M1/4SM R09/P6000FT 2 1/2SM 12/11 SCT120BKN180 M04/M05 A3029 10/10 RMK 09/09",
        );
        assert_eq!(
            (r.temp_c, r.dew_point_c, r.tenths),
            (Some(-4.0), Some(-5.0), false)
        );
        assert_eq!(r.notes, []);
    }

    #[test]
    fn a_temperature_after_the_pressure_is_taken_and_told() {
        let r = read("00000KT 9999 Q1013 M04/M05 NOSIG");
        let group = "M04/M05".to_owned();
        assert_eq!(
            (r.temp_c, r.notes),
            (Some(-4.0), vec![Oddity::OutOfOrder { group }])
        );
    }

    #[test]
    fn a_group_like_a_temperature_is_told_and_not_taken() {
        let r = read("00000KT 10SM 201/16 A3031");
        let group = Some("201/16".to_owned());
        assert_eq!(
            (r.temp_c, r.notes),
            (None, vec![Oddity::NoTemperature { group }])
        );
        assert_eq!(
            read("00000KT 10SM ///// A3031").notes,
            [Oddity::NoTemperature { group: None }]
        );
    }

    #[test]
    fn minus_nought_is_below_nought() {
        let r = read("00000KT M00/M00 Q1013");
        assert!(r.temp_c.is_some_and(|t| t == 0.0 && t.is_sign_negative()));
        assert!(
            read("00000KT 00/M00 Q1013")
                .temp_c
                .is_some_and(f64::is_sign_positive)
        );
    }

    #[test]
    fn tenths_of_the_temperature_alone_leave_the_dew_point_of_the_body() {
        let r = read("00000KT 02/M01 A3008 RMK AO2 T0021");
        assert_eq!(
            (r.temp_c, r.dew_point_c, r.tenths),
            (Some(2.1), Some(-1.0), true)
        );
        assert_eq!(
            read("00000KT 02/ A3008 RMK T0021").notes,
            [Oddity::NoDewPoint]
        );
    }

    #[test]
    fn tenths_that_do_not_round_to_the_body_are_told() {
        let r = read("00000KT M05/M07 A3031 RMK T10381075");
        assert_eq!(
            r.notes,
            [Oddity::TenthsDisagree {
                tenths_c: -3.8,
                body_c: -5.0
            }]
        );
        // Halves are rounded up by the rule, and down by some stations.
        assert_eq!(read("00000KT M05/M07 A3031 RMK T10551075").notes, []);
        assert_eq!(read("00000KT M06/M07 A3031 RMK T10551075").notes, []);
    }

    #[test]
    fn a_trend_and_the_remarks_are_not_the_observation() {
        let r = read("00000KT M05/M07 Q1013 BECMG 27015G25KT RMK SLP260 A2992 PK WND 28045/15 $");
        assert_eq!(
            (r.wind_m_s, r.calm, r.qnh_hpa),
            (Some(0.0), true, Some(1013.0))
        );
        assert_eq!(r.notes, [Oddity::Maintenance]);
        assert_eq!(read("00000KT M05/M07 RMK SLP260").qnh_hpa, None);
    }

    #[test]
    fn a_wind_between_two_directions_is_variable() {
        assert!(read("25007KT 220V280 M03/M07 A3013").wind_variable);
        assert!(read("VRB02KT M03/M07 A3013").wind_variable);
        assert!(!read("25007KT M03/M07 A3013").wind_variable);
    }

    #[test]
    fn a_missing_or_unreadable_wind_is_told() {
        assert_eq!(
            read("M03/M07 A3013").notes,
            [Oddity::NoWind { group: None }]
        );
        let group = |g: &str| Some(g.to_owned());
        assert_eq!(
            read("/////KT M03/M07 A3013").notes,
            [Oddity::NoWind {
                group: group("/////KT")
            }]
        );
        assert_eq!(
            read("0903KT M03/M07 A3013").notes,
            [Oddity::NoWind {
                group: group("0903KT")
            }]
        );
    }

    #[test]
    fn a_dew_point_above_the_temperature_is_told() {
        let odd = Oddity::DewPointAbove {
            temp_c: -7.0,
            dew_point_c: -5.0,
        };
        assert_eq!(read("00000KT M07/M05 A3013").notes, [odd]);
    }

    #[test]
    fn a_nil_report_tells_nothing_else() {
        let r = read("NIL=");
        assert_eq!((r.nil, r.temp_c, r.notes), (true, None, vec![Oddity::Nil]));
    }

    #[test]
    fn an_unreadable_report_names_line_group_and_remedy() {
        let told = |text| parse_report(text).unwrap_err().to_string();
        assert_eq!(
            told("METAR\nKMMH\n111435"),
            "line 3: `111435` stands where the time should: its Z is missing; a time is day, hour and minute UTC, as in \"111435Z\""
        );
        assert!(
            told("METAR KM 111435Z").starts_with("line 1: `KM` stands where the station should")
        );
        assert!(told("KMMH 321435Z").contains("the day is not 01 to 31"));
        assert!(told("KMMH 112435Z").contains("the hour is not 00 to 23"));
        assert!(told("KMMH 111460Z").contains("the minute is not 00 to 59"));
        assert!(told("KMMH").contains("has no time"));
        assert!(told("TAF KMMH 091720Z 0918/1018").contains("forecast"));
        assert!(told("").contains("there is no report"));
        assert!(told("KMMH ١١١٤٣٥Z").contains("six digits"));
    }
}
