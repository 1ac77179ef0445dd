//! Disk to values and back.

pub mod metar;
