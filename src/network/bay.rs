//! Pockets of bay air, the openings between them and to the hangar, and the fin passages.

use super::fins;
use super::frame::{Frame, HUMIDITY, OUTDOORS, WIND};
use super::graph::{Network, PocketColumns};
use crate::laws::{Exchange, Gap, HangarVapour, Law, Link, Passage, Term};
use crate::physics::air;
use crate::scenario::body::{CowlLeak, Opening, OpeningKind};
use crate::scenario::cover::OpenSide;
use crate::scenario::weather::Weather;
use crate::trace::LossPath;

/// Wind pressure on an opened side, as a share of the stagnation pressure (estimate,
/// 0.1 to 0.6: a lee side to a side that faces the wind).
const OPEN_SIDE_WIND: f64 = 0.3;
/// Slices an opened side is counted in.
const OPEN_SIDE_SLICES: usize = 3;

/// Lays down the air of the bay and of the hangar.
pub fn lay(frame: &Frame, net: &mut Network) {
    hangar(frame, net);
    for (pocket, data) in frame.body.air_volumes.iter().enumerate() {
        let volume = data.volume.si();
        net.capacities[frame.index.pocket(pocket)] =
            volume * air::REFERENCE_DENSITY_KG_PER_M3 * air::HEAT_CAPACITY_J_PER_KGK;
        net.capacities[frame.index.vapour(pocket)] = volume;
        let air_speed_scale = air::REFERENCE_DENSITY_KG_PER_M3 * data.flow_section.si();
        net.pockets.push(PocketColumns {
            pressure: frame.pressure(pocket),
            air_speed: frame.air_speed(pocket),
            air_speed_scale,
            pinned: false,
        });
        net.laws.air_speeds.push(Term::new(
            frame.air_speed(pocket),
            frame.air_speed(pocket),
            -air_speed_scale,
        ));
    }
    for pocket in without_way_out(frame) {
        // Its pressure means nothing and is held at none.
        net.pockets[pocket].pinned = true;
        net.laws
            .air_speeds
            .push(Term::minus_itself(frame.pressure(pocket)));
    }
    for passage in &frame.body.openings {
        open_passage(frame, net, passage);
    }
    let covers = &frame.checked.scenario().covers;
    for gap in &frame.body.cowl_leaks {
        let open = match gap.opening {
            OpeningKind::inlet => 1.0 - covers.inlet_plug,
            OpeningKind::outlet => 1.0 - covers.outlet_plug,
            OpeningKind::shaft | OpeningKind::seam | OpeningKind::side => 1.0,
        };
        open_gap(frame, net, gap, open);
    }
    if let Some(side) = &covers.open_side {
        open_gap(frame, net, &side_gap(side), 1.0);
    }
    let air = &frame.body.air;
    for exchange in &frame.body.mixing_openings {
        let [low, high] = [&exchange.below, &exchange.above].map(|name| frame.pocket(name));
        let ix = &frame.index;
        net.laws.exchanges.push(
            Exchange {
                area_m2: exchange.area.si(),
                epstein: air.epstein,
                stable_mix_kg_per_s: air.stable_mix.si(),
            }
            .between(
                [
                    ix.pocket(low),
                    ix.pocket(high),
                    ix.vapour(low),
                    ix.vapour(high),
                ],
                [
                    ix.pocket(low),
                    ix.pocket(high),
                    ix.vapour(low),
                    ix.vapour(high),
                    frame.air_speed(low),
                    frame.air_speed(high),
                ],
            ),
        );
    }
    for (number, passage) in frame.body.fin_passages.iter().enumerate() {
        fins::open(frame, net, number, passage);
    }
}

/// The hangar's air follows the outdoors with a lag; its vapour is that of the outdoors.
fn hangar(frame: &Frame, net: &mut Network) {
    let ix = &frame.index;
    let rate = 1.0 / frame.checked.scenario().hangar.time_constant.si();
    net.laws.links.push(Link { w_per_k: rate }.between(
        [ix.hangar(), ix.input(OUTDOORS)],
        [ix.hangar(), ix.unused_row()],
    ));
    net.auxiliaries.means.push(frame.hangar_vapour());
    net.laws.hangar_vapour.push(
        HangarVapour {
            dew_point: matches!(frame.checked.scenario().weather, Weather::recorded(_)),
        }
        .between(
            [
                frame.hangar_vapour(),
                ix.hangar(),
                ix.input(OUTDOORS),
                ix.input(HUMIDITY),
            ],
            [frame.hangar_vapour()],
        ),
    );
}

