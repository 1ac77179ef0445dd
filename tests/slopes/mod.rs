//! The exact slopes of the balance against an independent differentiation of the same laws.

use crate::kit::complex::Complex;
use crate::kit::{fan, heater, night, pad};
use coldsoak::balance::Balance;
use coldsoak::laws::{Element, Law, Laws, Visitor, visit_all};
use coldsoak::network::{Network, assemble};
use coldsoak::quantity::Temperature;
use coldsoak::scenario::check::check;
use coldsoak::scenario::engine::Engine;
use coldsoak::trace::ColumnKind;
use proptest::prelude::*;

/// The step of the complex differentiation: nothing is subtracted, so it may be as small as one likes.
const STEP: f64 = 1e-40;
/// Agreement required, of the row's largest entry.
const AGREED: f64 = 1e-7;

/// An engine with every kind of heater at once, wind and an open filler.
fn network(engine: &str) -> Network {
    let mut scenario = night(engine, Temperature::degF(15.0), 12);
    scenario.heaters = vec![
        fan(350.0, "top-blowing-right"),
        fan(250.0, "front"),
        heater("household-fan-1500w", 1500.0, "duct-under-nose"),
        pad(150.0),
        heater("lamp-100w", 100.0, "lamp-under-sump"),
    ];
    for (number, heater) in scenario.heaters.iter_mut().enumerate() {
        heater.name = format!("heater {number}");
    }
    if engine == "radial-nine" {
        scenario.heaters.truncate(4);
    }
    scenario.covers.filler_open = true;
    scenario.heaters[0].self_limiting = Some(coldsoak::scenario::heater::SelfLimiting {
        full_power_below: Temperature::degC(0.0),
        zero_power_above: Temperature::degC(80.0),
    });
    assemble(&check(&scenario).unwrap_or_else(|p| panic!("{p:?}")))
}

/// A small engine whose bay has no way out for its air: one pressure is held.
fn sealed() -> Network {
    let mut scenario = night("flat-four-3l1", Temperature::degF(15.0), 12);
    scenario.heaters = vec![fan(350.0, "top-blowing-right"), pad(150.0)];
    let checked = check(&scenario).unwrap_or_else(|p| panic!("{p:?}"));
    let mut body = checked.body().clone();
    body.cowl_leaks.clear();
    scenario.engine = Engine::body(body);
    let net = assemble(&check(&scenario).unwrap_or_else(|p| panic!("{p:?}")));
    assert!(net.pockets.iter().any(|p| p.pinned));
    net
}

/// Columns as they may be anywhere in a night: states by their kind, auxiliaries and inputs plausible.
fn columns(net: &Network, random: &[f64]) -> Vec<f64> {
    let ix = &net.index;
    let states = (0..ix.states()).map(|i| {
        let r = random[i % random.len()];
        match net.legend.columns[i].kind {
            ColumnKind::Film => 3.0 * r,
            ColumnKind::OilWater => 20.0 * r,
            ColumnKind::GasVapour | ColumnKind::PocketVapour => 0.5 + 20.0 * r,
            _ => -20.0 + 90.0 * r,
        }
    });
    let mut x: Vec<f64> = states.collect();
    x.resize(ix.columns(), 0.0);
    for i in ix.states()..ix.unknowns() {
        x[i] = -10.0 + 60.0 * random[(7 * i) % random.len()];
    }
    for pocket in &net.pockets {
        x[pocket.pressure] = 2.0 * random[pocket.pressure % random.len()] - 1.0;
        x[pocket.air_speed] = 0.01 + 0.5 * random[pocket.air_speed % random.len()];
    }
    for &stream in &net.auxiliaries.fin_streams {
        x[stream] = 2e-3 * (random[stream % random.len()] - 0.5);
    }
    if let Some(heat) = net.auxiliaries.gas_heat {
        x[heat] = 40.0 * (random[heat % random.len()] - 0.5);
    }
    x[ix.input(0)] = -12.0;
    x[ix.input(1)] = 0.7;
    x[ix.input(2)] = 0.4;
    x
}

/// Adds what each law gives to its rows, all heaters on.
struct Values<'a> {
    laws: &'a Laws,
    x: &'a [Complex],
    out: Vec<Complex>,
}

impl Visitor for Values<'_> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[Element<L, K, R>],
    ) {
        for Element { columns, rows, law } in pick(self.laws) {
            let given = L::apply(law, columns.map(|c| self.x[c]), 1.0);
            for (row, value) in rows.iter().zip(given) {
                self.out[*row] = self.out[*row] + value;
            }
        }
    }
}

