//! Settled heat flows: layers and radiation.

use crate::kit::bench::{
    along, at, face, join, lump, near, part, problem, solved, steady, surface_c,
};
use coldsoak::quantity::{Area, Conductivity, Length};
use coldsoak::scenario::body::Body;
use coldsoak::scenario::joint::{Enclosure, RadiationPair};
use coldsoak::scenario::part::{Shape, Spot};

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
    body.surfaces = vec![
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
        surfaces: vec![
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

/// A single pane of 8 mm in the same frame: 266 W, inner face -2.2 °C.
/// Source: Cengel, Heat Transfer, example 3-2 (from memory; recomputed 266.161 W, -2.180 °C).
#[test]
fn a_single_window_loses_as_in_the_textbook() {
    let area = 0.8 * 1.5;
    let size = (Length::m(0.008), Length::m(0.8), Length::m(1.5));
    let glass = Shape::block {
        size,
        conductivity: Conductivity::W_mK(0.78),
        cut: (true, false, false),
    };
    let body = Body {
        parts: vec![part("pane", 100.0, glass)],
        surfaces: vec![
            face("pane", Spot::start, "room", area, 10.0),
            face("pane", Spot::end, "street", area, 40.0),
        ],
        surroundings: vec![steady("room", 20.0), steady("street", -10.0)],
        ..Body::default()
    };
    let night = solved(&problem(body, 0.0, &[], 43_200.0, 4));
    let panes = along(&night, "pane", 43_200.0);
    let inner = surface_c(panes[0], 20.0, 0.78 / 0.001, 10.0);
    near(inner, -2.180, 1e-3, "pane");
    near(10.0 * area * (20.0 - inner), 266.161, 1e-2, "window");
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
            radiation_pairs: vec![RadiationPair {
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
