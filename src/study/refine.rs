//! The same night computed more finely: how far its findings still move, and so how far they may be off.
//!
//! Three numbers set how finely a night is computed: the cells of each part, the error allowed in a step, and the
//! time between samples. Each is refined twice with the other two as they are: cells doubled and doubled again
//! (layers of oil no thinner than 2 mm), allowed error and sample spacing over 4 and over 16.
//!
//! The error of a value is estimated by extrapolation of three grids: with the changes `a` from the first to the
//! second and `b` from the second to the third, a ratio `r = a / b` above one means that the changes fall off like a
//! geometric series, whose rest is known. The estimate is then `1.25 |a| r / (r - 1)`, with r at most what the method
//! promises (4 each time: second order in the size of a cell and in the spacing of samples, first in the allowed
//! error), so that luck does not make it small. Where the changes do not fall off like that it is `|a + b| + 3 |b|`; but
//! no more than `|a + b|` and the oscillation, of a temperature that hangs on the phase of a thermostat ([`super::convergence`]).
//!
//! *Source*: P. J. Roache, Perspective: a method for uniform reporting of grid refinement studies, ASME Journal of
//! Fluids Engineering 116 (1994), 405-413; I. B. Celik et al., Procedure for estimation and reporting of uncertainty
//! due to discretization in CFD applications, ibid. 130 (2008), 078001: the factors 1.25 and 3 and the limited order.

use super::case::Case;
use super::convergence::{AXES, Figure, PROMISED, Watched, oscillations, watched};
use super::path::Tree;
use super::run::run_each;
use crate::night::{Night, NightError};
use crate::scenario::check::{Problem, check};
use crate::scenario::document::{Accuracy, Scenario};
use serde::Serialize;

/// What the last level of an axis multiplies cells by.
const FINEST_CELLS: usize = 4;
/// What the last level of an axis divides the allowed error or the spacing of samples by.
const FINEST_SHARE: f64 = PROMISED * PROMISED;

/// How many nights are computed.
pub const NIGHTS: usize = 7;

/// What is refined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RefinementAxis {
    /// Cells of each part along its axes: as they are, twice, four times as many.
    Cells,
    /// The error allowed in a step: as it is, a quarter, a sixteenth.
    Steps,
    /// The time between two samples: as it is, a quarter, a sixteenth.
    Samples,
}

impl RefinementAxis {
    /// All of them.
    pub const ALL: [Self; AXES] = [Self::Cells, Self::Steps, Self::Samples];

    /// How finely a night is computed on the level 0, 1 or 2.
    fn level(self, base: &Accuracy, level: u32) -> Accuracy {
        let mut finer = base.clone();
        match self {
            Self::Cells => finer.resolution <<= level,
            Self::Steps => finer.tolerance /= PROMISED.powi(level as i32),
            Self::Samples => finer.sample_s /= PROMISED.powi(level as i32),
        }
        finer
    }
}

/// The work of a night.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Work {
    /// Numbers the solver carries: temperatures and grams.
    pub states: usize,
    /// Steps made.
    pub steps: usize,
    /// Samples kept.
    pub samples: usize,
}

impl Work {
    fn of(night: &Night) -> Self {
        Self {
            states: night.effort.states,
            steps: night.effort.steps,
            samples: night.trace.len(),
        }
    }
}

/// A night and its refinement.
#[derive(Debug, Clone)]
pub struct Refinement {
    /// The night at its own accuracy.
    pub night: Night,
    /// How finely each level of each axis was computed, from coarse to fine.
    pub levels: [[(Accuracy, Work); 3]; 3],
    /// Its figures.
    pub figures: Vec<Figure>,
    /// Whether the engine is ready at departure on all levels or on none.
    pub verdict_unchanged: bool,
}

/// Refines a night; `done` is called after each night that is computed.
///
/// *Errors*: those of [`super::run::run`], on any level; and, before any night is computed, an accuracy whose last level would lie
/// outside its range.
pub fn refine(scenario: &Scenario, done: &(dyn Fn() + Sync)) -> Result<Refinement, NightError> {
    check(scenario).map_err(NightError::Problems)?;
    let base = &scenario.accuracy;
    let beyond = beyond(base);
    if !beyond.is_empty() {
        return Err(NightError::Problems(beyond));
    }
    let finer = RefinementAxis::ALL
        .iter()
        .flat_map(|l| [l.level(base, 1), l.level(base, 2)]);
    let all: Vec<Accuracy> = std::iter::once(base.clone()).chain(finer).collect();
    let meshes = all.iter().map(|a| Case::default().set("accuracy", a));
    let nights = run_each(&Tree::of(scenario)?, &meshes.collect::<Vec<_>>(), |night| {
        done();
        night
    });
    let nights = nights.into_iter().collect::<Result<Vec<Night>, _>>()?;
    let at = |axis: usize, level: usize| match level {
        0 => 0,
        _ => 2 * axis + level,
    };
    let rows: Vec<Vec<Watched>> = nights
        .iter()
        .map(|night| watched(&night.findings))
        .collect();
    let oscillations = oscillations(&nights[0].trace).unwrap_or_default();
    let readings = &nights[0].trace.legend.readings;
    let oscillation = |name: &str| {
        let reading = readings.iter().position(|r| r.label == name)?;
        oscillations.get(reading).copied()
    };
    let figures = rows[0].iter().enumerate().map(|(k, base)| Figure {
        name: base.name.clone(),
        quantity: base.quantity,
        value: base.value,
        finer: [0, 1, 2].map(|axis| [1, 2].map(|level| rows[at(axis, level)][k].value)),
        oscillation: oscillation(&base.name),
    });
    let ready = |night: &Night| night.findings.ready.ready_at_departure;
    Ok(Refinement {
        figures: figures.collect(),
        levels: [0, 1, 2].map(|axis| {
            [0, 1, 2].map(|level| {
                let at = at(axis, level);
                (all[at].clone(), Work::of(&nights[at]))
            })
        }),
        verdict_unchanged: nights.iter().all(|night| ready(night) == ready(&nights[0])),
        night: nights
            .into_iter()
            .next()
            .expect("the night itself is the first"),
    })
}

