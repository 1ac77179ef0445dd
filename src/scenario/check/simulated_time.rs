//! How long a night is followed.

use super::super::clock::NightClock;
use super::super::document::Scenario;

/// The end of the night that is followed, in seconds after the beginning.
pub(super) fn end_s(scenario: &Scenario, clock: &NightClock) -> f64 {
    let simulated_time = scenario.criteria.simulated_time;
    simulated_time.map_or(clock.night_s(), |h| h.si())
}
