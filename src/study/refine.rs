//! The same night computed more finely: how far its findings still move, and so how far they may be off.
//!
//! Three numbers set how finely a night is computed: the cells of each part, the error allowed in a step, and the
//! time between samples. Each is refined twice with the other two as they are: cells doubled and doubled again
//! (layers of oil no thinner than 2 mm), allowed error and sample spacing over 4 and over 16.
//!
//! The error of what is told is estimated by extrapolation of three grids: with the changes `a` from the first to the
//! second and `b` from the second to the third, a ratio `r = a / b` above one means that the changes fall off like a
//! geometric series, whose rest is known. The estimate is then `1.25 |a| r / (r - 1)`, with r at most what the method
//! promises (4 each time: second order in the size of a cell and in the spacing of samples, first in the allowed
//! error), so that luck does not make it small. Where the changes do not fall off like that it is `|a + b| + 3 |b|`.
//!
//! *Source*: P. J. Roache, Perspective: a method for uniform reporting of grid refinement studies, ASME Journal of
//! Fluids Engineering 116 (1994), 405-413; I. B. Celik et al., Procedure for estimation and reporting of uncertainty
//! due to discretization in CFD applications, ibid. 130 (2008), 078001: the factors 1.25 and 3 and the limited order.

use crate::findings::Findings;
use crate::night::{Night, NightError, run};
use crate::scenario::check::Problem;
use crate::scenario::document::{Accuracy, Scenario};
use rayon::prelude::*;

/// What the second and the third of three nights divide a size by.
const PROMISED: f64 = 4.0;
/// The factor on an extrapolated error, for three grids.
const SAFETY: f64 = 1.25;
/// The factor on a difference of two grids whose order is not known.
const SAFETY_UNKNOWN: f64 = 3.0;
/// The most cells a part may have along an axis.
const MOST_CELLS: usize = 8;

/// How many nights are computed.
pub const NIGHTS: usize = 7;

/// What is refined.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ladder {
    /// Cells of each part along its axes: as they are, twice, four times as many.
    Cells,
    /// The error allowed in a step: as it is, a quarter, a sixteenth.
    Steps,
    /// The time between two samples: as it is, a quarter, a sixteenth.
    Samples,
}

impl Ladder {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Cells, Self::Steps, Self::Samples];

    /// How finely a night is computed on the rung 0, 1 or 2.
    fn rung(self, as_told: &Accuracy, rung: u32) -> Accuracy {
        let mut finer = as_told.clone();
        match self {
            Self::Cells => finer.resolution <<= rung,
            Self::Steps => finer.tolerance /= PROMISED.powi(rung as i32),
            Self::Samples => finer.sample_s /= PROMISED.powi(rung as i32),
        }
        finer
    }
}

/// In which unit a figure is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// Hours.
    Hours,
    /// A temperature, °C.
    Temperature,
    /// A difference of temperatures, K.
    Difference,
    /// Grams.
    Grams,
    /// Kilowatt-hours.
    KilowattHours,
}

/// One figure of a night, on all rungs.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// What it is.
    pub name: String,
    /// Its unit.
    pub quantity: Quantity,
    /// Its value as told; none for "never" and the like.
    pub told: Option<f64>,
    /// Its values on the two finer rungs of each ladder, in the order of [`Ladder::ALL`].
    pub finer: [[Option<f64>; 2]; 3],
}

impl Figure {
    /// How far the value told may be off because one ladder is not refined; none where a value is missing.
    pub fn error(&self, ladder: usize) -> Option<f64> {
        let [second, third] = self.finer[ladder];
        Some(error_estimate(self.told?, second?, third?))
    }

    /// The same for all three together: their sum, as if they all went the same way.
    pub fn error_in_all(&self) -> Option<f64> {
        (0..Ladder::ALL.len()).map(|l| self.error(l)).sum()
    }

    /// Whether it is told on some rungs and is "never" on others.
    pub fn comes_and_goes(&self) -> bool {
        let all = self.finer.iter().flatten().chain([&self.told]);
        let told = all.filter(|v| v.is_some()).count();
        told != 0 && told != 1 + 2 * Ladder::ALL.len()
    }
}

