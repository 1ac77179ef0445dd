//! Textbook problems in the explicit form: parts, joints and faces, no engine.

use super::record;
use coldsoak::night::{Night, run};
use coldsoak::quantity::{
    Area, Conductance, Conductivity, Duration, FilmCoefficient, Length, Mass, SpecificHeat,
    Temperature, TemperatureStep,
};
use coldsoak::scenario::body::{Body, Surrounding, SurroundingTemperature};
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::engine::Engine;
use coldsoak::scenario::initial::{Initial, InitialTemperature};
use coldsoak::scenario::joint::{Contact, FilmLaw, Joint, Surface};
use coldsoak::scenario::part::{Part, Shape, Spot};
use std::collections::BTreeMap;

/// A part of this heat capacity, J/K.
pub fn part(name: &str, j_per_k: f64, shape: Shape) -> Part {
    Part {
        name: name.to_owned(),
        label: format!("the {name}"),
        mass: Mass::kg(j_per_k / 1000.0),
        specific_heat: SpecificHeat::J_kgK(1000.0),
        shape,
        role: Default::default(),
        after_flight: Default::default(),
    }
}

/// A lump of this heat capacity, J/K.
pub fn lump(name: &str, j_per_k: f64) -> Part {
    part(name, j_per_k, Shape::lump)
}

/// A bar cut along its length.
pub fn bar(length: f64, section: f64, conductivity: f64) -> Shape {
    Shape::bar {
        length: Length::m(length),
        section: Area::m2(section),
        conductivity: Conductivity::W_mK(conductivity),
    }
}

/// A block of 80 kJ/K in air at -15 °C, whose film coefficient goes with the fourth root of the difference: 8 W/K at
/// 85 K.
pub fn freely_cooled_block() -> Body {
    Body {
        parts: vec![lump("block", 80e3)],
        surfaces: vec![Surface {
            part: "block".to_owned(),
            at: Spot::whole,
            meets: "air".to_owned(),
            area: Area::m2(1.0),
            law: FilmLaw::power {
                coefficient: FilmCoefficient::W_m2K(8.0),
                at: TemperatureStep::K(85.0),
                exponent: 0.25,
            },
        }],
        surroundings: vec![steady("air", -15.0)],
        ..Body::default()
    }
}

/// A sump of 20 kJ/K on an engine of 70 kJ/K, 8 W/K between them, in air at -15 °C with 2 and 5 W/K.
pub fn two_lumps() -> Body {
    Body {
        parts: vec![lump("sump", 20e3), lump("engine", 70e3)],
        joints: vec![joint("sump", "engine", 8.0)],
        surfaces: vec![
            face("sump", Spot::whole, "air", 1.0, 2.0),
            face("engine", Spot::whole, "air", 1.0, 5.0),
        ],
        surroundings: vec![steady("air", -15.0)],
        ..Body::default()
    }
}

/// A joint of so many W/K between two whole parts.
pub fn joint(a: &str, b: &str, w_per_k: f64) -> Joint {
    join((a, Spot::whole), (b, Spot::whole), w_per_k)
}

/// A joint of so many W/K between two spots.
pub fn join(a: (&str, Spot), b: (&str, Spot), w_per_k: f64) -> Joint {
    Joint {
        from: (a.0.to_owned(), a.1),
        to: (b.0.to_owned(), b.1),
        contact: Contact::total(Conductance::W_K(w_per_k)),
        footprint: None,
    }
}

/// A face with a fixed coefficient.
pub fn face(part: &str, at: Spot, meets: &str, area: f64, h: f64) -> Surface {
    Surface {
        part: part.to_owned(),
        at,
        meets: meets.to_owned(),
        area: Area::m2(area),
        law: FilmLaw::fixed(FilmCoefficient::W_m2K(h)),
    }
}

/// Surroundings at a steady temperature, °C.
pub fn steady(name: &str, celsius: f64) -> Surrounding {
    Surrounding {
        name: name.to_owned(),
        temperature: SurroundingTemperature::steady(Temperature::degC(celsius)),
    }
}

