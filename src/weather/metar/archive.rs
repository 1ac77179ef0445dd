//! An archive of several months: reports give the day of the month only, and the order of the lines gives the months.

use super::calendar::Calendar;
use crate::weather::error::WeatherError;
use crate::weather::options::{Month, WeatherOptions};

/// How the month is given.
pub const GIVE_MONTH: &str = "give the year and month of the last report: month: \"2018-01\" in the night's reports(...), --month \
2018-01 on the command line";

/// The month of each report without a date in a file that runs over several months; none in one that does not.
///
/// *Errors*: several months and no month given for the last; days that are two months or two pieces of one.
pub fn months(days: &[i8], options: &WeatherOptions) -> Result<Vec<Month>, WeatherError> {
    let back = |from: Month, months: u16| {
        (0..months).fold(from, |month, _| month.before().unwrap_or(month))
    };
    match run_of(days) {
        Run::Short => Ok(Vec::new()),
        Run::Either(first, last) => {
            let message = format!(
                "the reports give no month, and their days run from {first} to {last}, then {}: that is two months in a row, or one \
month in two pieces",
                days.iter()
                    .find(|day| (**day - last).abs() >= 15)
                    .copied()
                    .unwrap_or(1),
            );
            Err(WeatherError::new(message).key("month").suggest(
                "put the lines in the order of their times if it is one month; a file for each month, or a date before each report, if it is two",
            ))
        }
        Run::Months(months) => match options.month {
            Some(last) => Ok(months.iter().map(|&n| back(last, n)).collect()),
            None => {
                let count = months.iter().max().copied().unwrap_or(0);
                let night = options.night.and_then(|(_, end)| Month::of(end));
                let readings = night.map(|night| {
                    let first = back(night, count);
                    format!(
                        ": {first} to {night} if the last is of the night's month, later if an earlier one is"
                    )
                });
                let message = format!(
                    "the reports give no month and run over {} months{}",
                    count + 1,
                    readings.unwrap_or_default()
                );
                Err(WeatherError::new(message).key("month").suggest(GIVE_MONTH))
            }
        },
    }
}

/// The day falls or rises by so much from one report to the next where a month ends.
const WRAP_DAYS: i8 = 15;

/// What the order of the reports says of their months.
#[derive(Debug, Clone, PartialEq)]
enum Run {
    /// One month, or two with a pause between them: [`Calendar`] knows which.
    Short,
    /// So many months before the last one, of each report.
    Months(Vec<u16>),
    /// Two months in order, or the days of one in two pieces, the first of which has these days.
    Either(i8, i8),
}

/// What the order of reports of these days says of their months: oldest first or newest first, and several months if a day
/// comes again after the month has ended.
fn run_of(days: &[i8]) -> Run {
    let pairs = || days.windows(2).map(|pair| pair[1] - pair[0]);
    let falls = pairs().filter(|step| *step <= -WRAP_DAYS).count();
    let rises = pairs().filter(|step| *step >= WRAP_DAYS).count();
    let (oldest_first, wraps) = match (falls, rises) {
        (0, 0) => return Run::Short,
        (falls, 0) => (true, falls),
        (0, rises) => (false, rises),
        _ => return Run::Short,
    };
    let mut month = 0;
    let mut months = vec![0];
    for step in pairs() {
        month += u16::from(step.abs() >= WRAP_DAYS);
        months.push(month);
    }
    let any = Month::of(0.0);
    let paused = any.is_some_and(|month| {
        let calendar = Calendar::new(month, days.iter().copied());
        days.iter().any(|&day| calendar.is_before(day))
    });
    if wraps == 1 && paused {
        return Run::Short;
    }
    let of = |n: u16| (days.iter().zip(&months)).filter(move |(_, m)| **m == n);
    let twice = of(0).any(|(day, _)| of(1).any(|(other, _)| other == day));
    if wraps == 1 && !twice {
        return Run::Either(days[0], of(0).next_back().map_or(days[0], |(day, _)| *day));
    }
    if oldest_first {
        for back in &mut months {
            *back = month - *back;
        }
    }
    Run::Months(months)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn months_follow_from_the_order_of_the_reports() {
        let jan: Vec<i8> = (5..=31).collect();
        let (feb, mar): (Vec<i8>, Vec<i8>) = ((1..=28).collect(), (1..=9).collect());
        let quarter = [&jan[..], &feb, &mar].concat();
        let Run::Months(back) = run_of(&quarter) else {
            panic!("{:?}", run_of(&quarter));
        };
        assert_eq!((back[0], back[27], back[quarter.len() - 1]), (2, 1, 0));
        let newest_first: Vec<i8> = quarter.iter().rev().copied().collect();
        let Run::Months(back) = run_of(&newest_first) else {
            panic!("{:?}", run_of(&newest_first));
        };
        assert_eq!((back[0], back[9], back[quarter.len() - 1]), (0, 1, 2));
        assert_eq!(run_of(&jan), Run::Short);
        assert_eq!(run_of(&[30, 31, 1, 2]), Run::Short);
        // Two months without a day in common, or one in two pieces.
        let pieces: Vec<i8> = (15..=31).chain(1..=14).collect();
        assert_eq!(run_of(&pieces), Run::Either(15, 31));
        // In no order at all.
        assert_eq!(run_of(&[1, 28, 3, 30, 2, 29]), Run::Short);
    }
}
