//! The order in time measured on the whole right-hand side, against solutions that were chosen beforehand.

mod forced;

use crate::kit::record;
use coldsoak::files::night::load_builtin;
use coldsoak::network::{Network, assemble};
use coldsoak::scenario::check::check;
use coldsoak::trace::ColumnKind;
use forced::{Forced, Way};

/// RODAS4 is of order 4 (Hairer and Wanner, Solving Ordinary Differential Equations II, section IV.7).
const ORDER: f64 = 4.0;
/// By how much a measured order may be below.
const LESS: f64 = 0.15;
/// Errors smaller than this are rounding and the balance of the pressures, not the method, K, g or g/m3.
const TELLING: f64 = 2e-11;
/// A round so short that steps resolve the air, which forgets within seconds, s.
const SHORT_S: f64 = 40.0;
/// What steps of four minutes may be wrong by, K, g or g/m3.
const TINY: f64 = 1e-4;
/// A round as slow as nights are, s.
const SLOW_S: f64 = 14_400.0;

/// What the states of a group may be wrong by is stated for each group by itself.
const GROUPS: [(&str, &[ColumnKind]); 4] = [
    (
        "temperatures of metal, oil and skins, K",
        &[ColumnKind::CellTemperature],
    ),
    (
        "temperatures of air, K",
        &[
            ColumnKind::PocketTemperature,
            ColumnKind::GasTemperature,
            ColumnKind::HangarTemperature,
        ],
    ),
    (
        "films and water, g",
        &[ColumnKind::Film, ColumnKind::OilWater],
    ),
    (
        "vapour, g/m3",
        &[ColumnKind::PocketVapour, ColumnKind::GasVapour],
    ),
];

fn network(night: &str) -> Network {
    let scenario = load_builtin(night).unwrap().scenario;
    assemble(&check(&scenario).unwrap_or_else(|p| panic!("{p:?}")))
}

/// What swings a stream that must not turn: at its turning a stream has a corner a millionth of a kilogram a second
/// wide, which no step resolves.
const STILL: f64 = 0.05;

/// Ways for every state and input of a night, once round in `period_s`: engine parts well above the air they
/// stand in, pockets apart from each other; air inside that wets its walls (`damp`), or dries them. No law has a
/// corner on them.
fn ways(net: &Network, period_s: f64, damp: bool) -> Forced<'_> {
    let omega = std::f64::consts::TAU / period_s;
    let way = |number: usize, level: f64, swing: f64| Way {
        level,
        swing,
        omega,
        phase: 2.4 * number as f64,
    };
    let ix = &net.index;
    let states = (0..ix.states())
        .map(|i| match net.legend.columns[i].kind {
            ColumnKind::CellTemperature => way(i, 30.0 + 20.0 * (0.618 * i as f64).fract(), 1.5),
            ColumnKind::PocketTemperature => way(i, 6.0 * (i - ix.pocket(0)) as f64, STILL),
            ColumnKind::PocketVapour => way(i, 5.0, 0.5),
            ColumnKind::GasTemperature => way(i, 60.0, 1.0),
            ColumnKind::GasVapour => way(i, if damp { 120.0 } else { 10.0 }, 2.0),
            ColumnKind::OilWater => way(i, 15.0, 2.0),
            ColumnKind::Film => {
                let wall = &net.laws.wall_films[i - ix.film(0)];
                assert_eq!(wall.columns[3], i);
                // Half of the walls hold less than they can, half drip.
                let held = if i % 2 == 0 { 30.0 } else { 90.0 };
                way(i, held * wall.law.area_m2, 10.0 * wall.law.area_m2)
            }
            ColumnKind::HangarTemperature => way(i, -10.0, STILL),
            other => panic!("{other:?} is no state"),
        })
        .collect();
    let dew_point = net.laws.hangar_vapour.iter().any(|h| h.law.dew_point);
    let inputs = (0..ix.inputs)
        .map(|i| match i {
            0 => way(i, -14.0, 1.0),
            1 if dew_point => way(i, -20.0, 1.0),
            1 => way(i, 0.7, 0.1),
            2 => way(i, 0.5, 0.1 * STILL),
            _ => way(i, -5.0, 2.0),
        })
        .collect();
    Forced {
        net,
        states,
        inputs,
    }
}

