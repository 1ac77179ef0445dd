//! Several choices through the same night, ranked.

use super::choice::{Choice, CompareError};
use super::paired::Paired;
use super::recommend::recommended;
use crate::findings::rank_key;
use crate::night::{Night, run};
use rayon::prelude::*;

/// Choices that were computed, the best first.
#[derive(Debug, Clone)]
pub struct Comparison {
    /// The nights with their names, in the order of [`crate::findings::RANKING_KEY`]; ties keep the order given.
    pub nights: Vec<(String, Night)>,
    /// The choices over the plausible nights, in the same order, if that was asked (see [`super::paired`]).
    pub paired: Option<Paired>,
}

impl Comparison {
    /// The choice that is recommended or, if none is ready, comes closest; none of no choices.
    pub fn recommended(&self) -> Option<&(String, Night)> {
        let findings: Vec<_> = self
            .nights
            .iter()
            .map(|(_, night)| &night.findings)
            .collect();
        self.nights.get(recommended(&findings)?)
    }
}

/// Computes all choices side by side and ranks them. `done` is called after each night. The answer does not
/// depend on the number of threads: each night is computed whole by one of them.
///
/// *Errors*: the first choice, in the order given, that cannot be computed.
pub fn compare(choices: &[Choice], done: &(dyn Fn() + Sync)) -> Result<Comparison, CompareError> {
    let computed: Vec<_> = choices
        .par_iter()
        .map(|choice| {
            let night = run(&choice.scenario);
            done();
            night
        })
        .collect();
    let mut nights = Vec::with_capacity(choices.len());
    for (choice, night) in choices.iter().zip(computed) {
        let night = night.map_err(|source| CompareError {
            choice: choice.name.clone(),
            source,
        })?;
        nights.push((choice.name.clone(), night));
    }
    nights.sort_by_key(|(_, night)| rank_key(&night.findings));
    Ok(Comparison {
        nights,
        paired: None,
    })
}
