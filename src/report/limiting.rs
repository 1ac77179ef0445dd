//! What keeps the engine from being ready, over the simulated nights of an answer.

use crate::scenario::document::Scenario;
use crate::study::paired::tally;
use crate::study::summary::WarmNotReady;
use crate::study::when::When;

/// What keeps the engine from being ready.
pub enum Limit {
    /// A part that is too cold.
    Part(String),
    /// Water on the walls.
    Water,
    /// The oil.
    Oil,
}

/// What keeps most of the nights that are not ready from it; where all are, the part that is coldest most often.
pub fn limit(when: &When, scenario: &Scenario) -> Option<Limit> {
    let nights = || when.found.outcomes.iter().flatten();
    let limit_g = 1e3 * scenario.criteria.water_limit.si();
    let WarmNotReady { wet, oil } = WarmNotReady::of(nights(), limit_g);
    let cold = nights().filter(|n| !n.ready && n.margin_k.is_none_or(|m| m < 0.0));
    let cold = tally(cold.filter_map(|n| n.coldest.as_deref()));
    let cold_nights: usize = cold.iter().map(|(_, nights)| nights).sum();
    if wet.max(oil) > cold_nights {
        return Some(if wet >= oil { Limit::Water } else { Limit::Oil });
    }
    let coldest = cold.into_iter().chain(when.bands.coldest.clone()).next();
    coldest.map(|(label, _)| Limit::Part(label))
}
