//! Whole nights over all that is uncertain about them.

use coldsoak::files::library::{Kind, model};
use coldsoak::quantity::{Power, Temperature};
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::heater::{Heater, Place};
use coldsoak::study::case::Case;
use coldsoak::study::paired::{PairResult, Verdict};
use coldsoak::study::quantile::Band;
use coldsoak::study::simulate::{Outcome, SampleCount, Simulation, Subject};
use coldsoak::study::spread::Spread;
use rayon::prelude::*;

fn fan(place: &str) -> Heater {
    Heater {
        power: Power::W(250.0),
        place: Place::at(place.to_owned()),
        ..model(Kind::Heater, "bay-fan-350w").unwrap()
    }
}

/// The night of the anchor, with the units of its plausible ranges filled in.
fn night(heaters: Vec<Heater>) -> Scenario {
    Scenario {
        engine: model(Kind::Engine, "flat-four-3l1").unwrap(),
        oil: model(Kind::Oil, "15w-50").unwrap(),
        hangar: coldsoak::scenario::hangar::Hangar {
            start: Some(Temperature::degF(15.0)),
            ..model(Kind::Hangar, "shut").unwrap()
        },
        heaters,
        ..crate::kit::night("flat-four-3l1", Temperature::degF(15.0), 12)
    }
}

/// The ranges of the anchor (common practice, no source; see `anchor`) overlap the 10-90 bands of their groups: what
/// is called plausible is wide enough to hold practice, and practice lies where the model puts most of its nights.
#[test]
fn the_anchors_ranges_overlap_the_bands_of_their_groups() {
    let spread = Spread::of(&night(vec![fan("top-blowing-right")]), 1).unwrap();
    let tasks = spread.samples(64);
    let nights: Vec<_> = tasks
        .par_chunks(16)
        .flat_map(|tasks| spread.nights(tasks))
        .map(Result::unwrap)
        .collect();
    let keys = coldsoak::night::run(&night(vec![]))
        .unwrap()
        .findings
        .groups_c;
    for (key, low, high) in [
        ("right_cylinders", 78.0, 86.0),
        ("left_cylinders", 48.0, 62.0),
        ("rear", 55.0, 65.0),
    ] {
        let group = keys.iter().position(|g| g.key == key).unwrap();
        let band = Band::of(nights.iter().map(|h| h.groups_c[group] * 1.8 + 32.0)).unwrap();
        println!("{key}: {band:?} °F against {low} to {high}");
        assert!(band.p10 <= high && low <= band.p90, "{key}: {band:?}");
        assert!(band.p90 - band.p10 > 1.0, "{key}: a band without width");
    }
}

/// Another seed takes other nights and comes to the same pairs.
#[test]
fn the_pairs_are_reproduced_with_another_seed() {
    let base = night(vec![]);
    let choice = |name: &str, heaters: Vec<Heater>| Case::named(name).set("heaters", &heaters);
    let choices = [
        choice("underneath", vec![fan("bottom")]),
        choice("on top", vec![fan("top-blowing-right")]),
        choice("on top, mirrored", vec![fan("top-blowing-left")]),
        choice("nothing", vec![]),
    ];
    let nights = |seed| -> Vec<Vec<Outcome>> {
        let count = SampleCount { nights: 32, seed };
        let simulation = Simulation::of(&base, count, &|_| ()).unwrap();
        let subjects = choices.iter().map(|c| simulation.subject(c).unwrap());
        let subjects: Vec<Subject> = subjects.collect();
        let nothing = Case::default();
        let all: Vec<(&Subject, &Case)> = subjects.iter().map(|s| (s, &nothing)).collect();
        simulation.all(&all)
    };
    let pair = |nights: &[Vec<Outcome>], a: usize, b: usize| {
        Verdict::of(
            (&choices[a].name, &nights[a]),
            (&choices[b].name, &nights[b]),
        )
    };
    let (one, other) = (nights(1), nights(2));
    assert_ne!(one, other, "the seeds take the same nights");
    for against in [1, 2, 3] {
        let (a, b) = (pair(&one, 0, against), pair(&other, 0, against));
        println!("{a:?}\n{b:?}");
        assert_eq!(a.result(), b.result(), "{a:?} {b:?}");
    }
    let heated = pair(&one, 0, 3);
    assert_eq!(heated.result(), PairResult::First, "a heater beats none");
    assert_eq!((heated.ahead, heated.nights), (32, 32));
    // Left and right are mirror images, so what differs between them is nothing but uncertainty.
    assert_eq!(pair(&one, 1, 2).result(), PairResult::Tied);
}
