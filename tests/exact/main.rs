//! Exact solutions and worked examples, through the explicit form that users run.

#[path = "../kit/bench.rs"]
mod bench;
#[path = "../kit/mod.rs"]
mod kit;

mod conduction;
mod lumped;
mod steady;
mod water;
