//! The latest switching-on of the built-in nights against nights of given minutes.

use super::{latest, night, ready};
use coldsoak::scenario::document::Scenario;
use coldsoak::study::when::Switches;
use rayon::prelude::*;

/// Minutes around the answer that are tried one by one.
const AROUND: usize = 6;
/// Steps of the scan that shows it is the latest, minutes, and where it begins: off the study's own scan.
const SCAN: usize = 15;
const OFF: usize = 7;

fn each(scenario: &Scenario, minutes: &[usize]) -> Vec<(usize, bool)> {
    let one = |&m: &usize| (m, ready(scenario, &[m]).0);
    minutes.par_iter().map(one).collect()
}

/// With one heater every minute within six of the answer says the same, and no later start of a scan off the
/// study's own is ready: the answer is the latest, to the minute.
#[test]
fn the_answer_is_the_latest_minute_that_is_ready() {
    for name in ["demo", "small-engine-top"] {
        let scenario = night(name);
        let found = latest(&scenario).starts.unwrap()[0];
        let most = Switches::of(&scenario).unwrap().most;
        let around: Vec<usize> =
            (found.saturating_sub(AROUND)..=(found + AROUND).min(most)).collect();
        for (minutes, ready) in each(&scenario, &around) {
            assert_eq!(ready, minutes >= found, "{name}: {minutes} and {found}");
        }
        let scan: Vec<usize> = (OFF..most).step_by(SCAN).collect();
        for (minutes, ready) in each(&scenario, &scan) {
            assert_eq!(ready, minutes >= found, "{name}: {minutes} and {found}");
        }
        println!("{name}: {found} minutes before the departure");
    }
}

/// Nights that cannot be ready: no start of a scan off the study's own is.
#[test]
fn where_there_is_no_answer_no_minute_of_a_scan_is_ready() {
    for (name, step) in [("six-after-flight", 60), ("radial-underneath", 45)] {
        let scenario = night(name);
        assert_eq!(latest(&scenario).starts, None, "{name}");
        let scan: Vec<usize> = (OFF..Switches::of(&scenario).unwrap().most)
            .step_by(step)
            .collect();
        for (minutes, ready) in each(&scenario, &scan) {
            assert!(!ready, "{name}: {minutes}");
        }
    }
}

/// The whole of it: every minute of every built-in night with a heater. Some minutes of work; run it with
/// `cargo test --release --test model when:: -- --ignored --nocapture`.
#[test]
#[ignore = "some minutes of work"]
fn every_minute_of_every_built_in_night() {
    for name in [
        "demo",
        "small-engine-top",
        "six-after-flight",
        "radial-underneath",
        "thermostat-pad",
    ] {
        let scenario = night(name);
        let every: Vec<usize> = (0..=Switches::of(&scenario).unwrap().most).collect();
        let all = each(&scenario, &every);
        let first = all.iter().find(|(_, ready)| *ready).map(|(m, _)| *m);
        let found = latest(&scenario).starts.map(|starts| starts[0]);
        let ready = all.iter().filter(|(_, ready)| *ready).count();
        println!(
            "{name}: {} nights, {ready} ready; latest {first:?}, found {found:?}",
            all.len()
        );
        assert_eq!(found, first, "{name}");
    }
}
