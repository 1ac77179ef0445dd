//! Water inside a closed box.

use crate::kit::bench::{lump, near, part, problem, solved};
use coldsoak::physics::convection::{self, Facing};
use coldsoak::physics::vapour;
use coldsoak::quantity::{Area, Length, Mass, Temperature, Volume};
use coldsoak::scenario::body::{AirVolume, Body};
use coldsoak::scenario::initial::InitialTemperature;
use coldsoak::scenario::moisture::{CrankcaseGas, OilSurface, Wall, WallGroup};
use coldsoak::scenario::part::{AfterFlight, Shape, Spot};

/// A box of 20 litres at 60 °C with a dew point of 40 °C (what a night after a flight begins with), cooled to
/// 10, 0 and -10 °C: all vapour but the saturation there, over ice below freezing, settles on the walls. The
/// vapour it starts with is `p_ws(40) / (461.5 T)`; with Hyland and Wexler's pressures (ASHRAE Fundamentals 2017,
/// chapter 1, eq. 5 and 6) that is of 7383.46 Pa, and 0.18794, 0.09696 and 0.04280 g stay in the air.
#[test]
fn a_closed_box_leaves_on_its_walls_what_it_cannot_hold() {
    for (wall_c, stays_g) in [(10.0, 0.18794), (0.0, 0.09696), (-10.0, 0.04280)] {
        // Cooling gas breathes in through the breather, whatever its air movement: V ln(T0/T1) of bay air, whose
        // vapour (80 percent over ice at -10 °C, 1.71 g/m3) is its own small share.
        let breathed_g = 0.020 * (333.15_f64 / (wall_c + 273.15)).ln() * 1.71;
        let had_g = 1e3 * 7383.46 / (461.5 * 333.15) * 0.020;
        let settled_g = had_g + breathed_g - stays_g;
        near(
            settled(wall_c),
            settled_g,
            0.01 * settled_g,
            "settled grams",
        );
    }
}

/// Grams on the walls of the box, after a night.
fn settled(wall_c: f64) -> f64 {
    let walls = ["top", "bottom"].map(|name| Wall {
        part: name.to_owned(),
        at: Spot::whole,
        area: Area::m2(0.4),
        facing: Facing::Upright,
        mass_factor: 1.0,
        group: WallGroup::upper,
    });
    let cold = |name: &str| {
        let mut part = lump(name, 1e9);
        part.after_flight = AfterFlight::at(Temperature::degC(wall_c));
        part
    };
    let body = Body {
        parts: vec![cold("top"), cold("bottom")],
        air_volumes: vec![AirVolume {
            name: "bay".to_owned(),
            label: "the bay".to_owned(),
            volume: Volume::m3(0.05),
            mid_height: Length::m(0.0),
            flow_section: Area::m2(0.1),
            after_flight: AfterFlight::at(Temperature::degC(wall_c)),
        }],
        joints: vec![crate::kit::bench::joint("top", "bottom", 1.0)],
        crankcase_gas: Some(CrankcaseGas {
            volume: Volume::L(20.0),
            walls: walls.to_vec(),
            oil: None,
            breather: "bay".to_owned(),
            breather_l_s: 0.0,
            filler_flow_l_s: 0.0,
            filler_diameter: Length::m(0.045),
            after_flight: AfterFlight::at(Temperature::degC(60.0)),
        }),
        ..Body::default()
    };
    let mut scenario = problem(body, wall_c, &[], 43_200.0, 1);
    scenario.initial.temperature = InitialTemperature::after_flight {
        delay: coldsoak::quantity::Duration::s(0.0),
    };
    let night = solved(&scenario);
    night.findings.condensation.unwrap().upper_g
}

