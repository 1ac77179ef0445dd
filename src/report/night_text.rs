//! One night in full, in words.

use super::comparison_text::{LOST, setting, where_heat_went};
use super::format::{
    apart, first_in_full, folded, reach, reach_in_full, size, temperature, wrapped,
};
use super::verdict_text::{thin, verdict};
use super::{asked, cautions, circuit_text, events_text, parts_table};
use crate::findings::{CrossingTimes, Findings, OilRange, Onset, REFERENCE_C, dangers};
use crate::night::Night;
use crate::quantity::Units;
use std::fmt::{Result, Write};

/// Books that are off by less than this part are told to close: what the rounding of numbers leaves is far smaller.
const SOUND: f64 = 1e-9;

/// The whole text; `engine` is what its file is called, `width` that of the terminal.
pub fn told(night: &Night, engine: &str, width: u16) -> String {
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = write(&mut text, night, engine, width);
    folded(&text, width)
}

fn write(text: &mut String, night: &Night, engine: &str, width: u16) -> Result {
    let units = night.scenario.scenario().units;
    let f = &night.findings;
    writeln!(text, "{}", night.scenario.scenario().title)?;
    writeln!(text, "{}", wrapped(&setting(night), width, ""))?;
    writeln!(text, "{}\n", asked::told(night, engine, width))?;
    writeln!(text, "{}", verdict(f, units))?;
    if let Some(thin) = thin(f) {
        writeln!(text, "{}", wrapped(&thin, width, ""))?;
    }
    warnings(text, f, units, width)?;
    warmth(text, f, units)?;
    if let Some(why) = &night.unsettled {
        writeln!(text, "{why}")?;
    }
    water(text, f)?;
    oil(text, f, units)?;
    energy(text, night, width)?;
    bearings(text, f, units)?;
    writeln!(text, "\nWhat happened when")?;
    write!(
        text,
        "{}",
        events_text::told(&f.events, night.scenario.clock())
    )?;
    writeln!(text, "\nParts at departure")?;
    writeln!(text, "{}", parts_table::parts(&f.parts, units, width))?;
    writeln!(
        text,
        "\nBooks close: energy {}, water {}. {} steps, {} of them taken again with a shorter one.",
        closes(f.ledger.energy_error),
        closes(f.ledger.water_error),
        night.effort.steps,
        night.effort.rejected,
    )?;
    writeln!(text, "\n{}", cautions::told(width))
}

/// How far off a book is, over what went through it; rounding is not told in digits.
fn closes(error: f64) -> String {
    match error.abs() {
        small if small < SOUND => format!("to better than {SOUND:e}"),
        error => format!("only to {error:.1e}"),
    }
}

/// Right under the verdict, so that nobody reads "ready" alone; what is dangerous first of all.
pub(super) fn warnings(text: &mut String, f: &Findings, units: Units, width: u16) -> Result {
    if f.warnings.is_empty() {
        return Ok(());
    }
    let dangers = dangers(&f.warnings);
    if !dangers.is_empty() {
        let told = format!("DO NOT heat like this: {}.", dangers.join("; "));
        writeln!(text, "{}", wrapped(&told, width, ""))?;
    }
    writeln!(text, "\nWarnings")?;
    for warning in &f.warnings {
        let warning = format!("- {}", warning.told(units));
        writeln!(text, "{}", wrapped(&warning, width, "  "))?;
    }
    writeln!(text)
}

fn warmth(text: &mut String, f: &Findings, units: Units) -> Result {
    let asked = temperature(f.threshold.threshold_c, units);
    let all = &f.threshold.all_parts;
    writeln!(
        text,
        "Every part at {asked}, to stay: {}",
        reach_in_full(&all.hold, units)
    )?;
    writeln!(
        text,
        "Every part at {asked}, for the first time: {}",
        first_in_full(&all.first, units)
    )?;
    if let (Some(oil_c), Some(oil)) = (f.threshold.oil_threshold_c, &f.threshold.oil) {
        let asked = temperature(oil_c, units);
        writeln!(
            text,
            "Oil at {asked}, to stay: {}",
            reach_in_full(&oil.hold, units)
        )?;
    }
    if let Some(coldest) = &f.coldest {
        let (at, _) = apart(coldest.temp_c, f.threshold.threshold_c, units);
        writeln!(text, "Coldest at departure: {}, {at}", coldest.label)?;
    }
    if let Some(u) = &f.unevenness {
        let at_departure = size(u.at_departure_k, units);
        let most = size(u.max_k, units);
        writeln!(
            text,
            "Cylinders differ by {at_departure} at departure, {most} at most"
        )?;
    }
    if let Some(steady) = &f.steady {
        let at = temperature(steady.temp_c, units);
        writeln!(
            text,
            "With weather and heaters for ever as at departure, the coldest part ({}) would settle at {at}",
            steady.label
        )?;
    }
    writeln!(
        text,
        "\nGroups at departure (means over their parts), and hours until they stay at {asked}"
    )?;
    for group in &f.groups_c {
        let warm = f.threshold.readings.iter().find(|r| r.key == group.key);
        let warm = warm.map_or(String::new(), |r| reach(&r.reach));
        let at = temperature(group.temp_c, units);
        writeln!(text, "  {:30} {at:>9}  {warm:>8}", group.label)?;
    }
    let groups = f.threshold.readings.iter().map(|r| &r.reach);
    let parts = f.parts.iter().map(|part| &part.reached);
    if groups.chain(parts).any(CrossingTimes::lost) {
        writeln!(text, "  {LOST}")?;
    }
    Ok(())
}

