//! The pressures that balance the air.

use crate::balance::pressures::{Lane, PressureError, Pressures};
use crate::laws::{Element, FinStream, Gap, HeaterConstant, Law, Laws, Passage};
use crate::network::Network;
use crate::network::graph::PocketColumns;
use crate::physics::air::{GRAVITY_M_PER_S2, density_kg_per_m3 as rho};
use crate::physics::orifice;

/// Columns: two pressures, two temperatures, two vapours, temperature, vapour and wind of the hangar, a fin stream.
const COLUMNS: usize = 10;
const HANGAR_C: f64 = -10.0;
const WIND_M_PER_S: f64 = 1.5;
/// Steps of a search, at most, as found.
const MOST_STEPS: usize = 12;

fn columns(temps_c: [f64; 2]) -> Vec<f64> {
    let [a, b] = temps_c;
    let mut x = vec![0.0, 0.0, a, b, 2.0, 3.0, HANGAR_C, 1.0, WIND_M_PER_S, 0.0];
    assert_eq!(x.len(), COLUMNS);
    x.resize(COLUMNS + 3, 0.0);
    x
}

fn gap(pocket: usize, height_m: f64, wind_coefficient: f64) -> Element<Gap, 6, 6> {
    Gap {
        area_m2: 0.003,
        height_m,
        wind_coefficient,
        gust: 0.1,
    }
    .between([pocket, 2 + pocket, 4 + pocket, 6, 7, 8], [0; 6])
}

fn bay(pinned: [bool; 2], laws: Laws) -> Network {
    let pocket = |pressure: usize| PocketColumns {
        pressure,
        pinned: pinned[pressure],
        ..PocketColumns::default()
    };
    Network {
        pockets: vec![pocket(0), pocket(1)],
        laws,
        ..Network::default()
    }
}

fn found(net: &Network, x: &mut [f64], on: f64) -> Result<(), PressureError> {
    Pressures::new(2).solve(net, &mut Lane { of: x, lane: 0 }, |_| on)
}

/// What a gap loses to the hangar, kg/s.
fn lost(x: &[f64], element: &Element<Gap, 6, 6>) -> f64 {
    let [p, t, ..] = element.columns;
    let gap = &element.law;
    let held = gap.wind_coefficient * 0.5 * rho(HANGAR_C) * WIND_M_PER_S * WIND_M_PER_S;
    let lift = (rho(HANGAR_C) - rho(x[t])) * GRAVITY_M_PER_S2 * gap.height_m;
    let dp = x[p] + lift - held;
    orifice::stream_kg_per_s(dp, rho(x[t]), rho(HANGAR_C), gap.area_m2, 0.02)
}

/// One gap: no air passes where the pressure is what wind and weight make it, `c rho u^2 / 2 - (rho_hangar - rho) g h`.
#[test]
fn behind_one_gap_the_pressure_is_that_of_wind_and_weight() {
    let laws = Laws {
        gaps: vec![gap(0, 0.3, 0.4), gap(1, -0.2, -0.3)],
        ..Laws::default()
    };
    let net = bay([false; 2], laws);
    let mut x = columns([25.0, -4.0]);
    found(&net, &mut x, 0.0).unwrap();
    for (pocket, height_m, coefficient) in [(0, 0.3, 0.4), (1, -0.2, -0.3)] {
        let held = coefficient * 0.5 * rho(HANGAR_C) * WIND_M_PER_S * WIND_M_PER_S;
        let lift = (rho(HANGAR_C) - rho(x[2 + pocket])) * GRAVITY_M_PER_S2 * height_m;
        assert!(
            (x[pocket] - (held - lift)).abs() < 1e-9,
            "{} is not {}",
            x[pocket],
            held - lift
        );
    }
}

/// Two pockets, two gaps each, a passage, a fin passage and a fan: what enters each leaves it.
fn whole() -> Network {
    bay(
        [false; 2],
        Laws {
            gaps: vec![
                gap(0, 0.3, 0.4),
                gap(0, -0.3, 0.0),
                gap(1, 0.2, -0.3),
                gap(1, -0.25, 0.1),
            ],
            passages: vec![
                Passage {
                    area_m2: 0.002,
                    heights_m: [0.1, -0.1],
                }
                .between([0, 1, 2, 3, 4, 5, 6], [0; 8]),
            ],
            fin_streams: vec![
                FinStream {
                    kg_per_s_pa: 1e-3,
                    heights_m: [-0.05, 0.05],
                    length_m: 0.12,
                }
                .between([9, 0, 1, 2, 3, 6, 12], [9]),
            ],
            heater_constants: vec![
                HeaterConstant {
                    heater: 0,
                    value: -0.004,
                }
                .between([], [0]),
                HeaterConstant {
                    heater: 0,
                    value: 0.004,
                }
                .between([], [1]),
                // Not a mass row: heat of some cell.
                HeaterConstant {
                    heater: 0,
                    value: 120.0,
                }
                .between([], [7]),
            ],
            ..Laws::default()
        },
    )
}

