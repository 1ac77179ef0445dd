//! The built-in nights carried through time by diffsol 0.18, a general-purpose integrator in Rust, and compared with
//! what coldsoak finds: temperatures to 0.01 K, films and the water in the oil to 0.01 g.
//!
//! The right-hand side and its slopes are coldsoak's own; steps, stages, errors and the linear algebra are diffsol's:
//! BDF of orders 1 to 5 and the ESDIRK of order 3(4), at 1e-7. Heaters are switched at the times coldsoak
//! gives (SciPy and SUNDIALS, beside, find those for themselves).

#[path = "../../../../examples/rates/reduced.rs"]
mod reduced;

use coldsoak::balance::Balance;
use coldsoak::files::night::load_builtin;
use coldsoak::network::{Network, assemble};
use coldsoak::night::run;
use coldsoak::scenario::check::check;
use coldsoak::trace::{ColumnKind, Trace};
use diffsol::{NalgebraLU, NalgebraMat, OdeBuilder, OdeSolverMethod, OdeSolverStopReason};
use std::cell::RefCell;
use std::io::Write;

type Matrix = NalgebraMat<f64>;
type Linear = NalgebraLU<f64>;

const NIGHTS: [&str; 6] = [
    "block-cooling",
    "demo",
    "small-engine-top",
    "six-after-flight",
    "radial-underneath",
    "thermostat-pad",
];
const TOLERANCE: f64 = 1e-7;
/// Required of temperatures, K, and of water, g.
const ALLOWED: f64 = 0.01;
/// Moments closer than this are one, s.
const SAME_MOMENT_S: f64 = 1e-6;

/// The balance, and the slopes where they were last required.
struct Evaluated<'n> {
    net: &'n Network,
    balance: Balance<'n>,
    place: Vec<f64>,
    slopes: Vec<f64>,
}

impl Evaluated<'_> {
    fn rates(&mut self, time_s: f64, states: &[f64], out: &mut [f64]) {
        let rates = self.balance.rates(time_s, states).expect("the air balances");
        for ((out, rate), capacity) in out.iter_mut().zip(rates).zip(&self.net.capacities) {
            *out = rate / capacity;
        }
    }

    /// The slopes times a vector; an integrator asks for a whole matrix column by column at one place.
    fn along(&mut self, time_s: f64, states: &[f64], vector: &[f64], out: &mut [f64]) {
        let place = [&[time_s], states].concat();
        if place != self.place {
            self.balance.rates(time_s, states).expect("the air balances");
            self.slopes = reduced::slopes(self.net, &mut self.balance).expect("auxiliaries follow");
            self.place = place;
        }
        for (out, row) in out.iter_mut().zip(self.slopes.chunks_exact(states.len())) {
            *out = row.iter().zip(vector).map(|(a, b)| a * b).sum();
        }
    }
}