/// How far the first of three values, each refined from the one before, may be off.
pub fn error_estimate(first: f64, second: f64, third: f64) -> f64 {
    let (a, b) = (second - first, third - second);
    let ratio = a / b;
    if b == 0.0 {
        a.abs()
    } else if ratio > 1.0 {
        // With r limited from above the rest of the series is not made smaller than the method promises.
        let r = ratio.min(PROMISED);
        let rest = SAFETY * a.abs() * r / (r - 1.0);
        // A ratio just above one says nothing about the rest.
        rest.min((a + b).abs() + SAFETY_UNKNOWN * a.abs())
    } else {
        (a + b).abs() + SAFETY_UNKNOWN * b.abs()
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
    /// The night as told.
    pub night: Night,
    /// How finely each rung of each ladder was computed, from coarse to fine.
    pub rungs: [[(Accuracy, Work); 3]; 3],
    /// Its figures.
    pub figures: Vec<Figure>,
    /// Whether the engine is ready at departure on all rungs or on none.
    pub verdict_holds: bool,
}

/// Refines a night; `done` is told of each night that is computed.
///
/// *Errors*: those of [`run`], on any rung; and a resolution above 2, since four times as many cells are too many.
pub fn refine(scenario: &Scenario, done: &(dyn Fn() + Sync)) -> Result<Refinement, NightError> {
    let told = &scenario.accuracy;
    if told.resolution > MOST_CELLS / 4 {
        let allowed = MOST_CELLS / 4;
        return Err(NightError::Problems(vec![Problem {
            path: "accuracy.resolution".to_owned(),
            word: None,
            what: format!(
                "a night is refined to four times its resolution, and {} of {} would be above {MOST_CELLS}",
                4 * told.resolution,
                told.resolution,
            ),
            help: Some(format!("begin at {allowed} or less")),
        }]));
    }
    let finer = Ladder::ALL
        .iter()
        .flat_map(|l| [l.rung(told, 1), l.rung(told, 2)]);
    let all: Vec<Accuracy> = std::iter::once(told.clone()).chain(finer).collect();
    let night = |accuracy: &Accuracy| {
        let mut scenario = scenario.clone();
        scenario.accuracy = accuracy.clone();
        let night = run(&scenario);
        done();
        night
    };
    let nights: Vec<_> = all.par_iter().map(night).collect();
    let nights = nights.into_iter().collect::<Result<Vec<Night>, _>>()?;
    let at = |ladder: usize, rung: usize| match rung {
        0 => 0,
        _ => 2 * ladder + rung,
    };
    let rows: Vec<Vec<Watched>> = nights
        .iter()
        .map(|night| watched(&night.findings))
        .collect();
    let figures = rows[0].iter().enumerate().map(|(k, told)| Figure {
        name: told.name.clone(),
        quantity: told.quantity,
        told: told.value,
        finer: [0, 1, 2].map(|ladder| [1, 2].map(|rung| rows[at(ladder, rung)][k].value)),
    });
    let ready = |night: &Night| night.findings.ready.ready_at_departure;
    Ok(Refinement {
        figures: figures.collect(),
        rungs: [0, 1, 2].map(|ladder| {
            [0, 1, 2].map(|rung| {
                let at = at(ladder, rung);
                (all[at].clone(), Work::of(&nights[at]))
            })
        }),
        verdict_holds: nights.iter().all(|night| ready(night) == ready(&nights[0])),
        night: nights
            .into_iter()
            .next()
            .expect("the night as told is the first"),
    })
}

/// A figure of one night.
#[derive(Debug, Clone, PartialEq)]
pub struct Watched {
    /// What it is.
    pub name: String,
    /// Its unit.
    pub quantity: Quantity,
    /// Its value; none for "never" and the like.
    pub value: Option<f64>,
}

/// The figures of a night that are watched while it is refined: its headlines, and every group of parts.
pub fn watched(f: &Findings) -> Vec<Watched> {
    let figure = |name: &str, quantity, value| Watched {
        name: name.to_owned(),
        quantity,
        value,
    };
    let warm = f.threshold.all_parts.hold.hours();
    let mut all = vec![
        figure("warm everywhere after", Quantity::Hours, warm),
        figure(
            "margin of the coldest part",
            Quantity::Difference,
            f.ready.margin_k,
        ),
    ];
    let groups = f.groups_c.iter();
    all.extend(groups.map(|g| figure(&g.label, Quantity::Temperature, Some(g.temp_c))));
    if let Some(c) = &f.condensation {
        all.push(figure(
            "water on upper walls",
            Quantity::Grams,
            Some(c.upper_g),
        ));
        all.push(figure("condensing for", Quantity::Hours, Some(c.hours)));
    }
    all.push(figure(
        "energy drawn",
        Quantity::KilowattHours,
        Some(f.energy.kwh),
    ));
    all
}

#[cfg(test)]
mod tests {
    use super::super::tests::scenario;
    use super::*;

    /// A value with an error of a known order: the estimate covers it, and is no more than the factor 1.25 larger.
    ///
    /// Source: the definition of an order of convergence; Roache 1994, cited above.
    #[test]
    fn an_error_of_the_promised_order_is_found_from_three_values() {
        for (order, told) in [(2.0, 10.0), (1.0, -3.0), (0.5, 0.2)] {
            let value = |refined: f64| 5.0 + told / f64::powf(refined, order);
            let found = error_estimate(value(1.0), value(2.0), value(4.0));
            assert!(
                (found / f64::abs(told) - 1.25).abs() < 1e-9,
                "{order}: {found}"
            );
        }
        // Faster than promised: no smaller than with the promised order.
        let fast = |refined: f64| 5.0 + 1.0 / f64::powi(refined, 4);
        let found = error_estimate(fast(1.0), fast(2.0), fast(4.0));
        assert!((1.0..1.6).contains(&found), "{found}");
    }

    #[test]
    fn values_that_swing_or_run_away_get_a_wide_error_and_equal_ones_none() {
        assert_eq!(error_estimate(1.0, 1.0, 1.0), 0.0);
        assert!((error_estimate(1.0, 1.2, 1.1) - 0.4).abs() < 1e-12);
        assert!(error_estimate(1.0, 1.1, 1.4) > 0.4 + 0.89);
        // Hardly falling off: bounded all the same.
        assert!(error_estimate(1.0, 2.0, 2.999_999) < 5.1);
    }

    #[test]
    fn a_night_is_refined_three_ways_and_says_how_far_it_moves() {
        let refinement = refine(&scenario(), &|| ()).unwrap();
        let [cells, steps, samples] = &refinement.rungs;
        assert!(cells[2].1.states > cells[0].1.states);
        assert!(steps[2].1.steps > steps[0].1.steps);
        assert!(samples[2].1.samples > 8 * samples[0].1.samples);
        assert!(refinement.verdict_holds);
        for figure in &refinement.figures {
            assert!(!figure.comes_and_goes(), "{figure:?}");
        }
        let coldest = &refinement.figures[1];
        assert_eq!(coldest.told, refinement.night.findings.ready.margin_k);
        // The allowed error is a few hundredths of a kelvin.
        let moved = coldest.finer[1][1].unwrap() - coldest.told.unwrap();
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
}
