//! Notes on a weather file: nothing in it is changed or skipped without one.

use super::options::Month;
use crate::scenario::weather::{LONGEST_GAP_S, utc};
use std::fmt;

/// What was done about what a note describes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoteKind {
    /// Something the file does not say was taken from elsewhere, or from its other lines.
    Assumed,
    /// A line was skipped.
    Skipped,
    /// A missing or disordered value was corrected.
    Corrected,
    /// It is odd, and was kept as it stands.
    Odd,
    /// A long time without readings.
    Gap,
    /// A column that the night does not use.
    Unused,
}

impl NoteKind {
    /// All of them, in the order in which they are shown.
    pub const ALL: [Self; 6] = [
        Self::Assumed,
        Self::Skipped,
        Self::Corrected,
        Self::Odd,
        Self::Gap,
        Self::Unused,
    ];
    /// Its name in output.
    pub fn word(self) -> &'static str {
        match self {
            Self::Assumed => "assumed",
            Self::Skipped => "skipped",
            Self::Corrected => "corrected",
            Self::Odd => "kept, but odd",
            Self::Gap => "gap",
            Self::Unused => "not used",
        }
    }
}

/// One note on a weather file.
#[derive(Debug, Clone, PartialEq)]
pub struct Note {
    /// The line, counted from 1; nothing if it is about the whole file.
    pub line: Option<usize>,
    /// Station and time group of the report, such as `KMMH 111435Z`.
    pub report: Option<String>,
    /// The moment, in seconds since 1970 UTC, if it is about one.
    pub unix_s: Option<f64>,
    /// What it is about.
    pub detail: Detail,
}

impl Note {
    /// What was done about it.
    pub fn kind(&self) -> NoteKind {
        self.detail.kind()
    }
}

/// A note on the whole file.
impl From<Detail> for Note {
    fn from(detail: Detail) -> Self {
        Self {
            line: None,
            report: None,
            unix_s: None,
            detail,
        }
    }
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(line) = self.line {
            write!(f, "line {line}: ")?;
        }
        match (&self.report, self.unix_s, self.kind()) {
            (Some(report), ..) => write!(f, "{report}: ")?,
            (None, Some(unix_s), NoteKind::Odd | NoteKind::Gap) => write!(f, "{}: ", utc(unix_s))?,
            _ => {}
        }
        write!(f, "{}", self.detail)
    }
}

