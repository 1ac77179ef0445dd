//! Random engines, and what holds of each of them: closed books, extremes kept, films not below zero.

use super::any_heat::furnished;
use crate::kit::bench::{face, joint, lump, problem, solved};
use coldsoak::night::Night;
use coldsoak::physics::convection::Facing;
use coldsoak::quantity::{Area, Length, Mass, Power, Temperature, Volume};
use coldsoak::scenario::body::{AirVolume, Body, CowlLeak, Opening, OpeningKind};
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::heater::{Aim, Heater, HeaterKind, Place};
use coldsoak::scenario::hours::Hours;
use coldsoak::scenario::joint::{FilmLaw, RadiationPair, Surface};
use coldsoak::scenario::moisture::{CrankcaseGas, Wall, WallGroup};
use coldsoak::scenario::part::{Role, Spot};
use coldsoak::scenario::weather::Weather;
use coldsoak::trace::ColumnKind;
use proptest::prelude::*;

/// Whole nights of random engines a claim is tried on.
pub const NIGHTS: u32 = 48;

/// Random numbers between zero and one, taken in turn.
pub struct Dice<'a>(&'a [f64], usize);

impl<'a> Dice<'a> {
    /// All of these, from the first.
    pub fn new(numbers: &'a [f64]) -> Self {
        Self(numbers, 0)
    }
    /// A number between two.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        self.1 += 1;
        low + (high - low) * self.0[self.1 % self.0.len()]
    }
    /// One of so many.
    pub fn one_of(&mut self, count: usize) -> usize {
        (self.between(0.0, count as f64) as usize).min(count - 1)
    }
}

/// The name of a random part.
pub fn name(number: usize) -> String {
    format!("part{number}")
}

/// Parts joined in a random tree, each radiating and losing heat to the hangar; no air moves, nothing is wet.
pub fn solids(dice: &mut Dice) -> Body {
    let count = 3 + dice.one_of(4);
    let mut body = Body::default();
    for i in 0..count {
        body.parts.push(lump(&name(i), dice.between(2e3, 4e4)));
        body.surfaces.push(Surface {
            law: FilmLaw::outdoors {
                length: Length::m(dice.between(0.05, 0.4)),
                facing: [Facing::Up, Facing::Down, Facing::Upright][dice.one_of(3)],
                emissivity: dice.between(0.0, 0.95),
            },
            ..face(
                &name(i),
                Spot::whole,
                "hangar",
                dice.between(0.02, 0.4),
                1.0,
            )
        });
        if i > 0 {
            let other = name(dice.one_of(i));
            body.joints
                .push(joint(&other, &name(i), dice.between(0.2, 15.0)));
            body.radiation_pairs.push(RadiationPair {
                from: name(i),
                to: other,
                area: Area::m2(dice.between(0.01, 0.2)),
                emissivities: (dice.between(0.1, 0.9), 0.8),
                area_ratio: 0.4,
            });
        }
    }
    body
}

/// The same in two pockets of air with a passage and gaps, the last two parts being their skins, and with wet walls
/// round a room of gas.
pub fn whole(dice: &mut Dice) -> Body {
    let mut body = solids(dice);
    for (part, pocket) in body.parts.iter_mut().rev().zip(["low", "high"]) {
        part.role = Role::skin(pocket.to_owned());
    }
    for (pocket, height) in [("low", -0.1), ("high", 0.2)] {
        body.air_volumes.push(AirVolume {
            name: pocket.to_owned(),
            label: pocket.to_owned(),
            volume: Volume::m3(dice.between(0.05, 0.3)),
            mid_height: Length::m(height),
            flow_section: Area::m2(dice.between(0.05, 0.3)),
            after_flight: Default::default(),
        });
        body.cowl_leaks.push(CowlLeak {
            pocket: pocket.to_owned(),
            opening: [OpeningKind::inlet, OpeningKind::outlet, OpeningKind::seam][dice.one_of(3)],
            area: Area::m2(dice.between(1e-4, 2e-2)),
            centre: Length::m(height + dice.between(-0.1, 0.1)),
            height: Length::m(0.05),
            slices: 1 + dice.one_of(3),
            wind_coefficient: dice.between(-0.5, 0.5),
        });
        for i in 0..body.parts.len() {
            body.surfaces.push(Surface {
                law: FilmLaw::air {
                    length: Length::m(dice.between(0.05, 0.3)),
                    facing: Facing::Upright,
                },
                ..face(&name(i), Spot::whole, pocket, dice.between(0.02, 0.3), 1.0)
            });
        }
    }
    body.openings.push(Opening {
        between: ("low".to_owned(), "high".to_owned()),
        area: Area::m2(dice.between(1e-3, 5e-2)),
        centre: Length::m(0.05),
        height: None,
    });
    let walls = (0..2).map(|i| Wall {
        part: name(i),
        at: Spot::whole,
        area: Area::m2(dice.between(0.05, 0.4)),
        facing: Facing::Upright,
        mass_factor: dice.between(0.12, 1.0),
        group: WallGroup::upper,
    });
    let walls = walls.collect();
    body.crankcase_gas = Some(CrankcaseGas {
        volume: Volume::L(dice.between(5.0, 30.0)),
        walls,
        oil: None,
        breather: "high".to_owned(),
        breather_l_s: dice.between(0.0, 0.02),
        filler_flow_l_s: 0.0,
        filler_diameter: Length::m(0.045),
        after_flight: Default::default(),
    });
    body
}

