//! The computation, held against the outside world and against itself. One binary, a folder a theme: every integration
//! test that needs the library and not the program. `cargo test --test model physics::vapour` runs one file of it.

mod kit;

mod behaviour;
mod exact;
mod inspect;
mod invariants;
mod manufactured;
mod metar;
mod models;
mod nights;
mod order;
mod physics;
mod slopes;
mod when;
