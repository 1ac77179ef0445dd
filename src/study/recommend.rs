//! Which of ranked nights is recommended.

use crate::findings::{Findings, hazards};

/// The place of the choice that is recommended among ranked ones: the best that is ready and safe; else the best that is
/// ready; else the one that lacks least warmth.
pub fn recommended(ranked: &[&Findings]) -> Option<usize> {
    let is_ready = |f: &&Findings| f.ready.ready_at_departure;
    let is_safe = |f: &&Findings| is_ready(f) && hazards(&f.warnings).is_empty();
    let margin = |at: usize| ranked[at].ready.margin_k.unwrap_or(f64::NEG_INFINITY);
    let closest = |best: usize, at: usize| if margin(at) > margin(best) { at } else { best };
    let place = |of: &dyn Fn(&&Findings) -> bool| ranked.iter().position(of);
    place(&is_safe)
        .or_else(|| place(&is_ready))
        .or_else(|| (0..ranked.len()).reduce(closest))
}