/// What a note is about. The text of each follows line, report and time.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Detail {
    /// What only a night can say of the file.
    #[error("{0}")]
    NightMustSay(String),
    /// Reports without a month, taken to be of the night's.
    #[error("the reports name no month; the last is taken to be of {0}, the night's")]
    MonthOfNight(Month),
    /// A day taken to belong to the month before that of the last report.
    #[error("day {0} is taken to be of {1}, the month before the last report's")]
    MonthBefore(i8, Month),
    /// A table without wind: the wind of the night, m/s.
    #[error("no column holds the wind; {0:.1} m/s is taken, as the night says")]
    WindOfNight(f64),
    /// Times without an offset.
    #[error("times without an offset are taken by the clock of {0}")]
    ZoneOfNight(String),
    /// Two columns hold the same thing.
    #[error("{}", two_columns(.used, .unused))]
    TwoColumns {
        /// The column that is read: its number, from 1, and name.
        used: (usize, String),
        /// The column that is not.
        unused: (usize, String),
    },
    /// A humidity column without a unit.
    #[error("`{column}` names no unit; by its numbers it is in {}", if *.fraction { "parts of one" } else { "per cent" })]
    HumidityUnit {
        /// The column.
        column: String,
        /// In parts of one.
        fraction: bool,
    },
    /// The second of two equal clock times.
    #[error("the clocks were put back: this time occurs twice, and this is taken to be the second")]
    SecondOfTwo,
    /// A clock time that occurs twice, taken to be the first; and how many more lines are taken so.
    #[error(
        "the clocks were put back: this time occurs twice, and no line settles which it is; it is taken to be the \
         first{}. Write the offset after such times, as in 01:30-04:00", more(*.0)
    )]
    FirstOfTwo(usize),

    /// A report or a row that cannot be read, and why.
    #[error("cannot be read: {0}")]
    Unreadable(String),
    /// The station sent word that there is no report.
    #[error("no observation was made (NIL)")]
    Nil,
    /// No temperature, and a group that may have been meant as one.
    #[error("no temperature{}", instead(.0, "M05/M07"))]
    NoTemperature(Option<String>),
    /// No dew point.
    #[error("no dew point")]
    NoDewPoint,
    /// No wind speed, and a group that may have been meant as one.
    #[error("no wind speed{}", instead(.0, "33004KT"))]
    NoWind(Option<String>),
    /// No time.
    #[error("no time")]
    NoTime,
    /// An empty cell of this column.
    #[error("`{0}` is missing")]
    Missing(String),
    /// A cell that cannot be true, and why.
    #[error("{0}")]
    Impossible(String),
    /// A temperature and a dew point, °C, that cannot both be true.
    #[error("{0:.1} °C with a dew point of {1:.1} °C cannot be true")]
    ImpossibleDewPoint(f64, f64),
    /// The same again on this line.
    #[error("a repetition of line {0}")]
    Repeated(usize),
    /// Another line of the same minute takes its place.
    #[error("replaced by line {kept} of the same minute, which {}", if *.correction { "is a correction" } else { "comes later or says more" })]
    Replaced {
        /// The line that is kept.
        kept: usize,
        /// It is marked as a correction.
        correction: bool,
    },

    /// The lines were not in order of time.
    #[error("the lines were not in order of time and were sorted")]
    Sorted,
    /// The newest line came first.
    #[error("the lines stand newest first and were reversed")]
    Reversed,
    /// A humidity above saturation: the cell and its column.
    #[error("the humidity `{0}` in `{1}` is above saturation, and is taken as just saturated")]
    AboveSaturation(String, String),
    /// A dew point, °C, computed from this column.
    #[error("the missing dew point is computed from `{0}`: {1:.1} °C")]
    DewPointFrom(String, f64),

    /// A wind of at least so much, taken as just so much.
    #[error("`{0}` is a wind of at least so much; it is taken as just so much")]
    AtLeast(String),
    /// A pressure group whose number is none; no pressure is taken.
    #[error(
        "`{0}` is no pressure: after Q comes hPa (0 or 1 first), after A hundredths of an inch of mercury (2 or 3 first)"
    )]
    Pressure(String),
    /// The temperature stands behind the pressure; it is taken.
    #[error("`{0}` stands after the pressure; it is taken as the temperature all the same")]
    OutOfOrder(String),
    /// The tenths in the remarks do not round to the whole degrees in the body; the tenths are taken.
    #[error("the remarks say {tenths_c} °C, the body {body_c} °C; the remarks are taken")]
    TenthsDisagree {
        /// From the remarks, °C.
        tenths_c: f64,
        /// From the body, °C.
        body_c: f64,
    },
    /// A dew point above the temperature: air over-saturated over water; both are taken as written.
    #[error("the dew point {dew_point_c} °C is above the temperature {temp_c} °C")]
    DewPointAbove {
        /// The temperature, °C.
        temp_c: f64,
        /// The dew point, °C.
        dew_point_c: f64,
    },
    /// The station marks itself as in need of maintenance.
    #[error("the station reports that it needs maintenance (`$`)")]
    Maintenance,
    /// A temperature far from both neighbours, on the same side of both.
    #[error("{temp_c} °C between {before_c} °C and {after_c} °C: a spike, kept as it stands")]
    Spike {
        /// This temperature, °C.
        temp_c: f64,
        /// The one before, °C.
        before_c: f64,
        /// The one after, °C.
        after_c: f64,
    },

    /// A long time since the reading before this one.
    #[error("{minutes:.0} minutes after the reading before it; {}", bridged(*.minutes))]
    Gap {
        /// The minutes between them.
        minutes: f64,
    },

    /// Columns that are not used.
    #[error("the night does not use {0}")]
    NotUsed(String),
    /// A humidity beside a dew point.
    #[error("`{0}` is used only where the dew point is missing")]
    UsedIfMissing(String),
}

impl Detail {
    /// What was done about it.
    pub fn kind(&self) -> NoteKind {
        match self {
            Self::NightMustSay(_)
            | Self::MonthOfNight(_)
            | Self::MonthBefore(..)
            | Self::WindOfNight(_)
            | Self::ZoneOfNight(_)
            | Self::TwoColumns { .. }
            | Self::HumidityUnit { .. }
            | Self::SecondOfTwo
            | Self::FirstOfTwo(_) => NoteKind::Assumed,
            Self::Sorted | Self::Reversed | Self::AboveSaturation(..) | Self::DewPointFrom(..) => {
                NoteKind::Corrected
            }
            Self::AtLeast(_)
            | Self::Pressure(_)
            | Self::OutOfOrder(_)
            | Self::TenthsDisagree { .. }
            | Self::DewPointAbove { .. }
            | Self::Maintenance
            | Self::Spike { .. } => NoteKind::Odd,
            Self::Gap { .. } => NoteKind::Gap,
            Self::NotUsed(_) | Self::UsedIfMissing(_) => NoteKind::Unused,
            _ => NoteKind::Skipped,
        }
    }
}

fn two_columns((at, used): &(usize, String), (other, unused): &(usize, String)) -> String {
    if used == unused {
        format!("two columns are called `{used}`: column {at} is taken, and column {other} is not")
    } else {
        format!("`{used}` is taken, and `{unused}` is not")
    }
}

fn more(lines: usize) -> String {
    match lines {
        0 => String::new(),
        1 => ", and so is one more".to_owned(),
        n => format!(", and so are {n} more"),
    }
}

/// What a night makes of a gap.
fn bridged(minutes: f64) -> &'static str {
    if minutes * 60.0 <= LONGEST_GAP_S {
        "a straight line bridges the gap"
    } else {
        "nothing is put into the gap, and a night that lies in it is refused"
    }
}

fn instead(group: &Option<String>, right: &str) -> String {
    group.as_ref().map_or_else(String::new, |group| {
        format!(" (`{group}` is none; right would be \"{right}\")")
    })
}
