//! The anatomy of a moment, against exact values and against the balance it is taken from.

#[path = "../kit/bench.rs"]
mod bench;
#[path = "../kit/mod.rs"]
mod kit;

mod balance;
mod busy;
mod heaters;
mod modes;
mod two_lumps;
mod writers;
