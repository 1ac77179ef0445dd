//! Ready or not at the departure, by how much, and what stood in the way.

use serde::Serialize;

/// Whether the engine was ready at the departure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ready {
    /// Warm enough everywhere, dry enough on the upper walls, and the oil warm enough if that was asked.
    pub ready_at_departure: bool,
    /// The coldest engine part over the threshold, K (negative: too cold); none if there are no engine parts.
    pub margin_k: Option<f64>,
    /// Hours between the time it was warm everywhere (to stay) and the departure; negative if that came after
    /// the departure, none if it never came.
    pub slack_h: Option<f64>,
    /// What was not met; empty if ready.
    pub unmet: Vec<Unmet>,
}

/// A condition that was not met.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Unmet {
    /// Some engine part was too cold.
    Cold {
        /// The coldest part.
        part: String,
        /// What people call it.
        label: String,
        /// Its temperature, °C.
        temp_c: f64,
        /// The threshold, °C.
        threshold_c: f64,
    },
    /// There was too much water on the upper walls.
    Wet {
        /// Water on the upper inner walls, g.
        upper_g: f64,
        /// What is allowed, g.
        limit_g: f64,
    },
    /// The mean oil was too cold.
    ColdOil {
        /// Its temperature, °C.
        temp_c: f64,
        /// Its threshold, °C.
        threshold_c: f64,
    },
    /// No part is marked as an engine part, so nothing can be said to be warm.
    NoEngine,
}
