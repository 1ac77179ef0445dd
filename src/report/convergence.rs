//! A night computed more finely: what moves, and how far the values may be off.

use super::columns::{Cell, Table};
use super::inputs;
use super::model::{Fact, Report, Section};
use super::provenance::Provenance;
use crate::quantity::Units;
use crate::scenario::document::Accuracy;
use crate::study::convergence::{Figure, Quantity};
use crate::study::refine::{Refinement, RefinementAxis, Work};
use serde_json::{Value, json};

/// How the table is to be read.
const READING: &str = "±: how far the value may be off for want of cells, of smaller steps and of closer samples; the \
last column is their sum. Extrapolated from three values with a factor of safety of 1.25, or the changes themselves with \
a factor of 3 where they do not shrink as they should.";
/// What it does not cover.
const LIMITS: &str = "Parts that are lumps are not cut: the error of cells is that of the parts that are. Hours that \
depend on a minimum (\"warm everywhere after\", \"condensing for\") may come or go with finer cells, and so move by more \
than their ±. What the model leaves out and what is not known about the night are no part of it: see `coldsoak spread`.";

/// How finely a night was computed, and the work it took.
type Level = (Accuracy, Work);

/// The report of a refinement.
pub fn report(refinement: &Refinement, from: &Provenance) -> Report {
    let night = &refinement.night;
    let scenario = night.scenario.scenario();
    let units = scenario.units;
    Report::of_scenario("refine", &scenario.title, from)
        .with(Section::new("").say([verdict(refinement).to_owned()]))
        .with(Section::new("").facts([
            Fact::text("Night", &scenario.title),
            Fact::text("Time", inputs::hours(night)),
            Fact::text("Hangar", inputs::hangar(night)),
        ]))
        .with(Section::new("Computed more finely in three ways").facts(axes(refinement)))
        .with(
            Section::new("")
                .block(figures(&refinement.figures, units))
                .say([READING.to_owned(), LIMITS.to_owned()])
                .say(phase(&refinement.figures, units)),
        )
        .with(Section::json([
            Fact::json("verdict_unchanged", refinement.verdict_unchanged),
            Fact::json("axes", levels(refinement)),
        ]))
}

fn verdict(refinement: &Refinement) -> &'static str {
    let ready = refinement.night.findings.ready.ready_at_departure;
    match (refinement.verdict_unchanged, ready) {
        (true, true) => "All of these nights are ready at departure.",
        (true, false) => "None of these nights is ready at departure.",
        (false, _) => {
            "Some of these nights are ready at departure and some are not: too close to call."
        }
    }
}

fn axes(refinement: &Refinement) -> Vec<Fact> {
    let axes = RefinementAxis::ALL.iter().zip(&refinement.levels);
    let fact = |(axis, levels): (&RefinementAxis, &[Level; 3])| {
        let (label, of) = match axis {
            RefinementAxis::Cells => ("Cells of a part along each axis", "numbers"),
            RefinementAxis::Steps => ("Error allowed in a step, default 1", "steps"),
            RefinementAxis::Samples => ("Longest time between samples, s", "samples"),
        };
        let level = |(accuracy, work): &Level| match axis {
            RefinementAxis::Cells => (accuracy.resolution as f64, work.states),
            RefinementAxis::Steps => (accuracy.tolerance, work.steps),
            RefinementAxis::Samples => (accuracy.sample_s, work.samples),
        };
        let [(a, x), (b, y), (c, z)] = levels.each_ref().map(level);
        Fact::text(label, format!("{a}, {b}, {c} ({x}, {y}, {z} {of})"))
    };
    axes.map(fact).collect()
}

fn levels(refinement: &Refinement) -> Value {
    let axes = RefinementAxis::ALL.iter().zip(&refinement.levels);
    let axis = |(axis, levels): (&RefinementAxis, &[Level; 3])| {
        let levels = levels.iter().map(|(accuracy, work)| {
            json!({
                "resolution": accuracy.resolution,
                "tolerance": accuracy.tolerance,
                "sample_s": accuracy.sample_s,
                "states": work.states,
                "steps": work.steps,
                "samples": work.samples,
            })
        });
        json!({"refined": axis, "levels": levels.collect::<Vec<_>>()})
    };
    axes.map(axis).collect()
}

