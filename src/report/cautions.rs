//! What every report says besides its numbers: how far to trust it, and what to beware of.

use super::format::wrapped;

/// How far to trust the numbers.
pub const TRUST: &str = "How far to trust this: the default coefficients were adjusted to a few practice readings, \
and how well the cowl is closed is the largest unknown. Measure at the coldest part before you believe it.";

/// What to beware of.
pub const CAUTIONS: &[&str] = &[
    "The engine and airframe makers' manuals, local codes and licensed practice come first; this is a calculation, not an approval.",
    "Fire: a heater near fuel, oil, upholstery or a fabric cowl can start one. Use sound heaters made for the purpose and for running unattended; whatever is not must be watched. Keep an extinguisher at hand.",
    "Circuit: a load of three hours or more must stay under 80 percent of the breaker; extension cords warm up and waste power. Ask a licensed electrician.",
    "Propeller: treat it as live. A warm engine fires more readily, and a broken ground wire leaves a magneto live with its switch off: magnetos off, mixture cut off, key out, chocks in before you work near it.",
    "Carbon monoxide: never run an engine or a fuel-burning heater in a closed hangar. Fuel vapour and combustion heaters are outside this model.",
    "Feel before you start: oil, cylinders, crankcase and propeller flange, each by hand or thermometer.",
];

/// The trust sentence and the cautions, in lines of this width.
pub fn told(width: u16) -> String {
    let mut text = wrapped(TRUST, width, "");
    text += "\n\nCautions\n";
    for caution in CAUTIONS {
        text += &wrapped(&format!("- {caution}"), width, "  ");
        text.push('\n');
    }
    text
}
