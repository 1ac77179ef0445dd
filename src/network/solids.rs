//! Parts, joints and faces laid out as links between cells and air.

use super::frame::{Frame, Meets};
use super::graph::Network;
use super::subdivide::{Touched, joined};
use crate::laws::{Feed, Fins, Law, Link, OilLink, Outdoors, PowerFace, Surface, Term};
use crate::physics::oil::{Piece, Walther};
use crate::scenario::joint::{self, Contact, FilmLaw, Joint};
use crate::scenario::part::{Role, Shape, Spot};
use crate::trace::LossPath;

/// Lays down everything solid.
pub fn lay(frame: &Frame, net: &mut Network) {
    let body = frame.body;
    for (number, (part, cut)) in body.parts.iter().zip(&frame.cuts).enumerate() {
        let capacity = part.mass.si() * part.specific_heat.si();
        for (cell, share) in cut.cells().zip(&cut.shares) {
            net.capacities[cell] = capacity * share;
        }
        for (a, b, g) in cut.inner_links() {
            link(net, a, b, g);
        }
        if matches!(part.shape, Shape::stack { .. }) {
            layers(frame, net, number);
        }
    }
    for joint in &body.joints {
        join(frame, net, joint);
    }
    for face in &body.surfaces {
        expose(frame, net, face);
    }
    for feed in &body.feeds {
        for touched in frame.cut(&feed.part).touched(feed.at, None) {
            let watts = feed.power.si() * touched.share;
            net.laws
                .feeds
                .push(Feed { watts }.between([], [touched.cell]));
        }
        net.fed_w += feed.power.si();
    }
}

fn link(net: &mut Network, a: usize, b: usize, w_per_k: f64) {
    if w_per_k > 0.0 {
        net.laws
            .links
            .push(Link { w_per_k }.between([a, b], [a, b]));
    }
}

fn viscosity(frame: &Frame) -> Walther {
    let oil = &frame.checked.scenario().oil;
    Walther::through(oil.at_40.si(), oil.at_100.si())
}

/// The layers of a stack of oil, and their mean.
fn layers(frame: &Frame, net: &mut Network, part: usize) {
    let cut = &frame.cuts[part];
    let Some((area, depth, count)) = cut.stack() else {
        return;
    };
    let mean = frame.stack_mean(part);
    net.auxiliaries.means.push(mean);
    net.laws.means.push(Term::minus_itself(mean));
    for (cell, &share) in cut.cells().zip(&cut.shares) {
        net.laws.means.push(Term::new(mean, cell, share));
    }
    let thickness = depth / count as f64;
    for lower in cut.cells().take(count - 1) {
        net.laws.oil_links.push(
            OilLink {
                piece: Piece::of(area, 1.0, thickness, depth),
                viscosity: viscosity(frame),
            }
            .between([lower, lower + 1, mean], [lower, lower + 1]),
        );
    }
}

fn join(frame: &Frame, net: &mut Network, joint: &Joint) {
    let footprint = joint.footprint.map(|a| a.si());
    let touched = |(part, at): &(String, Spot)| frame.cut(part).touched(*at, footprint);
    let (from, to) = (touched(&joint.from), touched(&joint.to));
    match joint.contact {
        Contact::perfect => {
            for (a, b, g) in joined(&from, &to, f64::INFINITY) {
                link(net, a, b, g);
            }
        }
        Contact::total(total) => {
            for (a, b, g) in joined(&from, &to, total.si()) {
                link(net, a, b, g);
            }
        }
        Contact::oil_floor => floor(frame, net, joint, &from, &to),
    }
}

/// The shell under (or over) a stack of oil, half a layer away.
fn floor(frame: &Frame, net: &mut Network, joint: &Joint, from: &[Touched], to: &[Touched]) {
    let from_is_oil = frame.cut(&joint.from.0).stack().is_some();
    let (oil, spot, shell) = if from_is_oil {
        (&joint.from.0, joint.from.1, to)
    } else {
        (&joint.to.0, joint.to.1, from)
    };
    let cut = frame.cut(oil);
    let Some((area, depth, count)) = cut.stack() else {
        return;
    };
    let Meets::Part(part) = frame.meets(oil) else {
        return;
    };
    let half = 0.5 * depth / count as f64;
    for touched in shell {
        let under = spot != Spot::top;
        let layer = if under {
            cut.first
        } else {
            cut.first + count - 1
        };
        let pair = if under {
            [touched.cell, layer]
        } else {
            [layer, touched.cell]
        };
        net.laws.oil_links.push(
            OilLink {
                piece: Piece::of(area, touched.share, half, depth),
                viscosity: viscosity(frame),
            }
            .between([pair[0], pair[1], frame.stack_mean(part)], pair),
        );
    }
}

