//! The measured order of the stepping method, at the ends of its steps, in its books and between the ends, and what the
//! default tolerance leaves wrong.

use crate::kit::bench::{self, face, joint, lump, problem};
use crate::kit::record;
use coldsoak::balance::Balance;
use coldsoak::files::night::load_builtin;
use coldsoak::network::{Network, assemble};
use coldsoak::night::run;
use coldsoak::physics::convection::Facing;
use coldsoak::quantity::{Area, FilmCoefficient, Length, Temperature, TemperatureStep, Volume};
use coldsoak::scenario::body::{
    AirVolume, Body, CowlLeak, Opening, OpeningKind, Surrounding, SurroundingTemperature,
};
use coldsoak::scenario::check::check;
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::joint::{FilmLaw, RadiationPair, Surface};
use coldsoak::scenario::part::Spot;
use coldsoak::solver::Stepper;
use coldsoak::trace::ColumnKind;

/// By how much a measured order may be below the method's own.
const LESS: f64 = 0.15;
/// RODAS4 is of order 4 (Hairer and Wanner, Solving Ordinary Differential Equations II, section IV.7).
const ORDER: f64 = 4.0 - LESS;
/// The curve between the ends of a step is of order 3 at least (the same source).
const ORDER_BETWEEN: f64 = 3.0 - LESS;
/// Steps of the solution that stands for the exact one.
const FINEST: usize = 512;
/// Looks taken at each step: its end and three places within.
const LOOKS: usize = 4;

/// The vector at every quarter of `steps` even steps over `span_s`.
fn evenly(net: &Network, span_s: f64, steps: usize) -> Vec<Vec<f64>> {
    let mut stepper = Stepper::new(Balance::new(net));
    let mut vector = net.initial.clone();
    vector.resize(net.index.states() + net.index.books, 0.0);
    let step_s = span_s / steps as f64;
    let mut rows = vec![vector.clone()];
    for number in 0..steps {
        let time_s = number as f64 * step_s;
        stepper.set_state(0, &vector);
        stepper.begin(time_s).unwrap();
        stepper.attempt(time_s, step_s).unwrap();
        for look in 1..LOOKS {
            let share = look as f64 / LOOKS as f64;
            rows.push(
                (0..vector.len())
                    .map(|i| stepper.tried(0).between(i, share))
                    .collect(),
            );
        }
        for (i, value) in vector.iter_mut().enumerate() {
            *value = stepper.tried(0).after(i);
        }
        stepper.keep(0);
        rows.push(vector.clone());
    }
    rows
}

/// The largest errors of an integration: of the states at the ends, of the books at the ends, of both between.
/// Books, in joules, are weighed by what they come to.
fn errors(net: &Network, exact: &[Vec<f64>], found: &[Vec<f64>]) -> [f64; 3] {
    let states = net.index.states();
    let stride = (exact.len() - 1) / (found.len() - 1);
    let last = exact.last().unwrap();
    let mut worst = [0.0_f64; 3];
    for (number, row) in found.iter().enumerate() {
        for (i, value) in row.iter().enumerate() {
            let weight = if i < states {
                1.0
            } else {
                last[i].abs().max(1.0)
            };
            let error = (value - exact[number * stride][i]).abs() / weight;
            let kind = match (number % LOOKS, i < states) {
                (0, true) => 0,
                (0, false) => 1,
                _ => 2,
            };
            worst[kind] = worst[kind].max(error);
        }
    }
    worst
}

/// Measures the orders by halving the step twice, and holds them to what the method promises.
#[track_caller]
fn measured(scenario: &Scenario, span_s: f64, coarsest: usize) {
    let net = assemble(&check(scenario).unwrap_or_else(|p| panic!("{p:?}")));
    let exact = evenly(&net, span_s, FINEST);
    let [coarse, middle, fine] =
        [1, 2, 4].map(|cut| errors(&net, &exact, &evenly(&net, span_s, cut * coarsest)));
    for (kind, (name, wanted)) in [
        ("states", ORDER),
        ("books", ORDER),
        ("between", ORDER_BETWEEN),
    ]
    .into_iter()
    .enumerate()
    {
        let line = format!(
            "{name}: errors {:.2e}, {:.2e}, {:.2e}",
            coarse[kind], middle[kind], fine[kind]
        );
        assert!(fine[kind] > 1e-11, "{line}: too near rounding to judge");
        let order = (middle[kind] / fine[kind]).log2();
        println!("{line}: order {order:.2}");
        let of_kind = [coarse, middle, fine].map(|e| e[kind]);
        record::order(name, &of_kind, wanted + LESS, order);
        assert!(order >= wanted, "{line}: order {order:.2}");
    }
}