/// The largest errors of each group of states, for so many steps.
fn grouped(forced: &Forced, span_s: f64, steps: usize) -> [f64; 4] {
    let errors = forced.errors(span_s, steps);
    GROUPS.map(|(_, kinds)| {
        let of_group = errors
            .iter()
            .enumerate()
            .filter(|(i, _)| kinds.contains(&forced.net.legend.columns[*i].kind));
        of_group.fold(0.0_f64, |most, (_, error)| most.max(*error))
    })
}

/// Measures the order of each group by halving the step twice, and holds it to what is promised of that group.
#[track_caller]
fn measured(night: &str, damp: bool, period_s: f64, steps: [usize; 3], orders: [f64; 4]) {
    let net = network(night);
    let forced = ways(&net, period_s, damp);
    let errors = steps.map(|steps| grouped(&forced, period_s, steps));
    for (group, (name, _)) in GROUPS.iter().enumerate() {
        let of_group = errors.map(|e| e[group]);
        if of_group == [0.0; 3] {
            continue;
        }
        let (promised, found) = (orders[group], (of_group[1] / of_group[2]).log2());
        let air = if damp { "damp" } else { "dry" };
        let case = format!("{night}, {air} inside, once round in {period_s} s: {name}");
        let line = format!("{case}: errors {of_group:?}, order {found:.2}");
        println!("{line}");
        record::order(&case, &of_group, promised, found);
        assert!(of_group[2] > TELLING, "{line}: too near rounding to judge");
        assert!(found >= promised - LESS, "{line}, not {promised}");
    }
}

/// Every law of the night as one: free and forced convection, radiation, conduction, oil, air through passages, gaps
/// and fins with their pressures, breathing, films that grow, dry and drip, weather that changes, heaters that are on.
/// Source: manufactured solutions (Roache 1998); the order of RODAS4, Hairer and Wanner, section IV.7.
#[test]
fn the_whole_balance_is_stepped_to_fourth_order() {
    for night in [
        "demo",
        "small-engine-top",
        "six-after-flight",
        "radial-underneath",
        "thermostat-pad",
    ] {
        for damp in [true, false] {
            measured(night, damp, SHORT_S, [16, 32, 64], [ORDER; 4]);
        }
    }
}

/// A block that radiates and is cooled by free convection beside air that swings, as slow as a night.
/// Source: as above.
#[test]
fn a_block_in_swinging_air_is_stepped_to_fourth_order() {
    measured("block-cooling", false, SLOW_S, [16, 32, 64], [ORDER; 4]);
}

/// At the pace of a night a step is long beside the seconds within which air forgets. A Rosenbrock method then keeps
/// only part of its order in what forgets (Hairer and Wanner, section IV.15, on the example of Prothero and Robinson;
/// from memory): measured 1.5 for air, 1.4 for vapour, 3.2 for what touches it, 3.7 for films, of errors below 1e-4 K
/// at steps of four minutes. This is what a change of method would have to better.
#[test]
fn at_the_pace_of_a_night_the_air_keeps_a_lower_order_and_tiny_errors() {
    let orders = [3.2, 1.55, 3.6, 1.5];
    for night in [
        "demo",
        "small-engine-top",
        "six-after-flight",
        "radial-underneath",
    ] {
        measured(night, true, SLOW_S, [32, 64, 128], orders);
        let net = network(night);
        let errors = grouped(&ways(&net, SLOW_S, true), SLOW_S, 60);
        for ((name, _), error) in GROUPS.iter().zip(errors) {
            record::check(
                &format!("{night}, steps of four minutes: {name}"),
                TINY,
                error,
            );
            assert!(error < TINY, "{night}: {name}: {error:e}");
        }
    }
}
