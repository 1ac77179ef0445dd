//! try
use crate::carried::carry;
use crate::cvode::{Cvode, Solver};
use crate::ida::Ida;
use crate::problem::{Field, Hold};
use crate::rust_peer::Method;
use crate::slopes::Slopes;
use crate::{ours, rust_peer};
use coldsoak::balance::Balance;
use coldsoak::files::night::load_builtin;
use coldsoak::network::assemble;
use coldsoak::scenario::check::check;

pub fn cpu_ms() -> f64 {
    let mut now = libc::timespec { tv_sec: 0, tv_nsec: 0 };
    // SAFETY: the pointer is to our own number.
    let answer = unsafe { libc::clock_gettime(libc::CLOCK_THREAD_CPUTIME_ID, &raw mut now) };
    assert!(answer == 0);
    now.tv_sec as f64 * 1e3 + now.tv_nsec as f64 * 1e-6
}

pub fn main() {
    let a: Vec<String> = std::env::args().collect();
    let scenario = load_builtin(&a[1]).unwrap().scenario;
    let checked = check(&scenario).unwrap();
    let res: usize = a[2].parse().unwrap();
    let checked = if res > 1 { checked.at_resolution(res) } else { checked };
    let net = assemble(&checked);
    let t = cpu_ms();
    let slopes = Slopes::new(&net, &Balance::new(&net));
    println!("states {} pressures {} nnz whole {} alone {} symbolic {:.1} ms", net.index.states(), net.pockets.len(), slopes.whole.rows.len(), slopes.alone.rows.len(), cpu_ms() - t);
    let reference = ours::integrate(&net, if res > 8 { 0.05 } else { 1e-3 }).unwrap();
    println!("reference {:?} {}", reference.work, reference.switchings);
    for m in a[3].split(',') {
        for s in a[4].split(',') {
            let (tol, air): (f64, f64) = match s.split_once('x') {
                Some((t, x)) => (t.parse().unwrap(), x.parse().unwrap()),
                None => (s.parse().unwrap(), 1.0),
            };
            let hold = Hold { tolerance: tol, air };
            let field = || Field::new(&net, slopes.clone());
            let mut best = f64::MAX;
            let mut got = Err(String::new());
            for _ in 0..3 {
                let t = cpu_ms();
                got = match m {
                    "ours" => ours::integrate(&net, tol),
                    "cvode" => carry(&net, Cvode::new(field(), hold, Solver::Dense)),
                    "cvodeklu" => carry(&net, Cvode::new(field(), hold, Solver::Klu)),
                    "ida" => carry(&net, Ida::new(field(), hold)),
                    "bdf" => rust_peer::integrate(&net, field(), hold, Method::Bdf),
                    "trbdf2" => rust_peer::integrate(&net, field(), hold, Method::TrBdf2),
                    "esdirk" => rust_peer::integrate(&net, field(), hold, Method::Esdirk34),
                    _ => panic!(),
                };
                best = best.min(cpu_ms() - t);
            }
            match got {
                Err(e) => println!("{m} {s}: {e}"),
                Ok(got) => {
                    let mut worst = [0.0f64; 2];
                    assert_eq!(got.cells.len(), reference.cells.len());
                    for (x, y) in got.cells.iter().zip(&reference.cells) {
                        for note in &net.legend.cells {
                            let d = (x[note.column] - y[note.column]).abs();
                            worst[1] = worst[1].max(d);
                            if note.engine { worst[0] = worst[0].max(d); }
                        }
                    }
                    println!("{m:9} {s:8} err {:.5} all {:.5} ms {best:.2} sw {} {:?}", worst[0], worst[1], got.switchings, got.work);
                }
            }
        }
    }
}