/// Two bodies that radiate, cool by a power law and stand beside air that cools steadily: nonlinear, and
/// changing with time by itself.
fn solids() -> Body {
    Body {
        parts: vec![lump("small", 2e3), lump("large", 6e3)],
        joints: vec![joint("small", "large", 2.0)],
        surfaces: vec![
            face("small", Spot::whole, "air", 1.0, 1.5),
            Surface {
                part: "large".to_owned(),
                at: Spot::whole,
                meets: "air".to_owned(),
                area: Area::m2(1.0),
                law: FilmLaw::power {
                    coefficient: FilmCoefficient::W_m2K(3.0),
                    at: TemperatureStep::K(50.0),
                    exponent: 0.33,
                },
            },
        ],
        radiation_pairs: vec![RadiationPair {
            from: "small".to_owned(),
            to: "air".to_owned(),
            area: Area::m2(0.4),
            emissivities: (0.9, 0.9),
            area_ratio: 0.5,
        }],
        surroundings: vec![Surrounding {
            name: "air".to_owned(),
            temperature: SurroundingTemperature::curve(vec![
                (0.0, Temperature::degC(10.0)),
                (12.0, Temperature::degC(-80.0 + 30.0)),
            ]),
        }],
        ..Body::default()
    }
}

#[test]
fn a_step_is_of_fourth_order_and_its_curve_of_third() {
    let scenario = problem(solids(), 90.0, &[("large", 60.0)], 43_200.0, 1);
    measured(&scenario, 3600.0, 32);
}

/// The same body in two pockets of air with a passage and gaps: the pressures and air movement are found again at
/// every stage, and stand in the matrix as its border.
#[test]
fn air_found_at_every_stage_leaves_the_order_as_it_is() {
    let pocket = |name: &str, height: f64| AirVolume {
        name: name.to_owned(),
        label: name.to_owned(),
        volume: Volume::m3(4.0),
        mid_height: Length::m(height),
        flow_section: Area::m2(0.5),
        after_flight: Default::default(),
    };
    let gap = |pocket: &str, height: f64| CowlLeak {
        pocket: pocket.to_owned(),
        opening: OpeningKind::seam,
        area: Area::m2(0.01),
        centre: Length::m(height),
        height: Length::m(0.0),
        slices: 1,
        wind_coefficient: 0.1,
    };
    let warm = |part: &str, pocket: &str| Surface {
        part: part.to_owned(),
        at: Spot::whole,
        meets: pocket.to_owned(),
        area: Area::m2(1.0),
        law: FilmLaw::air {
            length: Length::m(0.3),
            facing: Facing::Upright,
        },
    };
    let mut body = solids();
    body.air_volumes = vec![pocket("low", 0.0), pocket("high", 0.6)];
    body.cowl_leaks = vec![gap("low", -0.3), gap("high", 0.9)];
    body.openings = vec![Opening {
        between: ("low".to_owned(), "high".to_owned()),
        area: Area::m2(0.02),
        centre: Length::m(0.3),
        height: None,
    }];
    body.surfaces
        .extend([warm("small", "low"), warm("large", "high")]);
    let others = [("large", 60.0), ("low", 20.0), ("high", 30.0)];
    let scenario = problem(body, 90.0, &others, 43_200.0, 1);
    measured(&scenario, 1200.0, 32);
}

/// The error of the first states at the end of a span, in even steps, against their exact values: it falls with the
/// fourth power of the step.
#[track_caller]
fn exactly(what: &str, scenario: &Scenario, span_s: f64, coarsest: usize, exact: &[f64]) {
    let net = assemble(&check(scenario).unwrap_or_else(|p| panic!("{p:?}")));
    let errors = [1, 2, 4, 8].map(|cut| {
        let rows = evenly(&net, span_s, cut * coarsest);
        let apart = rows.last().unwrap().iter().zip(exact);
        apart.map(|(a, b)| (a - b).abs()).fold(0.0, f64::max)
    });
    assert!(errors[3] > 1e-11, "{what}: {errors:?}: too near rounding");
    bench::converges(&errors, ORDER + LESS, what);
}

