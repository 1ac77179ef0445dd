//! Settled heat flows: layers, radiation, air through gaps.

use crate::bench::{at, face, join, lump, near, problem, solved, steady};
use coldsoak::quantity::{Area, Length, Volume};
use coldsoak::scenario::body::{Body, Gap, Opening, Pocket};
use coldsoak::scenario::joint::{Enclosure, Sight};
use coldsoak::scenario::part::Spot;

/// Five layers, 0.843333 m2K/W in all: for +10 °C inside and -20 outside 35.57312 W/m2, inner face 5.55336,
/// outer face -17.03557 °C. Source: series resistances, exact (ISO 6946 form).
#[test]
fn a_blanketed_skin_passes_what_its_layers_allow() {
    let layers = [0.002 / 0.25, 0.025 / 0.04, 0.0005 / 0.25];
    let mut body = Body {
        surroundings: vec![steady("inside", 10.0), steady("outside", -20.0)],
        ..Body::default()
    };
    body.parts = (0..4).map(|i| lump(&format!("f{i}"), 50.0)).collect();
    body.joints = layers
        .iter()
        .enumerate()
        .map(|(i, r)| {
            let (a, b) = (format!("f{i}"), format!("f{}", i + 1));
            join((&a, Spot::whole), (&b, Spot::whole), 1.0 / r)
        })
        .collect();
    body.faces = vec![
        face("f0", Spot::whole, "inside", 1.0, 8.0),
        face("f3", Spot::whole, "outside", 1.0, 12.0),
    ];
    let night = solved(&problem(body, 0.0, &[], 43_200.0, 1));
    let inner = at(&night, "f0", 43_200.0);
    near(inner, 5.553_36, 1e-4, "inner face");
    near(at(&night, "f3", 43_200.0), -17.035_57, 1e-4, "outer face");
    near(8.0 * (10.0 - inner), 35.573_12, 1e-3, "flux");
}

/// A double window, 4 + 10 mm air + 4, 0.8 x 1.5 m, 20 and -10 °C, hi 10, ho 40: 69.2 W, inner pane 14.2 °C.
/// Source: Cengel, Heat Transfer, example 3-3 (from memory; recomputed 69.248 W, 14.229 °C).
#[test]
fn a_double_window_loses_as_in_the_textbook() {
    let area = 0.8 * 1.5;
    let way = 0.004 / 0.78 + 0.010 / 0.026 + 0.004 / 0.78;
    let body = Body {
        parts: vec![lump("inner", 100.0), lump("outer", 100.0)],
        joints: vec![join(
            ("inner", Spot::whole),
            ("outer", Spot::whole),
            area / way,
        )],
        faces: vec![
            face("inner", Spot::whole, "room", area, 10.0),
            face("outer", Spot::whole, "street", area, 40.0),
        ],
        surroundings: vec![steady("room", 20.0), steady("street", -10.0)],
        ..Body::default()
    };
    let night = solved(&problem(body, 0.0, &[], 43_200.0, 1));
    let inner = at(&night, "inner", 43_200.0);
    near(inner, 14.229, 1e-3, "pane");
    near(10.0 * area * (20.0 - inner), 69.248, 1e-2, "window");
}

/// The heat that leaves a body of huge capacity in an hour, W, from the fall of its temperature.
fn watts(night: &coldsoak::night::Night, cell: &str, from: f64, capacity: f64) -> f64 {
    capacity * (from - at(night, cell, 3600.0)) / 3600.0
}

/// Heat capacity so large that an hour changes nothing that radiation would notice, J/K.
const HUGE: f64 = 1e9;

/// Parallel plates, e = 0.3 and 0.9, 20 and -20 °C: 53.9682 W/m2; a small body of 0.5 m2, e 0.8, in an
/// enclosure of 4 m2, e 0.9, 30 and -10 °C: 81.8849 W. Source: the two-surface grey exchange, exact.
#[test]
fn two_grey_surfaces_exchange_what_the_formula_says() {
    for (area, emissivities, ratio, from, to, published) in [
        (1.0, (0.3, 0.9), 1.0, 20.0, -20.0, 53.9682),
        (0.5, (0.8, 0.9), 0.125, 30.0, -10.0, 81.8849),
    ] {
        let body = Body {
            parts: vec![lump("a", HUGE), lump("b", HUGE)],
            sights: vec![Sight {
                from: "a".to_owned(),
                to: "b".to_owned(),
                area: Area::m2(area),
                emissivities,
                area_ratio: ratio,
            }],
            ..Body::default()
        };
        let night = solved(&problem(body, from, &[("b", to)], 43_200.0, 1));
        near(watts(&night, "a", from, HUGE), published, 2e-3, "plates");
    }
}

