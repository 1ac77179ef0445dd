//! The clock of a night: its beginning, its departure, and the seconds between its times.

use super::moment::instant;
use crate::document::model;
use jiff::civil::{Date, DateTime};
use jiff::tz::TimeZone;

pub use super::moment::{ClockTime, Moment};

/// The date that stands in where a night names none: its weather is steady, so any will do.
const ANY_DATE: Date = Date::constant(2000, 1, 15);

/// A night longer than this has days of its own, s.
const DAY_S: f64 = 86_400.0;

model! {
    /// When the night begins, when the aeroplane leaves, and by which clock.
    pub struct Clock {
        /// The first moment of the night.
        pub begin: Moment;
        /// When the engine is to be started: the first such time after the beginning, or the dated moment.
        pub departure: Moment, example("\"07:30\"");
        /// The IANA name of the local time zone, such as `America/New_York`. A steady night needs none (UTC serves);
        /// recorded weather does.
        pub zone: Option<String> = None;
    }
}

/// The zone of a night that names none: its weather is steady, so any without clock changes will do.
const ANY_ZONE: &str = "UTC";

/// What can be wrong with a clock.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ClockError {
    /// The zone is not in the time zone database.
    #[error(
        "`{0}` is not a time zone of the IANA database, such as \"America/New_York\" or \"UTC\""
    )]
    Zone(String),
    /// The departure does not come after the beginning.
    #[error("the departure {departure} does not come after the beginning {begin}")]
    Order {
        /// The beginning as written.
        begin: String,
        /// The departure as written.
        departure: String,
    },
}

/// A clock whose zone is known and whose order is right.
#[derive(Debug, Clone, PartialEq)]
pub struct NightClock {
    zone: TimeZone,
    begin: jiff::Timestamp,
    night_s: f64,
}

impl Clock {
    /// The clock with its zone looked up.
    ///
    /// *Errors*: an unknown zone, or a departure that does not come after the beginning.
    pub fn resolve(&self) -> Result<NightClock, ClockError> {
        let name = self.zone.as_deref().unwrap_or(ANY_ZONE);
        let zone = TimeZone::get(name).map_err(|_| ClockError::Zone(name.to_owned()))?;
        let begin = self
            .begin
            .date
            .unwrap_or(ANY_DATE)
            .to_datetime(self.begin.time.0);
        let departure = match self.departure.date {
            Some(date) => date.to_datetime(self.departure.time.0),
            None => first_after(begin, self.departure.time),
        };
        let order = || ClockError::Order {
            begin: self.begin.into(),
            departure: self.departure.into(),
        };
        let begin = instant(&zone, begin).ok_or_else(order)?;
        let departure = instant(&zone, departure).ok_or_else(order)?;
        let night_s = departure.duration_since(begin).as_secs_f64();
        if night_s <= 0.0 {
            return Err(order());
        }
        Ok(NightClock {
            zone,
            begin,
            night_s,
        })
    }
}

/// The first local moment at this time of day that comes after `begin`.
fn first_after(begin: DateTime, time: ClockTime) -> DateTime {
    let today = begin.date().to_datetime(time.0);
    if today > begin {
        today
    } else {
        begin
            .date()
            .tomorrow()
            .map_or(today, |date| date.to_datetime(time.0))
    }
}

