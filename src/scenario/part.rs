//! A part: one named thing with a mass, a shape, and the axes along which it may be cut.

use crate::document::{choice, model};
use crate::quantity::{
    Area, Conductivity, Length, Mass, SpecificHeat, Temperature, TemperatureStep,
};

model! {
    /// A thing that has one temperature, or several along its axes.
    pub struct Part {
        /// Its name: a word without spaces, unique in the engine.
        pub name: String;
        /// Its name in the results: `left front cylinder head`.
        pub label: String;
        /// Its mass.
        pub mass: Mass, above_zero();
        /// Its specific heat.
        pub specific_heat: SpecificHeat, above_zero(), usual(120.0, 2500.0, "handbook values of metals and oils, from memory");
        /// Its shape; a lump if none is given.
        pub shape: Shape = Shape::lump;
        /// What it counts as.
        pub role: Role = Role::engine;
        /// Its temperature just after a flight.
        pub after_flight: AfterFlight = AfterFlight::above_hangar(TemperatureStep::K(0.0));
    }
}

choice! {
    /// What a part counts as: only engine parts must be warm.
    #[derive(Eq, Default)]
    pub enum Role {
        /// Part of the engine: it counts for "warm everywhere".
        #[default]
        engine,
        /// The carburettor: an engine part that is watched for overheating.
        carburettor,
        /// Cowl skin around the named air volume: watched for overheating, covered by its blanket.
        skin(String),
        /// Propeller hub or blade: under the propeller's cover, if it has one.
        propeller,
        /// Mount, firewall, baffle, exhaust and the like: carries heat, need not be warm.
        structure,
    }
}

impl Role {
    /// Whether the part must be warm before a start.
    pub fn is_engine(&self) -> bool {
        matches!(self, Self::engine | Self::carburettor)
    }
}

choice! {
    /// A temperature just after a flight.
    #[derive(Copy)]
    pub enum AfterFlight {
        /// This temperature.
        at(Temperature, limits(-60.0, 600.0)),
        /// So much warmer than the hangar.
        above_hangar(TemperatureStep, limits(-60.0, 600.0)),
    }
}

impl Default for AfterFlight {
    fn default() -> Self {
        Self::above_hangar(TemperatureStep::K(0.0))
    }
}

choice! {
    /// The shape of a part, and how it is cut at a resolution of one, two, ...
    #[derive(Default)]
    pub enum Shape {
        /// One temperature throughout, never cut.
        #[default]
        lump,
        /// A bar of one section, cut along its length from `start` to `end`.
        bar {
            /// Its length.
            length: Length, above_zero();
            /// Its cross-section.
            section: Area, above_zero();
            /// Its conductivity.
            conductivity: Conductivity, above_zero();
        },
        /// A box, cut along those of its three edges that are named: `start`-`end`, `near`-`far`, `bottom`-`top`.
        block {
            /// Its edges along the three axes.
            size: (Length, Length, Length), above_zero();
            /// Its conductivity.
            conductivity: Conductivity, above_zero();
            /// Along which axes it is cut.
            cut: (bool, bool, bool);
        },
        /// A tube or disc, cut along its length (`start`-`end`) and across its wall (`inner`-`outer`).
        tube {
            /// Inner radius.
            inner: Length, not_negative();
            /// Outer radius.
            outer: Length, above_zero();
            /// Length, or thickness of a disc.
            length: Length, above_zero();
            /// Its conductivity.
            conductivity: Conductivity, above_zero();
            /// Whether it is cut along its length, and across its wall.
            cut: (bool, bool);
        },
        /// A hollow ball, cut from `inner` to `outer`; an inner radius of zero makes it solid.
        shell {
            /// Inner radius.
            inner: Length, not_negative();
            /// Outer radius.
            outer: Length, above_zero();
            /// Its conductivity.
            conductivity: Conductivity, above_zero();
        },
        /// Still oil, in layers from `bottom` to `top`: heated from below it mixes, from above it conducts.
        stack {
            /// Plan area.
            area: Area, above_zero();
            /// Depth of the oil.
            depth: Length, above_zero();
            /// Layers at a resolution of one; at higher ones more, none thinner than 2 mm.
            layers: usize, limits(1.0, 64.0);
        },
    }
}

choice! {
    /// A place on a part where something is joined to it or touches it.
    #[derive(Copy, Eq, Default)]
    pub enum Spot {
        /// All of it, without any way through the part's own metal.
        #[default]
        whole,
        /// The first end of its length.
        start,
        /// The last end of its length.
        end,
        /// The near side of a block.
        near,
        /// The far side of a block.
        far,
        /// The underside of a block or of an oil stack.
        bottom,
        /// The upper side of a block or of an oil stack.
        top,
        /// The inner wall of a tube or shell.
        inner,
        /// The outer wall of a tube or shell.
        outer,
    }
}
