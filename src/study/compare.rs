//! Several choices through the same night, ranked.

use super::case::{Case, CaseError};
use super::paired::Paired;
use super::path::Tree;
use super::recommend::recommended;
use super::run::run_each;
use crate::findings::rank_key;
use crate::night::Night;
use crate::scenario::document::Scenario;

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

/// Computes all choices of a base night and ranks them. `done` is called after each night. The answer does not depend on
/// the number of threads.
///
/// *Errors*: the first choice, in the order given, that cannot be computed.
pub fn compare(
    base: &Scenario,
    choices: &[Case],
    done: &(dyn Fn() + Sync),
) -> Result<Comparison, CaseError> {
    let tree = Tree::of(base).map_err(|e| Case::named("the base night").failed(e))?;
    let computed = run_each(&tree, choices, |night| {
        done();
        night
    });
    let named = |(choice, night): (&Case, Result<Night, _>)| match night {
        Ok(night) => Ok((choice.name.clone(), night)),
        Err(source) => Err(choice.failed(source)),
    };
    let nights: Result<Vec<(String, Night)>, _> = choices.iter().zip(computed).map(named).collect();
    let mut nights = nights?;
    nights.sort_by_key(|(_, night)| rank_key(&night.findings));
    Ok(Comparison {
        nights,
        paired: None,
    })
}
