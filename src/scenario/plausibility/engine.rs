//! Engines that are too light, too heavy, or hold too much oil.

use super::super::body::Body;
use super::super::document::Scenario;
use super::super::engine::Engine;
use super::super::opposed;
use super::super::part::Shape;
use super::warning::{PlausibilityWarnings, Usual};

/// Mass of all engine parts: from the smallest certified light-aircraft engines to large radials.
const MASS_KG: Usual = Usual(20.0, 900.0, "kg", "estimate: light-aircraft piston engines");
/// Kilograms of oil a kilogram of engine: a 133 kg engine holds 6.7 kg, a radial up to a fifth.
const OIL_SHARE: Usual = Usual(0.01, 0.25, "", "estimate: dry-sump radials hold the most");
pub(super) fn engine(scenario: &Scenario, doubts: &mut PlausibilityWarnings) {
    let expanded;
    let body: &Body = match &scenario.engine {
        Engine::body(body) => body,
        Engine::opposed(layout) => {
            expanded = opposed::expand(layout);
            &expanded
        }
    };
    let mass: f64 = body
        .parts
        .iter()
        .filter(|p| p.role.is_engine())
        .map(|p| p.mass.si())
        .sum();
    doubts.outside("engine", "the mass of all engine parts", mass, &MASS_KG);
    let oil: f64 = body
        .parts
        .iter()
        .filter(|p| matches!(p.shape, Shape::stack { .. }))
        .map(|p| p.mass.si())
        .sum();
    if oil > 0.0 && mass > 0.0 {
        let path = match scenario.engine {
            Engine::opposed(_) => "engine.oil_litres",
            Engine::body(_) => "engine.oil",
        };
        doubts.outside(
            path,
            "the mass of the oil over that of the engine",
            oil / mass,
            &OIL_SHARE,
        );
    }
}