/// What cannot be refined: its last level would lie outside the range that is allowed.
fn beyond(base: &Accuracy) -> Vec<Problem> {
    let problem = |key: &str, what: String, help: String| Problem {
        path: format!("accuracy.{key}"),
        word: None,
        what,
        help: Some(help),
        instead: None,
    };
    let mut problems = Vec::new();
    let (_, most) = Accuracy::RESOLUTION;
    let finest = FINEST_CELLS * base.resolution;
    if finest > most {
        problems.push(problem(
            "resolution",
            format!(
                "a night is refined to four times its resolution, and {finest} of {} would be above {most}",
                base.resolution
            ),
            format!("begin at {} or less", most / FINEST_CELLS),
        ));
    }
    for (key, of, (least, _)) in [
        ("tolerance", base.tolerance, Accuracy::TOLERANCE),
        ("sample_s", base.sample_s, Accuracy::SAMPLE_S),
    ] {
        let finest = of / FINEST_SHARE;
        if finest < least {
            problems.push(problem(
                key,
                format!(
                    "a night is refined to a sixteenth of its {key}, and {finest} of {of} would be under {least}"
                ),
                format!("begin at {} or more", least * FINEST_SHARE),
            ));
        }
    }
    problems
}

#[cfg(test)]
mod tests {
    use super::super::tests::scenario;
    use super::*;
    use std::sync::atomic::{AtomicUsize, Ordering};

    #[test]
    fn a_night_is_refined_three_ways_and_says_how_far_it_moves() {
        let refinement = refine(&scenario(), &|| ()).unwrap();
        let [cells, steps, samples] = &refinement.levels;
        assert!(cells[2].1.states > cells[0].1.states);
        assert!(steps[2].1.steps > steps[0].1.steps);
        assert!(samples[2].1.samples > 8 * samples[0].1.samples);
        assert!(refinement.verdict_unchanged);
        for figure in &refinement.figures {
            assert!(!figure.comes_and_goes(), "{figure:?}");
        }
        let coldest = &refinement.figures[1];
        assert_eq!(coldest.value, refinement.night.findings.ready.margin_k);
        // The allowed error is a few hundredths of a kelvin.
        let moved = coldest.finer[1][1].unwrap() - coldest.value.unwrap();
        assert!(moved != 0.0 && moved.abs() < 0.05, "{moved}");
    }

    #[test]
    fn a_resolution_that_cannot_be_refined_is_refused_with_what_to_do() {
        let mut fine = scenario();
        fine.accuracy.resolution = 3;
        let Err(NightError::Problems(problems)) = refine(&fine, &|| ()) else {
            panic!("refined beyond the limit");
        };
        assert!(
            problems[0].what.contains("12 of 3 would be above 8"),
            "{problems:?}"
        );
    }

    /// Seven nights would have to be computed to find it out: nothing is computed.
    #[test]
    fn an_accuracy_at_the_end_of_its_range_is_refused_before_any_night_is_computed() {
        let refused = |accuracy: Accuracy| {
            let mut night = scenario();
            night.accuracy = accuracy;
            let computed = AtomicUsize::new(0);
            let refused = refine(&night, &|| {
                computed.fetch_add(1, Ordering::Relaxed);
            });
            let Err(NightError::Problems(problems)) = refused else {
                panic!("refined beyond the limit");
            };
            assert_eq!(computed.into_inner(), 0);
            let text = |p: Problem| format!("{}: {}; {}", p.path, p.what, p.help.unwrap());
            problems.into_iter().map(text).collect::<Vec<_>>()
        };
        let all = Accuracy {
            resolution: 8,
            tolerance: 1e-6,
            sample_s: 1.0,
        };
        let all = refused(all);
        assert!(all[0].starts_with("accuracy.resolution"), "{all:?}");
        assert!(
            all[1].starts_with("accuracy.tolerance")
                && all[1].ends_with("begin at 0.000016 or more"),
            "{all:?}"
        );
        assert!(
            all[2].starts_with("accuracy.sample_s")
                && all[2].contains("0.0625 of 1 would be under 1")
                && all[2].ends_with("begin at 16 or more"),
            "{all:?}"
        );
        // What it says to begin at is refined, as far as its range goes.
        let (least, of) = (Accuracy::TOLERANCE.0, FINEST_SHARE);
        assert!(
            beyond(&Accuracy {
                resolution: 2,
                tolerance: of * least,
                sample_s: of * Accuracy::SAMPLE_S.0,
            })
            .is_empty()
        );
    }
}
