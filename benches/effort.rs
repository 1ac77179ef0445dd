//! The work of the reference nights, counted: `cargo bench --bench effort [-- NIGHT RESOLUTION]`.
//!
//! Counts, not times: they say the same on a busy machine. `.ci/effort` holds them, and the instructions they take,
//! against those on record.

use coldsoak::files::night::load_builtin;
use coldsoak::network::assemble;
use coldsoak::scenario::check::check;
use coldsoak::solver::march;

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
    println!("night,resolution,states,steps,rejected,factorisations,evaluations");
    if let [night, resolution] = &words[..] {
        let resolution = resolution.parse().expect("a whole number");
        tell(night, resolution);
    } else {
        for (night, resolution) in NIGHTS {
            tell(night, resolution);
        }
    }
}

fn tell(night: &str, resolution: usize) {
    let scenario = load_builtin(night).expect("a built-in night").scenario;
    let checked = check(&scenario).expect("built-in nights are sound");
    let accuracy = &scenario.accuracy;
    let net = assemble(&checked.at_resolution(resolution));
    let effort = march(&net, accuracy.tolerance, accuracy.sample_s)
        .expect("built-in nights can be computed")
        .effort;
    println!(
        "{night},{resolution},{},{},{},{},{}",
        effort.states, effort.steps, effort.rejected, effort.factorisations, effort.evaluations
    );
}
