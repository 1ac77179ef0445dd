//! The balance put together, on a real engine: auxiliaries found, inputs read, pressures begun where they are expected.

use crate::balance::Balance;
use crate::kit::{fan, night, pad};
use crate::network::{Network, assemble};
use crate::quantity::Temperature;
use crate::scenario::check::check;

/// A small engine with a fan and a pad.
fn engine() -> Network {
    let mut scenario = night("flat-four-3l1", Temperature::degC(-9.0), 12);
    scenario.heaters = vec![fan(350.0, "top-blowing-right"), pad(150.0)];
    assemble(&check(&scenario).unwrap())
}

/// The cells and pockets apart from each other, so that every law has something to do.
fn states(net: &Network) -> Vec<f64> {
    let mut states = net.initial.clone();
    for (i, state) in states.iter_mut().enumerate().take(net.index.cells) {
        *state += 9.0 + 7.0 * (i as f64).sin();
    }
    for pocket in 0..net.index.pockets {
        states[net.index.pocket(pocket)] += 4.0 + 2.0 * pocket as f64;
    }
    states[net.index.gas_temperature()] += 3.0;
    states
}

fn both_on(net: &Network) -> Balance<'_> {
    let mut balance = Balance::new(net);
    balance.switch(0, true);
    balance.switch(1, true);
    balance
}

/// What is found on the way leaves nothing in its own row, and the other rows are the same then.
#[test]
fn auxiliaries_are_what_their_rows_ask_for() {
    let net = engine();
    let ix = &net.index;
    let mut balance = both_on(&net);
    let rates = balance.rates(1200.0, &states(&net)).unwrap().to_vec();
    let columns = balance.columns().to_vec();
    assert_eq!(columns.len(), ix.columns());
    assert!(
        rates[ix.states()..ix.unknowns()]
            .iter()
            .all(|row| *row == 0.0)
    );
    let given = balance.rates_at(&columns).to_vec();
    for (row, (given, found)) in given.iter().zip(&rates).enumerate().take(ix.unused_row()) {
        assert!(
            (given - found).abs() < 1e-9,
            "row {row}: {given}, not {found}"
        );
    }
    // A air_speed is what passes, over what a metre a second carries.
    assert!(
        net.pockets
            .iter()
            .all(|pocket| columns[pocket.air_speed] > 0.0)
    );
    // Means are within what they are of; the watts of the fan are its rating; its streams balance to 1e-12 kg/s.
    let [watts] = net.auxiliaries.watts[..] else {
        panic!("one fan");
    };
    assert!((columns[watts] - 350.0).abs() < 1e-9);
    for pocket in net.pockets.iter().filter(|pocket| !pocket.pinned) {
        assert!(given[pocket.pressure].abs() < 1e-11);
    }
    assert_eq!(balance.evaluations, 1);
}

/// A second evaluation of the same gives the same, whatever was found in between.
#[test]
fn nothing_is_left_behind_by_what_was_evaluated_before() {
    let net = engine();
    let states = states(&net);
    let mut balance = both_on(&net);
    let first = balance.rates(1200.0, &states).unwrap().to_vec();
    balance.rates(0.0, &net.initial).unwrap();
    balance.rates_at(&vec![3.0; net.index.columns()]);
    assert_eq!(balance.rates(1200.0, &states).unwrap(), first);
    assert_eq!(balance.evaluations, 3);
}

#[test]
fn pressures_are_sought_from_where_they_are_expected() {
    let net = engine();
    let states = states(&net);
    let mut balance = both_on(&net);
    balance.rates(0.0, &states).unwrap();
    let cold = balance.pressures.iterations;
    assert!(cold > 1, "{cold}");
    let found: Vec<f64> = balance.pressures().collect();
    balance.rates(0.0, &states).unwrap();
    assert_eq!(balance.pressures.iterations, 2 * cold);
    // Kept, they are the answer already.
    balance.solve_algebraic();
    balance.rates(0.0, &states).unwrap();
    assert_eq!(balance.pressures.iterations, 2 * cold);
    let mut other = both_on(&net);
    other.predict_pressures(&found);
    other.rates(0.0, &states).unwrap();
    assert_eq!(other.pressures.iterations, 0);
}

/// Given the pressures that balance, what they leave over is nothing; given others, it is what enters a pocket too much.
#[test]
fn under_given_pressures_what_is_left_over_stands_in_their_rows() {
    let net = engine();
    let states = states(&net);
    let mut balance = both_on(&net);
    let rates = balance.rates(600.0, &states).unwrap().to_vec();
    let found: Vec<f64> = balance.pressures().collect();
    let under = balance.rates_under(600.0, &states, &found).to_vec();
    for (row, (under, rate)) in under
        .iter()
        .zip(&rates)
        .enumerate()
        .take(net.index.states())
    {
        assert!(
            (under - rate).abs() < 1e-9 * (1.0 + rate.abs()),
            "row {row}"
        );
    }
    let mut raised = found.clone();
    raised[0] += 0.1;
    let under = balance.rates_under(600.0, &states, &raised).to_vec();
    let pocket = &net.pockets[0];
    assert!(
        !pocket.pinned && under[pocket.pressure] < -1e-5,
        "{}",
        under[pocket.pressure]
    );
    assert_eq!(balance.pressures().next(), Some(raised[0]));
}

#[test]
fn an_input_can_be_set_and_then_stands_still() {
    let net = engine();
    let ix = &net.index;
    let states = states(&net);
    let mut balance = both_on(&net);
    balance.rates(0.0, &states).unwrap();
    let outdoors_c = balance.columns()[ix.input(0)];
    assert_eq!(outdoors_c, -9.0);
    balance.set_input(0, outdoors_c - 7.0);
    let before = balance.columns()[ix.hangar()];
    let rates = balance.rates_given_inputs(&states).unwrap().to_vec();
    assert_eq!(balance.columns()[ix.input(0)], -16.0);
    assert_eq!(before, states[ix.hangar()]);
    assert!(rates[ix.hangar()] < 0.0, "the hangar follows the outdoors");
    assert!(std::ptr::eq(balance.network(), &net));
    balance.switch(0, false);
    assert_eq!(balance.on(), [0.0, 1.0]);
}

/// The air of one night alone that does not balance is an error.
#[test]
fn alone_air_that_does_not_balance_is_told() {
    let net = engine();
    let mut states = states(&net);
    states[net.index.pocket(1)] = f64::NAN;
    let mut balance = both_on(&net);
    assert!(balance.rates(0.0, &states).is_err());
}
