//! A night computed more finely, told: what moves, and how far what is told may be off.

use super::bands_text::step_symbol;
use super::comparison_text::setting;
use super::format::wrapped;
use super::table::drawn;
use crate::quantity::Units;
use crate::study::convergence::{Figure, Quantity};
use crate::study::refine::{Refinement, RefinementAxis};

/// The whole text; `width` is that of the terminal.
pub fn told(refinement: &Refinement, width: u16) -> String {
    let night = &refinement.night;
    let scenario = night.scenario.scenario();
    let units = scenario.units;
    let line = |text: &str, indent: &str| format!("{}\n", wrapped(text, width, indent));
    let mut text = line(&scenario.title, "");
    text += &line(&setting(night), "");
    text += "\nThe same night, computed more finely in three ways\n";
    for (ladder, rungs) in RefinementAxis::ALL.iter().zip(&refinement.rungs) {
        let numbers = rungs.each_ref().map(|(accuracy, work)| match ladder {
            RefinementAxis::Cells => (accuracy.resolution.to_string(), work.states),
            RefinementAxis::Steps => (format!("{}", accuracy.tolerance), work.steps),
            RefinementAxis::Samples => (format!("{} s", accuracy.sample_s), work.samples),
        });
        let (what, of) = match ladder {
            RefinementAxis::Cells => ("cells of a part along each axis", "numbers carried"),
            RefinementAxis::Steps => ("error allowed in a step, of the default", "steps"),
            RefinementAxis::Samples => ("longest time between samples", "samples"),
        };
        let [(a, x), (b, y), (c, z)] = numbers;
        text += &line(
            &format!("  {what}: {a}, {b}, {c} ({x}, {y}, {z} {of})"),
            "    ",
        );
    }
    text += &format!("\n{}\n", table(refinement, units, width));
    text += &line(
        "\"±\" is how far the value told may be off for want of cells, of smaller steps and of closer samples: extrapolated \
from three values with a factor of safety of 1.25, or the changes themselves with a factor of 3 where they do not shrink \
as they should; the last column is their sum. Parts that are lumps are not cut: what is told of cells is the error of the \
parts that are. Hours that hang on a threshold (\"warm everywhere after\", \"condensing for\") may come or go with finer cells, \
and so move by more than their \"±\". What the model leaves out and what is not known about the night are no part of it: see \
`coldsoak spread`.",
        "",
    );
    if let Some(phase) = phase(&refinement.figures, units) {
        text += &line(&phase, "");
    }
    text += &line(verdict(refinement), "");
    text
}

/// What hangs on the phase of a thermostat, and how far it swings.
fn phase(figures: &[Figure], units: Units) -> Option<String> {
    let swings = figures
        .iter()
        .filter(|f| f.hangs_on_phase())
        .filter_map(|f| Some(format!("{} by {}", f.name, span(f.swing?, units))));
    let swings: Vec<String> = swings.collect();
    (!swings.is_empty()).then(|| {
        format!(
            "With the thermostat swing, before departure: {}. Finer cells move the minutes at which it acts, and with them \
where on its swing such a temperature is found: its \"±\" is the swing and the change seen.",
            swings.join("; ")
        )
    })
}

fn verdict(refinement: &Refinement) -> &'static str {
    match (
        refinement.verdict_holds,
        refinement.night.findings.ready.ready_at_departure,
    ) {
        (true, true) => "All of these nights are ready at departure.",
        (true, false) => "None of these nights is ready at departure.",
        (false, _) => {
            "NOT all of these nights say the same about being ready: this one is too close to call."
        }
    }
}

fn table(refinement: &Refinement, units: Units, width: u16) -> String {
    let head = [
        "",
        "told",
        "cells\n×4",
        "±",
        "step\n/16",
        "±",
        "samples\n/16",
        "±",
        "all\n±",
    ];
    let rows = refinement.figures.iter().map(|figure| row(figure, units));
    drawn(head.map(str::to_owned).to_vec(), rows, &[0], width)
}

fn row(figure: &Figure, units: Units) -> Vec<String> {
    let told = figure
        .told
        .map_or("never".to_owned(), |v| value(v, figure.quantity, units));
    let mut row = vec![figure.name.clone(), told];
    for ladder in 0..RefinementAxis::ALL.len() {
        let moved = match (figure.told, figure.finer[ladder][1]) {
            (Some(told), Some(finest)) => change(finest - told, figure.quantity, units),
            (None, None) => "-".to_owned(),
            (None, Some(finest)) => value(finest, figure.quantity, units),
            (Some(_), None) => "never".to_owned(),
        };
        row.push(moved);
        row.push(size(figure.error(ladder), figure.quantity, units));
    }
    row.push(size(figure.error_in_all(), figure.quantity, units));
    row
}

/// A value with one digit more than its like has elsewhere.
fn value(value: f64, quantity: Quantity, units: Units) -> String {
    match quantity {
        Quantity::Hours => format!("{value:.3} h"),
        Quantity::Temperature => format!("{:.2} {}", units.temperature(value), units.symbol()),
        Quantity::Difference => difference_finely(value, units),
        Quantity::Grams => format!("{value:.3} g"),
        Quantity::KilowattHours => format!("{value:.3} kWh"),
    }
}

/// A difference to a hundredth: `+12.34 K`.
fn difference_finely(kelvin: f64, units: Units) -> String {
    format!("{:+.2} {}", units.step(kelvin), step_symbol(units))
}

/// How far something swings, to a hundredth: `12.34 K`.
fn span(kelvin: f64, units: Units) -> String {
    format!("{:.2} {}", units.step(kelvin), step_symbol(units))
}

/// A change to a thousandth.
fn change(change: f64, quantity: Quantity, units: Units) -> String {
    let told = format!("{:+.3}", in_units(change, quantity, units));
    // A change too small to see has no sign.
    if matches!(told.as_str(), "-0.000" | "+0.000") {
        "0".to_owned()
    } else {
        told
    }
}

fn size(size: Option<f64>, quantity: Quantity, units: Units) -> String {
    size.map_or("-".to_owned(), |s| {
        format!("{:.3}", in_units(s, quantity, units))
    })
}

fn in_units(change: f64, quantity: Quantity, units: Units) -> f64 {
    match quantity {
        Quantity::Temperature | Quantity::Difference => units.step(change),
        Quantity::Hours | Quantity::Grams | Quantity::KilowattHours => change,
    }
}
