//! Plugs, blankets, and what is left open.

use crate::document::model;
use crate::quantity::{Area, Length, Resistance};
use std::collections::BTreeMap;

model! {
    /// What covers the engine bay, and what is left open.
    pub struct Covers: Default {
        /// Share of the cooling inlets that is closed (0 open, 1 sealed). Default 0.84: parked, obstructed but leaky.
        pub inlet_plug: f64, fraction(), set_within(0.03) = 0.84;
        /// Share of the outlet that is closed. Default 0.48.
        pub outlet_plug: f64, fraction(), set_within(0.03) = 0.48;
        /// Blankets: the name of an air volume whose skin is covered, and the resistance laid on it.
        pub blankets: BTreeMap<String, Resistance>, above_zero(), usual(0.02, 3.0, "estimate: a cloth to a thick quilt; a house roof has 5") = BTreeMap::new();
        /// A cover on the propeller, its resistance; 0.45 m2K/W is usual.
        pub propeller: Option<Resistance>, above_zero(), usual(0.02, 3.0, "estimate: a cloth to a thick quilt; a house roof has 5") = None;
        /// A cowl side left open.
        pub open_side: Option<OpenSide> = None;
        /// Whether the oil filler cap is off.
        pub filler_open: bool = false;
    }
}

model! {
    /// A gap where one side of the cowl stands open.
    pub struct OpenSide {
        /// The air volume it opens into.
        pub pocket: String;
        /// Its area.
        pub area: Area, above_zero();
        /// Height of its middle above the cylinder axis.
        pub centre: Length, limits(-20.0, 20.0) = Length::m(0.08);
        /// Its height.
        pub height: Length, not_negative() = Length::m(0.10);
    }
}
