//! What deserves care, with the numbers behind it.

use super::circuit::CONTINUOUS_SHARE;
use crate::quantity::{Temperature, Units};
use serde::Serialize;
use std::fmt;

/// Carburettor and skins should stay below this, °C. *Source*: paint, glass-fibre resin and fabric begin to suffer
/// at 60 to 80 °C (from memory).
pub(super) const HOT_C: f64 = 60.0;

/// Something that deserves care. Its sentence is given in °C by `Display`, and in a reader's units by `told`.
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

/// The harm among warnings, each in a few words: what a verdict must name.
pub fn dangers(warnings: &[Warning]) -> Vec<&'static str> {
    let mut told = Vec::new();
    for danger in warnings.iter().filter_map(Warning::danger) {
        if !told.contains(&danger) {
            told.push(danger);
        }
    }
    told
}

impl Warning {
    /// The harm in a few words; none for what is merely worth knowing.
    fn danger(&self) -> Option<&'static str> {
        match self {
            Self::HotCarburettor { .. } => Some("the carburettor gets too hot"),
            Self::HotSkin { .. } => Some("the cowl skin gets too hot"),
            Self::OverBreaker { .. } => Some("the breaker is overloaded"),
            Self::ContinuousLoad { .. } | Self::LoadBesideContinuous { .. } => {
                Some("the breaker is loaded too high for hours")
            }
            Self::LargeHeater { .. } => Some("one heater takes too much of the breaker"),
            Self::Uneven { .. }
            | Self::BreatherNearFreezing { .. }
            | Self::LongCord { .. }
            | Self::OilExtrapolated { .. } => None,
        }
    }
    /// As a sentence, in a reader's units.
    pub fn told(&self, units: Units) -> String {
        let temp = |celsius: f64| Temperature::degC(celsius).told(units);
        match self {
            Self::HotCarburettor {
                label,
                temp_c,
                time_h,
                ..
            } => format!(
                "{label} came to {} after {time_h:.1} h: fuel and its parts should stay below {}; lower the power or \
                 aim the heat elsewhere.",
                temp(*temp_c),
                temp(HOT_C)
            ),
            Self::HotSkin {
                label,
                temp_c,
                time_h,
                ..
            } => format!(
                "{label} came to {} after {time_h:.1} h: paint, resin and fabric may suffer above {}.",
                temp(*temp_c),
                temp(HOT_C)
            ),
            Self::Uneven { spread_k, time_h } => format!(
                "the cylinders differed by {:.1} {} after {time_h:.1} h, when the engine was ready.",
                units.step(*spread_k),
                units.symbol()
            ),
            Self::BreatherNearFreezing {
                pocket,
                temp_c,
                oil_water_g,
                film_g,
            } => format!(
                "the air where the breather ends ({pocket}) is at {} at departure, with {oil_water_g:.1} g of water in \
                 the oil and {film_g:.1} g on the inner walls: check the breather for ice before starting.",
                temp(*temp_c)
            ),
            Self::ContinuousLoad {
                current_a,
                breaker_a,
            } => format!(
                "the circuit carries {current_a:.1} A for three hours or more: good practice keeps a continuous load \
                 to 80 percent of the {breaker_a:.0} A breaker, which is {:.1} A; local codes decide.",
                CONTINUOUS_SHARE * breaker_a
            ),
            Self::LoadBesideContinuous {
                current_a,
                continuous_a,
                needed_a,
                breaker_a,
            } => format!(
                "the circuit carries {continuous_a:.1} A for three hours or more and up to {current_a:.1} A in all: \
                 counting what is continuous a quarter more, that asks for {needed_a:.1} A, and the breaker has \
                 {breaker_a:.0} A; local codes decide."
            ),
            Self::LargeHeater {
                name,
                current_a,
                breaker_a,
            } => format!(
                "{name} takes {current_a:.1} A: one appliance on a cord should take no more than 80 percent of the \
                 {breaker_a:.0} A breaker, which is {:.1} A; local codes decide.",
                CONTINUOUS_SHARE * breaker_a
            ),
            Self::OverBreaker {
                current_a,
                breaker_a,
            } => format!(
                "the circuit carries up to {current_a:.1} A, more than its {breaker_a:.0} A breaker holds: do not do \
                 this."
            ),
            Self::LongCord {
                drop_share,
                power_share,
            } => format!(
                "the cord loses {:.1} percent of the voltage, which leaves a plain heater {:.0} percent of its power, and \
                 this was computed with all of it: take a shorter or thicker cord, or give the heater the watts that are \
                 left, before you trust it.",
                100.0 * drop_share,
                100.0 * power_share
            ),
            Self::OilExtrapolated {
                temp_c,
                pour_point_c,
            } => format!(
                "the oil at the pick-up is at {}, and its pour point is {}: its viscosity is extrapolated, real oil may \
                 be thicker or not flow at all.",
                temp(*temp_c),
                temp(*pour_point_c)
            ),
        }
    }
}

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.told(Units::Celsius))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_danger_is_named_once_and_a_mere_note_is_none() {
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
            dangers(&[hot(65.0), uneven.clone(), hot(70.0)]),
            ["the cowl skin gets too hot"]
        );
        assert!(dangers(&[uneven]).is_empty());
    }

    #[test]
    fn a_warning_is_told_in_the_readers_degrees() {
        let hot = Warning::HotSkin {
            part: "cowlUR".to_owned(),
            label: "upper right skin".to_owned(),
            temp_c: 65.0,
            time_h: 7.25,
        };
        assert_eq!(
            hot.to_string(),
            "upper right skin came to 65.0 °C after 7.2 h: paint, resin and fabric may suffer above 60.0 °C."
        );
        assert!(hot.told(Units::Fahrenheit).contains("149.0 °F"));
        let uneven = Warning::Uneven {
            spread_k: 30.0,
            time_h: 9.0,
        };
        // A spread of 30 K is 54 Fahrenheit degrees, not 86.
        assert!(uneven.told(Units::Fahrenheit).contains("by 54.0 °F"));
    }
}