fn expose(frame: &Frame, net: &mut Network, face: &joint::Surface) {
    let role = frame
        .body
        .parts
        .iter()
        .find(|p| p.name == face.part)
        .map(|p| &p.role);
    let meets = frame.meets(&face.meets);
    let path = match (meets, role) {
        (Meets::Cabin, _) => LossPath::Firewall,
        (Meets::Hangar, Some(Role::skin(_))) => LossPath::Skins,
        (Meets::Hangar, Some(Role::propeller)) => LossPath::Propeller,
        _ => LossPath::Surroundings,
    };
    let (column, row) = frame.boundary(meets, path);
    let covers = &frame.checked.scenario().covers;
    let cover = match role {
        Some(Role::skin(pocket)) => covers.blankets.get(pocket).map_or(0.0, |r| r.si()),
        Some(Role::propeller) => covers.propeller.map_or(0.0, |r| r.si()),
        _ => 0.0,
    };
    for touched in frame.cut(&face.part).touched(face.at, None) {
        let (cell, area) = (touched.cell, face.area.si() * touched.share);
        let behind = touched.half_k_per_w;
        match (&face.law, meets) {
            (&FilmLaw::air { length, facing }, Meets::Pocket(pocket)) => {
                net.laws.surfaces.push(
                    Surface {
                        area_m2: area,
                        length_m: length.si(),
                        facing,
                        behind_k_per_w: behind,
                    }
                    .between([cell, column, frame.air_speed(pocket)], [cell, row]),
                );
            }
            (
                &FilmLaw::fins {
                    length,
                    penetration,
                },
                Meets::Pocket(pocket),
            ) => net.laws.fins.push(
                Fins {
                    area_m2: area,
                    length_m: length.si(),
                    penetration,
                }
                .between([cell, column, frame.air_speed(pocket)], [cell, row]),
            ),
            (&FilmLaw::air { length, facing }, _) => net.laws.outdoors.push(
                Outdoors {
                    area_m2: area,
                    length_m: length.si(),
                    facing,
                    emissivity: 0.0,
                    cover_m2k_per_w: cover + behind * area,
                }
                .between(
                    [cell, column, frame.index.input(super::frame::WIND)],
                    [cell, row],
                ),
            ),
            (
                &FilmLaw::outdoors {
                    length,
                    facing,
                    emissivity,
                },
                _,
            ) => net.laws.outdoors.push(
                Outdoors {
                    area_m2: area,
                    length_m: length.si(),
                    facing,
                    emissivity,
                    cover_m2k_per_w: cover + behind * area,
                }
                .between(
                    [cell, column, frame.index.input(super::frame::WIND)],
                    [cell, row],
                ),
            ),
            (FilmLaw::fixed(h), _) => {
                let resistance = 1.0 / (h.si() * area) + behind + cover / area;
                let g = 1.0 / resistance;
                net.laws
                    .links
                    .push(Link { w_per_k: g }.between([cell, column], [cell, row]));
                if meets == Meets::Cabin {
                    let warmth = g * frame.checked.scenario().hangar.cabin_above.kelvin();
                    for (row, watts) in [(cell, warmth), (row, -warmth)] {
                        net.laws.feeds.push(Feed { watts }.between([], [row]));
                    }
                }
            }
            (
                FilmLaw::power {
                    coefficient,
                    at,
                    exponent,
                },
                _,
            ) => net.laws.power_faces.push(
                PowerFace {
                    w_per_k: coefficient.si() * area,
                    at_k: at.kelvin(),
                    exponent: *exponent,
                    behind_k_per_w: behind,
                }
                .between([cell, column], [cell, row]),
            ),
            // The gate lets fins stand in pockets only.
            (FilmLaw::fins { .. }, _) => {}
        }
    }
}
