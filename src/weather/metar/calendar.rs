//! Which month a day belongs to: a report gives the day of the month only, and a night may cross into a new month.
//!
//! The caller's month is that of the last report. If the days of the reports leave out more than
//! [`LONGEST_PAUSE_DAYS`] days in a row, those after the widest such pause belong to the month before: of
//! 30, 31, 1, 2 the first two. Otherwise all are of the caller's month. A batch that crosses into a new month must
//! therefore be shorter than three weeks or so, and one without a crossing must not pause for so long.

use crate::weather::options::Month;

/// The longest run of days without a report within one month.
const LONGEST_PAUSE_DAYS: i8 = 10;

/// A month, and which days belong to the month before.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Calendar {
    month: Month,
    /// Days after this one are of the month before.
    last_day: i8,
}

impl Calendar {
    /// The calendar for reports of these days, the last of them in this month.
    pub fn new(month: Month, days: impl Iterator<Item = i8>) -> Self {
        let mut days: Vec<i8> = days.collect();
        days.sort_unstable();
        let pauses = days.windows(2).map(|pair| (pair[1] - pair[0] - 1, pair[0]));
        let longest = pauses
            .filter(|(pause, _)| *pause > LONGEST_PAUSE_DAYS)
            .max();
        Self {
            month,
            last_day: longest.map_or(31, |(_, before)| before),
        }
    }

    /// Whether this day is of the month before.
    pub fn is_before(self, day: i8) -> bool {
        day > self.last_day
    }

    /// The month that this day lies in.
    pub fn month_of(self, day: i8) -> Month {
        let before = self.is_before(day).then(|| self.month.before());
        before.flatten().unwrap_or(self.month)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn months(month: &str, days: &[i8]) -> Vec<String> {
        let calendar = Calendar::new(month.parse().unwrap(), days.iter().copied());
        days.iter()
            .map(|&day| calendar.month_of(day).to_string())
            .collect()
    }

    #[test]
    fn days_far_above_the_rest_are_of_the_month_before() {
        assert_eq!(
            months("2018-02", &[30, 31, 1, 2]),
            ["2018-01", "2018-01", "2018-02", "2018-02"]
        );
        assert_eq!(months("2018-01", &[1, 31]), ["2018-01", "2017-12"]);
        assert_eq!(months("2018-03", &[1, 28]), ["2018-03", "2018-02"]);
    }

    #[test]
    fn a_month_with_days_left_out_stays_one_month() {
        let days: Vec<i8> = (1..=31).filter(|day| ![2, 3, 17].contains(day)).collect();
        assert!(months("2018-03", &days).iter().all(|at| at == "2018-03"));
        assert_eq!(months("2018-01", &[9, 20]), ["2018-01", "2018-01"]);
        assert_eq!(months("2018-01", &[31]), ["2018-01"]);
    }

    #[test]
    fn a_month_has_its_own_days_only() {
        let day = |month: &str, day| month.parse::<Month>().unwrap().day(day);
        assert_eq!(day("2018-02", 30), None);
        assert_eq!(day("2018-02", 28).unwrap().to_string(), "2018-02-28");
        assert!("2018-13".parse::<Month>().is_err() && "2018-00".parse::<Month>().is_err());
        // The earliest month there is has none before it.
        assert_eq!("-009999-01".parse::<Month>().unwrap().before(), None);
    }
}