/// Three grey surfaces: A = 0.5, 1, 1.5 m2, e = 0.8, 0.9, 0.3, 30, -5 and -10 °C: 68.6598, -41.9062 and
/// -26.7536 W leave. Source: radiosity equations, J = e sigma T^4 + (1 - e) F J.
#[test]
fn three_grey_surfaces_exchange_what_the_radiosities_say() {
    let view = vec![
        vec![0.0, 0.4, 0.6],
        vec![0.2, 0.0, 0.8],
        vec![0.2, 0.8 / 1.5, 1.0 - 0.2 - 0.8 / 1.5],
    ];
    let surface = |name: &str, area: f64, e: f64| (name.to_owned(), Area::m2(area), e);
    let body = Body {
        parts: vec![lump("a", HUGE), lump("b", HUGE), lump("c", HUGE)],
        enclosures: vec![Enclosure {
            surfaces: vec![
                surface("a", 0.5, 0.8),
                surface("b", 1.0, 0.9),
                surface("c", 1.5, 0.3),
            ],
            view,
        }],
        ..Body::default()
    };
    let night = solved(&problem(
        body,
        30.0,
        &[("b", -5.0), ("c", -10.0)],
        43_200.0,
        1,
    ));
    for (cell, from, published) in [
        ("a", 30.0, 68.6598),
        ("b", -5.0, -41.9062),
        ("c", -10.0, -26.7536),
    ] {
        near(watts(&night, cell, from, HUGE), published, 3e-3, cell);
    }
}

/// Air of 10 °C in a box, -10 outside, two openings of 0.02 m2 half a metre apart: the exact two-opening
/// stack flow. With inside density r_i and outside r_o the level of no difference lies where the same mass
/// enters and leaves: `h_low = H / (1 + r_o/r_i)`, `m = Cd A sqrt(2 r_o (r_o - r_i) g h_low)`.
/// Source: ASHRAE Handbook Fundamentals 2017, chapter 16 (form from memory); exact for sharp orifices.
#[test]
fn a_warm_box_breathes_through_two_gaps_as_the_stack_law_says() {
    let gap = |centre: f64| Gap {
        pocket: "room".to_owned(),
        opening: Opening::seam,
        area: Area::m2(0.02),
        centre: Length::m(centre),
        tall: Length::m(0.0),
        slices: 1,
        wind_coefficient: 0.0,
    };
    let body = Body {
        parts: vec![lump("stove", HUGE)],
        pockets: vec![Pocket {
            name: "room".to_owned(),
            label: "the room".to_owned(),
            volume: Volume::m3(1.0),
            mid_height: Length::m(0.0),
            flow_section: Area::m2(1.0),
            after_flight: Default::default(),
        }],
        gaps: vec![gap(-0.25), gap(0.25)],
        // So strong a coupling that the air has the stove's temperature.
        faces: vec![face("stove", Spot::whole, "room", 1.0, 1e7)],
        ..Body::default()
    };
    let mut scenario = problem(body, 10.0, &[], 43_200.0, 1);
    scenario.hangar.draught = coldsoak::quantity::Speed::m_s(0.0);
    let night = solved(&scenario);
    let density = |c: f64| 101_325.0 / (287.05 * (c + 273.15));
    let (inside, outside) = (density(10.0), density(-10.0));
    let low = 0.5 / (1.0 + outside / inside);
    let flow = 0.6 * 0.02 * (2.0 * outside * (outside - inside) * 9.80665 * low).sqrt();
    let gaps = night.findings.losses_w.iter().map(|l| l.watts).sum::<f64>();
    // The orifices are laminar below 0.02 Pa of the 0.2 Pa at each: half a percent.
    let exact = flow * 1006.0 * 20.0;
    near(gaps, exact, 0.006 * exact, "stack flow");
}
