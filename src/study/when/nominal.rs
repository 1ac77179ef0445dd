//! The latest start at which the night as its file says it is ready, to the minute.

use super::joint::least_energy;
use super::search::{Probe, Search};
use super::starts::Starts;
use crate::findings::Unmet;
use crate::night::NightError;

/// Steps of the scan over switch-on times, minutes: readiness that comes and goes within less is not seen.
pub const SCAN_MIN: usize = 30;

/// The latest starts of the nominal night.
#[derive(Debug, Clone, PartialEq)]
pub struct Nominal {
    /// Minutes before departure of each switched heater; 0 if it is not needed; none if no start that was tried is ready.
    pub starts: Option<Starts>,
    /// What would not be met if all came on a minute later; empty if no heat is needed or no start is ready.
    pub limiting: Vec<Unmet>,
}

/// The latest starts of the nominal night. One heater: its latest start, to the minute. Two: the pair of starts that takes
/// the least energy (see `joint`). Three or more: the latest common start of all.
///
/// *Errors*: a night of the search that cannot be computed.
/// *Checked by* `tests/when`: every minute of the built-in nights.
pub fn nominal(search: &Search) -> Result<Nominal, NightError> {
    let switches = &search.switches;
    let together = |minutes| switches.together(minutes);
    let starts = if switches.heaters.len() == 2 {
        let night = search.night.clock.resolve().ok();
        let written = night.map(|clock| switches.written(search.night, &clock));
        let mut beside = Vec::new();
        if let Some([first, second]) = written.as_deref().and_then(|w| w.first_chunk::<2>()) {
            let (first, second) = (*first, *second);
            beside.push([first, second]);
            for which in [0, 1] {
                let case = |minutes: usize| switches.alone(which, minutes);
                let found = search.least(switches.most, SCAN_MIN, &case)?.found;
                beside.extend(found.map(|n| if which == 0 { [n, second] } else { [first, n] }));
            }
        }
        least_energy(search, &beside)?
    } else {
        let case = |minutes: usize| switches.case(&together(minutes));
        search
            .least(switches.most, SCAN_MIN, &case)?
            .found
            .map(together)
    };
    let later = starts.as_ref().filter(|s| s.iter().any(|&m| m > 0));
    let limiting = match later {
        Some(starts) => {
            let later: Starts = starts.iter().map(|s| s.saturating_sub(1)).collect();
            Probe::of(&search.run(switches.case(&later))?).ready.unmet
        }
        None => Vec::new(),
    };
    Ok(Nominal { starts, limiting })
}
