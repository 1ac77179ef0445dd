//! One report, from its groups.

use super::groups::{self, Group};
use crate::weather::note::Detail;

/// A report that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("line {line}: {message}")]
pub struct ReportError {
    /// The line, counted from 1 in the text that was given.
    pub line: usize,
    /// What is wrong, and what would be right.
    pub message: String,
}

/// Which of the two code names a report bears.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A routine report.
    Metar,
    /// A special report.
    Speci,
}

/// One report.
#[derive(Debug, Clone, PartialEq, Default)]
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
    pub day: i8,
    /// Hour, UTC.
    pub hour: i8,
    /// Minute.
    pub minute: i8,
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
    pub notes: Vec<Detail>,
}

/// Reads one report, on one line or several; text after its `=` is not looked at.
///
/// The temperature of the body is the last group of the form `M05/M07` before the pressure, so that no visibility
/// or runway group is taken for it; the tenths in the remarks are preferred to it.
///
/// *Source*: WMO-No. 306, vol. I.1, FM 15; tenths FMH-1 12.7.2 d. *Errors*: a report without a readable station and
/// time. Anything else that is missing is left out and noted in `notes`.
///
/// ```
/// let report = coldsoak::weather::metar::parse_report(
///     "KMMH 111435Z AUTO 33004KT 10SM SCT080 M05/M07 A3031 RMK AO2 T10531075",
/// )?;
/// assert_eq!((report.temp_c, report.dew_point_c), (Some(-5.3), Some(-7.5)));
/// # Ok::<(), coldsoak::weather::metar::ReportError>(())
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
    let error = |line, message: String| Err(ReportError { line, message });
    let mut left = groups.iter().copied().peekable();
    let kind = left.peek().and_then(|name| match name.text {
        "METAR" => Some(Kind::Metar),
        "SPECI" => Some(Kind::Speci),
        _ => None,
    });
    let mut report = Report {
        kind,
        ..Report::default()
    };
    left.next_if(|_| report.kind.is_some());
    report.corrected = left.next_if(|g| is_correction(g.text)).is_some();
    let Some(Group {
        line,
        text: station,
    }) = left.next()
    else {
        let begin = "one begins like \"METAR KMMH 111435Z\" (the code name may be left out)";
        return error(first_line, format!("there is no report here; {begin}"));
    };
    if station == "TAF" {
        let read = "only observed weather (METAR, SPECI) is read";
        return error(line, format!("`TAF` begins a forecast; {read}"));
    }
    if !groups::is_station(station) {
        let right = "a station is a letter and three letters or digits, as in \"KMMH\"";
        return error(
            line,
            format!("`{station}` stands where the station should; {right}"),
        );
    }
    report.station = station.to_owned();
    let form = "day, hour and minute UTC, as in \"111435Z\"";
    let Some(Group { line, text: time }) = left.next() else {
        let message =
            format!("the report of {station} has no time; after the station comes {form}");
        return error(first_line, message);
    };
    match groups::time(time) {
        Ok(time) => [report.day, report.hour, report.minute] = time,
        Err(why) => {
            let message = format!("`{time}` stands where the time should: {why}; a time is {form}");
            return error(line, message);
        }
    }
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
    /// Station and time as they were written, such as `KMMH 111435Z`.
    pub fn heading(&self) -> String {
        format!("{} {}", self.station, self.time_group())
    }

    /// The time as it was written, such as `111435Z`.
    pub fn time_group(&self) -> String {
        format!("{:02}{:02}{:02}Z", self.day, self.hour, self.minute)
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
    fn what_stands_before_the_wind_is_read() {
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
    fn an_unreadable_report_names_line_group_and_remedy() {
        let error = |text| parse_report(text).unwrap_err().to_string();
        assert_eq!(
            error("METAR\nKMMH\n111435"),
            "line 3: `111435` stands where the time should: its Z is missing; a time is day, hour and minute UTC, as in \"111435Z\""
        );
        assert!(
            error("METAR KM 111435Z").starts_with("line 1: `KM` stands where the station should")
        );
        assert!(error("KMMH 321435Z").contains("the day is not 01 to 31"));
        assert!(error("KMMH 112435Z").contains("the hour is not 00 to 23"));
        assert!(error("KMMH 111460Z").contains("the minute is not 00 to 59"));
        assert!(error("KMMH").contains("has no time"));
        assert!(error("TAF KMMH 091720Z 0918/1018").contains("forecast"));
        assert!(error("").contains("there is no report"));
        assert!(error("KMMH ١١١٤٣٥Z").contains("six digits"));
    }
}
