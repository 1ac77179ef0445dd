//! The slow modes of a whole engine.

use super::busy::{busy, evaluated};
use crate::kit::night;
use coldsoak::balance::Balance;
use coldsoak::inspect::{anatomy, time_constants};
use coldsoak::quantity::Temperature;
use nalgebra::DMatrix;

/// Half the difference over which the rates are differenced, K and g/m3: small against bends, large
/// against the residual of the pressures.
const STEP: f64 = 1e-3;
/// What the differences are good for, as a share of a time constant.
const DIFFERENCED: f64 = 1e-4;

/// The rates differenced along every temperature and the vapour inside (last), a column each. The balance
/// finds streams and air movement again each time, so that these slopes never saw the border.
fn differenced(balance: &mut Balance, columns: &[usize]) -> DMatrix<f64> {
    let base = balance.columns()[..balance.network().index.states()].to_vec();
    let mut slopes = DMatrix::zeros(columns.len(), columns.len());
    for (j, &column) in columns.iter().enumerate() {
        let mut rates = [STEP, -STEP].map(|step| {
            let mut moved = base.clone();
            moved[column] += step;
            balance.rates_given_inputs(&moved).unwrap().to_vec()
        });
        let [up, down] = &mut rates;
        for (i, &row) in columns.iter().enumerate() {
            slopes[(i, j)] = (up[row] - down[row]) / (2.0 * STEP);
        }
    }
    slopes
}

/// Streams eliminated from the exact slopes, against rates differenced through the pressure search.
#[test]
fn the_time_constants_are_those_of_the_differenced_rates() {
    evaluated(&busy("flat-four-3l1"), |balance, nodes| {
        let modes = time_constants(balance, nodes, 5).unwrap();
        let ix = balance.network().index.clone();
        let mut columns: Vec<usize> = (0..ix.cells).collect();
        columns.extend((0..ix.pockets).map(|p| ix.pocket(p)));
        columns.push(ix.gas_temperature());
        let n = columns.len();
        columns.push(ix.gas_vapour());
        let whole = differenced(balance, &columns);
        let capacities = &balance.network().capacities;
        // The vapour inside follows at once; what is left, over the capacities.
        let rates = DMatrix::from_fn(n, n, |i, j| {
            let follows = whole[(i, n)] * whole[(n, j)] / whole[(n, n)];
            (whole[(i, j)] - follows) / capacities[columns[i]]
        });
        let mut hours: Vec<f64> = rates
            .complex_eigenvalues()
            .iter()
            .map(|v| -1.0 / v.re / 3600.0)
            .collect();
        hours.sort_by(|a, b| b.total_cmp(a));
        for (mode, expected) in modes.iter().zip(hours) {
            let found = mode.time_constant_h.unwrap();
            assert!(
                (found / expected - 1.0).abs() < DIFFERENCED,
                "{found} h is not {expected} h"
            );
        }
    });
}

/// A cold-soaked engine is slower than any of its parts alone; the mode is one of all parts together.
#[test]
fn the_slowest_mode_of_an_engine_takes_hours_and_all_parts_alike() {
    let found = anatomy(&busy("flat-four-3l1"), 5.0 * 3600.0).unwrap();
    assert_eq!(found.modes.len(), 5);
    let hours: Vec<f64> = found
        .modes
        .iter()
        .map(|m| m.time_constant_h.unwrap())
        .collect();
    assert!(hours.windows(2).all(|w| w[0] >= w[1]), "{hours:?}");
    assert!((0.5..24.0).contains(&hours[0]), "{hours:?}");
    assert!(found.modes[0].shares.iter().all(|s| s.oscillation > 0.0));
}

/// With pockets or without, with air inside or without, cut finer or not.
#[test]
fn every_built_in_engine_can_be_laid_open() {
    let engines = [
        "aluminium-block",
        "flat-four-3l1",
        "flat-four-5l9",
        "flat-six-8l5",
        "radial-nine",
    ];
    for engine in engines {
        for resolution in [1, 2] {
            let mut scenario = night(engine, Temperature::degC(-20.0), 4);
            scenario.accuracy.resolution = resolution;
            let found = anatomy(&scenario, 3600.0).unwrap_or_else(|e| panic!("{engine}: {e}"));
            let slowest = found.modes[0].time_constant_h;
            assert!(slowest.is_some_and(|h| h > 0.1), "{engine}: {slowest:?}");
            let storing = found
                .nodes
                .iter()
                .filter(|n| n.heat_capacity_j_per_k.is_some());
            for node in storing {
                let touched = |name: &String| *name == node.name;
                assert!(
                    found
                        .paths
                        .iter()
                        .any(|p| touched(&p.from) || touched(&p.to)),
                    "{engine}: nothing leads to {}",
                    node.name
                );
            }
        }
    }
}