#[test]
fn what_enters_a_pocket_leaves_it() {
    let net = whole();
    for (on, temps) in [
        (0.0, [25.0, -4.0]),
        (1.0, [60.0, 10.0]),
        (1.0, [-12.0, 3.0]),
    ] {
        let mut x = columns(temps);
        x[12] = 70.0;
        found(&net, &mut x, on).unwrap();
        let fan = 0.004 * on;
        let dp = |from: usize, to: usize, heights_m: [f64; 2]| {
            let lift = |t: f64, h: f64| (rho(HANGAR_C) - rho(t)) * GRAVITY_M_PER_S2 * h;
            x[from] + lift(x[2 + from], heights_m[0]) - x[to] - lift(x[2 + to], heights_m[1])
        };
        let passage = dp(0, 1, [0.1, -0.1]);
        let passage = orifice::stream_kg_per_s(passage, rho(x[2]), rho(x[3]), 0.002, 0.004);
        let chimney = (rho(HANGAR_C) - rho(70.0)) * GRAVITY_M_PER_S2 * 0.12;
        let fins = 1e-3 * (dp(0, 1, [-0.05, 0.05]) + chimney);
        assert!((x[9] - fins).abs() < 1e-15, "{} is not {fins}", x[9]);
        let gaps: Vec<f64> = net.laws.gaps.iter().map(|gap| lost(&x, gap)).collect();
        let left = [
            -gaps[0] - gaps[1] - passage - fins - fan,
            -gaps[2] - gaps[3] + passage + fins + fan,
        ];
        assert!(left.iter().all(|left| left.abs() < 1e-12), "{left:?}");
        assert!(passage.abs() > 1e-4 && gaps.iter().all(|gap| gap.abs() > 1e-4));
    }
}

/// A pinned pocket stands at the hangar's pressure, and air from it is no concern of its own.
#[test]
fn a_pinned_pressure_is_none_and_its_pocket_gives_what_is_taken() {
    let mut net = whole();
    net.pockets[1].pinned = true;
    let mut x = columns([25.0, -4.0]);
    x[12] = 70.0;
    x[1] = 3.0;
    found(&net, &mut x, 0.0).unwrap();
    assert!(x[1].abs() < 1e-12, "{}", x[1]);
    assert!(x[0].abs() > 1e-3);
}

/// No pockets: nothing to find.
#[test]
fn without_pockets_there_is_nothing_to_balance() {
    let mut nothing: [f64; 0] = [];
    let solved = Pressures::new(0).solve(
        &Network::default(),
        &mut Lane {
            of: &mut nothing,
            lane: 0,
        },
        |_| 0.0,
    );
    assert_eq!(solved, Ok(()));
}

/// One gap, `r(p)` enters: from 1 Pa a step of -4 Pa is too long, and false position cuts it three times, each time
/// between the last two ends of unlike sign, until what is left of the slope along it is less than three tenths.
#[test]
fn a_step_that_is_too_long_is_cut_by_false_position() {
    let laws = Laws {
        gaps: vec![gap(0, 0.0, 0.0)],
        ..Laws::default()
    };
    let net = bay([false, true], laws);
    let enters = |p: f64| {
        let air = rho(HANGAR_C);
        -orifice::stream_kg_per_s(p, air, air, 0.003, 0.02)
    };
    let slope = |share: f64| -4.0 * enters(1.0 - 4.0 * share);
    let cut = |low: f64, high: f64| low + (high - low) * slope(low) / (slope(low) - slope(high));
    let first = cut(0.0, 1.0);
    let second = cut(0.0, first);
    let third = cut(second, first);
    assert!(slope(first) < -0.3 * slope(0.0) && slope(second) > 0.3 * slope(0.0));
    assert!(slope(third).abs() < 0.3 * slope(0.0));

    let search = |step: f64| {
        let mut x = columns([HANGAR_C, HANGAR_C]);
        x[0] = 1.0;
        let mut lane = Lane {
            of: &mut x,
            lane: 0,
        };
        let mut pressures = Pressures::new(2);
        pressures.evaluate(&net, &mut lane, &|_| 0.0);
        pressures.step[0] = step;
        pressures.tried = vec![1.0, 0.0];
        let reached = pressures.search(&net, &mut lane, &|_| 0.0);
        assert!((reached - enters(x[0]).abs()).abs() < 1e-15);
        x[0]
    };
    let found = search(-4.0);
    assert!((found - (1.0 - 4.0 * third)).abs() < 1e-12, "{found}");
    // One that is too short is made whole, and one that ends where nothing enters is not cut.
    assert_eq!(search(-0.25), 0.75);
    assert_eq!(search(-1.0), 0.0);
}

