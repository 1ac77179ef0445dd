//! Nights that go abreast against the same nights one by one, to the last bit: the plain path is the oracle of the fast
//! one.

use coldsoak::files::night::load_builtin;
use coldsoak::network::{Network, assemble};
use coldsoak::scenario::check::check;
use coldsoak::solver::{Marched, Wanted, march, march_abreast};

/// A night as it is built in, and others like it with other sizes; `from` tells the first of them.
fn nights(name: &str, from: usize, count: usize) -> Vec<Network> {
    let scenario = load_builtin(name).unwrap().scenario;
    let net = assemble(&check(&scenario).unwrap());
    (from..from + count)
        .map(|number| {
            let mut net = net.clone();
            let more = 1.0 + 0.03 * number as f64;
            for link in &mut net.laws.links {
                link.w_per_k *= more;
            }
            for gap in &mut net.laws.gaps {
                gap.area_m2 *= more;
            }
            for film in &mut net.laws.wall_films {
                film.area_m2 /= more;
            }
            for start in net.initial.iter_mut().take(net.index.cells) {
                *start -= number as f64;
            }
            net
        })
        .collect()
}

fn wanted(nets: &[Network]) -> Vec<Wanted<'_>> {
    let wanted = |net| Wanted {
        net,
        tolerance: 16.0,
        sample_s: 300.0,
    };
    nets.iter().map(wanted).collect()
}

fn abreast(nets: &[Network]) -> Vec<Marched> {
    let marched = march_abreast(&wanted(nets));
    marched.into_iter().map(Result::unwrap).collect()
}

#[test]
fn nights_abreast_are_the_nights_alone() {
    // Five and three: a lane is taken over, and lanes stay empty. The two engines are of no one shape.
    let mut nets = nights("demo", 0, 5);
    nets.extend(nights("six-after-flight", 0, 3));
    nets.extend(nights("thermostat-pad", 0, 2));
    for (net, found) in nets.iter().zip(abreast(&nets)) {
        let alone = march(net, 16.0, 300.0).unwrap();
        assert_eq!(found.trace.times_s, alone.trace.times_s);
        assert_eq!(found.effort, alone.effort);
        assert_eq!(found.trace.switchings.len(), alone.trace.switchings.len());
        assert_eq!(found.trace.values, alone.trace.values);
        assert_eq!(found.ledger, alone.ledger);
        found.ledger.audit().unwrap();
    }
}

#[test]
fn a_night_does_not_depend_on_those_beside_it() {
    let nets = nights("demo", 0, 6);
    let together = abreast(&nets);
    for company in [nights("demo", 2, 2), nights("demo", 2, 5)] {
        let found = abreast(&company);
        assert_eq!(found[0].trace.values, together[2].trace.values);
        assert_eq!(found[1].trace.values, together[3].trace.values);
    }
}

#[test]
fn one_night_that_cannot_go_on_does_not_stop_the_others() {
    let mut nets = nights("demo", 0, 4);
    nets[1].capacities[0] = f64::NAN;
    let marched = march_abreast(&wanted(&nets));
    let alone = march(&nets[1], 16.0, 300.0).unwrap_err();
    assert_eq!(
        marched[1].as_ref().unwrap_err().to_string(),
        alone.to_string()
    );
    let sound = abreast(&nights("demo", 0, 4));
    for number in [0, 2, 3] {
        let found = marched[number].as_ref().unwrap();
        assert_eq!(found.trace.values, sound[number].trace.values);
    }
}
