//! The least single change that makes a night ready, when heating the whole time does not.
//!
//! Each candidate has an amount in whole steps (ten watts, a hundredth of a share, a minute). The least amount
//! that is ready is searched over real nights, and the night of that very amount is what is reported.

use super::super::case::Case;
use super::super::change::Change;
use super::search::{Probe, Search};
use super::starts::Switches;
use super::whatif::{Unsolved, each};
use crate::night::NightError;
use crate::scenario::check::check;
use crate::scenario::document::Scenario;
use crate::scenario::heater::{Heater, Place};
use crate::scenario::initial::InitialTemperature;
use crate::scenario::part::Role;

/// A heater is made stronger up to so many times its power: beyond that it is another heater.
const MOST_TIMES: f64 = 3.0;
/// Steps of power, W.
const WATTS: f64 = 10.0;
/// Plugs close up to this share of what is left open, percent: foam never seals (estimate).
const MOST_PLUGGED: usize = 90;
/// The thickest blanket, hundredths of m²K/W: four centimetres of batting (estimate).
const THICKEST: usize = 100;
/// The night begins at most so much earlier, minutes, and is never a day long.
const MOST_EARLIER: usize = 12 * 60;
/// Minutes of a day.
const DAY_MIN: usize = 24 * 60;
/// Points of the scan over a candidate's range.
const POINTS: usize = 8;

/// What remedies are ranked by, in words.
pub const REMEDY_RANKING: &str = "within what the circuit may carry for hours before beyond it; then less energy, to the \
watt-hour; then a smaller share of what was tried";

/// A change that makes the night ready, heating the whole time.
#[derive(Debug, Clone)]
pub struct SufficientChange {
    /// The change, of the least amount.
    pub change: Change,
    /// What the night with it comes to.
    pub probe: Probe,
    /// How much of the candidate's range it takes, 0 to 1.
    pub range_share: f64,
    /// Whether it asks more of the circuit than it should carry for hours.
    pub overloads: bool,
    /// The changed night, as it was run.
    pub scenario: Scenario,
}

/// A candidate that was tried in vain.
#[derive(Debug, Clone, PartialEq)]
pub struct Tried {
    /// The change, of the largest amount that can be had.
    pub change: Change,
    /// What the night with it comes to; none if it cannot be done here (it has problems).
    pub probe: Option<Probe>,
}

/// A change with its amount left open.
pub struct Candidate {
    /// The largest amount, in steps.
    pub most: usize,
    /// The change of so many steps.
    pub change: Box<dyn Fn(usize) -> Change + Sync + Send>,
}

/// What is tried: more watts of each switched heater, better plugs, a blanket over the upper cowl (over all skin,
/// if no pocket is called so), an earlier beginning of a cold-soaked night, and each heater of `spare` added at its
/// own place, at its own power or less.
pub fn candidates(switches: &Switches, scenario: &Scenario, spare: &[Heater]) -> Vec<Candidate> {
    let mut all = Vec::new();
    for &heater in &switches.heaters {
        let now = scenario.heaters[heater].power.si();
        all.push(Candidate {
            most: (now * (MOST_TIMES - 1.0) / WATTS).floor() as usize,
            change: Box::new(move |n| Change::Watts {
                heater,
                watts: now + n as f64 * WATTS,
            }),
        });
    }
    all.push(Candidate {
        most: MOST_PLUGGED,
        change: Box::new(|n| Change::Plugged {
            share: n as f64 / 100.0,
        }),
    });
    let pockets = skins(scenario);
    if !pockets.is_empty() {
        all.push(Candidate {
            most: THICKEST,
            change: Box::new(move |n| Change::Blanket {
                pockets: pockets.clone(),
                resistance_m2k_w: n as f64 / 100.0,
            }),
        });
    }
    if scenario.initial.temperature == InitialTemperature::cold_soaked {
        all.push(Candidate {
            most: MOST_EARLIER.min(DAY_MIN.saturating_sub(switches.most + 1)),
            change: Box::new(|minutes| Change::BegunEarlier { minutes }),
        });
    }
    for heater in spare.iter().filter(|h| free(scenario, h)) {
        let heater = heater.clone();
        all.push(Candidate {
            most: (heater.power.si() / WATTS).floor() as usize,
            change: Box::new(move |n| {
                let mut added = heater.clone();
                added.power = crate::quantity::Power::W(n as f64 * WATTS);
                Change::Added(Box::new(added))
            }),
        });
    }
    all.retain(|candidate| candidate.most > 0);
    all
}

/// Whether no heater stands at this one's place or bears its name.
fn free(scenario: &Scenario, heater: &Heater) -> bool {
    let at = |place: &Place| place == &heater.place;
    let taken = |h: &Heater| at(&h.place) || h.name == heater.name;
    !scenario.heaters.iter().any(taken)
}