/// Water at 40 °C under a thin film of oil that holds nothing back, and a wall at 0 °C that gathers it, in a room
/// without a way out. Settled, the air inside is where what it takes from the one it gives to the other: its warmth
/// by `h A (T - Tg)`, its vapour by `h_m A (w_s - w)`, with Lewis's `h_m = h/(rho cp Le^(2/3))`. So many grams an hour
/// go over. Source: quasi-steady evaporation between two plates (exact for constant conditions); the film laws
/// themselves are held against libraries in `tests/physics`.
#[test]
fn water_goes_from_a_warm_plate_to_a_cold_one_as_two_films_in_series_allow() {
    for (warm_c, cold_c, warm_m2, cold_m2) in [(40.0, 0.0, 0.06, 0.5), (20.0, -5.0, 0.06, 0.5)] {
        let film = |dt: f64, facing| convection::free(dt, 0.10, facing);
        let up = |gas: f64| film(warm_c - gas, Facing::Up) * warm_m2;
        let side = |gas: f64| film(cold_c - gas, Facing::Upright) * cold_m2;
        // Bisection for the air's temperature.
        let (mut low, mut high) = (cold_c, warm_c);
        for _ in 0..200 {
            let gas = 0.5 * (low + high);
            let gains = up(gas) * (warm_c - gas) > side(gas) * (gas - cold_c);
            (low, high) = if gains { (gas, high) } else { (low, gas) };
        }
        let (from, to) = (up(low), side(low));
        // The water left makes up for the half gram at which its activity would be half.
        let activity = |left_g: f64| left_g / (left_g + 0.5);
        let source = vapour::saturation_density_g_per_m3(warm_c) * activity(WATER_G);
        let drive = source - vapour::saturation_density_g_per_m3(cold_c);
        let per_hour = drive / (1.0 / from + 1.0 / to) / (1.25 * 1006.0 * 0.91) * 3600.0;

        let night = plates(warm_c, cold_c, warm_m2, cold_m2);
        let note = night.trace.legend.walls[0].film;
        let gas = night.trace.legend.gas.as_ref().unwrap().temperature;
        let grams = |hours: f64| night.trace.at(hours * 3600.0)[note];
        near(night.trace.at(1800.0)[gas], low, 1e-3, "air inside");
        // Before the wall holds the 30 g at which it begins to drip. Of 20 kg 26 g go: nothing to its activity.
        let found = (grams(0.6) - grams(0.3)) / 0.3;
        near(found, per_hour, 1e-4 * per_hour, "grams an hour");
    }
}

/// So much water that what goes over is nothing beside it, g.
const WATER_G: f64 = 20_000.0;

/// A night between two plates of huge heat capacity.
fn plates(warm_c: f64, cold_c: f64, warm_m2: f64, cold_m2: f64) -> coldsoak::night::Night {
    let stack = Shape::stack {
        area: Area::m2(warm_m2),
        depth: Length::m(0.1),
        layers: 1,
    };
    let body = Body {
        parts: vec![part("oil", 1e9, stack), lump("wall", 1e9)],
        air_volumes: vec![AirVolume {
            name: "bay".to_owned(),
            label: "the bay".to_owned(),
            volume: Volume::m3(1.0),
            mid_height: Length::m(0.0),
            flow_section: Area::m2(1.0),
            after_flight: Default::default(),
        }],
        joints: vec![crate::kit::bench::joint("oil", "wall", 1e-6)],
        crankcase_gas: Some(CrankcaseGas {
            volume: Volume::L(20.0),
            walls: vec![Wall {
                part: "wall".to_owned(),
                at: Spot::whole,
                area: Area::m2(cold_m2),
                facing: Facing::Upright,
                mass_factor: 1.0,
                group: WallGroup::lower,
            }],
            oil: Some(OilSurface {
                part: "oil".to_owned(),
                area: Area::m2(warm_m2),
                oil_film: 1.0,
            }),
            breather: "bay".to_owned(),
            breather_l_s: 0.0,
            filler_flow_l_s: 0.0,
            filler_diameter: Length::m(0.045),
            after_flight: Default::default(),
        }),
        oil: Some("oil".to_owned()),
        ..Body::default()
    };
    let mut scenario = problem(body, cold_c, &[("oil", warm_c)], 43_200.0, 1);
    scenario.initial.water_in_oil = Mass::g(WATER_G);
    solved(&scenario)
}
