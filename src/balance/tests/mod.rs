//! The laws of the balance, each against what its form gives when it is worked out by hand.
//!
//! What a law of `physics` gives is held against published values there; here it is how the elements put such laws
//! together: what drives them, what they carry, which row loses and which gains. And how the balance goes through them:
//! which networks are alike, several laws or nights side by side, the pressures.

mod air;
mod all_laws_network;
mod fins;
mod heaters;
mod places;
mod pressures;
mod rates;
mod side_by_side;
mod solids;
mod stored;
mod structure;
mod water;

use crate::laws::Law;

/// Agreement with what is worked out in another order or printed to six digits, of each value.
const AGREED: f64 = 1e-4;

/// What a law adds to its rows; heater 0 is off, heater 1 is on.
fn added<const K: usize, const R: usize, L: Law<K, R>>(law: &L, x: [f64; K]) -> [f64; R] {
    L::apply(
        law,
        x,
        law.heater().map_or(0.0, |heater| [0.0, 1.0][heater]),
    )
}

/// Asserts what a law adds to its rows; heater 0 is off, heater 1 is on.
#[track_caller]
fn gives<const K: usize, const R: usize>(law: &impl Law<K, R>, x: [f64; K], expected: [f64; R]) {
    let found = added(law, x);
    let largest = expected.iter().fold(1e-12_f64, |m, v| m.max(v.abs()));
    for (row, (found, expected)) in found.iter().zip(&expected).enumerate() {
        let apart = (found - expected).abs();
        // A row that gets a hundred-millionth of what another gets may get nothing.
        assert!(
            apart <= AGREED * expected.abs().max(1e-8 * largest),
            "row {row}: {found}, not {expected}"
        );
    }
}

/// Asserts that a value is as expected, within this part of it.
#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!(
        (found - expected).abs() <= within * expected.abs(),
        "{found} is not {expected}"
    );
}
