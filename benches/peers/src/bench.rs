//! The nights, the runs by turns, the errors.

use crate::carried::{Carried, Work};
use crate::cvode::Solver;
use crate::methods::{ALL, Method};
use crate::rust_peer::Method as Rust;
use crate::slopes::Slopes;
use coldsoak::balance::Balance;
use coldsoak::files::night::load_builtin;
use coldsoak::network::{Network, assemble};
use coldsoak::scenario::check::check;
use coldsoak::study::spread::Spread;

/// A night and what is tried on it.
struct Case {
    night: &'static str,
    /// Cut this fine; 1 leaves it as it is.
    resolution: usize,
    /// How many plausible nights of its study are carried instead of it; none for itself.
    plausible: usize,
    /// Runs of each method at each setting, of which the median and the least are told.
    runs: usize,
    /// coldsoak's tolerance for the reference, and that of the peer it is checked with.
    reference: [f64; 2],
    ours: &'static [f64],
    peers: &'static [f64],
    methods: &'static [Method],
}

/// coldsoak, and the peers that know the thermostat's night best.
const WITH_CVODE: [Method; 6] = [
    Method::Ours,
    Method::Cvode(Solver::Klu, 1.0),
    Method::Cvode(Solver::Klu, 30.0),
    Method::Ida(1.0),
    Method::Ida(30.0),
    Method::Diffsol(Rust::Bdf),
];
/// coldsoak and the peer whose matrix stays sparse.
const WITH_IDA: [Method; 3] = [Method::Ours, Method::Ida(1.0), Method::Ida(30.0)];

const CASES: [Case; 10] = [
    Case {
        methods: &ALL,
        ..SMALL
    },
    Case {
        night: "six-after-flight",
        methods: &ALL,
        ..SMALL
    },
    Case {
        night: "thermostat-pad",
        ours: &[64.0, 16.0, 4.0, 1.0, 0.25, 0.06, 0.015],
        peers: &[1e-2, 1e-3, 1e-4, 3e-5, 1e-5, 3e-6],
        ..SMALL
    },
    Case {
        plausible: 16,
        methods: &[
            Method::Ours,
            Method::Abreast,
            Method::Cvode(Solver::Klu, 1.0),
            Method::Cvode(Solver::Klu, 30.0),
            Method::Ida(1.0),
            Method::Ida(30.0),
        ],
        ..SMALL
    },
    Case {
        resolution: 45,
        ..MIDDLE
    },
    Case {
        night: "six-after-flight",
        resolution: 33,
        ..MIDDLE
    },
    Case {
        night: "thermostat-pad",
        resolution: 45,
        ours: &[4.0, 1.0, 0.25, 0.06],
        peers: &[1e-3, 1e-4, 3e-5, 1e-5],
        ..MIDDLE
    },
    Case {
        resolution: 520,
        ..LARGE
    },
    Case {
        night: "six-after-flight",
        resolution: 345,
        ..LARGE
    },
    Case {
        resolution: 3150,
        ..LARGE
    },
];

/// A night as it is, of about a hundred states.
const SMALL: Case = Case {
    night: "demo",
    resolution: 1,
    plausible: 0,
    runs: 5,
    reference: [1e-3, 1e-7],
    ours: &[1024.0, 256.0, 64.0, 16.0, 4.0, 1.0, 0.25],
    peers: &[1e-1, 3e-2, 1e-2, 3e-3, 1e-3, 1e-4],
    methods: &WITH_CVODE,
};
/// About a thousand states.
const MIDDLE: Case = Case {
    runs: 3,
    reference: [1e-3, 1e-6],
    ours: &[256.0, 64.0, 16.0, 4.0, 1.0],
    peers: &[3e-2, 1e-2, 3e-3, 1e-3, 1e-4],
    methods: &WITH_IDA,
    ..SMALL
};
/// Ten thousand states and more.
const LARGE: Case = Case {
    runs: 1,
    reference: [1e-2, 1e-5],
    ..MIDDLE
};

/// What one method at one setting was found to cost and to err; of several nights the costs and the work are means, and the
/// error is the largest.
pub struct Point {
    /// The night, or nights.
    pub night: String,
    /// Its states.
    pub states: usize,
    /// The method.
    pub method: Method,
    /// Its tolerance.
    pub setting: f64,
    /// The largest error of an engine cell, and of any cell, K.
    pub error_k: [f64; 2],
    /// Median and least CPU, ms.
    pub cpu_ms: [f64; 2],
    /// Its work.
    pub work: Work,
}

/// How far the references are from an independent one.
pub struct Checked {
    /// The night, or nights.
    pub night: String,
    /// Its states.
    pub states: usize,
    /// Against whom.
    pub by: String,
    /// The largest difference of any cell, K.
    pub difference_k: f64,
}

/// CPU time of this thread, ms.
fn cpu_ms() -> f64 {
    let mut now = libc::timespec {
        tv_sec: 0,
        tv_nsec: 0,
    };
    // SAFETY: the pointer is to our own number, which outlives the call.
    let answer = unsafe { libc::clock_gettime(libc::CLOCK_THREAD_CPUTIME_ID, &raw mut now) };
    assert!(answer == 0, "there is no clock for threads");
    now.tv_sec as f64 * 1e3 + now.tv_nsec as f64 * 1e-6
}

