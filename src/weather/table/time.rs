//! Times as tables write them: in UTC, with their offset, or by a local clock; which of them is never guessed.

use jiff::civil::{Date, DateTime, Time};
use jiff::tz::Offset;

/// A time as it was written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Written {
    /// With its offset or zone: seconds since 1970 UTC.
    Instant(f64),
    /// By a clock that is not named.
    Clock(DateTime),
}

/// Which comes first in a date such as 02/03/2018.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Order {
    /// The month.
    MonthFirst,
    /// The day.
    DayFirst,
}

/// The order that a column of dates proves, by a number above 12; an error if it has such dates and none proves it.
///
/// *Errors*: the first date that may be read in two ways.
pub fn order<'a>(times: impl Iterator<Item = &'a str>) -> Result<Order, &'a str> {
    let mut unproven = None;
    for time in times {
        let date = time.trim().split([' ', 'T']).next().unwrap_or("");
        let Some((first, second)) = two_numbers(date) else {
            continue;
        };
        if first > 12 {
            return Ok(Order::DayFirst);
        }
        if second > 12 {
            return Ok(Order::MonthFirst);
        }
        unproven.get_or_insert(time);
    }
    unproven.map_or(Ok(Order::DayFirst), Err)
}

/// The first two numbers of a date with its year last; with dots the day comes first, which is certain.
fn two_numbers(date: &str) -> Option<(u32, u32)> {
    let mut parts = date.split(['/', '-']);
    let (first, second, year) = (parts.next()?, parts.next()?, parts.next()?);
    if year.len() < 4 {
        return None;
    }
    Some((first.parse().ok()?, second.parse().ok()?))
}

/// Reads a time.
///
/// *Errors*: that it is none, and what would be right.
pub fn parse(text: &str, order: Order) -> Result<Written, &'static str> {
    let text = text.trim();
    let wrong = || "no date and time; write it as in 2018-01-09T22:35Z or 2018-01-09 15:35-07:00";
    // A zone in brackets behind the offset says nothing that the offset does not.
    let (clock, offset) = offset(text.split('[').next().unwrap_or(text));
    let clock = date_time(clock.trim(), order).ok_or_else(wrong)?;
    match offset {
        Some(offset) => {
            let at = offset.to_timestamp(clock).map_err(|_| wrong())?;
            Ok(Written::Instant(at.as_second() as f64))
        }
        None => Ok(Written::Clock(clock)),
    }
}

/// A time without its offset, and the offset.
fn offset(text: &str) -> (&str, Option<Offset>) {
    for word in ["Z", "z", "UTC", "GMT", "utc", "gmt"] {
        if let Some(rest) = text.strip_suffix(word) {
            return (rest, Some(Offset::UTC));
        }
    }
    let Some(at) = text
        .rfind(['+', '-'])
        .filter(|&at| text[..at].contains(':'))
    else {
        return (text, None);
    };
    let digits = text[at + 1..].replace(':', "");
    let minutes = match (digits.len(), digits.parse::<i32>()) {
        (2, Ok(hours)) => hours * 60,
        (4, Ok(number)) => number / 100 * 60 + number % 100,
        _ => return (text, None),
    };
    let sign = if text[at..].starts_with('-') { -1 } else { 1 };
    match Offset::from_seconds(sign * minutes * 60) {
        Ok(offset) => (&text[..at], Some(offset)),
        Err(_) => (text, None),
    }
}

fn date_time(text: &str, order: Order) -> Option<DateTime> {
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    if digits == text.len() && [12, 14].contains(&digits) {
        let form = if digits == 12 {
            "%Y%m%d%H%M"
        } else {
            "%Y%m%d%H%M%S"
        };
        return DateTime::strptime(form, text).ok();
    }
    let (day, time) = text.split_once(['T', ' '])?;
    at(date(day.trim_end_matches(','), order)?, time.trim())
}