fn water(text: &mut String, f: &Findings) -> Result {
    let Some(c) = &f.condensation else {
        return Ok(());
    };
    writeln!(text, "\nWater inside")?;
    writeln!(
        text,
        "  on the upper walls at departure: {:.2} g",
        c.upper_g
    )?;
    let groups: Vec<String> = c
        .groups
        .iter()
        .map(|g| format!("{} {:.2} g", g.group, g.grams))
        .collect();
    writeln!(text, "  by group: {}", groups.join(", "))?;
    writeln!(
        text,
        "  some wall condensing: {:.2} h; the longest upper wall {:.2} h",
        c.hours, c.upper_hours
    )?;
    writeln!(
        text,
        "  the longest wall under more than 1 g/m²: {:.2} h",
        c.wet_hours
    )?;
    writeln!(
        text,
        "  turned over (all that settled on walls, and again what dried and settled anew): {:.2} g",
        c.turnover_g
    )?;
    if let Some(grams) = c.oil_water_g {
        writeln!(text, "  still in the oil: {grams:.2} g")?;
    }
    match &c.onset {
        Onset::After { hours } => writeln!(text, "  begins {hours:.2} h after the night does")?,
        Onset::Never { why, .. } => writeln!(text, "  never condenses: {why}")?,
    }
    if let Some(dew) = &f.outside_dew {
        writeln!(
            text,
            "  outside, the {} is below the dew point of its air for {:.2} h",
            dew.label, dew.hours
        )?;
    }
    Ok(())
}

fn oil(text: &mut String, f: &Findings, units: Units) -> Result {
    let Some(oil) = &f.oil else {
        return Ok(());
    };
    let trust = |range: &OilRange| match range {
        OilRange::Sound => "",
        OilRange::Extrapolated => " (near the pour point: extrapolated)",
        OilRange::BelowPourPoint => " (below the pour point: it no longer flows as a liquid)",
    };
    writeln!(text, "\nOil {}", oil.grade)?;
    for (name, temp_c, viscosity, range) in [
        ("mean", oil.temp_c, oil.viscosity_mm2_s, &oil.range),
        (
            "at the pick-up",
            oil.pickup_temp_c,
            oil.pickup_viscosity_mm2_s,
            &oil.pickup_range,
        ),
    ] {
        let at = temperature(temp_c, units);
        writeln!(text, "  {name}: {at}, {viscosity:.0} mm²/s{}", trust(range))?;
    }
    Ok(())
}

fn energy(text: &mut String, night: &Night, width: u16) -> Result {
    let f = &night.findings;
    writeln!(text, "\nEnergy and circuit")?;
    for heater in &f.energy.heaters {
        writeln!(text, "  {}: {:.2} kWh", heater.name, heater.kwh)?;
    }
    write!(text, "  together: {:.2} kWh", f.energy.kwh)?;
    if let Some(cost) = f.energy.cost {
        write!(text, ", {cost:.2} {}", f.energy.currency)?;
    }
    match f.energy.useful_share {
        Some(share) => writeln!(text, "; the engine kept {:.0} percent of it", 100.0 * share)?,
        None => writeln!(text)?,
    }
    write!(text, "{}", circuit_text::told(&f.circuit, width))?;
    if let Some(heat) = where_heat_went(night) {
        let heat = format!("  lost to hangar and cabin in the last hour: {heat}");
        writeln!(text, "{}", wrapped(&heat, width, "    "))?;
    }
    Ok(())
}

fn bearings(text: &mut String, f: &Findings, units: Units) -> Result {
    if f.clearances.is_empty() {
        return Ok(());
    }
    writeln!(
        text,
        "\nMain bearings: change of diametral clearance against {}\n  \
         (a minus is tighter: cold shrinks a light-alloy case more than a steel shaft)",
        temperature(REFERENCE_C, units)
    )?;
    for bearing in &f.clearances {
        let which = if bearing.case_warmer_than_crank {
            "the case is the warmer one, which eases it"
        } else {
            "the crankshaft is as warm or warmer, which does not"
        };
        writeln!(
            text,
            "  {:34} {:+6.1} µm  ({which})",
            bearing.label, bearing.change_um
        )?;
    }
    Ok(())
}