/// One pocket of each group whose air has no way to the hangar.
fn without_way_out(frame: &Frame) -> Vec<usize> {
    let n = frame.body.air_volumes.len();
    let mut group: Vec<usize> = (0..n).collect();
    let joined = frame
        .body
        .openings
        .iter()
        .map(|p| (&p.between.0, &p.between.1))
        .chain(frame.body.fin_passages.iter().map(|f| (&f.below, &f.above)));
    for (a, b) in joined {
        let (a, b) = (group[frame.pocket(a)], group[frame.pocket(b)]);
        for g in &mut group {
            if *g == b {
                *g = a;
            }
        }
    }
    let covers = &frame.checked.scenario().covers;
    let mut vented: Vec<usize> = frame
        .body
        .cowl_leaks
        .iter()
        .filter(|g| match g.opening {
            OpeningKind::inlet => covers.inlet_plug < 1.0,
            OpeningKind::outlet => covers.outlet_plug < 1.0,
            _ => true,
        })
        .map(|g| group[frame.pocket(&g.pocket)])
        .collect();
    if let Some(side) = &covers.open_side {
        vented.push(group[frame.pocket(&side.pocket)]);
    }
    let mut pinned: Vec<usize> = Vec::new();
    for pocket in 0..n {
        let seen = pinned.iter().any(|&p| group[p] == group[pocket]);
        if !vented.contains(&group[pocket]) && !seen {
            pinned.push(pocket);
        }
    }
    pinned
}

fn open_passage(frame: &Frame, net: &mut Network, passage: &Opening) {
    let [a, b] = [&passage.between.0, &passage.between.1].map(|name| frame.pocket(name));
    let mid = |pocket: usize| frame.body.air_volumes[pocket].mid_height.si();
    let (centre, area) = (passage.centre.si(), passage.area.si());
    let levels = match passage.height {
        Some(tall) => vec![
            (centre - 0.25 * tall.si(), 0.5 * area),
            (centre + 0.25 * tall.si(), 0.5 * area),
        ],
        None => vec![(centre, area)],
    };
    let ix = &frame.index;
    for (height, area_m2) in levels.into_iter().filter(|level| level.1 > 0.0) {
        net.laws.passages.push(
            Passage {
                area_m2,
                heights_m: [height - mid(a), height - mid(b)],
            }
            .between(
                [
                    frame.pressure(a),
                    frame.pressure(b),
                    ix.pocket(a),
                    ix.pocket(b),
                    ix.vapour(a),
                    ix.vapour(b),
                    ix.hangar(),
                ],
                [
                    ix.pocket(a),
                    ix.pocket(b),
                    ix.vapour(a),
                    ix.vapour(b),
                    net.mass_row(a),
                    net.mass_row(b),
                    frame.air_speed(a),
                    frame.air_speed(b),
                ],
            ),
        );
    }
}

fn side_gap(side: &OpenSide) -> CowlLeak {
    CowlLeak {
        pocket: side.pocket.clone(),
        opening: OpeningKind::side,
        area: side.area,
        centre: side.centre,
        height: side.height,
        slices: OPEN_SIDE_SLICES,
        wind_coefficient: OPEN_SIDE_WIND,
    }
}

fn open_gap(frame: &Frame, net: &mut Network, gap: &CowlLeak, open: f64) {
    let pocket = frame.pocket(&gap.pocket);
    let mid = frame.body.air_volumes[pocket].mid_height.si();
    let ix = &frame.index;
    let slices = gap.slices.max(1);
    let area_m2 = gap.area.si() * open / slices as f64;
    if area_m2 <= 0.0 {
        return;
    }
    for slice in 0..slices {
        let offset = ((slice as f64 + 0.5) / slices as f64 - 0.5) * gap.height.si();
        net.laws.gaps.push(
            Gap {
                area_m2,
                height_m: gap.centre.si() + offset - mid,
                wind_coefficient: gap.wind_coefficient,
                gust: frame.body.air.gust,
            }
            .between(
                [
                    frame.pressure(pocket),
                    ix.pocket(pocket),
                    ix.vapour(pocket),
                    ix.hangar(),
                    frame.hangar_vapour(),
                    ix.input(WIND),
                ],
                [
                    ix.pocket(pocket),
                    ix.vapour(pocket),
                    frame.pressure(pocket),
                    frame.air_speed(pocket),
                    frame.path_book(LossPath::Gaps),
                    frame.vapour_book(),
                ],
            ),
        );
    }
}
