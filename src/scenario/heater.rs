//! The heaters: what they are, where they are put, and when they are on.

use super::hours::Hours;
use crate::document::{choice, model};
use crate::quantity::{Conductance, MassFlow, Power, Temperature};

model! {
    /// One heater.
    pub struct Heater {
        /// What it is called in the results.
        pub name: String;
        /// How it gives off its heat.
        pub kind: HeaterKind, example("bonded");
        /// Electric power. Set to another than that of the model, the flow of a fan stays: its air leaves hotter, in the same ratio.
        pub power: Power, not_negative(), set_share(0.05), example("W(350)");
        /// Where it is put.
        pub place: Place, example("at(\"bottom\")");
        /// When it is plugged in.
        pub hours: Hours = Hours::always;
        /// Its thermostat.
        pub thermostat: Option<Thermostat> = None;
        /// Whether its element limits itself.
        pub self_limiting: Option<SelfLimiting> = None;
        /// Which of its numbers are uncertain.
        pub uncertain: super::uncertain::Uncertain = super::uncertain::Uncertain::new();
    }
}

choice! {
    /// How a heater gives off its heat.
    pub enum HeaterKind {
        /// An element and a small fan inside the bay.
        bay_fan {
            /// Air through the fan (0.005 to 0.012 kg/s).
            flow: MassFlow, above_zero();
            /// Air dragged along, as a share of the flow (0.3 to 2).
            entrainment: f64, limits(0.0, 20.0);
            /// How much of that comes from the intake air volumes (0.1 to 0.9).
            entrainment_from_intake: f64, fraction();
            /// Conductance from the jet to all it strikes, at impingement shares summing to one (6 to 18 W/K).
            impingement: Conductance, not_negative();
        },
        /// A heater outside the cowl that blows hangar air in through a duct.
        ducted {
            /// Air blown in.
            flow: MassFlow, above_zero();
            /// Share of the power lost in the duct.
            duct_loss: f64, fraction();
            /// Air dragged along, as a share of the flow.
            entrainment: f64, limits(0.0, 20.0);
            /// Conductance from the jet to all it strikes.
            impingement: Conductance, not_negative();
        },
        /// An element bonded to the metal: pad, ring or plate.
        bonded,
        /// A lamp or radiant panel.
        radiant {
            /// Share of the power that leaves as radiation (0.3 for a lamp behind a guard, 0.6 for a panel).
            radiant_share: f64, fraction();
        },
    }
}

choice! {
    /// Where a heater is put: `at("sump-pad")`, or `aimed(impingement: [("sump", 1.0)])`.
    pub enum Place {
        /// At a place the engine names, such as `top-blowing-right` or `sump-pad`.
        at(String),
        /// Aimed by hand.
        aimed(Aim),
    }
}

model! {
    /// Where a heater takes its air, discharges it, and what it heats directly: names and shares.
    #[derive(serde::Deserialize)]
    #[serde(deny_unknown_fields, default)]
    pub struct Aim: Default {
        /// Air volumes a bay fan draws from, with shares summing to one.
        pub intake: Vec<(String, f64)>, not_negative() = Vec::new();
        /// Air volumes the air is discharged into, with shares summing to one.
        pub discharge: Vec<(String, f64)>, not_negative() = Vec::new();
        /// Parts struck by the jet (shares of the impingement conductance, need not sum to one),
        /// heated by a bonded element, or seen by a lamp (shares of the power, summing to one).
        pub impingement: Vec<(String, f64)>, not_negative() = Vec::new();
    }
}

model! {
    /// Switches a heater off at `off_at` and on again at `on_at`.
    pub struct Thermostat {
        /// The part or air volume it feels.
        pub sensor: String;
        /// On again at or below this.
        pub on_at: Temperature, limits(-60.0, 250.0);
        /// Off at or above this.
        pub off_at: Temperature, limits(-60.0, 250.0);
    }
}

model! {
    /// An element whose power falls in a straight line to nothing between two temperatures of its own.
    pub struct SelfLimiting {
        /// Full power up to here.
        pub full_power_below: Temperature;
        /// None from here on.
        pub zero_power_above: Temperature;
    }
}
