//! A moment of a night as it is typed: `05:30` is the first such; `day 3, 05:30` or `2026-01-12 05:30` says which.

use crate::files::fault::Fault;
use crate::scenario::clock::{ClockTime, Moment, NightClock};

/// Seconds after the beginning of the night.
///
/// *Errors*: what is wrong with it; a moment before the beginning.
pub fn seconds(typed: &str, clock: &NightClock) -> Result<f64, String> {
    let at_s = match day(typed) {
        Some((day, time)) => {
            clock.seconds_on_day(day, ClockTime::try_from(time.trim().to_owned())?)
        }
        None => clock.seconds_to(&Moment::try_from(typed.to_owned())?),
    };
    if at_s < 0.0 {
        let begin = clock.dated(0.0);
        return Err(format!("{typed} is before the night begins, at {begin}"));
    }
    Ok(at_s)
}

/// What is told of a moment that is none.
pub fn slip(what: &str) -> Fault {
    let fault = Fault::of("the command line", format!("--at: {what}"));
    fault.help("the local clock, as in --at 05:30 or --at \"day 2, 05:30\"")
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
    fn a_moment_is_found_as_it_is_told() {
        let moment = |text: &str| Moment::try_from(text.to_owned()).unwrap();
        let clock = Clock {
            begin: moment("2026-01-10 07:30"),
            departure: moment("2026-01-13 07:30"),
            zone: Some("America/Chicago".to_owned()),
        };
        let clock = clock.resolve().unwrap();
        let hours = |typed: &str| seconds(typed, &clock).map(|s| s / 3600.0);
        assert_eq!(hours("05:30"), Ok(22.0));
        assert_eq!(hours("day 3, 05:30"), Ok(46.0));
        assert_eq!(hours("2026-01-12 05:30"), Ok(46.0));
        for s in [0.0, 30.0, 46.0, 72.0] {
            assert_eq!(hours(&clock.dated(s * 3600.0)), Ok(s));
        }
        let early = hours("day 1, 05:30").unwrap_err();
        assert!(early.contains("before the night begins"), "{early}");
        assert!(hours("half five").is_err() && hours("day 2, five").is_err());
    }
}
