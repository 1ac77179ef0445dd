//! Bodies of one or two temperatures.

use crate::kit::bench::{
    at, face, freely_cooled_block, lump, near, problem, solved, steady, two_lumps,
};
use coldsoak::quantity::{Power, Temperature};
use coldsoak::scenario::body::{Body, Surrounding, SurroundingTemperature};
use coldsoak::scenario::joint::Feed;
use coldsoak::scenario::part::Spot;

/// The integration at a thousandth of the default tolerance.
const MARCH_K: f64 = 2e-4;

fn box_in_air(w_per_k: f64) -> Body {
    Body {
        parts: vec![lump("block", 80e3)],
        surfaces: vec![face("block", Spot::whole, "air", 1.0, w_per_k)],
        surroundings: vec![steady("air", -15.0)],
        ..Body::default()
    }
}

/// A lump of 80 kJ/K cools from 70 to -15 °C through 6.5 W/K: `T = -15 + 85 exp(-t UA/C)`, the exact solution.
#[test]
fn a_lump_cools_as_the_exponential() {
    let night = solved(&problem(box_in_air(6.5), 70.0, &[], 43_200.0, 1));
    for (seconds, published) in [
        (1800.0, 58.435_044),
        (7200.0, 32.353_998),
        (21_600.0, -0.302_884),
        (43_200.0, -12.458_762),
    ] {
        near(at(&night, "block", seconds), published, MARCH_K, "lump");
    }
}

/// The same lump from -15 °C with 150 W fed in.
#[test]
fn a_heated_lump_rises_as_the_exponential() {
    let mut body = box_in_air(6.5);
    body.feeds = vec![Feed {
        part: "block".to_owned(),
        at: Spot::whole,
        power: Power::W(150.0),
    }];
    let night = solved(&problem(body, -15.0, &[], 28_800.0, 1));
    for (seconds, published) in [
        (3600.0, -9.147_583),
        (14_400.0, 0.914_609),
        (28_800.0, 5.853_978),
    ] {
        near(
            at(&night, "block", seconds),
            published,
            MARCH_K,
            "heated lump",
        );
    }
}

/// Free convection with h as the fourth root of the difference: `θ/θi = (1 + UA t/(4 C))^-4`.
/// Source: Bejan and Kraus, Heat Transfer Handbook, eq. 3.286, n = 1/4.
#[test]
fn a_lump_in_free_convection_cools_as_the_fourth_power() {
    let body = freely_cooled_block();
    let night = solved(&problem(body, 70.0, &[], 43_200.0, 1));
    for (seconds, published) in [
        (3600.0, 0.708_425),
        (14_400.0, 0.292_310),
        (43_200.0, 0.053_425),
    ] {
        let ratio = (at(&night, "block", seconds) + 15.0) / 85.0;
        near(ratio, published, 2e-6, "free convection");
    }
}

/// Two nodes: C1 = 20, C2 = 70 kJ/K, G12 = 8, G1a = 2, G2a = 5 W/K, 150 W into the first, from -15 °C.
/// Exact by the two eigenvalues of the pair.
#[test]
fn two_lumps_follow_their_two_time_constants() {
    let body = Body {
        feeds: vec![Feed {
            part: "sump".to_owned(),
            at: Spot::whole,
            power: Power::W(150.0),
        }],
        ..two_lumps()
    };
    let night = solved(&problem(body, -15.0, &[], 43_200.0, 1));
    for (seconds, sump, engine) in [
        (600.0, -11.101_916, -14.865_050),
        (3600.0, -1.478_373, -12.284_509),
        (7200.0, 3.131_795, -8.710_231),
        (14_400.0, 8.082_266, -3.642_687),
        (28_800.0, 12.429_059, 0.946_438),
    ] {
        near(at(&night, "sump", seconds), sump, MARCH_K, "first node");
        near(
            at(&night, "engine", seconds),
            engine,
            MARCH_K,
            "second node",
        );
    }
    // Settled: 2 x 29.545455 + 5 x 18.181818 = 150 W.
    let settled = night.findings.steady.unwrap();
    near(settled.temp_c, 18.181_818 - 15.0, 1e-5, "steady engine");
}

/// Surroundings that fall in a straight line: after its transient a lump lags by `C/UA` times their rate,
/// `T = Ta(t) + r τ (1 - exp(-t/τ))`, exact.
#[test]
fn a_lump_lags_a_falling_line_by_its_time_constant() {
    let mut body = box_in_air(20.0);
    body.surroundings = vec![Surrounding {
        name: "air".to_owned(),
        temperature: SurroundingTemperature::curve(vec![
            (0.0, Temperature::degC(0.0)),
            (12.0, Temperature::degC(-24.0)),
        ]),
    }];
    let night = solved(&problem(body, 0.0, &[], 43_200.0, 1));
    let tau: f64 = 80e3 / 20.0;
    for seconds in [1800.0, 14_400.0, 43_200.0_f64] {
        let rate = 24.0 / 43_200.0;
        let exact = -rate * seconds + rate * tau * (1.0 - (-seconds / tau).exp());
        near(at(&night, "block", seconds), exact, MARCH_K, "ramp");
    }
}

/// A thermocouple bead of 0.7059 mm, rho 8500, c 400, h 400, from 25 °C in gas of 200 °C reaches 199 °C in
/// 5.2 s. Source: Incropera, Fundamentals of Heat and Mass Transfer, example 5.1 (from memory; exact 5.1648 s).
#[test]
fn a_thermocouple_bead_answers_in_five_seconds() {
    let (d, rho, c, h) = (0.7059e-3_f64, 8500.0, 400.0, 400.0);
    let (area, volume) = (
        std::f64::consts::PI * d * d,
        std::f64::consts::PI * d.powi(3) / 6.0,
    );
    let body = Body {
        parts: vec![lump("bead", rho * volume * c)],
        surfaces: vec![face("bead", Spot::whole, "gas", area, h)],
        surroundings: vec![steady("gas", 200.0)],
        ..Body::default()
    };
    let mut scenario = problem(body, 25.0, &[], 60.0, 1);
    scenario.criteria.min_temperature = Temperature::degC(199.0);
    scenario.accuracy.sample_s = 1.0;
    let night = solved(&scenario);
    let hours = night.findings.parts[0].reached.hold.hours().unwrap();
    // The crossing is found between samples a second apart, along a curve of one second's time constant.
    near(hours * 3600.0, 5.1648, 0.1, "bead");
}

/// A bead of 1 mm, k 35, rho 8500, c 320, h 210, has gone 99 percent of the way after 10 s.
/// Source: Cengel, Heat Transfer, example 4-1 (from memory; exact 9.9413 s).
#[test]
fn a_larger_bead_goes_99_percent_in_ten_seconds() {
    let (d, rho, c, h) = (1e-3_f64, 8500.0, 320.0, 210.0);
    let area = std::f64::consts::PI * d * d;
    let body = Body {
        parts: vec![lump("bead", rho * c * area * d / 6.0)],
        surfaces: vec![face("bead", Spot::whole, "gas", area, h)],
        surroundings: vec![steady("gas", 100.0)],
        ..Body::default()
    };
    let mut scenario = problem(body, 0.0, &[], 60.0, 1);
    scenario.accuracy.sample_s = 1.0;
    let night = solved(&scenario);
    // The distance to the gas falls exponentially, so its logarithm is straight between two samples.
    let left = |seconds: f64| (100.0 - at(&night, "bead", seconds)).ln();
    let seconds = 9.0 + left(9.0) / (left(9.0) - left(10.0));
    near(seconds, 9.9413, 1e-3, "bead");
}
