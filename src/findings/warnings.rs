//! What deserves care, with the numbers behind it.

use serde::Serialize;

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
    /// More than the breaker holds.
    OverBreaker {
        /// The current with the other load, A.
        current_a: f64,
        /// The breaker, A.
        breaker_a: f64,
    },
    /// The oil is so near its pour point, or below it, that its viscosity is extrapolated.
    OilExtrapolated {
        /// The oil at the pick-up, °C.
        temp_c: f64,
        /// Its pour point, °C.
        pour_point_c: f64,
    },
}
