//! The work of the reference nights, counted: `cargo bench --bench effort [-- NIGHT RESOLUTION [NIGHTS TIMES]]`.
//!
//! Counts, not times: they say the same on a busy machine. `.ci/effort` holds them, and the instructions they take,
//! against those on record. With a number of nights and of times it integrates so many nights, if more than one in lanes, so
//! many times over, for `.ci/roofline` to look at from outside.

use coldsoak::files::night::load_builtin;
use coldsoak::network::{Network, assemble};
use coldsoak::scenario::check::check;
use coldsoak::solver::{LaneJob, SolverStats, integrate, integrate_lanes};

/// A night with a fan, one whose thermostat switches a hundred times, a hot engine full of moisture, and the first with
/// ten times as many states.
const NIGHTS: [(&str, usize); 4] = [
    ("demo", 1),
    ("thermostat-pad", 1),
    ("six-after-flight", 1),
    ("demo", 40),
];

fn main() {
    let words: Vec<String> = std::env::args()
        .skip(1)
        .filter(|w| w != "--bench")
        .collect();
    let number = |word: &str| word.parse().expect("a whole number");
    println!("night,resolution,states,steps,rejected,factorisations,evaluations");
    match &words[..] {
        [night, resolution] => print(night, number(resolution), 1, 1),
        [night, resolution, nights, times] => {
            print(night, number(resolution), number(nights), number(times));
        }
        _ => {
            for (night, resolution) in NIGHTS {
                print(night, resolution, 1, 1);
            }
        }
    }
}

/// Integrates a night, or so many that differ as those of a study do, and prints the work of each once.
fn print(night: &str, resolution: usize, nights: usize, times: usize) {
    let scenario = load_builtin(night).expect("a built-in night").scenario;
    let accuracy = &scenario.accuracy;
    let nets: Vec<Network> = (0..nights)
        .map(|number| {
            let mut scenario = scenario.clone();
            if nights > 1 {
                // As far apart as the demo night says that plugs may be.
                scenario.covers.inlet_plug = 0.6 + 0.37 * number as f64 / (nights - 1) as f64;
            }
            let checked = check(&scenario).expect("built-in nights are sound");
            assemble(&checked.at_resolution(resolution))
        })
        .collect();
    let wanted: Vec<LaneJob> = nets
        .iter()
        .map(|net| LaneJob {
            net,
            tolerance: accuracy.tolerance,
            sample_s: accuracy.sample_s,
        })
        .collect();
    for time in 0..times {
        let solutions = match &wanted[..] {
            [w] => vec![integrate(w.net, w.tolerance, w.sample_s)],
            several => integrate_lanes(several),
        };
        for solution in solutions {
            let effort = solution.expect("built-in nights can be computed").effort;
            if time == 0 {
                say(night, resolution, effort);
            }
        }
    }
}

fn say(night: &str, resolution: usize, effort: SolverStats) {
    println!(
        "{night},{resolution},{},{},{},{},{}",
        effort.states, effort.steps, effort.rejected, effort.factorisations, effort.evaluations
    );
}
