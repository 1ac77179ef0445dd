//! Where a integrate must stop: corners of the weather, hours of heaters, the departure, the end.

use super::switching::Switches;
use crate::network::Network;
use std::iter::Peekable;
use std::vec::IntoIter;

/// Moments closer than this are one, s.
const SAME_MOMENT_S: f64 = 1e-6;

/// The moments at which something may change that are still ahead, the next one first.
pub struct Breakpoints(Peekable<IntoIter<f64>>);

impl Breakpoints {
    /// All those of a night.
    pub fn of(net: &Network, switches: &Switches) -> Self {
        Self(stops(net, switches).into_iter().peekable())
    }
    /// Whether none is ahead.
    pub fn are_over(&self) -> bool {
        self.0.len() == 0
    }
    /// The next one, s.
    pub fn next_s(&mut self) -> Option<f64> {
        self.0.peek().copied()
    }
    /// Leaves the next one behind if it is reached at this time.
    pub fn pass(&mut self, time_s: f64) -> Option<f64> {
        self.0.next_if(|stop_s| stop_s - time_s <= SAME_MOMENT_S)
    }
}

fn stops(net: &Network, switches: &Switches) -> Vec<f64> {
    let mut stops: Vec<f64> = switches
        .edges()
        .chain(net.inputs.iter().flat_map(|c| c.kinks().iter().copied()))
        .chain([net.departure_s, net.end_s])
        .filter(|&t| t > SAME_MOMENT_S && t <= net.end_s)
        // Moments too close to the departure or the end give way to them.
        .filter(|&t| {
            [net.departure_s, net.end_s]
                .into_iter()
                .all(|fixed| t == fixed || (t - fixed).abs() >= SAME_MOMENT_S)
        })
        .collect();
    stops.sort_by(f64::total_cmp);
    stops.dedup_by(|b, a| *b - *a < SAME_MOMENT_S);
    stops
}

/// How long a step may be that goes towards a stop so far away: two even steps rather than one long and one tiny.
pub fn towards(left_s: f64, allowed_s: f64) -> f64 {
    if allowed_s >= left_s {
        left_s
    } else if allowed_s > 0.5 * left_s {
        0.5 * left_s
    } else {
        allowed_s
    }
}