/// The states at all samples of a trace.
fn integrated(net: &Network, trace: &Trace, method: &str) -> Vec<Vec<f64>> {
    let n = net.index.states();
    let end_s = trace.times_s[trace.len() - 1];
    let kinks = net.inputs.iter().flat_map(|c| c.kinks().iter().copied());
    let switched = trace.switchings.iter().map(|s| s.time_s);
    let mut stops: Vec<f64> = kinks
        .chain(switched)
        .chain([end_s])
        .filter(|&t| t > 0.0 && t <= end_s)
        .collect();
    stops.sort_by(f64::total_cmp);
    stops.dedup_by(|b, a| *b - *a < SAME_MOMENT_S);
    let evaluated = RefCell::new(Evaluated {
        net,
        balance: Balance::new(net),
        place: Vec::new(),
        slopes: Vec::new(),
    });
    let (mut time_s, mut states) = (0.0, net.initial.clone());
    let mut rows = vec![states.clone()];
    let mut next = 1;
    for stop in stops {
        for s in &trace.switchings {
            if (s.time_s - time_s).abs() < SAME_MOMENT_S {
                evaluated.borrow_mut().balance.switch(s.heater, s.on);
            }
        }
        evaluated.borrow_mut().place.clear();
        let problem = OdeBuilder::<Matrix>::new()
            .t0(time_s)
            .h0(0.01)
            .rtol(TOLERANCE)
            .atol([TOLERANCE])
            .rhs_implicit(
                |x: &[f64], _: &[f64], t: f64, y: &mut [f64]| evaluated.borrow_mut().rates(t, x, y),
                |x: &[f64], _: &[f64], t: f64, v: &[f64], y: &mut [f64]| {
                    evaluated.borrow_mut().along(t, x, v, y)
                },
            )
            .init(|_: &[f64], _: f64, y: &mut [f64]| y.copy_from_slice(&states), n)
            .build()
            .expect("a problem");
        let mut seen = Vec::new();
        macro_rules! follow {
            ($solver:expr) => {{
                let mut solver = $solver.expect("a solver");
                solver.set_stop_time(stop).expect("a stop ahead");
                loop {
                    let reason = solver.step().expect("a step");
                    let now = solver.state().t;
                    while next < trace.len() && trace.times_s[next] <= now {
                        let there = solver.interpolate(trace.times_s[next]).expect("a place");
                        rows.push((0..n).map(|i| there[i]).collect());
                        next += 1;
                    }
                    if matches!(reason, OdeSolverStopReason::TstopReached) {
                        let y = solver.state().y;
                        seen.extend((0..n).map(|i| y[i]));
                        break;
                    }
                }
            }};
        }
        match method {
            "BDF" => follow!(problem.bdf::<Linear>()),
            _ => follow!(problem.esdirk34::<Linear>()),
        }
        time_s = stop;
        states = seen;
    }
    while next < trace.len() {
        // The last sample stands at the end itself.
        rows.push(states.clone());
        next += 1;
    }
    rows
}

/// Keeps an error as the tests keep theirs (`tests/kit/record.rs`).
fn keep(night: &str, method: &str, what: &str, error: f64) {
    let Some(folder) = std::env::var_os("COLDSOAK_VERIFICATION") else {
        return;
    };
    let path = std::path::Path::new(&folder).join("checks.tsv");
    let new = !path.exists();
    let head = "test\twhat\tsource\ttolerance\terror\n";
    let line = format!("diffsol::{night} by {method}\t{what}\tdiffsol 0.18, {method}\t{ALLOWED}\t{error}\n");
    std::fs::create_dir_all(&folder).expect("a folder");
    let mut file = std::fs::OpenOptions::new()
        .create(true)
        .append(true)
        .open(path)
        .expect("a table");
    if new {
        file.write_all(head.as_bytes()).expect("a line");
    }
    file.write_all(line.as_bytes()).expect("a line");
}

fn main() {
    let mut agreed = true;
    for name in NIGHTS {
        let scenario = load_builtin(name).expect("a built-in night").scenario;
        let night = run(&scenario).expect("a night");
        let net = assemble(&check(&scenario).expect("a sound night"));
        for method in ["BDF", "ESDIRK34"] {
            let begun = std::time::Instant::now();
            let rows = integrated(&net, &night.trace, method);
            let took = begun.elapsed().as_secs_f64();
            let mut worst = [0.0_f64; 2];
            for (k, row) in rows.iter().enumerate() {
                for (i, value) in row.iter().enumerate() {
                    let kind = match net.legend.columns[i].kind {
                        ColumnKind::Film | ColumnKind::OilWater => 1,
                        ColumnKind::PocketVapour | ColumnKind::GasVapour => continue,
                        _ => 0,
                    };
                    worst[kind] = worst[kind].max((value - night.trace.sample(k)[i]).abs());
                }
            }
            println!("{name} by {method}: {:.2e} K, {:.2e} g; {took:.1} s", worst[0], worst[1]);
            keep(name, method, "temperatures, K", worst[0]);
            keep(name, method, "films and water in the oil, g", worst[1]);
            agreed &= worst.iter().all(|error| *error <= ALLOWED);
        }
    }
    assert!(agreed, "coldsoak and diffsol do not agree");
}
