//! From dusk to dawn.

use super::failure::SolveError;
use super::marched::Marched;
use super::step::{StepError, Stepper};
use super::walk::Walk;
use crate::balance::Balance;
use crate::network::Network;
use crate::physics::number::Register;

/// Marches through the night of a network. `tolerance` scales the error allowed in a step; samples are at
/// most `sample_s` apart.
///
/// *Errors*: [`SolveError`], with the time and the column it failed at.
pub fn march(net: &Network, tolerance: f64, sample_s: f64) -> Result<Marched, SolveError> {
    let mut walk = [Walk::new(net, tolerance, sample_s)];
    let mut stepper = Stepper::new(Balance::new(net));
    while !walk[0].is_over() {
        round(&mut stepper, &mut walk).map_err(|failed| match failed {
            Failed::Night(error) => error,
            Failed::Begin(cause) => walk[0].stuck(&stepper.tried(0), 0.0, Some(cause)),
        })?;
    }
    let [walk] = walk;
    Ok(walk.end())
}

/// Why a round of steps could not be made.
pub enum Failed {
    /// The air would not balance where a step begins, or, where nights go abreast, a matrix could not be solved.
    Begin(StepError),
    /// A night cannot go on.
    Night(SolveError),
}

/// One step of every night, tried and judged; of those whose step was not kept the next round tries a shorter one.
pub fn round<'n, G: Register>(
    stepper: &mut Stepper<'n, G>,
    walks: &mut [Walk<'n>],
) -> Result<(), Failed> {
    let (mut times_s, mut steps_s) = (G::all(0.0), G::all(0.0));
    let mut new_here = false;
    for (lane, walk) in walks.iter_mut().enumerate() {
        if walk.is_new_here() {
            new_here = true;
            stepper.place(lane, &walk.vector, walk.on());
        }
        times_s.set_lane(lane, walk.time_s);
        steps_s.set_lane(lane, walk.step_to_try_s());
    }
    if new_here {
        stepper.begin(times_s).map_err(Failed::Begin)?;
    }
    let cause = stepper.attempt(times_s, steps_s).err().map(StepError::from);
    if let (Some(cause), true) = (&cause, walks.len() > 1) {
        return Err(Failed::Begin(cause.clone()));
    }
    let mut at_end = [None; 8];
    for (lane, walk) in walks.iter().enumerate() {
        at_end[lane] = if cause.is_some() {
            Some(f64::NAN)
        } else {
            walk.at_end(&stepper.tried(lane))
        };
    }
    let mut on_the_way = [None; 8];
    if at_end.iter().flatten().any(|&error| error <= 1.0) {
        let errors = stepper.error_on_the_way(times_s, steps_s);
        for (lane, walk) in walks.iter_mut().enumerate() {
            if at_end[lane].is_some_and(|error| error <= 1.0) {
                on_the_way[lane] = Some(walk.on_the_way(|i| errors[i].lane(lane)));
            }
        }
    }
    for (lane, walk) in walks.iter_mut().enumerate() {
        let tried = stepper.tried(lane);
        let kept = walk
            .judge(&tried, at_end[lane], on_the_way[lane], cause.clone())
            .map_err(Failed::Night)?;
        if kept {
            stepper.keep(lane);
        }
    }
    Ok(())
}