/// A bonded element of so many watts on one part, all night.
pub fn element(part: &str, watts: f64) -> Heater {
    Heater {
        name: "element".to_owned(),
        kind: HeaterKind::bonded,
        power: Power::W(watts),
        place: Place::aimed(Aim {
            impingement: vec![(part.to_owned(), 1.0)],
            ..Aim::default()
        }),
        hours: Hours::always,
        thermostat: None,
        self_limiting: None,
        uncertain: Default::default(),
    }
}

/// A night of twelve hours, the hangar at this temperature, the first part and the last at temperatures of their own.
pub fn night(body: Body, hangar_c: f64, ends_c: (f64, f64)) -> Scenario {
    let last = name(body.parts.len() - 1);
    let others = [("part0", ends_c.0), (last.as_str(), ends_c.1)];
    let mut scenario = problem(body, hangar_c, &others, 43_200.0, 1);
    scenario.accuracy.tolerance = 0.1;
    scenario.hangar.start = Some(Temperature::degC(hangar_c));
    scenario.weather = Weather::steady {
        outdoors: Temperature::degC(hangar_c),
        humidity: 0.8,
        wind: None,
    };
    scenario.initial.water_in_oil = Mass::g(0.0);
    scenario
}

/// The range of all temperatures of parts and pockets.
fn range(night: &Night) -> (f64, f64) {
    let kinds = [ColumnKind::CellTemperature, ColumnKind::PocketTemperature];
    let columns = night.trace.legend.columns.iter().enumerate();
    columns
        .filter(|(_, c)| kinds.contains(&c.kind))
        .flat_map(|(i, _)| night.trace.column(i))
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), c| {
            (low.min(c), high.max(c))
        })
}

proptest! {
    #![proptest_config(crate::kit::cases(NIGHTS))]

    /// Warm, wet, covered and heated in any way, in weather that changes: energy and water close to rounding, and no
    /// film falls below what a step may be wrong by.
    #[test]
    fn the_books_close_and_no_film_is_negative(
        numbers in prop::collection::vec(0.0..1.0f64, 97), hangar_c in -25.0..5.0f64,
    ) {
        let mut dice = Dice::new(&numbers);
        let body = whole(&mut dice);
        let parts = body.parts.len();
        let night = solved(&furnished(night(body, hangar_c, (40.0, 20.0)), &mut dice, parts));
        prop_assert!(night.ledger.energy_error().abs() < 1e-10, "{:e}", night.ledger.energy_error());
        prop_assert!(night.ledger.water_error().abs() < 1e-10, "{:e}", night.ledger.water_error());
        for wall in &night.trace.legend.walls {
            for film_g in night.trace.column(wall.film) {
                prop_assert!(film_g > -1e-4, "{} g", film_g);
            }
        }
    }

    /// Dry and unheated, between 30 °C and the hangar: nothing leaves the range of its start and surroundings.
    #[test]
    fn a_dry_unheated_engine_stays_within_its_extremes(
        numbers in prop::collection::vec(0.0..1.0f64, 97), hangar_c in -25.0..5.0f64,
    ) {
        let mut body = whole(&mut Dice::new(&numbers));
        body.crankcase_gas = None;
        let (low, high) = range(&solved(&night(body, hangar_c, (30.0, hangar_c))));
        prop_assert!(low >= hangar_c - 1e-3 && high <= 30.0 + 1e-3, "{} to {}", low, high);
    }
}
