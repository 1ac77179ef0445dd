//! The command line: what was typed, computed, and delivered to its outputs.

mod catalogue;
mod chart;
mod check;
mod command;
mod compare;
mod deliver;
mod exit_code;
mod flags;
mod manual;
mod map;
mod network;
mod new;
mod night;
mod sample_store;
mod session;
mod set;
mod spare;
mod spread;
mod terminal;
mod time_argument;
mod weather;
mod when;

pub use command::main;