/// One lump, `T = -15 + 85 exp(-t UA/C)`. Source: the exact solution.
#[test]
fn the_order_holds_for_a_lump_of_one_time_constant() {
    let body = Body {
        parts: vec![lump("block", 80e3)],
        surfaces: vec![face("block", Spot::whole, "air", 1.0, 6.5)],
        surroundings: vec![bench::steady("air", -15.0)],
        ..Body::default()
    };
    let scenario = problem(body, 70.0, &[], 43_200.0, 1);
    let exact = -15.0 + 85.0 * (-14_400.0 * 6.5 / 80e3_f64).exp();
    exactly("one lump", &scenario, 14_400.0, 2, &[exact]);
}

/// Two lumps, C1 = 20, C2 = 70 kJ/K, G12 = 8, G1a = 2, G2a = 5 W/K, from 85 and 0 K over the air. Source: the exact
/// solution by the two eigenvalues of the pair.
#[test]
fn the_order_holds_for_two_lumps_of_two_time_constants() {
    let scenario = problem(bench::two_lumps(), -15.0, &[("sump", 70.0)], 43_200.0, 1);
    let (a, b, c, d) = (-10.0 / 20e3, 8.0 / 20e3, 8.0 / 70e3, -13.0 / 70e3);
    let (half, root) = (0.5 * (a + d), (0.25_f64 * (a - d) * (a - d) + b * c).sqrt());
    let span_s = 7200.0;
    // exp(A t) = e^(half t) (cosh(root t) I + sinh(root t)/root (A - half I)).
    let (grown, cosh, sinh) = (
        (half * span_s).exp(),
        (root * span_s).cosh(),
        (root * span_s).sinh() / root,
    );
    let exact = [
        -15.0 + 85.0 * grown * (cosh + sinh * (a - half)),
        -15.0 + 85.0 * grown * sinh * c,
    ];
    exactly("two lumps", &scenario, span_s, 4, &exact);
}

/// Free convection with the fourth root of the difference, `θ/θi = (1 + UA t/(4 C))^-4`. Source: Bejan and Kraus, Heat
/// Transfer Handbook, eq. 3.286.
#[test]
fn the_order_holds_against_a_nonlinear_solution_in_closed_form() {
    let span_s = 14_400.0;
    let scenario = problem(bench::freely_cooled_block(), 70.0, &[], 43_200.0, 1);
    let exact = -15.0 + 85.0 * (1.0 + 0.25 * 8.0 * span_s / 80e3_f64).powi(-4);
    exactly("free convection", &scenario, span_s, 2, &[exact]);
}

/// What a temperature may be wrong by at any sample, at the default tolerance, K.
const NIGHT_K: f64 = 5e-3;
/// A film, or the water in the oil, g.
const NIGHT_G: f64 = 1e-3;

/// The built-in nights at the default tolerance against a ten-thousandth of it, at every sample. Source: six outside
/// integrators agree with the latter (`.ci/integrators`); a thermostat's night is left to them, since what
/// one switching is late by adds up.
#[test]
fn the_default_tolerance_leaves_no_state_far_from_the_solution() {
    for name in [
        "block-cooling",
        "demo",
        "small-engine-top",
        "six-after-flight",
        "radial-underneath",
    ] {
        let mut scenario = load_builtin(name).unwrap().scenario;
        let [coarse, fine] = [1.0, 1e-4].map(|tolerance| {
            scenario.accuracy.tolerance = tolerance;
            run(&scenario).unwrap().trace
        });
        assert_eq!(coarse.times_s, fine.times_s);
        let mut worst = [0.0_f64; 2];
        for (column, note) in coarse.legend.columns.iter().enumerate() {
            let kind = match note.kind {
                ColumnKind::CellTemperature
                | ColumnKind::PocketTemperature
                | ColumnKind::GasTemperature
                | ColumnKind::HangarTemperature => 0,
                ColumnKind::Film | ColumnKind::OilWater => 1,
                _ => continue,
            };
            for (a, b) in coarse.column(column).zip(fine.column(column)) {
                worst[kind] = worst[kind].max((a - b).abs());
            }
        }
        bench::near(worst[0], 0.0, NIGHT_K, &format!("{name}, temperatures, K"));
        bench::near(worst[1], 0.0, NIGHT_G, &format!("{name}, water, g"));
        println!("{name}: {worst:?}");
    }
}
