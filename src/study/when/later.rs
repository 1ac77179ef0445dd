//! Who leaves later than planned: the chance half an hour to two hours after, with the heaters still on or unplugged.

use super::starts::Switches;
use crate::findings::answer;
use crate::night::Night;
use crate::quantity::Duration;
use crate::scenario::check::check;
use crate::scenario::hours::Hours;
use crate::study::case::Case;
use crate::study::quantile::Share;
use crate::study::simulate::{Job, Simulation, Subject};
use crate::trace::Trace;

/// Minutes after the planned departure.
const AFTER_MIN: [usize; 4] = [0, 30, 60, 120];

/// The chance of who leaves later.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Later {
    /// Minutes after the planned departure.
    pub minutes: usize,
    /// The chance with the heaters still on.
    pub on: Share,
    /// The chance with the heaters unplugged at the planned departure.
    pub unplugged: Share,
}

/// The chances of who leaves later, as far as the weather reaches.
pub fn leaving_later(
    simulation: &Simulation,
    subject: &Subject,
    switches: &Switches,
    starts: &[usize],
) -> Vec<Later> {
    let Ok(clock) = subject.night.clock.resolve() else {
        return Vec::new();
    };
    let followed = |minutes: usize| {
        let whole = Duration::s(clock.night_s() + 60.0 * minutes as f64);
        Case::default().set("criteria.simulated_time", &Some(whole))
    };
    let unplugged = |minutes: usize| switches.case(starts).and(followed(minutes));
    let fits = |minutes: &usize| {
        let night = unplugged(*minutes).night(&simulation.base);
        night.is_ok_and(|night| check(&night).is_ok())
    };
    let reached: Vec<usize> = AFTER_MIN.into_iter().filter(fits).collect();
    let Some(&last) = reached.last().filter(|last| **last > 0) else {
        return Vec::new();
    };
    let on =
        switches
            .heaters
            .iter()
            .zip(starts)
            .fold(unplugged(last), |case, (&heater, &minutes)| {
                let at = clock.time_of_day(clock.night_s() - 60.0 * minutes as f64);
                let hours = match at {
                    Some(time) if minutes > 0 => Hours::from(time),
                    _ => Hours::never,
                };
                case.set(format!("heaters[{heater}].hours"), &hours)
            });
    let ready = |change: &Case| {
        let jobs = (0..simulation.count.nights).map(|number| Job {
            subject,
            change,
            number,
        });
        let rows = simulation.run_rows(&jobs.collect::<Vec<_>>(), |night| {
            reached
                .iter()
                .map(|&after| ready_after(night, after))
                .collect::<Vec<bool>>()
        });
        let computed: Vec<Vec<bool>> = rows.into_iter().flatten().collect();
        let share =
            |k: usize| Share::of(computed.iter().filter(|row| row[k]).count(), computed.len());
        (0..reached.len()).map(share).collect::<Vec<_>>()
    };
    let (on, unplugged) = (ready(&on), ready(&unplugged(last)));
    let all = reached.iter().zip(on).zip(unplugged);
    all.filter_map(|((&minutes, on), unplugged)| {
        Some(Later {
            minutes,
            on: on?,
            unplugged: unplugged?,
        })
    })
    .collect()
}

/// Whether the engine is ready so many minutes after departure.
fn ready_after(night: &Night, minutes: usize) -> bool {
    let trace = Trace {
        departure_s: night.trace.departure_s + 60.0 * minutes as f64,
        ..night.trace.clone()
    };
    let scenario = night.scenario.scenario();
    let (criteria, oil) = (&scenario.criteria, &scenario.oil);
    answer(
        &trace,
        &night.ledger,
        criteria,
        oil,
        &scenario.circuit,
        None,
    )
    .ready
    .ready_at_departure
}