impl NightClock {
    /// Seconds from the beginning to the departure.
    pub fn night_s(&self) -> f64 {
        self.night_s
    }
    /// The beginning, in seconds since 1970 UTC.
    pub fn begin_unix_s(&self) -> f64 {
        self.begin.as_second() as f64
    }
    /// Seconds from the beginning to the first such time of day not before it.
    pub fn seconds_until(&self, time: ClockTime) -> f64 {
        let begin = self.begin.to_zoned_datetime(self.zone.clone()).datetime();
        if begin.time() == time.0 {
            return 0.0;
        }
        instant(&self.zone, first_after(begin, time))
            .map_or(0.0, |at| at.duration_since(self.begin).as_secs_f64())
    }
    /// Seconds from the beginning to a dated moment, negative before it; to the first such time of day without a date.
    pub fn seconds_to(&self, moment: &Moment) -> f64 {
        let dated = moment.unix_s(&self.zone);
        dated.map_or_else(
            || self.seconds_until(moment.time),
            |unix_s| unix_s - self.begin_unix_s(),
        )
    }
    /// Seconds from the beginning to a time of one of its days, the first of which is 1; negative before the beginning.
    pub fn seconds_on_day(&self, day: u16, time: ClockTime) -> f64 {
        let first = self.begin.to_zoned_datetime(self.zone.clone()).date();
        let date = first.saturating_add(jiff::Span::new().days(i64::from(day) - 1));
        let date = Some(date);
        self.seconds_to(&Moment { date, time })
    }
    /// The local clock at so many seconds after the beginning: `06:30`, with `+1` for each midnight passed
    /// left to the reader.
    pub fn to_text(&self, seconds: f64) -> String {
        let at = self.begin + jiff::SignedDuration::from_secs(seconds.round() as i64);
        let local = at.to_zoned_datetime(self.zone.clone()).datetime();
        format!("{:02}:{:02}", local.hour(), local.minute())
    }
    /// The same as a time of day.
    pub fn time_of_day(&self, seconds: f64) -> Option<ClockTime> {
        ClockTime::try_from(self.to_text(seconds)).ok()
    }
    /// The same, after the day where the night is longer than one: `day 2, 06:30`.
    pub fn dated(&self, seconds: f64) -> String {
        let shown = self.to_text(seconds);
        if self.night_s <= DAY_S {
            return shown;
        }
        let date = |at: jiff::Timestamp| at.to_zoned_datetime(self.zone.clone()).date();
        let at = self.begin + jiff::SignedDuration::from_secs(seconds.round() as i64);
        let days = date(at).duration_since(date(self.begin)).as_hours() / 24;
        format!("day {}, {shown}", days + 1)
    }
    /// The local hour of day at the beginning, with its fraction: 19.5 for half past seven in the evening.
    pub fn begin_hour(&self) -> f64 {
        let t = self
            .begin
            .to_zoned_datetime(self.zone.clone())
            .datetime()
            .time();
        f64::from(t.hour()) + f64::from(t.minute()) / 60.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn clock(begin: &str, departure: &str, zone: &str) -> NightClock {
        Clock {
            begin: Moment::try_from(begin.to_owned()).unwrap(),
            departure: Moment::try_from(departure.to_owned()).unwrap(),
            zone: Some(zone.to_owned()),
        }
        .resolve()
        .unwrap()
    }

    #[test]
    fn a_night_runs_from_evening_to_morning() {
        let c = clock("19:00", "07:30", "UTC");
        assert_eq!(c.night_s(), 12.5 * 3600.0);
        let time = |t: &str| ClockTime::try_from(t.to_owned()).unwrap();
        assert_eq!(c.seconds_until(time("06:30")), 11.5 * 3600.0);
        assert_eq!(c.seconds_until(time("19:00")), 0.0);
        assert_eq!(c.to_text(11.5 * 3600.0), "06:30");
        assert_eq!(c.dated(11.5 * 3600.0), "06:30");
    }

    #[test]
    fn a_night_longer_than_a_day_counts_its_days() {
        let c = clock("2025-01-10 18:00", "2025-01-13 18:00", "America/Chicago");
        let shown = [0.0, 5.99, 6.0, 72.0].map(|h| c.dated(h * 3600.0));
        assert_eq!(
            shown,
            [
                "day 1, 18:00",
                "day 1, 23:59",
                "day 2, 00:00",
                "day 4, 18:00"
            ]
        );
    }

    /// 10 March 2024: New York clocks went from 02:00 to 03:00 (US Energy Policy Act of 2005).
    #[test]
    fn a_night_with_a_clock_change_is_an_hour_shorter() {
        let c = clock("2024-03-09 20:00", "2024-03-10 08:00", "America/New_York");
        assert_eq!(c.night_s(), 11.0 * 3600.0);
    }
}
