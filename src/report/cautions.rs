//! What every result says besides its numbers: how far to trust it, and what to beware of.

use super::columns::Show;
use super::model::Section;

/// How far to trust the numbers.
pub const TRUST: &str = "The default coefficients are calibrated with a few practice readings. Measure the coldest part \
before you rely on this.";

/// What to beware of.
pub const CAUTIONS: &[&str] = &[
    "Fire: a heater near fuel, oil, upholstery or a fabric cowl can start one. Use a sound heater made for unattended use; \
watch any other. Keep an extinguisher near.",
    "Circuit: keep a load of three hours or more under 80 % of the breaker. Extension cords warm up and waste power. Follow \
local code; ask a licensed electrician.",
    "Propeller: treat it as live. A warm engine fires more readily, and a broken ground wire leaves a magneto live. Magnetos \
off, mixture cut off, key out and chocks in before you work near it.",
    "Carbon monoxide: never run an engine or a fuel-burning heater in a closed hangar. Fuel vapour and combustion heaters are \
outside this model.",
    "Before starting, feel oil, cylinders, crankcase and propeller flange, by hand or thermometer.",
    "A calculation, not an approval: maker manuals, local codes and licensed practice come first.",
];

/// The same in a line each, at the end of every result.
const SHORT: [&str; 5] = [
    "Fire: use a sound heater made for unattended use; keep an extinguisher near.",
    "Propeller: treat it as live.",
    "Carbon monoxide: never run an engine or a fuel heater in a closed hangar.",
    "Before starting, feel oil, cylinders, crankcase and propeller flange.",
    "A calculation, not an approval: maker manuals and local code come first.",
];

/// The cautions: in text a line each, on a page in full, with how far to trust the numbers.
pub fn section() -> Section {
    Section::new("Cautions").list("", SHORT)
}

/// The cautions in full, for a page.
pub fn in_full() -> Section {
    let lines = CAUTIONS.iter().chain([&TRUST]);
    Section::new("Cautions in full")
        .shown(Show::Page)
        .list("", lines.copied())
}
