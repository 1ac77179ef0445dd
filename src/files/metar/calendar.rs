//! Which month a day belongs to: a report tells the day of the month only, and a night may cross into a new month.
//!
//! The caller's year and month are those of the last report. If the days of the reports leave out more than
//! [`LONGEST_PAUSE_DAYS`] days in a row, those after the widest such pause belong to the month before: of
//! 30, 31, 1, 2 the first two. Otherwise all are of the caller's month. A batch that crosses into a new month must
//! therefore be shorter than three weeks or so, and one without a crossing must not pause for so long.

use jiff::civil::Date;
use jiff::tz::Offset;

/// The longest run of days without a report within one month.
pub const LONGEST_PAUSE_DAYS: u8 = 10;

/// A year and month, and which days belong to the month before.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Calendar {
    year: i32,
    month: u8,
    /// Days after this one are of the month before.
    last_day: u8,
}

impl Calendar {
    /// The calendar for reports of these days, the last of them in this month; nothing if there is no such month.
    pub fn new(year: i32, month: u8, days: impl IntoIterator<Item = u8>) -> Option<Self> {
        date(year, month, 1)?;
        let mut days: Vec<u8> = days.into_iter().collect();
        days.sort_unstable();
        let pauses = days.windows(2).filter_map(|pair| {
            let [before, after] = pair else { return None };
            let pause = after.saturating_sub(*before).saturating_sub(1);
            (pause > LONGEST_PAUSE_DAYS).then_some((pause, *before))
        });
        Some(Self {
            year,
            month,
            last_day: pauses.max().map_or(31, |(_, before)| before),
        })
    }

    /// The year and month this day lies in, and whether that is the month before the caller's.
    pub fn month_of(self, day: u8) -> (i32, u8, bool) {
        if day <= self.last_day {
            (self.year, self.month, false)
        } else if self.month == 1 {
            (self.year - 1, 12, true)
        } else {
            (self.year, self.month - 1, true)
        }
    }

    /// Seconds from 1970 UTC to this day and time; nothing if the month has no such day.
    pub fn unix_s(self, day: u8, hour: u8, minute: u8) -> Option<f64> {
        let (year, month, _) = self.month_of(day);
        let (hour, minute) = (i8::try_from(hour).ok()?, i8::try_from(minute).ok()?);
        let time = jiff::civil::Time::new(hour, minute, 0, 0).ok()?;
        let at = Offset::UTC.to_timestamp(date(year, month, day)?.to_datetime(time));
        Some(at.ok()?.as_second() as f64)
    }
}

fn date(year: i32, month: u8, day: u8) -> Option<Date> {
    let (month, day) = (i8::try_from(month).ok()?, i8::try_from(day).ok()?);
    Date::new(i16::try_from(year).ok()?, month, day).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn months(year: i32, month: u8, days: &[u8]) -> Vec<(i32, u8)> {
        let calendar = Calendar::new(year, month, days.iter().copied()).unwrap();
        let month_of = |&day| calendar.month_of(day);
        days.iter().map(month_of).map(|(y, m, _)| (y, m)).collect()
    }

    #[test]
    fn days_far_above_the_rest_are_of_the_month_before() {
        assert_eq!(
            months(2018, 2, &[30, 31, 1, 2]),
            [(2018, 1), (2018, 1), (2018, 2), (2018, 2)]
        );
        assert_eq!(months(2018, 1, &[1, 31]), [(2018, 1), (2017, 12)]);
        assert_eq!(months(2018, 3, &[1, 28]), [(2018, 3), (2018, 2)]);
    }

    #[test]
    fn a_month_with_days_left_out_stays_one_month() {
        let days: Vec<u8> = (1..=31).filter(|day| ![2, 3, 17].contains(day)).collect();
        assert!(months(2018, 3, &days).iter().all(|&at| at == (2018, 3)));
        assert_eq!(months(2018, 1, &[9, 20]), [(2018, 1), (2018, 1)]);
        assert_eq!(months(2018, 1, &[31]), [(2018, 1)]);
    }

    /// 1 January 2018 00:00 UTC is 1514764800 s after 1970: 48 years of 365 days and 12 leap days.
    #[test]
    fn seconds_are_counted_from_1970() {
        let calendar = Calendar::new(2018, 1, [1, 31]).unwrap();
        let year_s = f64::from((48 * 365 + 12) * 86_400);
        assert_eq!(calendar.unix_s(1, 0, 0), Some(year_s));
        assert_eq!(calendar.unix_s(31, 23, 59), Some(year_s - 60.0));
    }

    #[test]
    fn days_and_months_that_are_not_are_refused() {
        assert_eq!(Calendar::new(2018, 2, [30]).unwrap().unix_s(30, 0, 0), None);
        assert_eq!(
            Calendar::new(2018, 3, [1, 29]).unwrap().unix_s(29, 0, 0),
            None
        );
        assert!(Calendar::new(2018, 13, []).is_none());
        assert!(Calendar::new(2018, 0, []).is_none());
        assert!(Calendar::new(i32::MAX, 1, []).is_none());
        // The earliest year there is has no year before it.
        assert_eq!(
            Calendar::new(-9999, 1, [1, 31]).unwrap().unix_s(31, 0, 0),
            None
        );
    }
}
