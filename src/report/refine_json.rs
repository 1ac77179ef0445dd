//! A night computed more finely, for other programs. The schema is `schema/refine.schema.json`.

use super::provenance::{Head, Provenance};
use crate::study::convergence::{Figure, Quantity};
use crate::study::refine::{Refinement, RefinementAxis};
use serde::Serialize;

#[derive(Serialize)]
struct RefineJson<'a> {
    #[serde(flatten)]
    head: Head<'a>,
    verdict_holds: bool,
    ladders: Vec<LadderJson>,
    figures: Vec<FigureJson<'a>>,
}

#[derive(Serialize)]
struct LadderJson {
    refined: &'static str,
    rungs: Vec<RungJson>,
}

#[derive(Serialize)]
struct RungJson {
    resolution: usize,
    tolerance: f64,
    sample_s: f64,
    states: usize,
    steps: usize,
    samples: usize,
}

#[derive(Serialize)]
struct FigureJson<'a> {
    name: &'a str,
    unit: &'static str,
    /// None for "never".
    told: Option<f64>,
    finer: Vec<FinerJson>,
    error_in_all: Option<f64>,
}

#[derive(Serialize)]
struct FinerJson {
    refined: &'static str,
    values: [Option<f64>; 2],
    error: Option<f64>,
}

/// The refinement as JSON.
///
/// *Errors*: a number that JSON cannot hold, which is a fault of the program.
pub fn told(refinement: &Refinement, from: &Provenance) -> Result<String, serde_json::Error> {
    let ladders = RefinementAxis::ALL.iter().zip(&refinement.rungs);
    let told = RefineJson {
        head: from.head(&refinement.night.scenario.scenario().title),
        verdict_holds: refinement.verdict_holds,
        ladders: ladders
            .map(|(ladder, rungs)| LadderJson {
                refined: key(*ladder),
                rungs: rungs
                    .iter()
                    .map(|(accuracy, work)| RungJson {
                        resolution: accuracy.resolution,
                        tolerance: accuracy.tolerance,
                        sample_s: accuracy.sample_s,
                        states: work.states,
                        steps: work.steps,
                        samples: work.samples,
                    })
                    .collect(),
            })
            .collect(),
        figures: refinement.figures.iter().map(figure).collect(),
    };
    serde_json::to_string_pretty(&told)
}

fn figure(figure: &Figure) -> FigureJson<'_> {
    let finer = RefinementAxis::ALL
        .iter()
        .enumerate()
        .map(|(k, ladder)| FinerJson {
            refined: key(*ladder),
            values: figure.finer[k],
            error: figure.error(k),
        });
    FigureJson {
        name: &figure.name,
        unit: match figure.quantity {
            Quantity::Hours => "h",
            Quantity::Temperature => "degC",
            Quantity::Difference => "K",
            Quantity::Grams => "g",
            Quantity::KilowattHours => "kWh",
        },
        told: figure.told,
        finer: finer.collect(),
        error_in_all: figure.error_in_all(),
    }
}

fn key(ladder: RefinementAxis) -> &'static str {
    match ladder {
        RefinementAxis::Cells => "cells",
        RefinementAxis::Steps => "steps",
        RefinementAxis::Samples => "samples",
    }
}