fn agree(engine: &str, net: &Network, random: &[f64]) -> Result<(), TestCaseError> {
    let ix = &net.index;
    let mut balance = Balance::new(net);
    for heater in 0..net.heaters.len() {
        balance.switch(heater, true);
    }
    let x = columns(net, random);
    let slopes = balance.jacobian_at(&x).to_vec();
    let mut exact = vec![vec![0.0; ix.columns()]; ix.rows()];
    for (entry, slope) in balance.entries().iter().zip(&slopes) {
        exact[entry.row][entry.column] = *slope;
    }
    let largest: Vec<f64> = exact
        .iter()
        .map(|row| row.iter().fold(0.0_f64, |m, v| m.max(v.abs())))
        .collect();
    let mut place: Vec<Complex> = x.iter().map(|&re| Complex { re, im: 0.0 }).collect();
    for column in 0..ix.columns() {
        place[column].im = STEP;
        let mut values = Values {
            laws: &net.laws,
            x: &place,
            out: vec![Complex { re: 0.0, im: 0.0 }; ix.rows()],
        };
        visit_all(&mut values);
        let out = values.out;
        place[column].im = 0.0;
        for row in 0..ix.unused_row() {
            let other = out[row].im / STEP;
            let apart = (exact[row][column] - other).abs();
            prop_assert!(
                apart <= AGREED * largest[row].max(1e-300),
                "{engine}: row {row}, column {column}: {} is not {other}",
                exact[row][column]
            );
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(crate::kit::cases(16))]

    #[test]
    fn the_slopes_are_those_of_the_complex_step(random in prop::collection::vec(0.0..1.0f64, 97)) {
        for engine in ["flat-four-3l1", "flat-four-5l9", "flat-six-8l5", "radial-nine"] {
            agree(engine, &network(engine), &random)?;
        }
        agree("sealed", &sealed(), &random)?;
    }
}

/// Agreement required of two differences of closed rates whose own error is of fourth order, of the row's largest
/// entry: pressures balanced to 1e-12 kg/s leave a part in a million.
const AGREED_CLOSED: f64 = 1e-5;
/// The step of those differences, K.
const BY_K: f64 = 1e-3;

/// The border eliminated must give the slopes of the rates with the auxiliaries found afresh: the two
/// together are what a step relies on.
fn closed(net: &Network) {
    let ix = &net.index;
    let mut balance = Balance::new(net);
    balance.switch(0, true);
    let mut states = net.initial.clone();
    for (i, state) in states.iter_mut().enumerate().take(ix.cells) {
        *state += 3.0 * (1.0 + (i as f64).sin());
    }
    for pocket in 0..ix.pockets {
        states[ix.pocket(pocket)] += 4.0 + 2.0 * pocket as f64;
    }
    balance.rates(0.0, &states).unwrap();
    balance.solve_algebraic();
    let slopes = balance.slopes().to_vec();
    let (n, m) = (ix.states(), ix.unknowns() - ix.states());
    let mut full = nalgebra::DMatrix::<f64>::zeros(n + m, n + m);
    for (entry, slope) in balance.entries().iter().zip(&slopes) {
        if entry.row < n + m && entry.column < n + m {
            full[(entry.row, entry.column)] += slope;
        }
    }
    let (a, b) = (full.view((0, 0), (n, n)), full.view((0, n), (n, m)));
    let (c, d) = (full.view((n, 0), (m, n)), full.view((n, n), (m, m)));
    let reduced: nalgebra::DMatrix<f64> =
        a - b * d.into_owned().lu().solve(&c.into_owned()).unwrap();
    for column in (0..ix.cells).chain((0..ix.pockets).map(|p| ix.pocket(p))) {
        let mut rates = |by: f64| {
            let mut moved = states.clone();
            moved[column] += by;
            balance.rates(0.0, &moved).unwrap()[..n].to_vec()
        };
        let [near_up, near_down] = [BY_K, -BY_K].map(&mut rates);
        let [far_up, far_down] = [2.0 * BY_K, -2.0 * BY_K].map(&mut rates);
        for row in 0..n {
            let largest = reduced.row(row).amax();
            let near = (near_up[row] - near_down[row]) / (2.0 * BY_K);
            let far = (far_up[row] - far_down[row]) / (4.0 * BY_K);
            let difference = (4.0 * near - far) / 3.0;
            let apart = (difference - reduced[(row, column)]).abs();
            assert!(
                apart <= AGREED_CLOSED * largest + 1e-9,
                "row {row}, column {column}: {difference} is not {}, of {largest}",
                reduced[(row, column)]
            );
        }
    }
}

#[test]
fn the_eliminated_border_gives_the_slopes_of_the_closed_rates() {
    for engine in ["flat-four-3l1", "flat-six-8l5", "radial-nine"] {
        closed(&network(engine));
    }
    closed(&sealed());
}

#[test]
fn a_trial_that_went_astray_leaves_nothing_behind() {
    let net = network("flat-four-3l1");
    let mut balance = Balance::new(&net);
    balance.switch(0, true);
    let good = balance.rates(0.0, &net.initial).unwrap().to_vec();
    let astray = vec![f64::NAN; net.initial.len()];
    let _ = balance.rates(0.0, &astray);
    assert_eq!(balance.rates(0.0, &net.initial).unwrap(), good);
}
