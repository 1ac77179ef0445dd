//! What was found odd in the reports: told, never mended in silence.

use super::fault::Fault;
use crate::scenario::weather::LONGEST_GAP_S;
use std::fmt;

/// Readings farther apart than this leave a gap worth telling, in minutes: routine reports come every 30 or 60.
const LONGEST_STEP_MIN: f64 = 90.0;
/// A reading warmer or colder than both neighbours by more than this is a spike, in kelvin (an estimate: in an hour
/// the air may change so, but not there and back).
const SPIKE_K: f64 = 8.0;
/// Neighbours farther away than this say nothing about a spike, in minutes.
const NEIGHBOUR_MIN: f64 = 180.0;

/// Something odd and the line of its report.
#[derive(Debug, Clone, PartialEq)]
pub struct Note {
    /// The line the report begins on, counted from 1.
    pub line: usize,
    /// The report as station and time group, such as `KMMH 111435Z`; nothing if it could not be read.
    pub report: String,
    /// When it was made, in seconds since 1970 UTC, where that is known.
    pub unix_s: Option<f64>,
    /// What is odd.
    pub oddity: Oddity,
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}: ", self.line)?;
        if !self.report.is_empty() {
            write!(f, "{}: ", self.report)?;
        }
        write!(f, "{}", self.oddity)
    }
}

/// What can be odd about a report, alone or among its neighbours.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Oddity {
    /// The report cannot be read and is left out.
    #[error("left out, it cannot be read: {0}")]
    Unreadable(Fault),
    /// The station sent word that there is no report; left out of a record.
    #[error("no observation was made (NIL)")]
    Nil,
    /// No temperature; left out of a record.
    #[error("no temperature{}", instead(.group, "M05/M07"))]
    NoTemperature {
        /// A group that may have been meant as one.
        group: Option<String>,
    },
    /// No dew point; left out of a record.
    #[error("no dew point")]
    NoDewPoint,
    /// No wind speed; left out of a record.
    #[error("no wind speed{}", instead(.group, "33004KT"))]
    NoWind {
        /// A group that may have been meant as one.
        group: Option<String>,
    },
    /// A wind of at least so much, taken as just so much.
    #[error("`{group}` tells a wind of at least so much; it is taken as just so much")]
    AtLeast {
        /// The wind group.
        group: String,
    },
    /// A pressure group whose number is none; no pressure is taken.
    #[error(
        "`{group}` is no pressure: after Q comes hPa (0 or 1 first), after A hundredths of an inch of mercury (2 or 3 first)"
    )]
    Pressure {
        /// The group.
        group: String,
    },
    /// The temperature stands behind the pressure, where it should not; it is taken.
    #[error("`{group}` stands after the pressure; it is taken as the temperature all the same")]
    OutOfOrder {
        /// The temperature group.
        group: String,
    },
    /// The tenths in the remarks do not round to the whole degrees in the body; the tenths are taken.
    #[error("the remarks say {tenths_c} °C, the body {body_c} °C; the remarks are taken")]
    TenthsDisagree {
        /// From the remarks, °C.
        tenths_c: f64,
        /// From the body, °C.
        body_c: f64,
    },
    /// A dew point above the temperature: the air over-saturated over water; both are taken as written.
    #[error("the dew point {dew_point_c} °C is above the temperature {temp_c} °C")]
    DewPointAbove {
        /// The temperature, °C.
        temp_c: f64,
        /// The dew point, °C.
        dew_point_c: f64,
    },
    /// A temperature and a dew point that cannot both be true; left out of a record.
    #[error("{temp_c} °C with a dew point of {dew_point_c} °C cannot be true")]
    CannotBe {
        /// The temperature, °C.
        temp_c: f64,
        /// The dew point, °C.
        dew_point_c: f64,
    },
    /// The station marks itself as in need of maintenance (`$`).
    #[error("the station asks for maintenance (`$`)")]
    Maintenance,
    /// The same report again.
    #[error("a repetition of the report on line {kept}, left out")]
    Repeated {
        /// The line of the report that is taken.
        kept: usize,
    },
    /// Another report of the same minute takes its place.
    #[error("replaced by the report of the same minute on line {kept}, {}", why(*.corrected))]
    Replaced {
        /// The line of the report that is taken.
        kept: usize,
        /// Whether that one is a correction, or comes later in the text, or has an observation where this has none.
        corrected: bool,
    },
    /// The day was taken to belong to the month before the caller's.
    #[error("day {day} is taken to be of {year}-{month:02}, the month before the last report's")]
    MonthBefore {
        /// The day.
        day: u8,
        /// The year it is taken to lie in.
        year: i32,
        /// The month it is taken to lie in.
        month: u8,
    },
    /// A long time without a reading before this one.
    #[error("{minutes:.0} minutes after the reading before it; {}", bridged(*minutes))]
    Gap {
        /// The minutes between them.
        minutes: f64,
    },
    /// A temperature far from both neighbours, on the same side of both; it is kept.
    #[error("{temp_c} °C between {before_c} °C and {after_c} °C: a spike, kept as it stands")]
    Spike {
        /// This temperature, °C.
        temp_c: f64,
        /// The one before, °C.
        before_c: f64,
        /// The one after, °C.
        after_c: f64,
    },
}

