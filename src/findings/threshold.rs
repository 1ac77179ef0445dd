//! The time it takes to come to a temperature, in two senses: to stay (hold) and for the first time.

use serde::Serialize;

/// The time to a threshold, or the reason why there is none.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Reach {
    /// It took so long.
    After {
        /// Hours after the first time a heater was on; 0 if it was warm enough from then on.
        hours: f64,
    },
    /// It never came to it within the time followed.
    Never {
        /// How long it was followed, hours after the first time a heater was on.
        horizon_h: f64,
        /// The best it came to in that time, °C; not a number if there was nothing to look at.
        best_c: f64,
        /// Why, in words without units (the numbers stand beside it).
        why: String,
    },
}

/// The time to a threshold in both senses.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReachPair {
    /// After the last time below the threshold (the headline, always).
    pub hold: Reach,
    /// The first crossing upward.
    pub first: Reach,
}

/// The time a group of parts takes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReadingReach {
    /// Its key in machine output.
    pub key: String,
    /// What people call it.
    pub label: String,
    /// Its time to the threshold.
    pub reach: ReachPair,
}

/// When the engine was warm. The time of each single part is in the table of parts.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ThresholdFinding {
    /// The threshold, °C.
    pub threshold_c: f64,
    /// Of the coldest engine part at every instant: "warm everywhere".
    pub all_parts: ReachPair,
    /// Of each group of parts.
    pub readings: Vec<ReadingReach>,
    /// The threshold of the mean oil, °C, if one was asked.
    pub oil_threshold_c: Option<f64>,
    /// Of the mean oil against its own threshold, if one was asked and there is oil.
    pub oil: Option<ReachPair>,
}

impl Reach {
    /// The hours, or none for never.
    pub fn hours(&self) -> Option<f64> {
        match self {
            Self::After { hours } => Some(*hours),
            Self::Never { .. } => None,
        }
    }
}
