//! Nights of a study are computed at a looser tolerance: how far that moves what is counted.

use coldsoak::files::night::load_builtin;
use coldsoak::night::run;
use coldsoak::study::case::Case;
use coldsoak::study::simulate::{Job, SampleCount, Simulation};
use coldsoak::study::spread::Spread;
use rayon::prelude::*;

/// Of each night, simulated nights that are computed at the full tolerance too.
const NIGHTS: u32 = 24;
/// The most that a margin may move, K, and the hours to the minimum, h (the small engine's sump nears the minimum by less than
/// 0.1 K an hour: 0.035 h).
const MARGIN_K: f64 = 0.03;
const HOURS: f64 = 0.05;

/// Margins, times and verdicts of simulated nights against the same nights at the tolerance of their file: a thermostat and
/// a hot start among them. A verdict may differ only where the margin is smaller than what it may move by.
#[test]
fn a_study_counts_what_full_nights_would() {
    for name in [
        "demo",
        "small-engine-top",
        "six-after-flight",
        "thermostat-pad",
    ] {
        let scenario = load_builtin(name).unwrap().scenario;
        let count = SampleCount {
            nights: NIGHTS,
            seed: 1,
        };
        let simulation = Simulation::of(&scenario, count, &|_| ()).unwrap();
        let subject = simulation.subject(&Case::named(name)).unwrap();
        let nothing = Case::default();
        let jobs: Vec<Job> = (0..NIGHTS)
            .map(|number| Job {
                subject: &subject,
                change: &nothing,
                number,
            })
            .collect();
        let quick = simulation.run(&jobs);
        let study = Spread::of(&scenario, 1).unwrap();
        let tasks = study.samples(NIGHTS);
        let full: Vec<_> = tasks
            .par_iter()
            .map(|t| run(&study.scenario(t).unwrap()).unwrap())
            .collect();
        let (mut worst_k, mut worst_h) = (0.0_f64, 0.0_f64);
        for (quick, full) in quick.iter().zip(&full) {
            let (quick, full) = (quick.as_ref().unwrap(), &full.findings);
            let margin_k = full.ready.margin_k.unwrap();
            worst_k = worst_k.max((quick.margin_k.unwrap() - margin_k).abs());
            if let (Some(a), Some(b)) = (quick.warm_h, full.threshold.all_parts.hold.hours()) {
                worst_h = worst_h.max((a - b).abs());
            }
            let same = quick.ready == full.ready.ready_at_departure;
            assert!(same || margin_k.abs() < MARGIN_K, "{name}: {margin_k} K");
        }
        println!("{name}: {worst_k:.4} K, {worst_h:.4} h");
        assert!(
            worst_k < MARGIN_K && worst_h < HOURS,
            "{name}: {worst_k} K, {worst_h} h"
        );
    }
}