/// What depends on the phase of a thermostat, and how far it oscillates.
fn phase(figures: &[Figure], units: Units) -> Option<String> {
    let oscillations = figures.iter().filter(|f| f.hangs_on_phase());
    let oscillations = oscillations.filter_map(|f| {
        let by = number(f.oscillation?, Quantity::Difference, units, 2);
        Some(format!("{} by {by} {}", f.name, units.step_symbol()))
    });
    let oscillations: Vec<String> = oscillations.collect();
    (!oscillations.is_empty()).then(|| {
        format!(
            "The thermostat lets these oscillate before departure: {}. Finer cells move the minutes at which it acts, so the ± \
of such a temperature is its oscillation and the change seen.",
            oscillations.join("; ")
        )
    })
}

fn figures(figures: &[Figure], units: Units) -> Table {
    let mut table = Table::of("figures", figures)
        .words("name", "", |f| f.name.as_str())
        .json("unit", |f| unit(f.quantity))
        .number("value", "Value", |f| {
            Cell::new(f.value, value(f.value, f.quantity, units))
        });
    for (k, head) in ["cells ×4", "step /16", "samples /16"]
        .into_iter()
        .enumerate()
    {
        table = table
            .number("", head, |f| moved(f, k, units))
            .number("", "±", |f| error(f.error(k), f.quantity, units));
    }
    table
        .number("total_error", "All ±", |f| {
            Cell::new(f.total_error(), error(f.total_error(), f.quantity, units))
        })
        .json("finer", |f| {
            let axes = RefinementAxis::ALL.iter().enumerate();
            let axis = |(k, axis): (usize, &RefinementAxis)| {
                json!({"refined": axis, "values": f.finer[k], "error": f.error(k)})
            };
            axes.map(axis).collect::<Vec<Value>>()
        })
        .table()
}

/// How far the finest level of an axis is from the value.
fn moved(f: &Figure, axis: usize, units: Units) -> String {
    match (f.value, f.finer[axis][1]) {
        (Some(_), None) => "never".to_owned(),
        (None, None) => "-".to_owned(),
        (None, finest) => value(finest, f.quantity, units),
        (Some(value), Some(finest)) => {
            let change = number(finest - value, f.quantity, units, 3);
            match change.trim_start_matches('-').trim_matches(['0', '.']) {
                // A change too small to see has no sign.
                "" => "0".to_owned(),
                _ if finest > value => format!("+{change}"),
                _ => change,
            }
        }
    }
}

fn error(size: Option<f64>, quantity: Quantity, units: Units) -> String {
    size.map_or("-".to_owned(), |s| number(s, quantity, units, 3))
}

/// A value with one digit more than its like has elsewhere.
fn value(value: Option<f64>, quantity: Quantity, units: Units) -> String {
    let Some(value) = value else {
        return "never".to_owned();
    };
    match quantity {
        Quantity::Temperature => format!("{:.2} {}", units.temperature(value), units.symbol()),
        Quantity::Difference => format!("{:+.2} {}", units.step(value), units.step_symbol()),
        other => format!("{value:.3} {}", unit(other)),
    }
}

fn number(change: f64, quantity: Quantity, units: Units, digits: usize) -> String {
    let change = match quantity {
        Quantity::Temperature | Quantity::Difference => units.step(change),
        Quantity::Hours | Quantity::Grams | Quantity::KilowattHours => change,
    };
    format!("{change:.digits$}")
}

fn unit(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::Hours => "h",
        Quantity::Temperature => "degC",
        Quantity::Difference => "K",
        Quantity::Grams => "g",
        Quantity::KilowattHours => "kWh",
    }
}
