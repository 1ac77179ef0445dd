//! What must hold of any engine: random bodies in the explicit form, in random weather, with random heaters.

mod any_body;
mod any_heat;
mod reread;
mod same;
mod spelt;
mod twins;
mod warmer;
