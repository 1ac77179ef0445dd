//! coldsoak's march and general-purpose integrators on the same nights, the same rates and the same slopes, in one process,
//! by turns: what each costs against how wrong it is.
//!
//! `.ci/bench` builds and runs this and writes `results/bench/`; `peers try NIGHT RESOLUTION METHOD SETTING ..` prints one.

mod carried;
mod cvode;
mod given;
mod ida;
mod ours;
mod problem;
mod rust_peer;
mod slopes;
mod sundials;

mod bench;

fn main() {
    bench::main();
}