fn date(text: &str, order: Order) -> Option<Date> {
    let parts: Vec<&str> = text.split(['-', '/', '.']).collect();
    let [a, b, c] = parts[..] else { return None };
    let (year, month, day) = match order {
        _ if a.len() == 4 => (a, b, c),
        _ if c.len() != 4 => return None,
        _ if text.contains('.') => (c, b, a),
        Order::DayFirst => (c, b, a),
        Order::MonthFirst => (c, a, b),
    };
    Date::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?).ok()
}

/// The time of day of a date: `22:35`, `22:35:00`, `10:35 PM`, `24:00`.
fn at(date: Date, text: &str) -> Option<DateTime> {
    let upper = text.to_ascii_uppercase();
    let (plain, half) = match (upper.strip_suffix("AM"), upper.strip_suffix("PM")) {
        (Some(plain), _) => (plain, Some(0)),
        (_, Some(plain)) => (plain, Some(12)),
        _ => (upper.as_str(), None),
    };
    let mut parts = plain.trim().split(':');
    let hour: i8 = parts.next()?.parse().ok()?;
    let minute: i8 = parts.next()?.parse().ok()?;
    let second = match parts.next() {
        Some(second) => second.split('.').next()?.parse().ok()?,
        None => 0,
    };
    if parts.next().is_some() {
        return None;
    }
    if (hour, minute, second, half) == (24, 0, 0, None) {
        return Some(date.tomorrow().ok()?.to_datetime(Time::midnight()));
    }
    let hour = match half {
        Some(half) if (1..=12).contains(&hour) => hour % 12 + half,
        Some(_) => return None,
        None => hour,
    };
    Some(date.to_datetime(Time::new(hour, minute, second, 0).ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 9 January 2018 22:35 UTC: 48 years with 12 leap days, eight days, 1355 minutes after 1970.
    const AT_S: f64 = ((48 * 365 + 12 + 8) * 86_400 + 1355 * 60) as f64;

    #[test]
    fn an_offset_makes_an_instant() {
        for text in [
            "2018-01-09T22:35Z",
            "2018-01-09 22:35:00Z",
            "2018-01-09 22:35 UTC",
            "2018-01-09T15:35-07:00",
            "2018-01-09 15:35:00.5-0700",
            "2018-01-09T23:35+01",
            "201801092235Z",
            "2018-01-09T15:35:00-07:00[America/Denver]",
        ] {
            assert_eq!(
                parse(text, Order::DayFirst),
                Ok(Written::Instant(AT_S)),
                "{text}"
            );
        }
    }

    #[test]
    fn a_clock_without_a_zone_is_left_to_the_user() {
        let clock: DateTime = "2018-01-09T22:35".parse().unwrap();
        for (text, order) in [
            ("2018-01-09 22:35", Order::DayFirst),
            ("2018/01/09 22:35:00", Order::DayFirst),
            ("09.01.2018 22:35", Order::MonthFirst),
            ("01/09/2018 10:35 PM", Order::MonthFirst),
            ("9/1/2018 22:35", Order::DayFirst),
            ("201801092235", Order::DayFirst),
        ] {
            assert_eq!(parse(text, order), Ok(Written::Clock(clock)), "{text}");
        }
        let midnight: DateTime = "2018-01-10T00:00".parse().unwrap();
        assert_eq!(
            parse("2018-01-09 24:00", Order::DayFirst),
            Ok(Written::Clock(midnight))
        );
        for text in [
            "yesterday",
            "2018-01-09",
            "2018-13-09 10:00",
            "2018-01-09 25:00",
            "01/09/18 10:00",
            "",
            "2018-01-09 13:00 PM",
        ] {
            assert!(parse(text, Order::DayFirst).is_err(), "{text}");
        }
    }

    #[test]
    fn the_order_of_day_and_month_is_proved_or_refused() {
        assert_eq!(
            order(["01/09/2018 10:00", "01/13/2018 10:00"].into_iter()),
            Ok(Order::MonthFirst)
        );
        assert_eq!(order(["13/01/2018 10:00"].into_iter()), Ok(Order::DayFirst));
        assert_eq!(
            order(["01/09/2018 10:00"].into_iter()),
            Err("01/09/2018 10:00")
        );
        assert!(order(["2018-01-09 10:00", "09.01.2018 10:00"].into_iter()).is_ok());
    }
}
