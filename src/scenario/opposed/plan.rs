//! What follows from a Layout by geometry alone: lengths, sections and areas in SI units, each used
//! by more than one of the files beside this one.

use crate::scenario::bay::Bay;
use crate::scenario::engine::Layout;
use std::f64::consts::PI;

/// Half width of the crankcase, w, m: an estimate common to all opposed engines.
pub(super) const CASE_HALF_WIDTH: f64 = 0.11;
/// Conductivity of steel, W/mK (42 to 45 for 4140 and 4340: ASM Handbook 1, from memory).
pub(super) const K_STEEL: f64 = 43.0;

/// The measures of an engine, SI units.
#[derive(Debug)]
pub(super) struct Plan<'a> {
    /// The Layout it is drawn from.
    pub(super) layout: &'a Layout,
    /// Cylinders on each side.
    pub(super) rows: usize,
    /// Crankcase stations: the nose, and one a row.
    pub(super) stations: usize,
    /// Plan area of an upper crankcase quarter.
    pub(super) a_up: f64,
    /// Section of a barrel's metal.
    pub(super) barrel_section: f64,
    /// Length of a third of a barrel.
    pub(super) third: f64,
    /// Section of a crankshaft journal.
    pub(super) journal: f64,
    /// Section of all blades together, a 0.7 of chord times thickness each.
    pub(super) blade_section: f64,
    /// Girth of the sump, p.
    pub(super) girth: f64,
    /// Wall thickness of the sump.
    pub(super) sump_wall: f64,
    /// Depth of the oil.
    pub(super) oil_depth: f64,
    /// How large the fittings are beside those of the smallest engine, in surface.
    pub(super) factor: Factors,
}

/// Surfaces of fittings over those of the smallest engine, from their masses.
#[derive(Debug)]
pub(super) struct Factors {
    pub(super) accessory: f64,
    pub(super) carburettor: f64,
    pub(super) intake: f64,
    pub(super) exhaust: f64,
    pub(super) filter: f64,
    pub(super) baffle: f64,
}

impl<'a> Plan<'a> {
    pub(super) fn of(layout: &'a Layout) -> Self {
        let sump_area = layout.sump_area.si();
        let depth = layout.sump_depth.si();
        let girth = 4.0 * (1.1 * sump_area).sqrt();
        let wall = layout.barrel_wall.si();
        Self {
            layout,
            rows: layout.rows,
            stations: layout.rows + 1,
            a_up: 0.7 * CASE_HALF_WIDTH * layout.row_len.si(),
            barrel_section: PI * (layout.bore.si() + wall) * wall,
            third: layout.barrel_len.si() / 3.0,
            journal: PI * layout.d_crank.si().powi(2) / 4.0,
            blade_section: layout.n_blades as f64
                * layout.blade_chord.si()
                * layout.blade_thick.si()
                * 0.7,
            girth,
            sump_wall: layout.m_sump.si() / (2700.0 * (girth * depth + 2.0 * sump_area)),
            oil_depth: (0.9 * depth).min(layout.oil_litres.si() / sump_area),
            factor: Factors {
                accessory: (layout.m_acc_case.si() / 2.8).powf(2.0 / 3.0),
                carburettor: (layout.m_carb.si() / 1.5).powf(2.0 / 3.0),
                intake: (layout.m_intake.si() / 2.2).powf(0.8),
                exhaust: (layout.m_exhaust.si() / 4.0).powf(0.8),
                filter: (layout.m_filter.si() / 1.2).powf(0.67),
                baffle: (layout.m_baffle.si() / 1.5).powf(0.8),
            },
        }
    }

    pub(super) fn bay(&self) -> &Bay {
        &self.layout.bay
    }
    /// The last station, where the accessory case is bolted on.
    pub(super) fn rear(&self) -> usize {
        self.rows
    }
    /// Cylinders on both sides.
    pub(super) fn cylinders(&self) -> f64 {
        2.0 * self.rows as f64
    }
    /// Wetted side of the sump: girth times depth.
    pub(super) fn sump_side(&self) -> f64 {
        self.girth * self.layout.sump_depth.si()
    }
    /// Area of an air volume's skin: that of the smallest bay, times the bay's scale.
    pub(super) fn skin_area(&self, pocket: &str) -> f64 {
        let smallest = match pocket {
            "UL" | "UR" => 0.33,
            "FR" => 0.22,
            "LO" => 0.36,
            "FL" => 0.30,
            _ => 0.32,
        };
        smallest * self.bay().area_scale
    }
    /// Fin area of a cylinder piece, its efficiency counted in.
    pub(super) fn fin_area(&self, piece: &str) -> f64 {
        let of_a_third = self.layout.a_fin_barrel.si() / 3.0;
        self.layout.fin_eff
            * match piece {
                "head" => self.layout.a_fin_head.si(),
                "b0" => 0.6 * of_a_third,
                _ => 1.2 * of_a_third,
            }
    }
}
