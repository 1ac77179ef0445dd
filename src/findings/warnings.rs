//! What deserves care, with the numbers behind it.

use serde::{Deserialize, Serialize};

/// Carburettor and skins should stay below this, °C. *Source*: paint, glass-fibre resin and fabric begin to suffer
/// at 60 to 80 °C (from memory).
pub const HOT_C: f64 = 60.0;

/// Something that deserves care.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Warning {
    /// The carburettor became hot.
    HotCarburettor {
        /// The part.
        part: String,
        /// What people call it.
        label: String,
        /// The highest it came to, °C.
        temp_c: f64,
        /// When, hours after the beginning.
        time_h: f64,
    },
    /// A cowl skin became hot.
    HotSkin {
        /// The part.
        part: String,
        /// What people call it.
        label: String,
        /// The highest it came to, °C.
        temp_c: f64,
        /// When, hours after the beginning.
        time_h: f64,
    },
    /// The cylinders differed widely when the engine was ready.
    Uneven {
        /// The spread, K.
        spread_k: f64,
        /// When, hours after the beginning.
        time_h: f64,
    },
    /// The air where the breather ends is near freezing and there is water inside that may leave by it.
    BreatherNearFreezing {
        /// What people call that pocket.
        pocket: String,
        /// Its temperature at the departure, °C.
        temp_c: f64,
        /// Water in or under the oil, g.
        oil_water_g: f64,
        /// Water on the inner walls, g.
        film_g: f64,
    },
    /// More than 80 percent of the breaker for three hours or more.
    ContinuousLoad {
        /// The current with the other load, A.
        current_a: f64,
        /// The breaker, A.
        breaker_a: f64,
    },
    /// What is continuous, counted a quarter more, and what comes on beside it for a while are more than the breaker
    /// should carry.
    LoadBesideContinuous {
        /// The largest current with the other load, A.
        current_a: f64,
        /// What of it is continuous, A.
        continuous_a: f64,
        /// The breaker that asks for, A.
        needed_a: f64,
        /// The breaker, A.
        breaker_a: f64,
    },
    /// One heater takes more than 80 percent of the breaker.
    LargeHeater {
        /// The heater.
        name: String,
        /// Its current, A.
        current_a: f64,
        /// The breaker, A.
        breaker_a: f64,
    },
    /// More than the breaker holds.
    OverBreaker {
        /// The current with the other load, A.
        current_a: f64,
        /// The breaker, A.
        breaker_a: f64,
    },
    /// A cord takes so much that the heaters are weaker than they were computed.
    LongCord {
        /// The voltage lost over the mains.
        drop_share: f64,
        /// The share of its power that a plain heater is left with.
        power_share: f64,
    },
    /// The oil is so near its pour point, or below it, that its viscosity is extrapolated.
    OilExtrapolated {
        /// The oil at the pick-up, °C.
        temp_c: f64,
        /// Its pour point, °C.
        pour_point_c: f64,
    },
}

/// A harm that a warning names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Hazard {
    /// The carburettor gets too hot.
    HotCarburettor,
    /// The cowl skin gets too hot.
    HotSkin,
    /// The breaker is overloaded.
    OverBreaker,
    /// The breaker is loaded too high for hours.
    ContinuousLoad,
    /// One heater takes too much of the breaker.
    LargeHeater,
}

/// The harm among warnings, each once: what a verdict must name.
pub fn hazards(warnings: &[Warning]) -> Vec<Hazard> {
    let mut found = Vec::new();
    for hazard in warnings.iter().filter_map(Warning::hazard) {
        if !found.contains(&hazard) {
            found.push(hazard);
        }
    }
    found
}

/// The harm among warnings for which a choice is not to be used. A heater that takes much of its cord alone is none: the
/// caution says so.
pub fn forbidding(warnings: &[Warning]) -> Vec<Hazard> {
    let mut found = hazards(warnings);
    found.retain(|hazard| *hazard != Hazard::LargeHeater);
    found
}

impl Warning {
    /// The harm it names; none for what is merely worth knowing.
    fn hazard(&self) -> Option<Hazard> {
        match self {
            Self::HotCarburettor { .. } => Some(Hazard::HotCarburettor),
            Self::HotSkin { .. } => Some(Hazard::HotSkin),
            Self::OverBreaker { .. } => Some(Hazard::OverBreaker),
            Self::ContinuousLoad { .. } | Self::LoadBesideContinuous { .. } => {
                Some(Hazard::ContinuousLoad)
            }
            Self::LargeHeater { .. } => Some(Hazard::LargeHeater),
            Self::Uneven { .. }
            | Self::BreatherNearFreezing { .. }
            | Self::LongCord { .. }
            | Self::OilExtrapolated { .. } => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hazard_is_named_once_and_a_mere_note_is_none() {
        let hot = |temp_c| Warning::HotSkin {
            part: "cowlUR".to_owned(),
            label: "upper right skin".to_owned(),
            temp_c,
            time_h: 7.25,
        };
        let uneven = Warning::Uneven {
            spread_k: 30.0,
            time_h: 9.0,
        };
        assert_eq!(
            hazards(&[hot(65.0), uneven.clone(), hot(70.0)]),
            [Hazard::HotSkin]
        );
        assert!(hazards(&[uneven]).is_empty());
    }
}
