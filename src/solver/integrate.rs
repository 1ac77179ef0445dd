//! From dusk to dawn.

use super::error_control::{FIRST_STEP_S, in_range};
use super::failure::SolveError;
use super::integrator_state::IntegratorState;
use super::solution::Solution;
use super::step::{StepError, Stepper};
use crate::balance::{Balance, Evaluate};
use crate::network::Network;

/// Integrates the night of a network. `tolerance` scales the error allowed in a step; samples are at
/// most `sample_s` apart.
///
/// *Valid*: `tolerance` from 1e-9, `sample_s` from 1e-3.
/// *Errors*: [`SolveError`], with the time and the column it failed at.
pub fn integrate(net: &Network, tolerance: f64, sample_s: f64) -> Result<Solution, SolveError> {
    in_range(tolerance, sample_s)?;
    let mut walk = IntegratorState::new(net, tolerance, sample_s);
    let mut stepper = Stepper::new(Balance::new(net));
    while !walk.is_over() {
        if let Some((_, failed)) = round(&mut stepper, &mut [Some(&mut walk)]).pop() {
            return Err(failed);
        }
    }
    Ok(walk.end())
}

/// One step of every night, tried and judged; of those whose step was not kept the next round tries a shorter one. A
/// lane without a night is left as it is. Returns the nights that cannot go on, with their lanes.
pub fn round<'n, G: Evaluate>(
    stepper: &mut Stepper<'n, G>,
    walks: &mut [Option<&mut IntegratorState<'n>>],
) -> Vec<(usize, SolveError)> {
    let mut failed = Vec::new();
    // A lane at rest tries the first step again and again.
    let (mut times_s, mut steps_s) = (G::all(0.0), G::all(FIRST_STEP_S));
    let mut new_here = false;
    for (lane, walk) in present(walks) {
        if walk.is_new_here() {
            new_here = true;
            stepper.set_state(lane, &walk.vector);
            for (heater, &on) in walk.on().iter().enumerate() {
                stepper.balance.switch_lane(lane, heater, on);
            }
        }
        times_s.set_lane(lane, walk.time_s);
        steps_s.set_lane(lane, walk.step_to_try_s());
    }
    let mut cause = None;
    if new_here && let Err(error) = stepper.begin(times_s) {
        for (lane, walk) in present(walks) {
            failed.push((
                lane,
                walk.step_failure(
                    &stepper.tried(lane),
                    steps_s.lane(lane),
                    Some(error.clone()),
                ),
            ));
        }
        return failed;
    }
    if let Err(error) = stepper.attempt(times_s, steps_s) {
        cause = Some(StepError::from(error));
    }
    let mut right_at_end = false;
    for (lane, walk) in present(walks) {
        right_at_end |= walk.measure_end(&stepper.tried(lane), cause.is_some());
    }
    if right_at_end {
        let errors = stepper.defect(times_s, steps_s);
        for (lane, walk) in present(walks) {
            walk.measure_way(|i| errors[i].lane(lane));
        }
    }
    for (lane, walk) in present(walks) {
        match walk.accept_or_reject(&stepper.tried(lane), &cause) {
            Ok(true) => stepper.keep(lane),
            Ok(false) => {}
            Err(error) => failed.push((lane, error)),
        }
    }
    failed
}

fn present<'w, 'n>(
    walks: &'w mut [Option<&mut IntegratorState<'n>>],
) -> impl Iterator<Item = (usize, &'w mut IntegratorState<'n>)> {
    let lanes = walks.iter_mut().enumerate();
    lanes.filter_map(|(lane, walk)| Some((lane, &mut **walk.as_mut()?)))
}
