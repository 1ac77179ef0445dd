//! Mirror symmetry of random engines: two halves alike about a keel.

use super::any_body::{Dice, NIGHTS, element, name, night, solids};
use crate::kit::bench::{at, joint, lump, solved};
use coldsoak::night::Night;
use coldsoak::quantity::Temperature;
use coldsoak::scenario::body::Body;
use coldsoak::scenario::initial::InitialTemperature;
use proptest::prelude::*;

/// Two computations of one night at a tenth of the default tolerance agree to this, K.
const SAME_K: f64 = 2e-3;

/// The twin of a part.
fn twin(part: &str) -> String {
    format!("{part}_mirrored")
}

/// A body and its mirror image, each joined to a keel by its first part.
fn doubled(half: &Body) -> Body {
    let mut body = half.clone();
    for part in &half.parts {
        let mut other = part.clone();
        other.name = twin(&part.name);
        body.parts.push(other);
    }
    for j in &half.joints {
        let mut other = j.clone();
        (other.from.0, other.to.0) = (twin(&j.from.0), twin(&j.to.0));
        body.joints.push(other);
    }
    for f in &half.surfaces {
        let mut other = f.clone();
        other.part = twin(&f.part);
        body.surfaces.push(other);
    }
    for s in &half.radiation_pairs {
        let mut other = s.clone();
        (other.from, other.to) = (twin(&s.from), twin(&s.to));
        body.radiation_pairs.push(other);
    }
    body.parts.push(lump("keel", 2e4));
    body.joints.push(joint(&name(0), "keel", 5.0));
    body.joints.push(joint(&twin(&name(0)), "keel", 5.0));
    body
}

/// The doubled body, warm as is said, heated in one part.
fn heated(half: &Body, part: &str, watts: f64) -> Night {
    let mut scenario = night(doubled(half), -10.0, (0.0, 0.0));
    let InitialTemperature::values { parts, .. } = &mut scenario.initial.temperature else {
        panic!("a given start")
    };
    parts.clear();
    parts.insert("keel".to_owned(), Temperature::degC(30.0));
    scenario.heaters = vec![element(part, watts)];
    solved(&scenario)
}

proptest! {
    #![proptest_config(crate::kit::cases(NIGHTS))]

    /// Heated on one side or on the other, a symmetrical engine warms as its own mirror image; heated on one side
    /// only it is warmer there.
    #[test]
    fn a_symmetrical_engine_heated_on_the_other_side_is_mirrored(
        numbers in prop::collection::vec(0.0..1.0f64, 97), watts in 50.0..300.0f64,
    ) {
        let half = solids(&mut Dice::new(&numbers));
        let left = heated(&half, &name(1), watts);
        let right = heated(&half, &twin(&name(1)), watts);
        for hours in [1.0, 4.0, 12.0_f64] {
            let seconds = hours * 3600.0;
            for part in (0..half.parts.len()).map(name) {
                for (here, there) in [(part.clone(), twin(&part)), (twin(&part), part)] {
                    let apart = at(&left, &here, seconds) - at(&right, &there, seconds);
                    prop_assert!(apart.abs() < SAME_K, "{} at {} h: {} K", here, hours, apart);
                }
            }
            let one_sided = at(&left, &name(1), seconds) - at(&left, &twin(&name(1)), seconds);
            prop_assert!(one_sided > SAME_K, "{} K warmer where it is heated", one_sided);
        }
    }
}
