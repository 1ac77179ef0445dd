//! What the circuit had to carry, and for how long.

use serde::Serialize;

/// Currents from the beginning to the departure, from the rated power of the heaters that were on at once.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CircuitFinding {
    /// The largest current of the heaters, A.
    pub peak_current_a: f64,
    /// Current of whatever else is on the circuit, A.
    pub other_current_a: f64,
    /// Rating of the breaker, A.
    pub breaker_a: f64,
    /// The largest current with the other load, over the rating of the breaker.
    pub load_share: f64,
    /// The largest current with the other load that lasted three hours or more, A. A thermostat's pauses do not
    /// interrupt it: on a colder night there would be none.
    pub continuous_current_a: f64,
    /// That current over the rating of the breaker; good practice keeps it to 0.8.
    pub continuous_share: f64,
    /// Whether any heater current lasted three hours or more.
    pub continuous: bool,
}