/// The pockets with skin: those over the cylinders, at least half as high as the highest, or all if none is over them.
fn skins(scenario: &Scenario) -> Vec<String> {
    let Ok(checked) = check(scenario) else {
        return Vec::new();
    };
    let body = checked.body();
    let mut pockets: Vec<String> = Vec::new();
    for part in &body.parts {
        if let Role::skin(over) = &part.role
            && !pockets.contains(over)
        {
            pockets.push(over.clone());
        }
    }
    let height = |name: &String| {
        let pocket = body.air_volumes.iter().find(|p| p.name == *name);
        pocket.map_or(0.0, |p| p.mid_height.si())
    };
    let highest = pockets.iter().map(height).fold(0.0, f64::max);
    let upper: Vec<String> = pockets
        .iter()
        .filter(|p| height(p) > 0.0 && height(p) >= 0.5 * highest)
        .cloned()
        .collect();
    if upper.is_empty() { pockets } else { upper }
}

/// What the candidates came to.
#[derive(Debug, Clone, Default)]
pub struct SingleChanges {
    /// Changes that make the night ready, the best first.
    pub remedies: Vec<SufficientChange>,
    /// Changes that do not.
    pub in_vain: Vec<Tried>,
    /// Those of which it is not known, given by their largest amount: one of their nights cannot be computed.
    pub unsolved: Vec<Unsolved>,
}

/// Every candidate's least amount that makes the night ready, ranked by [`REMEDY_RANKING`]; those tried in vain; and
/// those whose nights cannot be computed.
pub fn single_changes(search: &Search, spare: &[Heater]) -> SingleChanges {
    let all = candidates(&search.switches, search.night, spare);
    let most = |candidate: &Candidate| (candidate.change)(candidate.most);
    let (answers, unsolved) = each(&all, most, |candidate| one(search, candidate));
    let mut found = SingleChanges {
        unsolved,
        ..SingleChanges::default()
    };
    for answer in answers {
        match answer {
            Ok(change) => found.remedies.push(*change),
            Err(tried) => found.in_vain.push(tried),
        }
    }
    found.remedies.sort_by(|a, b| {
        let watt_hours = |r: &SufficientChange| (r.probe.kwh * 1000.0).round();
        a.overloads
            .cmp(&b.overloads)
            .then(watt_hours(a).total_cmp(&watt_hours(b)))
            .then(a.range_share.total_cmp(&b.range_share))
    });
    found
}

fn one(
    search: &Search,
    candidate: &Candidate,
) -> Result<Result<Box<SufficientChange>, Tried>, NightError> {
    let case = |n: usize| heated(search, &(candidate.change)(n));
    let most = candidate.most;
    let found = search.least(most, most.div_ceil(POINTS), &case)?;
    let Some(n) = found.found else {
        // The largest amount that could be run: a record may not reach back all the way.
        let ran = found.tried.iter().rev();
        let ran = ran.into_iter().find(|(n, probe)| *n > 0 && probe.is_some());
        return Ok(Err(Tried {
            change: (candidate.change)(ran.map_or(most, |(n, _)| *n)),
            probe: ran.and_then(|(_, probe)| probe.clone()),
        }));
    };
    // The very night that is recommended, run once more and looked at as a whole.
    let night = search.run(case(n))?;
    Ok(Ok(Box::new(SufficientChange {
        change: (candidate.change)(n),
        probe: Probe::of(&night),
        range_share: n as f64 / most as f64,
        overloads: night.findings.circuit.overloaded(),
        scenario: night.scenario.scenario().clone(),
    })))
}

/// The changed night with every switched heater on from the beginning.
fn heated(search: &Search, change: &Change) -> Case {
    let mut longer = search.switches.clone();
    if let Change::BegunEarlier { minutes } = change {
        longer.most += minutes;
    }
    let changed = change.case(search.night);
    changed.and(longer.case(&longer.together(longer.most)))
}

#[cfg(test)]
mod tests {
    use super::super::super::tests::scenario;
    use super::*;
    use crate::files::library::{Kind, model};
    use crate::scenario::engine::Engine;

    /// By where they lie, not by the letter their name begins with.
    #[test]
    fn a_blanket_goes_over_the_cylinders_whatever_the_pockets_are_called() {
        let mut night = scenario();
        assert_eq!(skins(&night), ["UL", "UR"]);
        let radial: Engine = model(Kind::Engine, "radial-nine").unwrap();
        night.engine = radial.clone();
        assert_eq!(skins(&night), ["UP"]);
        let text = crate::document::write::written(&radial).unwrap();
        let renamed = text
            .replace("\"UP\"", "\"Top\"")
            .replace("\"LO\"", "\"Under\"");
        let source = crate::document::Source::new("renamed", &renamed);
        night.engine = crate::document::read(&source).value.unwrap();
        assert_eq!(skins(&night), ["Top"]);
    }
}
