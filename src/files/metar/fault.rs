//! What can be wrong with a report, or with a whole text of them: where, which group, why, and what would be right.

/// A report that cannot be read, and the line it stands on.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("line {line}: {fault}")]
pub struct ReportError {
    /// The line, counted from 1 in the text that was given.
    pub line: usize,
    /// What is wrong.
    pub fault: Fault,
}

/// Why a report cannot be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// The date before the report is of another day.
    #[error("the date {date} stands before `{group}`, which is another day")]
    OtherDay {
        /// The date.
        date: String,
        /// The time group.
        group: String,
    },
    /// No group at all.
    #[error(
        "there is no report here; one begins like \"METAR KMMH 111435Z\" (the code name may be left out)"
    )]
    Empty,
    /// A forecast, which tells no observed weather.
    #[error("`TAF` begins a forecast; only observed weather (METAR, SPECI) is read")]
    Forecast,
    /// The group where the station should stand is none.
    #[error(
        "`{group}` stands where the station should; a station is a letter and three letters or digits, as in \"KMMH\""
    )]
    Station {
        /// The group as written.
        group: String,
    },
    /// The report ends before its time.
    #[error(
        "the report of {station} has no time; after the station comes day, hour and minute UTC, as in \"111435Z\""
    )]
    NoTime {
        /// The station.
        station: String,
    },
    /// The group where the time should stand is none.
    #[error(
        "`{group}` stands where the time should: {why}; a time is day, hour and minute UTC, as in \"111435Z\""
    )]
    Time {
        /// The group as written.
        group: String,
        /// What is wrong with it.
        why: &'static str,
    },
}

/// Why a text of reports gives no weather record.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum MetarError {
    /// The text has no report.
    #[error("there is no report in the text; write one METAR a line, or end each with `=`")]
    Empty,
    /// No month was given, and a report has no date before it.
    #[error(
        "line {line}: `{group}` tells the day of the month only; give the year and month of the last report"
    )]
    NoMonth {
        /// The line.
        line: usize,
        /// The time group.
        group: String,
    },
    /// Not one report could be read.
    #[error("none of the {reports} reports can be read; the first fault is on {first}")]
    Unreadable {
        /// How many were tried.
        reports: usize,
        /// What is wrong with the first.
        first: ReportError,
    },
    /// The month the caller gave is none.
    #[error("{year}-{month:02} is no month; give the year and month (1 to 12) of the last report")]
    Month {
        /// The year given.
        year: i32,
        /// The month given.
        month: u8,
    },
    /// Reports of several stations and no choice among them.
    #[error("the text has reports of {}; choose one station", .found.join(", "))]
    Choose {
        /// The stations, in alphabetical order.
        found: Vec<String>,
    },
    /// The chosen station has no report.
    #[error("no report is from `{wanted}`; the text has reports of {}", .found.join(", "))]
    Absent {
        /// The station asked for.
        wanted: String,
        /// The stations there are, in alphabetical order.
        found: Vec<String>,
    },
    /// A day the month does not have.
    #[error(
        "line {line}: `{group}` names day {day}, which {year}-{month:02} does not have; give the year and month of the last report"
    )]
    Day {
        /// The line.
        line: usize,
        /// The time group.
        group: String,
        /// The day.
        day: u8,
        /// The year it was taken to lie in.
        year: i32,
        /// The month it was taken to lie in.
        month: u8,
    },
    /// Reports, but none with temperature, dew point and wind.
    #[error(
        "none of the {reports} reports of {station} has temperature, dew point and wind, as in \"33004KT ... M05/M07\"; the first: {first}"
    )]
    NoReading {
        /// The station.
        station: String,
        /// How many reports it has.
        reports: usize,
        /// What was missing in the first.
        first: String,
    },
}
