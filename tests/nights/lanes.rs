//! Nights in lanes against the same nights one by one, to the last bit.
//!
//! Alone and in lanes, laws stand side by side in wide registers where the processor has them; that those give what single
//! numbers give is held by `balance/tests/side_by_side.rs`, and that nights do share lanes by `solver/lanes.rs`.

use coldsoak::files::night::load_builtin;
use coldsoak::network::surroundings::Curve;
use coldsoak::network::{Network, assemble};
use coldsoak::scenario::check::check;
use coldsoak::solver::{LaneJob, Solution, integrate, integrate_lanes};

/// The weather, colder by so many kelvin.
fn colder(curve: &Curve, by: f64) -> Curve {
    Curve::through(curve.kinks().iter().map(|&time_s| {
        let (value, _) = curve.at(time_s);
        (time_s, value - by)
    }))
}

/// A night as it is built in, and others like it in which everything is of another size that may be; `from` gives the
/// first of them.
fn nights(name: &str, from: usize, count: usize) -> Vec<Network> {
    let scenario = load_builtin(name).unwrap().scenario;
    let net = assemble(&check(&scenario).unwrap());
    (from..from + count)
        .map(|number| {
            let mut net = net.clone();
            let number = number as f64;
            let more = 1.0 + 0.03 * number;
            for link in &mut net.laws.links {
                link.law.w_per_k *= more;
            }
            for gap in &mut net.laws.gaps {
                gap.law.area_m2 *= more;
            }
            for film in &mut net.laws.wall_films {
                film.law.area_m2 /= more;
            }
            for bonded in &mut net.laws.bonded {
                bonded.law.rated_w *= more;
            }
            for capacity in &mut net.capacities {
                *capacity *= more;
            }
            for pocket in &mut net.pockets {
                pocket.air_speed_scale /= more;
            }
            for start in net.initial.iter_mut().take(net.index.cells) {
                *start -= number;
            }
            net.inputs[0] = colder(&net.inputs[0], 0.5 * number);
            for heater in &mut net.heaters {
                for (from_s, _) in &mut heater.spans {
                    *from_s += 400.0 * number;
                }
                if let Some(sensor) = &mut heater.thermostat {
                    sensor.lo_c -= number;
                    sensor.hi_c -= 0.5 * number;
                }
            }
            net.departure_s -= 90.0 * number;
            net.end_s -= 70.0 * number;
            net
        })
        .collect()
}

/// Each with its own tolerance and its own distance between samples.
fn wanted(nets: &[Network], from: usize) -> Vec<LaneJob<'_>> {
    let wanted = |(number, net)| LaneJob {
        net,
        tolerance: 16.0 + number as f64,
        sample_s: 300.0 - 10.0 * number as f64,
    };
    (from..).zip(nets).map(wanted).collect()
}

fn in_lanes(nights: &[LaneJob]) -> Vec<Solution> {
    let solutions = integrate_lanes(nights);
    solutions.into_iter().map(Result::unwrap).collect()
}

fn assert_the_same(found: &Solution, expected: &Solution) {
    assert_eq!(found.trace.times_s, expected.trace.times_s);
    assert_eq!(found.effort, expected.effort);
    assert_eq!(found.trace.switchings, expected.trace.switchings);
    assert_eq!(found.trace.values, expected.trace.values);
    assert_eq!(found.at_departure, expected.at_departure);
    assert_eq!(found.ledger, expected.ledger);
}

#[test]
fn nights_in_lanes_are_the_nights_alone() {
    // Six, three and five: lanes are taken over, and lanes stay empty. The engines are of no one shape.
    let mut nets = nights("demo", 0, 6);
    nets.extend(nights("six-after-flight", 0, 3));
    nets.extend(nights("thermostat-pad", 0, 5));
    let wanted = wanted(&nets, 0);
    let mut switchings = 0;
    for (night, found) in wanted.iter().zip(in_lanes(&wanted)) {
        let alone = integrate(night.net, night.tolerance, night.sample_s).unwrap();
        assert_the_same(&found, &alone);
        found.ledger.check().unwrap();
        switchings += found.trace.switchings.len();
    }
    assert!(switchings > 50, "the thermostats had nothing to do");
}

#[test]
fn a_night_does_not_depend_on_those_beside_it() {
    let nets = nights("demo", 0, 6);
    let together = in_lanes(&wanted(&nets, 0));
    for count in [2, 5] {
        let company = nights("demo", 2, count);
        let found = in_lanes(&wanted(&company, 2));
        assert_the_same(&found[0], &together[2]);
        assert_the_same(&found[1], &together[3]);
    }
}

/// The fifth takes its lane.
#[test]
fn one_night_that_cannot_go_on_does_not_stop_the_others() {
    let mut nets = nights("demo", 0, 6);
    nets[1].capacities[0] = f64::NAN;
    let broken = wanted(&nets, 0);
    let solutions = integrate_lanes(&broken);
    let alone = integrate(&nets[1], broken[1].tolerance, broken[1].sample_s).unwrap_err();
    assert_eq!(
        solutions[1].as_ref().unwrap_err().to_string(),
        alone.to_string()
    );
    let nets = nights("demo", 0, 6);
    let sound = in_lanes(&wanted(&nets, 0));
    for number in [0, 2, 3, 4, 5] {
        assert_the_same(solutions[number].as_ref().unwrap(), &sound[number]);
    }
}