impl Oddity {
    /// Whether it keeps a report out of the record.
    pub fn leaves_out(&self) -> bool {
        matches!(
            self,
            Self::Unreadable(_)
                | Self::Nil
                | Self::NoTemperature { .. }
                | Self::NoDewPoint
                | Self::NoWind { .. }
                | Self::CannotBe { .. }
                | Self::Repeated { .. }
                | Self::Replaced { .. }
        )
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

fn why(corrected: bool) -> &'static str {
    if corrected {
        "which is a correction"
    } else {
        "which comes later or tells more"
    }
}

/// What is odd in a course of temperatures (seconds since 1970, °C; in order of time), each with its place there.
pub fn odd_courses(course: &[(f64, f64)]) -> Vec<(usize, Oddity)> {
    let minutes = |a: &(f64, f64), b: &(f64, f64)| (b.0 - a.0) / 60.0;
    let gaps = course.windows(2).enumerate().filter_map(|(at, pair)| {
        let [before, after] = pair else { return None };
        let minutes = minutes(before, after);
        (minutes > LONGEST_STEP_MIN).then_some((at + 1, Oddity::Gap { minutes }))
    });
    let spikes = course.windows(3).enumerate().filter_map(|(at, three)| {
        let [before, here, after] = three else {
            return None;
        };
        let near = minutes(before, here) <= NEIGHBOUR_MIN && minutes(here, after) <= NEIGHBOUR_MIN;
        let (up, down) = (here.1 - before.1, here.1 - after.1);
        let spike = up.min(down) > SPIKE_K || up.max(down) < -SPIKE_K;
        (near && spike).then_some((
            at + 1,
            Oddity::Spike {
                temp_c: here.1,
                before_c: before.1,
                after_c: after.1,
            },
        ))
    });
    gaps.chain(spikes).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn course(minutes_and_temps: &[(f64, f64)]) -> Vec<(f64, f64)> {
        minutes_and_temps
            .iter()
            .map(|&(m, t)| (m * 60.0, t))
            .collect()
    }

    #[test]
    fn ninety_minutes_are_no_gap_and_ninety_one_are() {
        let c = course(&[(0.0, -5.0), (90.0, -5.0), (181.0, -5.0)]);
        assert_eq!(odd_courses(&c), [(2, Oddity::Gap { minutes: 91.0 })]);
    }

    /// As in a genuine archive: 13.1 °F in an hour between 57.0 and 57.2 °F.
    #[test]
    fn a_lone_cold_hour_is_a_spike_and_a_front_is_none() {
        let c = course(&[(0.0, 13.9), (60.0, -10.5), (120.0, 14.0)]);
        let spike = Oddity::Spike {
            temp_c: -10.5,
            before_c: 13.9,
            after_c: 14.0,
        };
        assert_eq!(odd_courses(&c), [(1, spike)]);
        let front = course(&[(0.0, 10.0), (60.0, 0.0), (120.0, -10.0)]);
        assert_eq!(odd_courses(&front), []);
        let eight = course(&[(0.0, 0.0), (60.0, 8.0), (120.0, 0.0)]);
        assert_eq!(odd_courses(&eight), []);
    }

    #[test]
    fn noon_between_two_midnights_is_no_spike() {
        let c = course(&[(0.0, -10.0), (720.0, 2.0), (1440.0, -10.0)]);
        let found = odd_courses(&c);
        assert!(
            found
                .iter()
                .all(|(_, odd)| matches!(odd, Oddity::Gap { .. })),
            "{found:?}"
        );
    }
}
