//! coldsoak's march and general-purpose integrators on the same nights, the same rates and the same slopes, in one process,
//! by turns: what each costs against how wrong it is.
//!
//! `peers FOLDER [CASE ..]` writes `work-precision.csv`, `work-precision.svg` and `equal-error.md` there; a case is a night with
//! its resolution, `demo-45`, or plausible nights of it, `demo-1x16`. `.ci/bench` builds and runs it.

mod bench;
mod carried;
mod chart;
mod columns;
mod cvode;
mod given;
mod ida;
mod methods;
mod open;
mod ours;
mod problem;
mod rust_peer;
mod slopes;
mod sundials;
mod told;

use std::error::Error;
use std::path::PathBuf;

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args().skip(1);
    let folder = PathBuf::from(arguments.next().ok_or("name a folder for the results")?);
    let (points, checks) = bench::run(&arguments.collect::<Vec<_>>())?;
    std::fs::create_dir_all(&folder)?;
    std::fs::write(folder.join("work-precision.csv"), told::csv(&points))?;
    let table = told::table(&points, &checks);
    std::fs::write(folder.join("equal-error.md"), &table)?;
    print!("{table}");
    chart::draw(&points, &folder.join("work-precision.svg"))
}
