//! What must make no difference: names, order, the cut of a part in two.

use super::any_body::{Dice, NIGHTS, element, name, night, solids, whole};
use super::any_heat::furnished;
use crate::kit::bench::{at, joint, solved};
use coldsoak::quantity::{Area, Conductance, Mass};
use coldsoak::scenario::body::Body;
use coldsoak::scenario::joint::Contact;
use proptest::prelude::*;

/// Two computations of one night at a tenth of the default tolerance agree to this, K.
const SAME_K: f64 = 2e-3;
/// Hours at which nights are compared.
const HOURS: [f64; 3] = [1.0, 4.0, 12.0];

/// The lists of a body turned round.
fn turned(mut body: Body) -> Body {
    body.parts.reverse();
    body.joints.reverse();
    body.surfaces.reverse();
    body.radiation_pairs.reverse();
    body.air_volumes.reverse();
    body.cowl_leaks.reverse();
    body
}

/// The second part as two halves side by side, with half of everything that touches it each.
fn halved(mut body: Body) -> Body {
    let half = |mass: Mass| Mass::kg(0.5 * mass.si());
    let half_area = |area: Area| Area::m2(0.5 * area.si());
    let whole = "part1";
    let twin = || "twin".to_owned();
    let part = &mut body.parts[1];
    part.mass = half(part.mass);
    let mut other = part.clone();
    other.name = twin();
    body.parts.push(other);
    for i in 0..body.joints.len() {
        let j = &mut body.joints[i];
        if j.from.0 == whole || j.to.0 == whole {
            let Contact::total(g) = j.contact else {
                panic!("a plain joint")
            };
            j.contact = Contact::total(Conductance::W_K(0.5 * g.si()));
            let mut other = j.clone();
            if other.from.0 == whole {
                other.from.0 = twin();
            } else {
                other.to.0 = twin();
            }
            body.joints.push(other);
        }
    }
    for i in 0..body.surfaces.len() {
        if body.surfaces[i].part == whole {
            body.surfaces[i].area = half_area(body.surfaces[i].area);
            let mut other = body.surfaces[i].clone();
            other.part = twin();
            body.surfaces.push(other);
        }
    }
    for i in 0..body.radiation_pairs.len() {
        if body.radiation_pairs[i].from == whole || body.radiation_pairs[i].to == whole {
            body.radiation_pairs[i].area = half_area(body.radiation_pairs[i].area);
            let mut other = body.radiation_pairs[i].clone();
            if other.from == whole {
                other.from = twin();
            } else {
                other.to = twin();
            }
            body.radiation_pairs.push(other);
        }
    }
    body.joints.push(joint(whole, "twin", 1e6));
    body
}

proptest! {
    #![proptest_config(crate::kit::cases(NIGHTS))]

    #[test]
    fn the_order_of_the_lists_changes_nothing(numbers in prop::collection::vec(0.0..1.0f64, 97)) {
        let mut dice = Dice::new(&numbers);
        let body = whole(&mut dice);
        let count = body.parts.len();
        let one = furnished(night(body.clone(), -10.0, (40.0, 20.0)), &mut dice, count);
        let mut other = one.clone();
        other.heaters.reverse();
        other.engine = coldsoak::scenario::engine::Engine::body(turned(body));
        let (one, other) = (solved(&one), solved(&other));
        for hours in HOURS {
            for part in (0..count).map(name) {
                let apart = at(&one, &part, hours * 3600.0) - at(&other, &part, hours * 3600.0);
                prop_assert!(apart.abs() < SAME_K, "{} at {} h: {} K", part, hours, apart);
            }
        }
    }

    #[test]
    fn a_part_said_as_two_halves_is_the_same_part(numbers in prop::collection::vec(0.0..1.0f64, 97)) {
        let body = solids(&mut Dice::new(&numbers));
        let count = body.parts.len();
        let mut one = night(body.clone(), -10.0, (40.0, 20.0));
        one.heaters = vec![element("part0", 150.0)];
        let mut other = one.clone();
        other.engine = coldsoak::scenario::engine::Engine::body(halved(body));
        // The last part of the whole body keeps its temperature of its own; the twin begins as the second part does.
        let (one, other) = (solved(&one), solved(&other));
        for hours in HOURS {
            for part in (0..count).map(name) {
                let apart = at(&one, &part, hours * 3600.0) - at(&other, &part, hours * 3600.0);
                prop_assert!(apart.abs() < SAME_K, "{} at {} h: {} K", part, hours, apart);
            }
        }
    }
}
