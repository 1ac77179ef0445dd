//! The anatomy of a moment, against exact values and against the balance it is taken from.

mod balance;
mod busy;
mod heaters;
mod modes;
mod two_lumps;
mod writers;
