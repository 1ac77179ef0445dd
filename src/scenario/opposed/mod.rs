//! A Layout expanded into the parts, joints and faces of an opposed engine.
//!
//! Thirty numbers from a handbook and a tape measure become the same explicit [`Body`] a user could
//! write by hand: it can be printed, edited and read back. Every number here that is not in the
//! Layout is an engineer's estimate unless its line names a source.
//!
//! [`Body`]: super::body::Body

mod air;
mod expand;
mod faces;
mod fittings;
mod joints;
mod moisture;
mod names;
mod parts;
mod places;
mod plan;
mod readings;
mod sights;

#[cfg(test)]
mod tests;

pub use expand::expand;
