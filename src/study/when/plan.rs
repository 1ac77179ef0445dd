//! The whole question: scan, plan, checkpoint, what-ifs; or the best that can be had and the least change.

use super::checkpoint::Checkpoint;
use super::joint::least_energy;
use super::search::{Probe, ProgressCallback, Search, SearchResult};
use super::single_change::{SufficientChange, Tried, single_changes};
use super::starts::{Starts, Switches};
use super::whatif::{Reserve, Unsolved, WhatIf, reserve, what_if};
use crate::findings::Unmet;
use crate::night::{Night, NightError};
use crate::scenario::document::Scenario;
use crate::scenario::heater::Heater;

/// Steps of the scan over switching-on times, minutes: readiness that comes and goes within less is not seen.
pub const SCAN_MIN: usize = 30;

/// The answer.
#[derive(Debug, Clone)]
pub struct When {
    /// What can be switched.
    pub switches: Switches,
    /// With several heaters, each one's latest start while the others keep their hours.
    pub alone: Vec<Alone>,
    /// Every switched heater on from the beginning.
    pub whole_time: Night,
    /// When, or why not.
    pub verdict: Verdict,
    /// Changes of which nothing is known, as their nights could not be computed.
    pub unsolved: Vec<Unsolved>,
}

/// One heater's latest start while the others keep the hours they are written with.
#[derive(Debug, Clone)]
pub struct Alone {
    /// Which heater, in the order of the scenario.
    pub heater: usize,
    /// What was found, in minutes before the departure.
    pub search: SearchResult,
}

/// When to switch on, or why there is no such time.
#[derive(Debug, Clone)]
pub enum Verdict {
    /// There is a latest time.
    Planned(Box<Planned>),
    /// No start that was tried makes it ready.
    Never(Box<Never>),
}

/// A plan: the latest starts that are ready.
#[derive(Debug, Clone)]
pub struct Planned {
    /// Minutes before the departure of each switched heater; 0 if it is not needed.
    pub starts: Starts,
    /// The night of the plan.
    pub night: Night,
    /// What would not be met if all came on a minute later; empty if no heat is needed.
    pub binding: Vec<Unmet>,
    /// Common starts (minutes before the departure) beyond the plan's that are *not* ready: empty where earlier is
    /// never worse. A joint plan does not look for them.
    pub worse_earlier: Vec<usize>,
    /// What a thermometer should read on the way.
    pub checkpoint: Option<Checkpoint>,
    /// What becomes of it in other nights.
    pub what_if: Vec<WhatIf>,
    /// An earlier plan for who cannot measure; none if no change asks for one.
    pub reserve: Option<Reserve>,
}

/// No start is ready.
#[derive(Debug, Clone)]
pub struct Never {
    /// Of all starts that were tried, those that come nearest to ready, with what they come to.
    pub nearest: (Starts, Probe),
    /// Changes that make it ready, the best first.
    pub remedies: Vec<SufficientChange>,
    /// Changes that do not.
    pub in_vain: Vec<Tried>,
}

impl When {
    /// The night the answer is about: the planned one, or heating the whole time if none is ready.
    pub fn night(&self) -> &Night {
        match &self.verdict {
            Verdict::Planned(planned) => &planned.night,
            Verdict::Never(_) => &self.whole_time,
        }
    }
}

impl Planned {
    /// Whether it is ready without any of the switched heaters.
    pub fn needs_no_heat(&self) -> bool {
        self.starts.iter().all(|&minutes| minutes == 0)
    }
}

/// When to switch on.
///
/// One heater: its latest start, to the minute. Two: the pair of starts that draws the least energy (see `joint`).
/// Three or more: the latest common start of all. With two or more each one's latest start, the others as they are
/// written, is found too. `spare` are heaters that may be added if none of this is ready. The answer does not
/// depend on the number of threads.
///
/// *Errors*: the scenario's problems, nothing to switch, or a night of the search that cannot be computed; one of a
/// changed night is part of the answer.
/// *Checked by* `tests/when`: every minute of the built-in nights.
pub fn when(
    scenario: &Scenario,
    spare: &[Heater],
    progress: ProgressCallback,
) -> Result<When, NightError> {
    let search = Search::of(scenario, progress)?;
    let switches = &search.switches;
    let whole_time = search.run(switches.case(&switches.together(switches.most)))?;
    let alone = each_alone(&search)?;
    let written = switches.written(scenario, whole_time.scenario.clock());
    let (starts, nearest, worse_earlier) = if let [first, second] = written[..] {
        let mut beside = vec![[first, second]];
        for (which, alone) in alone.iter().enumerate() {
            let found = alone.search.found;
            beside.extend(found.map(|n| if which == 0 { [n, second] } else { [first, n] }));
        }
        let joint = least_energy(&search, &beside)?;
        (joint.found, joint.nearest, Vec::new())
    } else {
        let case = |minutes: usize| switches.case(&switches.together(minutes));
        let common = search.least(switches.most, SCAN_MIN, &case)?;
        let together = |minutes| switches.together(minutes);
        let nearest = common.nearest();
        let nearest = nearest.map(|(n, probe)| (together(n), probe.clone()));
        (common.found.map(together), nearest, common.worse_beyond())
    };
    let (verdict, unsolved) = match starts {
        Some(starts) => {
            let (planned, unsolved) = planned(&search, starts, worse_earlier)?;
            (Verdict::Planned(Box::new(planned)), unsolved)
        }
        None => {
            let changes = single_changes(&search, spare);
            let whole = || (switches.together(switches.most), Probe::of(&whole_time));
            let never = Never {
                nearest: nearest.unwrap_or_else(whole),
                remedies: changes.remedies,
                in_vain: changes.in_vain,
            };
            (Verdict::Never(Box::new(never)), changes.unsolved)
        }
    };
    Ok(When {
        alone,
        whole_time,
        verdict,
        unsolved,
        switches: search.switches,
    })
}

fn each_alone(search: &Search) -> Result<Vec<Alone>, NightError> {
    let switches = &search.switches;
    if switches.heaters.len() < 2 {
        return Ok(Vec::new());
    }
    let found = switches.heaters.iter().enumerate().map(|(which, &heater)| {
        let case = |minutes: usize| switches.alone(which, minutes);
        let search = search.least(switches.most, SCAN_MIN, &case)?;
        Ok(Alone { heater, search })
    });
    found.collect()
}

fn planned(
    search: &Search,
    starts: Starts,
    worse_earlier: Vec<usize>,
) -> Result<(Planned, Vec<Unsolved>), NightError> {
    let later: Starts = starts.iter().map(|s| s.saturating_sub(1)).collect();
    let run = |starts: &Starts| search.run(search.switches.case(starts));
    let (night, later) = rayon::join(|| run(&starts), || run(&later));
    let (night, later) = (night?, later?);
    let (what_if, unsolved) = what_if(search, &starts);
    let planned = Planned {
        reserve: reserve(search, &starts, &what_if),
        what_if,
        checkpoint: Checkpoint::of(&night),
        binding: Probe::of(&later).ready.unmet,
        night,
        worse_earlier,
        starts,
    };
    Ok((planned, unsolved))
}
