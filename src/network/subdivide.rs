//! A part cut into finite-difference cells at the required resolution.
//!
//! Cells are cell-centred volumes: the way from a cell's middle to an outer face of the part is half a
//! cell, so a joint or face at an end sees that resistance in series; at `whole` it sees none.

use crate::physics::conduction;
use crate::scenario::part::{Part, Shape, Spot};
use std::f64::consts::PI;

/// The law for mixing oil speaks of plumes through its depth, and the layer of still oil at a warm floor is some
/// millimetres; layers thinner than this would mean nothing, m. A choice.
const THINNEST_OIL_M: f64 = 0.002;

/// A part's cells.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// The number of the first cell in the network.
    pub first: usize,
    /// Cells along each axis; the first axis varies slowest.
    pub counts: [usize; 3],
    /// Each cell's share of the part's mass.
    pub shares: Vec<f64>,
    shape: Shape,
}

/// A cell touched by a joint or face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Touched {
    /// The cell, numbered within the network.
    pub cell: usize,
    /// Its share of the joint's or face's area.
    pub share: f64,
    /// Resistance from its middle to there, for its share of the area, K/W.
    pub half_k_per_w: f64,
}

impl Cut {
    /// Cuts a part into `resolution` cells along each of its axes, numbered from `first`; a stack of liquid into as many
    /// times its own layers, but into none thinner than 2 mm that are not its own.
    pub fn new(part: &Part, resolution: usize, first: usize) -> Self {
        let r = resolution.max(1);
        let n = |cut: bool| if cut { r } else { 1 };
        let counts = match &part.shape {
            Shape::lump => [1, 1, 1],
            Shape::bar { .. } | Shape::shell { .. } => [r, 1, 1],
            Shape::block { cut, .. } => [n(cut.0), n(cut.1), n(cut.2)],
            Shape::tube { cut, .. } => [n(cut.0), n(cut.1), 1],
            Shape::stack { layers, depth, .. } => {
                let finest = (depth.si() / THINNEST_OIL_M) as usize;
                [(layers * r).min(finest.max(*layers)), 1, 1]
            }
        };
        let total: usize = counts.iter().product();
        let shares = match &part.shape {
            Shape::tube { inner, outer, .. } => {
                let rings = rings(inner.si(), outer.si(), counts[1], 2);
                (0..total)
                    .map(|c| rings[c % counts[1]] / counts[0] as f64)
                    .collect()
            }
            Shape::shell { inner, outer, .. } => rings(inner.si(), outer.si(), counts[0], 3),
            _ => vec![1.0 / total as f64; total],
        };
        Self {
            first,
            counts,
            shares,
            shape: part.shape.clone(),
        }
    }

    /// The number of cells.
    pub fn len(&self) -> usize {
        self.shares.len()
    }
    /// Never: a part has at least one cell.
    pub fn is_empty(&self) -> bool {
        self.shares.is_empty()
    }
    /// The cells' numbers in the network.
    pub fn cells(&self) -> std::ops::Range<usize> {
        self.first..self.first + self.len()
    }
    /// Depth of a liquid stack, its plan area and its layers.
    pub fn stack(&self) -> Option<(f64, f64, usize)> {
        match &self.shape {
            Shape::stack { area, depth, .. } => Some((area.si(), depth.si(), self.counts[0])),
            _ => None,
        }
    }

    fn number(&self, at: [usize; 3]) -> usize {
        self.first + (at[0] * self.counts[1] + at[1]) * self.counts[2] + at[2]
    }

