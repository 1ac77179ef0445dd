//! The engine bay of a Layout: its size, its openings, and the coefficients of what happens in it.

use crate::quantity::{Area, Conductance, FilmCoefficient, MassFlow};
use serde::{Deserialize, Serialize};

/// Size, openings and transfer coefficients of the bay. Areas are those of the smallest bay; `area_scale`
/// and `volume_scale` fit them to a larger one. Defaults were adjusted to a few practice readings.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Bay {
    /// Factor on skin, gap and passage areas, s.
    pub area_scale: f64,
    /// Factor on volumes, v; flow sections grow with v^0.67.
    pub volume_scale: f64,
    /// Area of the cooling inlets, both together, before any plug.
    pub inlet_area: Area,
    /// Area of the outlet, before any plug.
    pub outlet_area: Area,
    /// Gap round the propeller shaft.
    pub shaft_gap: Area,
    /// Leakage area of each seam (0.0003 to 0.003).
    pub seam_area: Area,
    /// Passage between the two upper pockets, over the spine.
    pub open_top: Area,
    /// Passage from the front pocket to each upper pocket.
    pub open_front_up: Area,
    /// Passage from the front pocket to the lower pocket.
    pub open_front_lo: Area,
    /// Gaps round the baffles on each side (0.001 to 0.012).
    pub gap_side: Area,
    /// Leak through the rear baffle to each upper pocket.
    pub open_up_re: Area,
    /// Leak from the front pocket to the floor.
    pub open_fr_fl: Area,
    /// Passage from the lower to the rear pocket (0.02 to 0.12).
    pub open_lo_re: Area,
    /// Passage from the lower pocket to the floor (0.02 to 0.12).
    pub open_lo_fl: Area,
    /// Air exchanged through a level gap when the warmer air lies above (3e-5 to 8e-4 kg/s).
    pub stable_mix: MassFlow,
    /// Flow coefficient of a level gap when the warmer air lies below (0.02 to 0.15).
    pub epstein: f64,
    /// Share of the wind that pumps air through each gap (0.01 to 0.08).
    pub gust: f64,
    /// Emissivity of engine parts (0.2 to 0.8).
    pub emis_part: f64,
    /// Emissivity of the cowl inside (0.15 to 0.8).
    pub emis_cowl_in: f64,
    /// Emissivity of the cowl outside (0.2 to 0.9).
    pub emis_cowl_out: f64,
    /// From the firewall to the cabin air (0.5 to 5 W/m2K).
    pub u_cabin: FilmCoefficient,
    /// Share of the draught that reaches between the fins (0.05 to 0.5).
    pub fin_pen: f64,
    /// Share of the crankcase side wall left between the bores (0.1 to 0.5).
    pub bore_cut: f64,
    /// Conductance of the accessory case joint (2 to 10 W/K).
    pub acc_joint: Conductance,
    /// Conductance of the bearings at each station (1 to 8 W/K).
    pub bearing: Conductance,
    /// How far the crankshaft is from a straight bar (0.4 to 1.2).
    pub crank_fact: f64,
    /// Share of a top heater's throw that stays on its own side (0 to 0.3).
    pub jet_spill: f64,
    /// How freely water passes the oil surface (0.05 to 1).
    pub oil_film: f64,
    /// Air exchanged through the breather, in litres per second (1e-4 to 2e-2).
    pub breather_l_s: f64,
    /// Draught through the open filler, in litres per second (1e-3 to 2e-2).
    pub filler_draught_l_s: f64,
    /// Diameter of the filler neck, in metres (0.03 to 0.06).
    pub filler_diameter_m: f64,
}

impl Default for Bay {
    fn default() -> Self {
        Self {
            area_scale: 1.0,
            volume_scale: 1.0,
            inlet_area: Area::m2(0.030),
            outlet_area: Area::m2(0.030),
            shaft_gap: Area::m2(0.0015),
            seam_area: Area::m2(0.0008),
            open_top: Area::m2(0.030),
            open_front_up: Area::m2(0.020),
            open_front_lo: Area::m2(0.012),
            gap_side: Area::m2(0.004),
            open_up_re: Area::m2(0.003),
            open_fr_fl: Area::m2(0.004),
            open_lo_re: Area::m2(0.050),
            open_lo_fl: Area::m2(0.060),
            stable_mix: MassFlow::kg_s(1.5e-4),
            epstein: 0.055,
            gust: 0.03,
            emis_part: 0.46,
            emis_cowl_in: 0.40,
            emis_cowl_out: 0.85,
            u_cabin: FilmCoefficient::W_m2K(2.0),
            fin_pen: 0.23,
            bore_cut: 0.24,
            acc_joint: Conductance::W_K(4.3),
            bearing: Conductance::W_K(4.0),
            crank_fact: 0.75,
            jet_spill: 0.08,
            oil_film: 0.2,
            breather_l_s: 0.002,
            filler_draught_l_s: 0.003,
            filler_diameter_m: 0.045,
        }
    }
}