/// The stiffness is how fast what enters falls with each pressure; a pinned pressure has a row and a column of its own.
#[test]
fn the_stiffness_is_the_slope_of_what_enters() {
    for pinned in [false, true] {
        let mut net = whole();
        net.pockets[1].pinned = pinned;
        let mut pressures = Pressures::new(2);
        let mut enters = |p: [f64; 2]| {
            let mut x = columns([25.0, -4.0]);
            (x[0], x[1], x[12]) = (p[0], p[1], 70.0);
            let size = pressures.evaluate(
                &net,
                &mut Lane {
                    of: &mut x,
                    lane: 0,
                },
                &|_| 1.0,
            );
            let residual = [pressures.residual[0], pressures.residual[1]];
            assert_eq!(size, residual[0].abs().max(residual[1].abs()));
            (residual, pressures.stiffness.clone())
        };
        let at = [0.7, -0.4];
        let (here, stiffness) = enters(at);
        assert!(!pinned || here[1] == 0.4);
        for along in 0..2 {
            let moved = |by: f64| {
                let mut p = at;
                p[along] += by;
                p
            };
            let ((up, _), (down, _)) = (enters(moved(1e-5)), enters(moved(-1e-5)));
            for of in 0..2 {
                let slope = (down[of] - up[of]) / 2e-5;
                // What a pinned pressure gives to others is left out: it is known.
                let expected = if pinned && of != along { 0.0 } else { slope };
                let found = stiffness[(of, along)];
                assert!(
                    (found - expected).abs() < 1e-6 * (1.0 + slope.abs())
                        && (found != 0.0 || pinned),
                    "{of} along {along}: {found} is not {expected}"
                );
            }
        }
    }
}

/// Newton's method: the fewer steps the nearer it begins; none where it begins at the answer.
#[test]
fn a_search_takes_few_steps() {
    let net = whole();
    let steps = |x: &mut [f64]| {
        let mut pressures = Pressures::new(2);
        x[12] = 70.0;
        let lane = &mut Lane { of: x, lane: 0 };
        pressures.solve(&net, lane, |_| 1.0).unwrap();
        pressures.iterations
    };
    for temps in [[25.0, -4.0], [60.0, 10.0], [-12.0, 3.0]] {
        let mut x = columns(temps);
        let cold = steps(&mut x);
        assert!((2..=MOST_STEPS).contains(&cold), "{cold}");
        assert_eq!(steps(&mut x), 0);
        x[0] += 1e-3;
        let near = steps(&mut x);
        assert!((1..=4).contains(&near) && near < cold, "{near}");
        (x[0], x[1]) = (400.0, -300.0);
        let far = steps(&mut x);
        assert!(far <= MOST_STEPS, "{far}");
    }
}

/// Through openings of a hundred square kilometres rounding alone is more than 1e-12 kg/s: that is not held against it.
#[test]
fn rounding_is_no_failure() {
    let mut net = whole();
    for gap in &mut net.laws.gaps {
        gap.law.area_m2 *= 1e8;
    }
    net.laws.passages[0].law.area_m2 *= 1e8;
    let mut x = columns([25.0, -4.0]);
    x[12] = 70.0;
    let mut pressures = Pressures::new(2);
    let mut lane = Lane {
        of: &mut x,
        lane: 0,
    };
    pressures.solve(&net, &mut lane, |_| 1.0).unwrap();
    assert!(
        pressures.iterations <= MOST_STEPS + 3,
        "{}",
        pressures.iterations
    );
    let left = pressures.residual.amax();
    assert!(left > 1e-12 && left < 1e-9, "{left}");
}

/// What is no number is neither large nor small; it must not pass for balanced, wherever it stands.
#[test]
fn air_of_no_temperature_does_not_balance() {
    let net = whole();
    for pocket in 0..2 {
        let mut temps = [25.0, -4.0];
        temps[pocket] = f64::NAN;
        let mut x = columns(temps);
        x[12] = 70.0;
        let failed = found(&net, &mut x, 0.0).unwrap_err();
        assert!(failed.residual_kg_per_s.is_nan() && failed.iterations == 0);
    }
    // Only the residual is no number, and only where a fan blows.
    let mut net = whole();
    net.laws.heater_constants[0].law.value = f64::NAN;
    let mut x = columns([25.0, -4.0]);
    x[12] = 70.0;
    assert!(found(&net, &mut x, 1.0).is_err());
}

/// The work space serves the next search though one has failed in it.
#[test]
fn a_search_that_failed_leaves_room_for_the_next() {
    let net = whole();
    let mut pressures = Pressures::new(2);
    let mut spoiled = columns([f64::INFINITY, -4.0]);
    let mut lane = Lane {
        of: &mut spoiled,
        lane: 0,
    };
    assert!(pressures.solve(&net, &mut lane, |_| 0.0).is_err());
    let (mut again, mut fresh) = (columns([25.0, -4.0]), columns([25.0, -4.0]));
    let mut lane = Lane {
        of: &mut again,
        lane: 0,
    };
    pressures.solve(&net, &mut lane, |_| 0.0).unwrap();
    found(&net, &mut fresh, 0.0).unwrap();
    assert_eq!(again, fresh);
}
