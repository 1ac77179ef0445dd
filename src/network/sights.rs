//! Surfaces that radiate to each other: pairs, and grey enclosures.

use super::frame::{Frame, Meets};
use super::graph::Network;
use super::subdivide::Touched;
use crate::laws::{Law, Radiation};
use crate::physics::radiation;
use crate::scenario::joint::{Enclosure, RadiationPair};
use crate::scenario::part::Spot;
use crate::trace::LossPath;
use nalgebra::DMatrix;

/// Lays down everything that radiates inside.
pub fn lay(frame: &Frame, net: &mut Network) {
    for sight in &frame.body.radiation_pairs {
        see(frame, net, sight);
    }
    for enclosure in &frame.body.enclosures {
        enclose(frame, net, enclosure);
    }
}

/// The cells that are seen of a part: all of it, or the top layer of oil.
fn seen(frame: &Frame, part: usize) -> Vec<Touched> {
    let cut = &frame.cuts[part];
    let spot = if cut.stack().is_some() {
        Spot::top
    } else {
        Spot::whole
    };
    cut.touched(spot, None)
}

fn see(frame: &Frame, net: &mut Network, sight: &RadiationPair) {
    let area = radiation::exchange_area_m2(
        sight.area.si(),
        sight.emissivities.0,
        sight.emissivities.1,
        sight.area_ratio,
    );
    radiate(frame, net, &sight.from, &sight.to, area);
}

fn radiate(frame: &Frame, net: &mut Network, from: &str, to: &str, area_m2: f64) {
    let ends = |name: &str| match frame.meets(name) {
        Meets::Part(part) => seen(frame, part)
            .into_iter()
            .map(|t| (t.cell, t.cell, t.share))
            .collect(),
        other => {
            let (column, row) = frame.boundary(other, LossPath::Surroundings);
            vec![(column, row, 1.0)]
        }
    };
    let (from, to): (Vec<_>, Vec<_>) = (ends(from), ends(to));
    for &(a, row_a, share_a) in &from {
        for &(b, row_b, share_b) in &to {
            net.laws.radiations.push(
                Radiation {
                    area_m2: area_m2 * share_a * share_b,
                }
                .between([a, b], [row_a, row_b]),
            );
        }
    }
}

fn enclose(frame: &Frame, net: &mut Network, enclosure: &Enclosure) {
    let n = enclosure.surfaces.len();
    let areas: Vec<f64> = enclosure.surfaces.iter().map(|s| s.1.si()).collect();
    let emissivities: Vec<f64> = enclosure.surfaces.iter().map(|s| s.2).collect();
    let view = DMatrix::from_fn(n, n, |i, j| enclosure.view[i][j]);
    let exchange = radiation::enclosure_exchange_areas(&areas, &emissivities, &view);
    for i in 0..n {
        for j in i + 1..n {
            let (a, b) = (&enclosure.surfaces[i].0, &enclosure.surfaces[j].0);
            radiate(frame, net, a, b, exchange[(i, j)]);
        }
    }
}
