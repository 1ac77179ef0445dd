//! The air around the engine: six air volumes, and every way between them and out.
//!
//! `UL`, `UR` lie over the cylinders above the baffles, `FR` behind the nose bowl, `LO` under the
//! cylinders, `FL` on the floor around the sump, `RE` before the firewall. The floor is an air volume of its
//! own because cold air comes in there: a sump standing in it stays colder than the carburettor above.

use super::faces::FIN_WAY;
use super::names::{self, BARREL, POCKETS, Side};
use super::plan::Plan;
use crate::quantity::{Area, Length, TemperatureStep, Volume};
use crate::scenario::body::{
    AirCoefficients, AirVolume, CowlLeak, FinPassage, MixingOpening, Opening, OpeningKind,
};
use crate::scenario::part::AfterFlight;

/// Volume m3, mid height m and flow section m2 of an air volume in the smallest bay (estimated).
fn smallest(pocket: &str) -> (f64, f64, f64) {
    match pocket {
        "UL" | "UR" => (0.03, 0.13, 0.06),
        "FR" => (0.02, 0.05, 0.06),
        "LO" => (0.05, -0.10, 0.12),
        "FL" => (0.04, -0.29, 0.10),
        _ => (0.05, -0.03, 0.10),
    }
}

/// The six air volumes.
pub(super) fn pockets(plan: &Plan) -> Vec<AirVolume> {
    let scale = plan.bay().volume_scale;
    POCKETS
        .map(|pocket| {
            let (volume, height, section) = smallest(pocket);
            AirVolume {
                name: pocket.to_owned(),
                label: format!("air {}", names::pocket_word(pocket)),
                volume: Volume::m3(volume * scale),
                mid_height: Length::m(height),
                flow_section: Area::m2(section * scale.powf(0.67)),
                after_flight: AfterFlight::above_hangar(TemperatureStep::K(30.0)),
            }
        })
        .into()
}

/// Openings between air volumes.
pub(super) fn passages(plan: &Plan) -> Vec<Opening> {
    let b = plan.bay();
    let s = b.area_scale;
    let through = |one: &str, other: &str, area: f64, centre: f64, tall: Option<f64>| Opening {
        between: (one.to_owned(), other.to_owned()),
        area: Area::m2(area * s),
        centre: Length::m(centre),
        height: tall.map(Length::m),
    };
    let (side, up_re, lo_re) = (b.gap_side.si(), b.open_up_re.si(), b.open_lo_re.si());
    let front_up = b.open_front_up.si();
    vec![
        through("UL", "UR", b.open_top.si(), 0.16, Some(0.16)),
        through("FR", "UL", front_up, 0.10, Some(0.16)),
        through("FR", "UR", front_up, 0.10, Some(0.16)),
        through("LO", "UL", side, 0.0, None),
        through("LO", "UR", side, 0.0, None),
        through("RE", "UL", up_re, 0.12, Some(0.15)),
        through("RE", "UR", up_re, 0.12, Some(0.15)),
        through("FR", "LO", b.open_front_lo.si(), -0.06, Some(0.10)),
        through("FR", "FL", b.open_fr_fl.si(), -0.20, None),
        through("LO", "RE", lo_re, -0.10, Some(0.20)),
        through("FL", "RE", 0.6 * lo_re, -0.25, Some(0.12)),
        through("LO", "FL", b.open_lo_fl.si(), -0.20, None),
    ]
}

/// Level openings through which air is exchanged both ways: the baffles' gaps with half the spaces
/// between the fins on each side, and the way down to the floor.
pub(super) fn exchanges(plan: &Plan) -> Vec<MixingOpening> {
    let bay = plan.bay();
    let fins = 0.5 * plan.layout.fin_free.si() * plan.rows as f64;
    let level = |below: &str, above: &str, area: f64| MixingOpening {
        below: below.to_owned(),
        above: above.to_owned(),
        area: Area::m2(area),
    };
    let side = bay.gap_side.si() * bay.area_scale + fins;
    vec![
        level("LO", "UL", side),
        level("LO", "UR", side),
        level("FL", "LO", bay.open_lo_fl.si() * bay.area_scale),
    ]
}

/// Openings to the hangar, before any plug.
pub(super) fn gaps(plan: &Plan) -> Vec<CowlLeak> {
    let b = plan.bay();
    let gap = |pocket: &str, opening, area: Area, centre: f64, wind_coefficient| CowlLeak {
        pocket: pocket.to_owned(),
        opening,
        area: Area::m2(area.si() * b.area_scale),
        centre: Length::m(centre),
        height: Length::m(0.0),
        slices: 1,
        wind_coefficient,
    };
    let mut gaps = vec![
        CowlLeak {
            height: Length::m(0.10),
            slices: 2,
            ..gap("FR", OpeningKind::inlet, b.inlet_area, 0.08, 0.4)
        },
        gap("FR", OpeningKind::shaft, b.shaft_gap, 0.02, 0.4),
        gap("FL", OpeningKind::outlet, b.outlet_area, -0.38, -0.1),
    ];
    for (pocket, wind) in [("UL", -0.1), ("UR", -0.2), ("LO", -0.1), ("RE", -0.1)] {
        let (_, mid_height, _) = smallest(pocket);
        gaps.push(gap(
            pocket,
            OpeningKind::seam,
            b.seam_area,
            mid_height,
            wind,
        ));
    }
    gaps
}

/// The spaces between the fins of each cylinder.
pub(super) fn fin_passages(plan: &Plan) -> Vec<FinPassage> {
    let mut passages = Vec::new();
    for side in Side::BOTH {
        for row in 1..=plan.rows {
            let finned = BARREL.into_iter().chain(["head"]).map(|piece| {
                let area = Area::m2(plan.fin_area(piece));
                (names::cylinder(side, row, piece), area)
            });
            passages.push(FinPassage {
                below: "LO".to_owned(),
                above: side.pocket().to_owned(),
                free_area: plan.layout.fin_free,
                fin_gap: plan.layout.fin_gap,
                length: Length::m(FIN_WAY),
                fins: finned.collect(),
            });
        }
    }
    passages
}

/// Coefficients of the moving air.
pub(super) fn coefficients(plan: &Plan) -> AirCoefficients {
    AirCoefficients {
        stable_mix: plan.bay().stable_mix,
        epstein: plan.bay().epstein,
        gust: plan.bay().gust,
    }
}
