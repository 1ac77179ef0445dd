//! The engine bay of a Layout: its size, its openings, and the coefficients of what happens in it.

use crate::document::model;
use crate::quantity::{Area, Conductance, FilmCoefficient, MassFlow};

model! {
    /// Size, openings and transfer coefficients of the bay. Areas are those of the smallest bay; `area_scale`
    /// and `volume_scale` fit them to a larger one. Defaults were adjusted to a few practice readings.
    pub struct Bay: Default {
        /// Factor on skin, leak and opening areas, s.
        pub area_scale: f64, above_zero() = 1.0;
        /// Factor on volumes, v; flow sections grow with v^0.67.
        pub volume_scale: f64, above_zero() = 1.0;
        /// Area of the cooling inlets, both together, before any plug.
        pub inlet_area: Area, not_negative() = Area::m2(0.030);
        /// Area of the outlet, before any plug.
        pub outlet_area: Area, not_negative() = Area::m2(0.030);
        /// Gap round the propeller shaft.
        pub shaft_gap: Area, not_negative() = Area::m2(0.0015);
        /// Leakage area of each seam (0.0003 to 0.003).
        pub seam_area: Area, not_negative() = Area::m2(0.0008);
        /// Opening between the two upper air volumes, over the spine.
        pub open_top: Area, not_negative() = Area::m2(0.030);
        /// Opening from the front air volume to each upper one.
        pub open_front_up: Area, not_negative() = Area::m2(0.020);
        /// Opening from the front air volume to the lower one.
        pub open_front_lo: Area, not_negative() = Area::m2(0.012);
        /// Gaps round the baffles on each side (0.001 to 0.012).
        pub gap_side: Area, not_negative() = Area::m2(0.004);
        /// Leak through the rear baffle to each upper air volume.
        pub open_up_re: Area, not_negative() = Area::m2(0.003);
        /// Leak from the front air volume to the floor.
        pub open_fr_fl: Area, not_negative() = Area::m2(0.004);
        /// Opening from the lower to the rear air volume (0.02 to 0.12).
        pub open_lo_re: Area, not_negative() = Area::m2(0.050);
        /// Opening from the lower air volume to the floor (0.02 to 0.12).
        pub open_lo_fl: Area, not_negative() = Area::m2(0.060);
        /// Air exchanged through a level gap when the warmer air lies above (3e-5 to 8e-4 kg/s).
        pub stable_mix: MassFlow, not_negative() = MassFlow::kg_s(1.5e-4);
        /// Flow coefficient of a level gap when the warmer air lies below (0.02 to 0.15).
        pub epstein: f64, not_negative() = 0.055;
        /// Share of the wind that pumps air through each gap (0.01 to 0.08).
        pub gust: f64, not_negative() = 0.03;
        /// Emissivity of engine parts (0.2 to 0.8).
        pub emis_part: f64, above_to(0.0, 1.0) = 0.46;
        /// Emissivity of the cowl inside (0.15 to 0.8).
        pub emis_cowl_in: f64, above_to(0.0, 1.0) = 0.40;
        /// Emissivity of the cowl outside (0.2 to 0.9).
        pub emis_cowl_out: f64, above_to(0.0, 1.0) = 0.85;
        /// From the firewall to the cabin air (0.5 to 5 W/m2K).
        pub u_cabin: FilmCoefficient, above_zero() = FilmCoefficient::W_m2K(2.0);
        /// Fraction of the air movement that reaches between the fins (0.05 to 0.5).
        pub fin_air_fraction: f64, fraction() = 0.23;
        /// Share of the crankcase side wall left between the bores (0.1 to 0.5).
        pub bore_cut: f64, above_to(0.0, 1.0) = 0.24;
        /// Conductance of the accessory case joint (2 to 10 W/K).
        pub acc_joint: Conductance, above_zero() = Conductance::W_K(4.3);
        /// Conductance of the bearings at each station (1 to 8 W/K).
        pub bearing: Conductance, above_zero() = Conductance::W_K(4.0);
        /// How far the crankshaft is from a straight bar (0.4 to 1.2).
        pub crank_conduction_factor: f64, above_zero() = 0.75;
        /// Share of a top heater's discharge that stays on its own side (0 to 0.3).
        pub jet_spill: f64, limits(0.0, 0.5) = 0.08;
        /// How freely water passes the oil surface (0.05 to 1).
        pub oil_film: f64, above_to(0.0, 1.0) = 0.2;
        /// Air exchanged through the breather, in litres per second (1e-4 to 2e-2).
        pub breather_l_s: f64, not_negative() = 0.002;
        /// Air movement through the open filler, in litres per second (1e-3 to 2e-2).
        pub filler_flow_l_s: f64, not_negative() = 0.003;
        /// Diameter of the filler neck, in metres (0.03 to 0.06).
        pub filler_diameter_m: f64, above_zero() = 0.045;
    }
}