/// The largest difference of engine cells, and of all cells, over all samples.
fn differences(net: &Network, a: &Carried, b: &Carried) -> [f64; 2] {
    assert_eq!(a.cells.len(), b.cells.len(), "samples are missing");
    let mut worst = [0.0_f64; 2];
    for (a, b) in a.cells.iter().zip(&b.cells) {
        for note in &net.legend.cells {
            let difference = (a[note.column] - b[note.column]).abs();
            worst[1] = worst[1].max(difference);
            if note.engine {
                worst[0] = worst[0].max(difference);
            }
        }
    }
    worst
}

/// Runs everything, or the cases that are named (`demo-40`: the night and its resolution; `demo-1x16`: sixteen of its study).
pub fn run(only: &[String]) -> Result<(Vec<Point>, Vec<Checked>), String> {
    let mut points = Vec::new();
    let mut checks = Vec::new();
    for case in CASES {
        let mut named = format!("{}-{}", case.night, case.resolution);
        if case.plausible > 0 {
            named += &format!("x{}", case.plausible);
        }
        if only.is_empty() || only.contains(&named) {
            eprintln!("{named}");
            one(&case, &mut points, &mut checks)?;
        }
    }
    Ok((points, checks))
}

impl Case {
    /// The peer its reference is checked with.
    fn check(&self) -> Method {
        if self.resolution == 1 {
            Method::Cvode(Solver::Klu, 1.0)
        } else {
            Method::Ida(1.0)
        }
    }
}

/// The networks of a case.
fn networks(case: &Case) -> Result<Vec<Network>, String> {
    let scenario = load_builtin(case.night)
        .map_err(|e| e.to_string())?
        .scenario;
    if case.plausible == 0 {
        let checked = check(&scenario).map_err(|_| "a built-in night is refused")?;
        return Ok(vec![assemble(&match case.resolution {
            1 => checked,
            finer => checked.at_resolution(finer),
        })]);
    }
    let study = Spread::of(&scenario, 1).map_err(|_| "a built-in night has no study")?;
    let tasks = study.samples(case.plausible as u32);
    let mut nets = Vec::new();
    for task in &tasks {
        let plausible = check(&study.scenario(task).map_err(|e| e.to_string())?).map_err(|_| "no plausible night")?;
        nets.push(assemble(&plausible));
    }
    Ok(nets)
}

fn one(case: &Case, points: &mut Vec<Point>, checks: &mut Vec<Checked>) -> Result<(), String> {
    let nets = networks(case)?;
    let by = case.check();
    let alone = case
        .methods
        .iter()
        .chain([&by])
        .any(|m| m.knows_states_only());
    let slopes: Vec<Option<Slopes>> = nets
        .iter()
        .map(|net| alone.then(|| Slopes::new(net, &Balance::new(net))))
        .collect();
    let night = match case.plausible {
        0 => case.night.to_owned(),
        some => format!("{some} plausible nights of {}", case.night),
    };
    let states = nets[0].index.states();
    let [reference, check] = case.reference;
    let references = Method::Ours.integrate(&nets, &slopes, reference)?;
    let tight = by.integrate(&nets, &slopes, check)?;
    checks.push(Checked {
        night: night.clone(),
        states,
        by: format!("{} at {check:e}", by.name()),
        difference_k: worst(&nets, &references, &tight)[1],
    });
    let tried: Vec<(Method, f64)> = case
        .methods
        .iter()
        .flat_map(|&method| {
            let settings = if method.is_ours() {
                case.ours
            } else {
                case.peers
            };
            settings.iter().map(move |&setting| (method, setting))
        })
        .collect();
    let mut times: Vec<Vec<f64>> = vec![Vec::new(); tried.len()];
    let mut last: Vec<Result<Vec<Carried>, String>> = vec![Ok(Vec::new()); tried.len()];
    for run in 0..case.runs {
        eprintln!("  run {} of {}", run + 1, case.runs);
        for (at, &(method, setting)) in tried.iter().enumerate() {
            if last[at].is_err() {
                continue;
            }
            let begun = cpu_ms();
            last[at] = method.integrate(&nets, &slopes, setting);
            times[at].push((cpu_ms() - begun) / nets.len() as f64);
        }
    }
    for ((&(method, setting), mut times), carried) in tried.iter().zip(times).zip(last) {
        let carried = match carried {
            Ok(carried) => carried,
            // Told as wrong without end, so that nobody takes a looser setting for one to trust.
            Err(why) => {
                eprintln!("  {} at {setting:e} failed: {why}", method.name());
                points.push(Point {
                    night: night.clone(),
                    states,
                    method,
                    setting,
                    error_k: [f64::INFINITY; 2],
                    cpu_ms: [times.iter().copied().fold(0.0, f64::max); 2],
                    work: Work::default(),
                });
                continue;
            }
        };
        for (carried, right) in carried.iter().zip(&references) {
            if carried.switchings != right.switchings {
                let [found, right] = [carried.switchings, right.switchings];
                eprintln!(
                    "  {} at {setting:e}: {found} switchings, not {right}",
                    method.name()
                );
            }
        }
        times.sort_by(f64::total_cmp);
        points.push(Point {
            night: night.clone(),
            states,
            method,
            setting,
            error_k: worst(&nets, &carried, &references),
            cpu_ms: [times[times.len() / 2], times[0]],
            work: Work::mean(carried.iter().map(|c| c.work)),
        });
    }
    Ok(())
}

/// The largest differences of any of these nights.
fn worst(nets: &[Network], a: &[Carried], b: &[Carried]) -> [f64; 2] {
    let of = nets.iter().zip(a.iter().zip(b));
    of.map(|(net, (a, b))| differences(net, a, b))
        .fold([0.0; 2], |w, d| [w[0].max(d[0]), w[1].max(d[1])])
}