    fn each(&self) -> impl Iterator<Item = [usize; 3]> + '_ {
        let [a, b, c] = self.counts;
        (0..a).flat_map(move |i| (0..b).flat_map(move |j| (0..c).map(move |k| [i, j, k])))
    }

    /// Conductances between neighbouring cells, W/K; none for a stack, whose layers have a law of their own.
    pub fn inner_links(&self) -> Vec<(usize, usize, f64)> {
        let mut links = Vec::new();
        for at in self.each() {
            for axis in 0..3 {
                if at[axis] + 1 < self.counts[axis] {
                    let mut next = at;
                    next[axis] += 1;
                    let way =
                        self.half_k_per_w(at, axis, true) + self.half_k_per_w(next, axis, false);
                    if way > 0.0 {
                        links.push((self.number(at), self.number(next), 1.0 / way));
                    }
                }
            }
        }
        links
    }

    /// The cells at a spot, with their shares of it and the resistance of the half cell in between.
    /// `footprint_m2` is the area of the joint, where that is less than the whole end.
    pub fn touched(&self, spot: Spot, footprint_m2: Option<f64>) -> Vec<Touched> {
        let (axis, high) = match (spot, &self.shape) {
            (Spot::start, _) => (0, false),
            (Spot::end, _) => (0, true),
            (Spot::near, _) => (1, false),
            (Spot::far, _) => (1, true),
            (Spot::bottom, Shape::stack { .. }) => (0, false),
            (Spot::top, Shape::stack { .. }) => (0, true),
            (Spot::bottom, _) => (2, false),
            (Spot::top, _) => (2, true),
            (Spot::inner, Shape::shell { .. }) => (0, false),
            (Spot::outer, Shape::shell { .. }) => (0, true),
            (Spot::inner, _) => (1, false),
            (Spot::outer, _) => (1, true),
            (Spot::whole, _) => {
                return self
                    .cells()
                    .zip(&self.shares)
                    .map(|(cell, &share)| Touched {
                        cell,
                        share,
                        half_k_per_w: 0.0,
                    })
                    .collect();
            }
        };
        let edge = if high { self.counts[axis] - 1 } else { 0 };
        let there: Vec<_> = self.each().filter(|at| at[axis] == edge).collect();
        let areas: Vec<f64> = there
            .iter()
            .map(|&at| self.end_area_m2(at, axis, high))
            .collect();
        let total: f64 = areas.iter().sum();
        there
            .iter()
            .zip(&areas)
            .map(|(&at, &area)| {
                let share = area / total;
                let narrowed = footprint_m2.map_or(1.0, |a| total / a);
                Touched {
                    cell: self.number(at),
                    share,
                    half_k_per_w: self.half_k_per_w(at, axis, high) * narrowed,
                }
            })
            .collect()
    }

    /// Edges of a cell along the axes of a bar or block.
    fn box_step(&self) -> Option<([f64; 3], f64)> {
        let n = self.counts.map(|c| c as f64);
        match &self.shape {
            Shape::bar {
                length,
                section,
                conductivity,
            } => Some(([length.si() / n[0], section.si(), 1.0], conductivity.si())),
            Shape::block {
                size, conductivity, ..
            } => Some((
                [size.0.si() / n[0], size.1.si() / n[1], size.2.si() / n[2]],
                conductivity.si(),
            )),
            _ => None,
        }
    }

    /// Radii of a cell: inside, middle, outside.
    fn radii(&self, at: [usize; 3]) -> Option<[f64; 3]> {
        let (inner, outer, ring, count) = match &self.shape {
            Shape::tube { inner, outer, .. } => (inner.si(), outer.si(), at[1], self.counts[1]),
            Shape::shell { inner, outer, .. } => (inner.si(), outer.si(), at[0], self.counts[0]),
            _ => return None,
        };
        let step = (outer - inner) / count as f64;
        let low = inner + ring as f64 * step;
        Some([low, low + 0.5 * step, low + step])
    }

    /// Area of a cell's face at the low or high end of an axis, m2.
    fn end_area_m2(&self, at: [usize; 3], axis: usize, high: bool) -> f64 {
        if let Some((step, _)) = self.box_step() {
            return step[0] * step[1] * step[2] / step[axis];
        }
        let Some(radii) = self.radii(at) else {
            return 1.0;
        };
        let r = if high { radii[2] } else { radii[0] };
        match &self.shape {
            Shape::tube { .. } if axis == 0 => PI * (radii[2].powi(2) - radii[0].powi(2)),
            Shape::tube { length, .. } => 2.0 * PI * r * length.si() / self.counts[0] as f64,
            _ => 4.0 * PI * r * r,
        }
    }

    /// Resistance from a cell's middle to its face at the low or high end of an axis, K/W.
    fn half_k_per_w(&self, at: [usize; 3], axis: usize, high: bool) -> f64 {
        if let Some((step, k)) = self.box_step() {
            let section = step[0] * step[1] * step[2] / step[axis];
            return 1.0 / conduction::bar_w_per_k(k, section, 0.5 * step[axis]);
        }
        let Some([low, mid, top]) = self.radii(at) else {
            return 0.0;
        };
        let (from, to) = if high { (mid, top) } else { (low, mid) };
        match &self.shape {
            Shape::tube {
                length,
                conductivity,
                ..
            } => {
                let step = length.si() / self.counts[0] as f64;
                let k = conductivity.si();
                if axis == 0 {
                    let section = PI * (top * top - low * low);
                    1.0 / conduction::bar_w_per_k(k, section, 0.5 * step)
                } else {
                    1.0 / conduction::tube_wall_w_per_k(k, step, from, to)
                }
            }
            Shape::shell { conductivity, .. } => {
                1.0 / conduction::shell_wall_w_per_k(conductivity.si(), from, to)
            }
            _ => 0.0,
        }
    }
}

