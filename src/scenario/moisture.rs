//! The air inside the engine and the walls it can wet.

use super::part::Spot;
use crate::document::{choice, model};
use crate::physics::convection::Facing;
use crate::quantity::{Area, Length, Volume};

model! {
    /// The air inside the crankcase, its walls, and the way out.
    pub struct CrankcaseGas {
        /// Its volume.
        pub volume: Volume, above_zero();
        /// The walls it can wet.
        pub walls: Vec<Wall>;
        /// The oil stack whose surface gives off water, if any.
        pub oil: Option<OilSurface> = None;
        /// The air volume the breather ends in.
        pub breather: String;
        /// Air exchanged through the breather, in litres per second.
        pub breather_l_s: f64, not_negative();
        /// Air movement through the open filler, in litres per second.
        pub filler_flow_l_s: f64, not_negative();
        /// Diameter of the filler neck.
        pub filler_diameter: Length, above_zero();
        /// Temperature of this air just after a flight.
        pub after_flight: super::part::AfterFlight;
    }
}

model! {
    /// A wall facing the air inside.
    pub struct Wall {
        /// The part.
        pub part: String;
        /// Where on it.
        pub at: Spot = Spot::whole;
        /// Its area.
        pub area: Area, above_zero();
        /// Which way it faces.
        pub facing: Facing;
        /// How freely air and vapour reach it: 1 in the open crankcase, 0.12 behind the pushrod tubes.
        pub mass_factor: f64, above_to(0.0, 1.0);
        /// Which group it is counted in.
        pub group: WallGroup;
    }
}

choice! {
    /// Groups of inner walls, as water on them matters.
    #[derive(Copy, Eq, PartialOrd, Ord, Hash)]
    pub enum WallGroup {
        /// Upper case, barrels, heads and pistons: where rust hurts.
        upper,
        /// Crankshaft and camshaft.
        crank,
        /// Accessory case.
        accessory,
        /// Lower case and sump, where water drains anyway.
        lower,
    }
}

model! {
    /// The surface of the oil.
    pub struct OilSurface {
        /// The part, an oil stack.
        pub part: String;
        /// Its area.
        pub area: Area, above_zero();
        /// How freely water passes it (0.05 to 1).
        pub oil_film: f64, above_to(0.0, 1.0);
    }
}
