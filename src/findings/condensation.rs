//! Water that settles on the walls inside the engine: how long, where, and how much.

use serde::Serialize;

/// Water on the inner walls, from the beginning to the departure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Condensation {
    /// Hours during which some wall was condensing.
    pub hours: f64,
    /// Hours of the upper wall that was condensing longest.
    pub upper_hours: f64,
    /// Water on the upper walls at the departure, g (the headline).
    pub upper_g: f64,
    /// Water on every group of walls at the departure.
    pub groups: Vec<GroupGrams>,
    /// The sum of all increments of the films, g; may exceed the water there is, as films dry and form again.
    pub turnover_g: f64,
    /// When the first wall began to condense.
    pub onset: Onset,
    /// Hours of the wall that was wet longest (film above 1 g/m2).
    pub wet_hours: f64,
    /// Water in or under the oil at the departure, g, if the oil can give off water.
    pub oil_water_g: Option<f64>,
    /// Every wall, in the order of the engine.
    pub walls: Vec<WallFinding>,
}

/// Water on a group of walls.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupGrams {
    /// `upper`, `crank`, `accessory` or `lower`.
    pub group: String,
    /// Its water, g.
    pub grams: f64,
}

/// When condensing began.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Onset {
    /// It began then.
    After {
        /// Hours after the beginning of the night.
        hours: f64,
    },
    /// No wall condensed before the departure.
    Never {
        /// How long was looked at, hours.
        horizon_h: f64,
        /// Why, in words.
        why: String,
    },
}

/// One inner wall.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WallFinding {
    /// Its name.
    pub wall: String,
    /// What people call it.
    pub label: String,
    /// `upper`, `crank`, `accessory` or `lower`.
    pub group: String,
    /// Hours of condensing: more than 0.1 K below the dew (frost) point of the air inside, under a film of more
    /// than 0.05 g/m2.
    pub hours: f64,
    /// Hours with a film of more than 1 g/m2.
    pub wet_hours: f64,
    /// Water on it at the departure, g.
    pub grams: f64,
}

impl Onset {
    /// The hours, or none for never.
    pub fn hours(&self) -> Option<f64> {
        match self {
            Self::After { hours } => Some(*hours),
            Self::Never { .. } => None,
        }
    }
}
