//! A time of a night as typed after a flag: `05:30` is the first such; `day 3, 05:30` or `2026-01-12 05:30` names the day.

use super::exit_code::Failure;
use super::flags::flag_error;
use crate::scenario::clock::{ClockTime, Moment, NightClock};

/// Seconds from the beginning of the night to the time after `--at`; to its departure where none is typed.
///
/// *Errors*: it is not a time, or lies outside the night, which is computed up to `end_s`.
pub fn at_seconds(typed: Option<&str>, clock: &NightClock, end_s: f64) -> Result<f64, Failure> {
    let Some(typed) = typed else {
        return Ok(clock.night_s());
    };
    let Some(at_s) = seconds(typed, clock) else {
        let hour = typed.trim().parse::<u8>().ok().filter(|hour| *hour < 24);
        let near = hour.map_or("05:30".to_owned(), |hour| format!("{hour:02}:00"));
        let message = format!("\"{typed}\" is not a clock time.");
        return Err(flag_error("--at", message, &format!("--at {near}")));
    };
    if (0.0..=end_s).contains(&at_s) {
        return Ok(at_s);
    }
    let message = format!(
        "{typed} is not within the night, which runs from {} to {}.",
        clock.dated(0.0),
        clock.dated(end_s)
    );
    let end = clock.dated(end_s);
    Err(flag_error("--at", message, &format!("--at \"{end}\"")))
}

/// Seconds after the beginning of the night, negative before it; none if it is not a time.
fn seconds(typed: &str, clock: &NightClock) -> Option<f64> {
    match day(typed) {
        Some((day, time)) => {
            let time = ClockTime::try_from(time.trim().to_owned()).ok()?;
            Some(clock.seconds_on_day(day, time))
        }
        None => Some(clock.seconds_to(&Moment::try_from(typed.to_owned()).ok()?)),
    }
}

/// The day that is named, and what follows: `day 3, 05:30`.
fn day(typed: &str) -> Option<(u16, &str)> {
    let (day, time) = typed.trim().strip_prefix("day ")?.split_once(',')?;
    Some((day.trim().parse().ok()?, time))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scenario::clock::Clock;

    #[test]
    fn a_time_is_read_as_it_is_printed() {
        let moment = |text: &str| Moment::try_from(text.to_owned()).unwrap();
        let clock = Clock {
            begin: moment("2026-01-10 07:30"),
            departure: moment("2026-01-13 07:30"),
            zone: Some("America/Chicago".to_owned()),
        };
        let clock = clock.resolve().unwrap();
        let at = |typed: &str| at_seconds(Some(typed), &clock, clock.night_s());
        let hours = |typed: &str| at(typed).unwrap() / 3600.0;
        assert_eq!(hours("05:30"), 22.0);
        assert_eq!(hours("day 3, 05:30"), 46.0);
        assert_eq!(hours("2026-01-12 05:30"), 46.0);
        for h in [0.0, 30.0, 46.0, 72.0] {
            assert_eq!(hours(&clock.dated(h * 3600.0)), h);
        }
        let early = at("day 1, 05:30").unwrap_err().to_string();
        assert!(early.contains("not within the night"), "{early}");
        assert!(at("half five").is_err() && at("day 2, five").is_err());
        let bare = at("5").unwrap_err().to_string();
        assert_eq!(
            bare,
            "--at: \"5\" is not a clock time.\n    Try: --at 05:00"
        );
    }
}
