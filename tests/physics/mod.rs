//! Every law of `src/physics` against published tables, worked examples, exact solutions or reference
//! libraries, each named beside its check.
//!
//! Tables too long to read are in `reference/`, made by `.ci/reference/make_tables.py`. A tolerance is a
//! named constant with its reason; where a smooth law leaves a published one, its envelope was measured
//! and is asserted.

#[macro_use]
mod slopes;
mod table;

mod air;
mod conduction;
mod convection;
mod exchange;
mod fin;
mod jet;
mod oil;
mod orifice;
mod radiation;
mod vapour;
mod wire;
