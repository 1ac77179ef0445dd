//! Exact solutions and worked examples, through the explicit form that users run.

mod air;
mod conduction;
mod fins;
mod ground;
mod heaters;
mod lumped;
mod round;
mod steady;
mod water;
