//! A comparison told in the terminal: the table, what to do, where the heat went, warnings, cautions.

use super::format::{folded, temperature, wrapped};
use super::heat::shares;
use super::warning::sentence;
use super::{bands_text, cautions, circuit_text, table};
use crate::findings::{Findings, RANKING_KEY, hazards};
use crate::night::Night;
use crate::study::compare::Comparison;
use std::fmt::Write;

/// The whole text; `width` is that of the terminal.
pub fn told(title: &str, comparison: &Comparison, width: u16) -> String {
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = write(&mut text, title, comparison, width);
    folded(&text, width)
}

fn write(text: &mut String, title: &str, comparison: &Comparison, width: u16) -> std::fmt::Result {
    let Some((_, first)) = comparison.nights.first() else {
        return writeln!(text, "{title}: no choices.");
    };
    let units = first.scenario.scenario().units;
    writeln!(text, "{title}")?;
    writeln!(text, "{}", wrapped(&setting(first), width, ""))?;
    writeln!(text)?;
    writeln!(
        text,
        "{}",
        table::comparison(&comparison.nights, units, width)
    )?;
    writeln!(text, "{}", wrapped(&reading(first), width, ""))?;
    for mark in marks(&comparison.nights) {
        writeln!(text, "{}", wrapped(&mark, width, ""))?;
    }
    writeln!(text)?;
    let advice = format!("What to do: {}", comparison.recommendation);
    writeln!(text, "{}", wrapped(&advice, width, ""))?;
    let chosen = comparison.recommended();
    if let Some(heat) = chosen.and_then(|(_, night)| shares(&night.findings)) {
        let heat = format!("Where its heat went, in the last hour: {heat}.");
        writeln!(text, "{}", wrapped(&heat, width, ""))?;
    }
    if let Some(paired) = &comparison.paired {
        writeln!(text, "\nHow sure is this?")?;
        writeln!(text, "{}", bands_text::table(paired, units, width))?;
        writeln!(text, "{}", wrapped(&bands_text::reading(paired), width, ""))?;
        let verdict = bands_text::verdict(paired, units);
        if !verdict.is_empty() {
            writeln!(text, "\n{}", wrapped(&verdict, width, ""))?;
        }
    }
    if let Some((name, night)) = chosen {
        let circuit = circuit_text::told(&night.findings.circuit, width);
        if !circuit.is_empty() {
            writeln!(
                text,
                "\nThe circuit with \"{name}\" (others: the column of peak A, and the warnings)"
            )?;
            write!(text, "{circuit}")?;
        }
    }
    let mut begun = false;
    for (name, night) in &comparison.nights {
        for warning in &night.findings.warnings {
            if !begun {
                writeln!(text, "\nWarnings")?;
                begun = true;
            }
            let warning = format!("- {name}: {}", sentence(warning, units));
            writeln!(text, "{}", wrapped(&warning, width, "  "))?;
        }
    }
    writeln!(text, "\n{}", cautions::told(width))
}

/// How the table of choices is to be read; of any night of it.
pub fn reading(night: &Night) -> String {
    let scenario = night.scenario.scenario();
    let threshold = temperature(scenario.question.threshold.celsius(), scenario.units);
    format!(
        "warm after: hours from the first switching-on until every engine part is at {threshold} and stays there. \
Margin: the coldest part at departure over {threshold}. Water: on the upper inner walls at departure. Condenses: hours \
during which some inner wall gathers water. Ranked by: {RANKING_KEY}."
    )
}

/// What `lost` means where a time is told.
pub(super) const LOST_MEANS: &str = "cooled again: was warm, and fell below again.";

/// What the marks in the table mean, those that stand in it.
pub fn marks(nights: &[(String, Night)]) -> Vec<String> {
    let any = |mark: &dyn Fn(&Findings) -> bool| nights.iter().any(|n| mark(&n.1.findings));
    let mut told = Vec::new();
    if any(&|f| f.ready.ready_at_departure && !hazards(&f.warnings).is_empty()) {
        told.push(
            "yes!: warm, but something gets too hot or the circuit is overloaded; see the warnings.",
        );
    }
    if any(&table::only_wet) {
        told.push(
            "wet: warm, but more water than asked stands on the upper inner walls, so not ready.",
        );
    }
    if any(&|f| f.threshold.all_parts.lost()) {
        told.push(LOST_MEANS);
    }
    if any(&|f| f.oil.as_ref().is_some_and(|o| o.flagged)) {
        told.push("* near or below the pour point: the viscosity is extrapolated.");
    }
    let told = told.into_iter().map(str::to_owned);
    told.chain(nights.windows(2).filter_map(near_tie)).collect()
}

/// Why the first of two stands before one with the larger margin, where both are ready.
fn near_tie(pair: &[(String, Night)]) -> Option<String> {
    let [(name, night), (other, after)] = pair else {
        return None;
    };
    let (f, next) = (&night.findings, &after.findings);
    let smaller = f.ready.margin_k? < next.ready.margin_k?;
    if !(f.ready.ready_at_departure && next.ready.ready_at_departure && smaller) {
        return None;
    }
    let water = |f: &Findings| f.condensation.as_ref().map_or(0.0, |c| c.upper_g);
    let why = match next.energy.kwh - f.energy.kwh {
        more if more > 0.0 && water(next) - water(f) < 0.5 => format!(
            "takes less energy ({:.0} against {:.0} Wh)",
            1e3 * f.energy.kwh,
            1e3 * next.energy.kwh
        ),
        _ => format!(
            "leaves less water inside ({:.1} against {:.1} g)",
            water(f),
            water(next)
        ),
    };
    Some(format!(
        "\"{name}\" stands before \"{other}\", whose margin is larger, because it {why}."
    ))
}

/// Engine, hangar and hours in one line.
pub fn setting(night: &Night) -> String {
    let scenario = night.scenario.scenario();
    let clock = night.scenario.clock();
    let hangar = |time_s: f64| {
        let row = night.trace.at(time_s);
        let value = row.get(night.trace.legend.hangar).copied();
        temperature(value.unwrap_or(0.0), scenario.units)
    };
    let water = scenario.start.water_in_oil.si() * 1e3;
    format!(
        "From {} to {} ({} h); hangar \"{}\" {} at first, {} at departure; {water:.0} g of water in the oil.",
        clock.dated(0.0),
        clock.dated(night.trace.departure_s),
        hours(night.trace.departure_s),
        scenario.hangar.name,
        hangar(0.0),
        hangar(night.trace.departure_s),
    )
}

/// Hours to a tenth; whole ones without a point.
fn hours(seconds: f64) -> f64 {
    (seconds / 360.0).round() / 10.0
}
