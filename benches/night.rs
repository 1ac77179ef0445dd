//! What a night costs, against the number of its states: `cargo bench --bench night`.
//!
//! Plain timing, the median of several runs. Read the last column, the ratio to the first row of the same
//! run: absolute times depend on the machine and on what else it does.

#[path = "../tests/kit/mod.rs"]
mod kit;

use coldsoak::network::assemble;
use coldsoak::quantity::Temperature;
use coldsoak::scenario::check::check;
use coldsoak::solver::integrate;
use kit::{ENGINES, fan, night, pad};
use std::time::Instant;

/// Runs a row is the median of.
const RUNS: usize = 7;

fn main() {
    println!("engine          heater  resolution  states  steps  evaluations      ms   ratio");
    let mut first = None;
    for engine in ENGINES {
        for (name, heaters) in [
            ("none", vec![]),
            ("top", vec![fan(350.0, "top-blowing-right")]),
            ("pad", vec![pad(150.0)]),
        ] {
            for resolution in [1, 4] {
                let mut scenario = night(engine, Temperature::degF(15.0), 12);
                scenario.heaters.clone_from(&heaters);
                scenario.accuracy.resolution = resolution;
                let net = assemble(&check(&scenario).expect("the kit builds sound nights"));
                let mut times = Vec::new();
                let mut effort = Default::default();
                for _ in 0..RUNS {
                    let begun = Instant::now();
                    effort = integrate(&net, 1.0, 60.0)
                        .expect("the kit builds sound nights")
                        .effort;
                    times.push(begun.elapsed().as_secs_f64() * 1e3);
                }
                times.sort_by(f64::total_cmp);
                let median = times[RUNS / 2];
                let ratio = median / *first.get_or_insert(median);
                println!(
                    "{engine:15} {name:6} {resolution:11} {:7} {:6} {:12} {median:7.2} {ratio:7.2}",
                    net.index.states(),
                    effort.steps,
                    effort.evaluations,
                );
            }
        }
    }
}