/// A body in a problem that starts at one temperature, °C, parts named here excepted, and is followed for
/// so many seconds at this resolution.
pub fn problem(
    body: Body,
    start_c: f64,
    others: &[(&str, f64)],
    seconds: f64,
    resolution: usize,
) -> Scenario {
    let mut scenario = super::night("flat-four-3l1", Temperature::degC(-10.0), 12);
    scenario.engine = Engine::body(body);
    scenario.initial = Initial {
        temperature: InitialTemperature::values {
            all: Temperature::degC(start_c),
            parts: others
                .iter()
                .map(|(name, c)| ((*name).to_owned(), Temperature::degC(*c)))
                .collect::<BTreeMap<_, _>>(),
        },
        ..Initial::default()
    };
    scenario.criteria.simulated_time = Some(Duration::s(seconds.max(12.0 * 3600.0)));
    scenario.accuracy.resolution = resolution;
    scenario.accuracy.tolerance = 1e-3;
    scenario
}

/// The temperature of a cell after so many seconds, °C, at a time on the grid of samples.
pub fn at(night: &Night, cell: &str, seconds: f64) -> f64 {
    let note = night
        .trace
        .legend
        .cells
        .iter()
        .find(|c| c.part == cell)
        .unwrap_or_else(|| panic!("no cell {cell}"));
    night.trace.at(seconds)[note.column]
}

/// Computes a problem.
pub fn solved(scenario: &Scenario) -> Night {
    run(scenario).unwrap_or_else(|e| panic!("{e}"))
}

/// Asserts that a figure is as published, within a tolerance.
#[track_caller]
pub fn near(found: f64, published: f64, within: f64, what: &str) {
    let error = (found - published).abs();
    record::check(what, within, error);
    assert!(
        error <= within,
        "{what}: {found} is not {published} within {within}"
    );
}

/// A wall, rod or ground said as so many bars end to end (`name0`, `name1`, ...), so that it has more cells
/// than one part may have: its length, section, conductivity and heat capacity a cubic metre.
pub fn chain(
    body: &mut Body,
    name: &str,
    pieces: usize,
    length: f64,
    section: f64,
    k: f64,
    rho_c: f64,
) {
    let each = length / pieces as f64;
    for i in 0..pieces {
        let own = format!("{name}{i}");
        let capacity = rho_c * section * each;
        body.parts.push(part(&own, capacity, bar(each, section, k)));
        if i > 0 {
            body.joints.push(Joint {
                from: (format!("{name}{}", i - 1), Spot::end),
                to: (own, Spot::start),
                contact: Contact::perfect,
                footprint: None,
            });
        }
    }
}

/// The temperatures after so many seconds of all cells whose part's name begins so, in their order, °C.
pub fn along(night: &Night, name: &str, seconds: f64) -> Vec<f64> {
    let row = night.trace.at(seconds);
    let cells = night.trace.legend.cells.iter();
    cells
        .filter(|c| c.part.starts_with(name))
        .map(|c| row[c.column])
        .collect()
}

/// Heat lost at the departure by all paths together, W.
pub fn lost_w(night: &Night) -> f64 {
    night.findings.losses_w.iter().map(|l| l.watts).sum()
}

/// The temperature of the surface beyond the last half cell, from that cell and the air beyond.
pub fn surface_c(cell_c: f64, air_c: f64, half_cell_w_m2k: f64, h: f64) -> f64 {
    (cell_c * half_cell_w_m2k + air_c * h) / (half_cell_w_m2k + h)
}

/// Asserts the order of convergence measured on the last two of some errors, each found with cells half as long
/// as the one before: no less than the method's own by more than 0.15.
#[track_caller]
pub fn converges(errors: &[f64], order: f64, what: &str) -> f64 {
    let [.., coarse, fine] = errors else {
        panic!("{what}: two errors are needed");
    };
    let found = (coarse / fine).log2();
    println!("{what}: errors {errors:?}, order {found:.3}");
    record::order(what, errors, order, found);
    assert!(
        found >= order - 0.15,
        "{what}: order {found:.3}, not {order}; errors {errors:?}"
    );
    found
}
