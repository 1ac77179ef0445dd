//! The electric circuit the heaters share.

use crate::document::model;
use crate::quantity::{Current, Length, Potential, Power};

model! {
    /// Mains voltage, breaker, cord, what else is plugged in, and what a kilowatt-hour costs.
    pub struct Circuit: Default {
        /// Mains voltage, default 120 V.
        pub volts: Potential, above_zero(), usual(90.0, 480.0, "common practice, no source: 100, 120, 230, 240, 400 V") = Potential::V(120.0);
        /// Rating of the breaker, default 15 A.
        pub breaker: Current, above_zero(), usual(5.0, 125.0, "common practice, no source") = Current::A(15.0);
        /// Whatever else draws on the circuit.
        pub other_load: Power, not_negative() = Power::W(0.0);
        /// The extension cord that all heaters hang on; without one its loss is not computed.
        pub cord: Option<Cord> = None;
        /// Price of a kilowatt-hour, in the currency of `currency`; no cost is computed without it.
        pub tariff_per_kwh: Option<f64>, not_negative(), usual(0.0, 5.0, "estimate: in dollars or euros a kWh") = None;
        /// What the price is counted in.
        pub currency: String = String::new();
    }
}

model! {
    /// An extension cord of two copper conductors and an earth.
    #[derive(Copy)]
    pub struct Cord {
        /// Its length, one way.
        pub length: Length, above_zero();
        /// The American gauge of its conductors: 14 for most heaters, 16 and 18 for lamps; those sold are 6 to 20 (common practice, no source).
        pub gauge_awg: u32, limits(6.0, 20.0);
    }
}
