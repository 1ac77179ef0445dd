//! The outer measures of an opposed engine and its cowl, in metres, that its three views share.
//!
//! Lengths that a Layout does not give (fittings, the room around) are estimates, for the eye only: no temperature
//! depends on them.

use crate::scenario::engine::Layout;

/// Half width of the crankcase: that of the model (an estimate common to opposed engines).
const CASE_HALF_WIDTH: f64 = 0.11;

/// Along: from the nose of the case (0) backwards. Across: from the crankshaft to the left. Up: from the crankshaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measures {
    /// Cylinders on each side.
    pub rows: usize,
    /// Length of a station of the case.
    pub station: f64,
    /// Length of the case.
    pub case: f64,
    /// Half width of the case.
    pub half_width: f64,
    /// Half height of the case.
    pub half_height: f64,
    /// Length of a barrel.
    pub barrel: f64,
    /// Radius of a barrel with its fins.
    pub barrel_radius: f64,
    /// Radius of the bore.
    pub bore_radius: f64,
    /// Length of a head.
    pub head: f64,
    /// Half breadth of a head.
    pub head_radius: f64,
    /// Depth of the sump, and of the oil in it.
    pub sump: (f64, f64),
    /// Length and half width of the sump.
    pub sump_plan: (f64, f64),
    /// Half width of the cowl.
    pub cowl: f64,
    /// Height of the cowl over the crankshaft.
    pub roof: f64,
    /// Depth of the cowl's floor under the crankshaft.
    pub floor: f64,
    /// Where the nose of the cowl begins.
    pub nose: f64,
    /// Where the firewall stands.
    pub firewall: f64,
    /// The foremost point of the propeller hub.
    pub front: f64,
}

impl Measures {
    /// The measures of a Layout.
    pub fn of(layout: &Layout) -> Self {
        let station = layout.row_len.si();
        let case = station * (layout.rows + 1) as f64;
        let bore = layout.bore.si();
        let half_height = layout.case_half_h.si();
        let (head, barrel) = (0.85 * bore, layout.barrel_len.si());
        let depth = layout.sump_depth.si();
        let (area, length) = (layout.sump_area.si(), case - 0.95 * station);
        let half_width = CASE_HALF_WIDTH;
        Self {
            rows: layout.rows,
            station,
            case,
            half_width,
            half_height,
            barrel,
            barrel_radius: (0.5 * bore + 0.012).min(0.45 * station),
            bore_radius: 0.5 * bore * 0.82,
            head,
            head_radius: (0.5 * bore + 0.02).min(0.48 * station),
            sump: (depth, (0.9 * depth).min(layout.oil_litres.si() / area)),
            sump_plan: (length, (0.5 * area / length).clamp(0.06, half_width)),
            cowl: half_width + barrel + head + 0.08,
            roof: half_height + 0.13,
            floor: half_height + depth + 0.12,
            nose: -0.05,
            firewall: case + 0.30,
            front: -0.23,
        }
    }
    /// Where a station of the case begins.
    pub fn begin(&self, station: usize) -> f64 {
        station as f64 * self.station
    }
    /// The middle of a row of cylinders.
    pub fn row(&self, row: usize) -> f64 {
        (row as f64 + 0.5) * self.station
    }
}

/// Puts metres on the sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// Pixels a metre.
    pub per_metre: f64,
    /// Where the origin lies on the sheet.
    pub origin: (f64, f64),
}

impl Scale {
    /// So far to the right and so far down, in metres.
    pub fn at(&self, right: f64, down: f64) -> (f64, f64) {
        (
            self.origin.0 + right * self.per_metre,
            self.origin.1 + down * self.per_metre,
        )
    }
}
