//! Whole sums over each engine, from a separate calculation with the same dimensions: a link left out,
//! doubled or given to the wrong number of cells shows here.

use super::*;
use crate::scenario::joint::{Contact, FilmLaw};

/// One engine's sums, SI units.
struct StageSums {
    engine: &'static str,
    conductance: f64,
    air: f64,
    fins: f64,
    outdoors: f64,
    sights: f64,
    walls: f64,
    passages: f64,
    gaps: f64,
    exchanges: f64,
    volume: f64,
    section: f64,
    heat_capacity: f64,
}

const SUMS: [StageSums; 3] = [
    StageSums {
        engine: "flat-four-3l1",
        conductance: 201.683938,
        air: 4.1111383,
        fins: 2.3560000,
        outdoors: 2.3060000,
        sights: 0.8431783,
        walls: 0.7211123,
        passages: 0.240000,
        gaps: 0.064700,
        exchanges: 0.084000,
        volume: 0.22000,
        section: 0.5000000,
        heat_capacity: 84134.070,
    },
    StageSums {
        engine: "flat-four-5l9",
        conductance: 224.677785,
        air: 5.9440647,
        fins: 4.7244000,
        outdoors: 3.2670000,
        sights: 1.2466475,
        walls: 1.0439843,
        passages: 0.348000,
        gaps: 0.093815,
        exchanges: 0.120600,
        volume: 0.39600,
        section: 0.7413146,
        heat_capacity: 137918.914,
    },
    StageSums {
        engine: "flat-six-8l5",
        conductance: 318.048940,
        air: 7.9611342,
        fins: 7.3656000,
        outdoors: 4.5930000,
        sights: 1.7234160,
        walls: 1.5167358,
        passages: 0.480000,
        gaps: 0.129400,
        exchanges: 0.169000,
        volume: 0.57200,
        section: 0.9484232,
        heat_capacity: 216427.465,
    },
];

fn area_of(body: &Body, law: fn(&FilmLaw) -> bool) -> f64 {
    let faces = body.surfaces.iter().filter(|face| law(&face.law));
    faces.map(|face| face.area.si()).sum()
}

#[test]
fn totals_agree_with_a_separate_calculation() {
    for sums in &SUMS {
        let body = body(sums.engine);
        let joined = body.joints.iter().map(|joint| match joint.contact {
            Contact::total(g) => g.si(),
            _ => 0.0,
        });
        let room = body.crankcase_gas.as_ref().unwrap();
        let heat = |part: &crate::scenario::part::Part| part.mass.si() * part.specific_heat.si();
        // The flange and the screwed joint count as 24 and 8 W/K here, without the barrel in series.
        let found = [
            ("conductance", joined.sum(), sums.conductance),
            (
                "air",
                area_of(&body, |law| matches!(law, FilmLaw::air { .. })),
                sums.air,
            ),
            (
                "fins",
                area_of(&body, |law| matches!(law, FilmLaw::fins { .. })),
                sums.fins,
            ),
            (
                "outdoors",
                area_of(&body, |law| matches!(law, FilmLaw::outdoors { .. })),
                sums.outdoors,
            ),
            (
                "fin passages",
                body.fin_passages
                    .iter()
                    .flat_map(|passage| &passage.fins)
                    .map(|(_, area)| area.si())
                    .sum(),
                sums.fins,
            ),
            (
                "sights",
                body.radiation_pairs
                    .iter()
                    .map(|sight| sight.area.si())
                    .sum(),
                sums.sights,
            ),
            (
                "walls",
                room.walls.iter().map(|wall| wall.area.si()).sum(),
                sums.walls,
            ),
            (
                "passages",
                body.openings.iter().map(|p| p.area.si()).sum(),
                sums.passages,
            ),
            (
                "gaps",
                body.cowl_leaks.iter().map(|gap| gap.area.si()).sum(),
                sums.gaps,
            ),
            (
                "exchanges",
                body.mixing_openings.iter().map(|e| e.area.si()).sum(),
                sums.exchanges,
            ),
            (
                "volume",
                body.air_volumes.iter().map(|p| p.volume.si()).sum(),
                sums.volume,
            ),
            (
                "flow section",
                body.air_volumes.iter().map(|p| p.flow_section.si()).sum(),
                sums.section,
            ),
            (
                "heat capacity",
                body.parts.iter().map(heat).sum(),
                sums.heat_capacity,
            ),
        ];
        for (what, value, expected) in found {
            let shown = format!("{}, {what}: {value}, expected {expected}", sums.engine);
            assert!((value / expected - 1.0).abs() < 1e-6, "{shown}");
        }
    }
}
