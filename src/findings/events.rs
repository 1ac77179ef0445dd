//! What happened when: heaters on and off, groups and the whole engine warm for the first time.

use crate::trace::SwitchCause;
use serde::Serialize;

/// Something that happened.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Event {
    /// When, hours after the beginning.
    pub time_h: f64,
    /// What.
    pub what: EventKind,
}

/// What can happen.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum EventKind {
    /// A heater went on.
    HeaterOn {
        /// Its name.
        heater: String,
        /// What switched it.
        cause: SwitchCause,
    },
    /// A heater went off.
    HeaterOff {
        /// Its name.
        heater: String,
        /// What switched it.
        cause: SwitchCause,
    },
    /// A group came to the threshold for the first time.
    Warm {
        /// Its key in machine output.
        key: String,
        /// What people call it.
        label: String,
    },
    /// Every engine part was at the threshold for the first time.
    AllPartsWarm,
    /// The departure.
    Departure,
}
