//! Numbers that can be computed with but are hard to believe: warnings, never errors.

mod clock_change;
mod engine;
mod night;
mod warning;

pub use warning::PlausibilityWarning;

use super::document::Scenario;
use crate::document::{Found, Read, RuleCheck};

/// Everything in a night that is hard to believe, in the order of the file's keys.
///
/// The ranges are wide; a number outside them is rarely meant. A scenario that passes none of the gate's checks
/// may be unusual too: each number is looked at by itself.
pub fn doubts(scenario: &Scenario) -> Vec<PlausibilityWarning> {
    let mut doubts = warning::PlausibilityWarnings::default();
    let mut walk = RuleCheck::default();
    scenario.walk(&mut walk);
    night::clock(scenario, &mut doubts);
    clock_change::turned(scenario, &mut doubts);
    engine::engine(scenario, &mut doubts);
    night::all(scenario, &mut doubts);
    let unusual = walk.into_found().into_iter().filter(|f| f.warning);
    for Found {
        path,
        message,
        suggestion,
        ..
    } in unusual
    {
        doubts.odd(path, message, &suggestion.unwrap_or_default());
    }
    doubts.into_all()
}
