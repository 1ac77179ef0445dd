//! Which of several nights is the better one.

use super::answer::Findings;
use std::cmp::Ordering;

/// Water on the upper walls is ranked in steps of this, g.
const WATER_STEP_G: f64 = 0.5;

/// What choices are ranked by, to be printed beside every ranking.
pub const RANKING_KEY: &str = "ready before not ready; then less water on the upper inner walls at departure, in steps of 0.5 g; \
     then less energy; then the larger margin";

/// What a night is ranked by: the smaller key is the better night.
#[derive(Debug, Clone, Copy)]
pub struct RankKey {
    not_ready: bool,
    upper_steps: f64,
    energy_kwh: f64,
    shortfall_k: f64,
}

/// The key of a night, by [`RANKING_KEY`]. A night without engine parts has the worst margin.
pub fn rank_key(findings: &Findings) -> RankKey {
    let upper_g = findings.condensation.as_ref().map_or(0.0, |c| c.upper_g);
    RankKey {
        not_ready: !findings.ready.ready_at_departure,
        upper_steps: (upper_g / WATER_STEP_G).floor(),
        energy_kwh: findings.energy.kwh,
        shortfall_k: findings.ready.margin_k.map_or(f64::INFINITY, |m| -m),
    }
}

impl Ord for RankKey {
    fn cmp(&self, other: &Self) -> Ordering {
        self.not_ready
            .cmp(&other.not_ready)
            .then(self.upper_steps.total_cmp(&other.upper_steps))
            .then(self.energy_kwh.total_cmp(&other.energy_kwh))
            .then(self.shortfall_k.total_cmp(&other.shortfall_k))
    }
}
impl PartialOrd for RankKey {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl PartialEq for RankKey {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}
impl Eq for RankKey {}
