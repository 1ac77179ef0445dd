//! Warnings as sentences.

use super::columns::Cell;
use crate::findings::{CONTINUOUS_SHARE, Findings, HOT_C, Warning};
use crate::quantity::{Temperature, Units};

/// The warnings of a night, each a line; a program reads them in °C.
pub fn cells(f: &Findings, units: Units) -> Vec<Cell> {
    let cell = |w: &Warning| Cell::new(sentence(w, Units::Celsius), sentence(w, units));
    f.warnings.iter().map(cell).collect()
}

/// A warning without the numbers in which choices of one night differ a little.
pub fn in_short(warning: &Warning, units: Units) -> String {
    match warning {
        Warning::BreatherNearFreezing { .. } => {
            "ice may close the breather. Check it before you start the engine.".to_owned()
        }
        Warning::Uneven { .. } => {
            "the cylinders differ widely when the engine is ready.".to_owned()
        }
        Warning::OilExtrapolated { .. } => {
            "the oil is near or below its pour point; real oil may not flow.".to_owned()
        }
        _ => sentence(warning, units),
    }
}

/// A warning as a sentence, in a reader's units.
pub fn sentence(warning: &Warning, units: Units) -> String {
    let temp = |celsius: f64| Temperature::degC(celsius).to_text(units);
    let share = CONTINUOUS_SHARE;
    match warning {
        Warning::HotCarburettor {
            label,
            temp_c,
            time_h,
            ..
        } => format!(
            "{label} reaches {} after {time_h:.1} h. Keep fuel and its parts below {}: lower the power, or aim the heat \
elsewhere.",
            temp(*temp_c),
            temp(HOT_C)
        ),
        Warning::HotSkin {
            label,
            temp_c,
            time_h,
            ..
        } => format!(
            "{label} reaches {} after {time_h:.1} h. Paint, resin and fabric may suffer above {}.",
            temp(*temp_c),
            temp(HOT_C)
        ),
        Warning::Uneven { spread_k, time_h } => format!(
            "The cylinders differ by {:.1} {} after {time_h:.1} h, when the engine is ready.",
            units.step(*spread_k),
            units.symbol()
        ),
        Warning::BreatherNearFreezing {
            pocket,
            temp_c,
            oil_water_g,
            film_g,
        } => format!(
            "Ice may close the breather: the air at its end ({pocket}) is at {} at departure, with {oil_water_g:.1} g of \
water in the oil and {film_g:.1} g on the inner walls. Check it before you start the engine.",
            temp(*temp_c)
        ),
        Warning::ContinuousLoad {
            current_a,
            breaker_a,
        } => format!(
            "The circuit carries {current_a:.1} A for three hours or more. Keep a continuous load under {:.1} A (80 % of \
the {breaker_a:.0} A breaker); local code applies.",
            share * breaker_a
        ),
        Warning::LoadBesideContinuous {
            current_a,
            continuous_a,
            needed_a,
            breaker_a,
        } => format!(
            "The circuit carries {continuous_a:.1} A for three hours or more and up to {current_a:.1} A in all. With a \
quarter added to what is continuous, that takes a breaker of {needed_a:.1} A; this one has {breaker_a:.0} A. Local code \
applies."
        ),
        Warning::LargeHeater {
            name,
            current_a,
            breaker_a,
        } => format!(
            "{name} takes {current_a:.1} A on one cord. Keep one appliance under {:.1} A (80 % of the {breaker_a:.0} A \
breaker); local code applies.",
            share * breaker_a
        ),
        Warning::OverBreaker {
            current_a,
            breaker_a,
        } => format!(
            "The circuit carries up to {current_a:.1} A, more than its {breaker_a:.0} A breaker holds. Do not do this."
        ),
        Warning::LongCord {
            drop_share,
            power_share,
        } => format!(
            "The cord loses {:.1} % of the voltage, so a plain heater keeps {:.0} % of its power; this night is computed \
with all of it. Take a shorter or thicker cord, or enter the power that is left.",
            100.0 * drop_share,
            100.0 * power_share
        ),
        Warning::OilExtrapolated {
            temp_c,
            pour_point_c,
        } => format!(
            "The oil at the pick-up is at {}, its pour point is {}: the viscosity is extrapolated. Real oil may be \
thicker, or not flow at all.",
            temp(*temp_c),
            temp(*pour_point_c)
        ),
    }
}