/// Shares of the volume between equally wide rings (power 2) or shells (power 3).
fn rings(inner: f64, outer: f64, count: usize, power: i32) -> Vec<f64> {
    let edge = |i: usize| (inner + (outer - inner) * i as f64 / count as f64).powi(power);
    let whole = edge(count) - edge(0);
    (0..count)
        .map(|i| (edge(i + 1) - edge(i)) / whole)
        .collect()
}

/// Pairs the cells of two touched spots by overlapping their shares, and gives the conductance of each
/// pair in a joint of `total_w_per_k` (infinite for perfect contact).
pub fn joined(a: &[Touched], b: &[Touched], total_w_per_k: f64) -> Vec<(usize, usize, f64)> {
    let mut pairs = Vec::new();
    let (mut i, mut j) = (0, 0);
    let (mut left_a, mut left_b) = (a[0].share, b[0].share);
    loop {
        let overlap = left_a.min(left_b);
        if overlap > 1e-12 {
            let way = 1.0 / (total_w_per_k * overlap)
                + a[i].half_k_per_w * a[i].share / overlap
                + b[j].half_k_per_w * b[j].share / overlap;
            pairs.push((a[i].cell, b[j].cell, 1.0 / way));
        }
        left_a -= overlap;
        left_b -= overlap;
        if left_a <= 1e-12 {
            i += 1;
            match a.get(i) {
                Some(next) => left_a = next.share,
                None => return pairs,
            }
        }
        if left_b <= 1e-12 {
            j += 1;
            match b.get(j) {
                Some(next) => left_b = next.share,
                None => return pairs,
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Area, Length, Mass, SpecificHeat};

    fn layers(depth_m: f64, layers: usize, resolution: usize) -> usize {
        let part = Part {
            name: "oil".into(),
            label: "oil".into(),
            mass: Mass::kg(8.0),
            specific_heat: SpecificHeat::J_kgK(1900.0),
            shape: Shape::stack {
                area: Area::m2(0.1),
                depth: Length::m(depth_m),
                layers,
            },
            role: Default::default(),
            after_flight: Default::default(),
        };
        Cut::new(&part, resolution, 0).len()
    }

    #[test]
    fn oil_is_cut_into_no_layers_thinner_than_two_millimetres_but_its_own() {
        assert_eq!(layers(0.09, 4, 4), 16);
        assert_eq!(layers(0.0901, 4, 40), 45);
        assert_eq!(layers(0.006, 4, 1), 4);
        assert_eq!(layers(0.006, 4, 8), 4);
    }
}
