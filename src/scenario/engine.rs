//! Two ways to say an engine: a Layout, or its explicit body.

use super::bay::Bay;
use super::body::Body;
use super::uncertain::Uncertain;
use crate::document::{choice, model};
use crate::quantity::{Area, Conductance, Conductivity, Length, Mass, Volume};

choice! {
    /// An engine with the air around it.
    #[allow(clippy::large_enum_variant)]
    pub enum Engine {
        /// An engine with opposed cylinders, said by its masses and dimensions.
        opposed(Layout),
        /// Anything else, said part by part.
        body(Body),
    }
}

model! {
    /// An opposed engine: what a handbook and a tape measure give. It expands into a [`Body`]
    /// (see [`crate::scenario::opposed`]).
    pub struct Layout {
        /// Cylinders on each side.
        pub rows: usize, limits(1.0, 6.0);
        /// Mass of the crankcase halves.
        pub m_case: Mass, above_zero();
        /// Mass of one barrel.
        pub m_barrel: Mass, above_zero();
        /// Mass of one head with valve gear and cover.
        pub m_head: Mass, above_zero();
        /// Mass of one piston with its rod.
        pub m_piston: Mass, above_zero();
        /// Mass of the crankshaft with camshaft and gears.
        pub m_crank: Mass, above_zero();
        /// Mass of the accessory case.
        pub m_acc_case: Mass, above_zero();
        /// Mass of the magnetos.
        pub m_mags: Mass, above_zero();
        /// Mass of generator and starter.
        pub m_gen: Mass, above_zero();
        /// Mass of the sump.
        pub m_sump: Mass, above_zero();
        /// Mass of the carburettor.
        pub m_carb: Mass, above_zero();
        /// Mass of the intake pipes.
        pub m_intake: Mass, above_zero();
        /// Mass of the oil screen, filter or cooler.
        pub m_filter: Mass, above_zero();
        /// Mass of the exhaust.
        pub m_exhaust: Mass, above_zero();
        /// Mass of the engine mount.
        pub m_mount: Mass, above_zero();
        /// Mass of the baffles.
        pub m_baffle: Mass, above_zero();
        /// Mass of the propeller hub.
        pub m_hub: Mass, above_zero();
        /// Mass of all blades.
        pub m_blades: Mass, above_zero();
        /// Length of one crankcase station, L.
        pub row_len: Length, above_zero();
        /// Half height of the crankcase, H.
        pub case_half_h: Length, above_zero();
        /// Wall thickness of the crankcase, t.
        pub case_wall: Length, above_zero();
        /// Conductivity of the crankcase, k.
        pub k_case: Conductivity, above_zero();
        /// Cylinder bore.
        pub bore: Length, above_zero();
        /// Wall thickness of a barrel.
        pub barrel_wall: Length, above_zero();
        /// Length of a barrel.
        pub barrel_len: Length, above_zero();
        /// Fin area of one head.
        pub a_fin_head: Area, above_zero();
        /// Fin area of one barrel.
        pub a_fin_barrel: Area, above_zero();
        /// Width of the space between fins.
        pub fin_gap: Length, above_zero();
        /// Flow section between the fins of one cylinder.
        pub fin_free: Area, above_zero();
        /// Fin efficiency.
        pub fin_eff: f64, above_to(0.0, 1.0);
        /// Envelope area of one head.
        pub a_env_head: Area, above_zero();
        /// Envelope area of one barrel.
        pub a_env_barrel: Area, above_zero();
        /// Diameter of the crankshaft journals.
        pub d_crank: Length, above_zero();
        /// Plan area of the sump.
        pub sump_area: Area, above_zero();
        /// Depth of the sump.
        pub sump_depth: Length, above_zero();
        /// Conductance between sump and crankcase.
        pub g_sump_case: Conductance, above_zero();
        /// Oil in the sump.
        pub oil_litres: Volume, above_zero();
        /// Length of a blade.
        pub blade_len: Length, above_zero();
        /// Chord of a blade.
        pub blade_chord: Length, above_zero();
        /// Thickness of a blade.
        pub blade_thick: Length, above_zero();
        /// Conductivity of a blade.
        pub k_blade: Conductivity, above_zero();
        /// Number of blades.
        pub n_blades: usize, limits(1.0, 6.0);
        /// Volume of the air inside the crankcase.
        pub gas_litres: Volume, above_zero();
        /// Thickness of the cowl skin.
        pub cowl_thick: Length, above_zero();
        /// Area of the firewall.
        pub a_firewall: Area, above_zero();
        /// The space around the engine, and what happens in it.
        pub bay: Bay = Bay::default();
        /// Which of its numbers are uncertain.
        pub uncertain: Uncertain = Uncertain::new();
    }
}
