//! Several choices through the same night and the same simulated nights, ranked.

use super::case::{Case, CaseError};
use super::improve::{Improvement, improvements};
use super::latest_start::{StartResult, StartSearch, reaches};
use super::paired::{Bands, Verdict};
use super::path::Tree;
use super::rank::{Contender, Group, Place, rank};
use super::run::run_each;
use super::simulate::{
    Outcome, Progress, ProgressCallback, SampleCount, Simulation, Subject, chance,
};
use super::when::Switches;
use crate::findings::{forbidding, rank_key};
use crate::night::Night;
use crate::scenario::document::Scenario;
use crate::scenario::heater::Heater;
use crate::scenario::initial::InitialTemperature;

/// Choices whose own best start is searched, if they do not reach the chance.
const FIRST: usize = 3;

/// Choices that were computed, the best first.
#[derive(Debug, Clone)]
pub struct Comparison {
    /// The nights with their names, ranked; see [`super::rank::RANKED_BY`]. Without simulated nights by
    /// [`crate::findings::RANKING_KEY`], hazards last.
    pub nights: Vec<(String, Night)>,
    /// The choices over the simulated nights, if these were wanted.
    pub chances: Option<Chances>,
}

/// Choices over the simulated nights.
#[derive(Debug, Clone)]
pub struct Chances {
    /// Which nights.
    pub count: SampleCount,
    /// The chance that is required, 0 to 1.
    pub target: f64,
    /// Each choice, in the order of [`Comparison::nights`].
    pub choices: Vec<ChoiceChance>,
    /// The first choice against each other one.
    pub pairs: Vec<Verdict>,
    /// What would raise the chance of the first choice, the most helpful first.
    pub improvements: Vec<Improvement>,
    /// The nominal night of the first choice at its own best start, if that is another than in the file.
    pub advised: Option<Night>,
}

/// A choice over the simulated nights.
#[derive(Debug, Clone)]
pub struct ChoiceChance {
    /// Its results at the hours of the file.
    pub bands: Bands,
    /// Its place.
    pub place: Place,
    /// Its group.
    pub group: Group,
    /// Its own best start.
    pub best: BestStart,
}

/// The latest start at which a choice reaches the chance.
#[derive(Debug, Clone, PartialEq)]
pub enum BestStart {
    /// That start, or the best of those that do not reach it.
    Searched(Box<StartResult>),
    /// No heater is on from the beginning without a thermostat: the hours of the file hold.
    Fixed,
    /// It was not searched: the choice is not among the first.
    NotSearched,
}

/// What a comparison computes beside each choice's night.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CompareOptions {
    /// Simulated nights; none for none.
    pub count: Option<SampleCount>,
    /// The chance that is required, 0 to 1.
    pub target: f64,
    /// Whether the best start of every choice is searched, not of the first alone.
    pub all_starts: bool,
}

impl Default for CompareOptions {
    /// 256 simulated nights, and 95 percent of them.
    fn default() -> Self {
        Self {
            count: Some(SampleCount::default()),
            target: 0.95,
            all_starts: false,
        }
    }
}

impl Comparison {
    /// The night of the recommended choice as it is advised: at its own best start.
    pub fn advised(&self) -> Option<&Night> {
        let (_, night) = self.recommended()?;
        let advised = self.chances.as_ref().and_then(|c| c.advised.as_ref());
        Some(advised.unwrap_or(night))
    }

    /// The choice that is recommended or, if none reaches what is required, comes nearest; none if there is no choice that
    /// may be used.
    pub fn recommended(&self) -> Option<&(String, Night)> {
        let first = self.nights.first()?;
        let usable = match &self.chances {
            Some(chances) => chances.choices.first()?.group != Group::Hazard,
            None => forbidding(&first.1.findings.warnings).is_empty(),
        };
        usable.then_some(first)
    }

    /// Whether the recommended choice reaches the chance that is required; without simulated nights, whether it is ready.
    pub fn is_reached(&self) -> bool {
        let ready = |night: &Night| night.findings.ready.ready_at_departure;
        match (self.recommended(), &self.chances) {
            (Some(_), Some(chances)) => chances
                .choices
                .first()
                .is_some_and(|first| first.group == Group::Reached),
            (Some((_, night)), None) => ready(night),
            (None, _) => false,
        }
    }
}

/// Computes all choices of a base night and ranks them. `spare` are heaters that may be added to raise the chance. The
/// answer does not depend on the number of threads.
///
/// *Errors*: the first choice, in the order given, that cannot be computed.
pub fn compare(
    base: &Scenario,
    choices: &[Case],
    options: CompareOptions,
    spare: &[Heater],
    progress: ProgressCallback,
) -> Result<Comparison, CaseError> {
    let tree = Tree::of(base).map_err(|e| Case::named("the base night").failed(e))?;
    progress(Progress::Planned(choices.len()));
    let computed = run_each(&tree, choices, |night| {
        progress(Progress::Done);
        night
    });
    let named = |(choice, night): (&Case, Result<Night, _>)| match night {
        Ok(night) => Ok((choice.name.clone(), night)),
        Err(source) => Err(choice.failed(source)),
    };
    let nights: Result<Vec<(String, Night)>, _> = choices.iter().zip(computed).map(named).collect();
    let mut nights = nights?;
    let Some(count) = options.count else {
        let hazard = |night: &Night| !forbidding(&night.findings.warnings).is_empty();
        nights.sort_by_key(|(_, night)| (hazard(night), rank_key(&night.findings)));
        return Ok(Comparison {
            nights,
            chances: None,
        });
    };
    let simulation = Simulation::of(base, count, progress)
        .map_err(|e| Case::named("the base night").failed(e))?;
    let subjects: Result<Vec<Subject>, CaseError> = choices
        .iter()
        .map(|case| simulation.subject(case))
        .collect();
    let subjects = subjects?;
    let nothing = Case::default();
    let as_written: Vec<(&Subject, &Case)> = subjects.iter().map(|s| (s, &nothing)).collect();
    let written = simulation.all(&as_written);

    let bands: Vec<Bands> = (nights.iter().zip(&written))
        .map(|((name, _), outcomes)| Bands::of(name, outcomes.iter().flatten()))
        .collect();
    let hazard = |at: usize, best: Option<&StartResult>| {
        let nominal = !forbidding(&nights[at].1.findings.warnings).is_empty();
        let at_best = best.is_some_and(|best| best.bands("").hazardous());
        nominal || bands[at].hazardous() || at_best
    };
    let group = |at: usize, best: Option<&StartResult>| {
        let reached = reaches(bands[at].ready, options.target) || best.is_some_and(|b| b.reached);
        match (hazard(at, best), reached) {
            (true, _) => Group::Hazard,
            (false, true) => Group::Reached,
            (false, false) => Group::NotReached,
        }
    };
    let ranked = |starts: &[BestStart]| {
        let contenders = (0..choices.len()).map(|at| {
            let best = starts[at].result();
            Contender {
                group: group(at, best),
                chance: best.map(|b| b.chance).or(bands[at].ready),
                margin_k: bands[at].margin_k,
                outcomes: best.map_or(&written[at], |b| &b.outcomes),
            }
        });
        rank(&contenders.collect::<Vec<_>>())
    };
    let mut starts = vec![BestStart::NotSearched; choices.len()];
    for (k, (at, _)) in ranked(&starts).into_iter().enumerate() {
        let group = group(at, None);
        let wanted = options.all_starts || group == Group::Reached || k < FIRST;
        if wanted && group != Group::Hazard {
            starts[at] = best_start(&simulation, &subjects[at], &written[at], options.target);
        }
    }
    let order = ranked(&starts);
    let choices = order.iter().map(|&(at, place)| ChoiceChance {
        bands: bands[at].clone(),
        place,
        group: group(at, starts[at].result()),
        best: starts[at].clone(),
    });
    let choices: Vec<ChoiceChance> = choices.collect();
    let first = order.first().map(|(at, _)| *at);
    let pairs = order.iter().skip(1).filter_map(|&(at, _)| {
        let first = first?;
        let named = |at: usize| (nights[at].0.as_str(), &written[at][..]);
        Some(Verdict::of(named(first), named(at)))
    });
    let pairs = pairs.collect();
    let improvements = match (first, choices.first()) {
        (Some(at), Some(choice)) if choice.group == Group::NotReached => {
            let now = starts[at]
                .result()
                .map_or(&written[at], |best| &best.outcomes);
            improvements(&simulation, &subjects[at], now, spare)
        }
        _ => Vec::new(),
    };
    let advised = first.and_then(|at| {
        let night = &subjects[at].night;
        let minutes = starts[at].result()?.minutes;
        let switches = Switches::from_the_beginning(night)?;
        let case = switches.case(&switches.together(minutes));
        let moved = case.night(&Tree::of(night).ok()?).ok()?;
        crate::night::run(&moved).ok()
    });
    let mut computed: Vec<Option<(String, Night)>> = nights.into_iter().map(Some).collect();
    let nights = order.iter().filter_map(|(at, _)| computed[*at].take());
    Ok(Comparison {
        nights: nights.collect(),
        chances: Some(Chances {
            count,
            target: options.target,
            choices,
            pairs,
            improvements,
            advised,
        }),
    })
}

impl BestStart {
    /// The start that was found, if one was searched.
    pub fn result(&self) -> Option<&StartResult> {
        match self {
            Self::Searched(found) => Some(found),
            Self::Fixed | Self::NotSearched => None,
        }
    }
}

/// The best start of a choice: its heaters that are on from the beginning move together, those tied to departure stay, and
/// thermostats keep their hours.
fn best_start(
    simulation: &Simulation,
    subject: &Subject,
    written: &[Outcome],
    target: f64,
) -> BestStart {
    let Some(switches) = Switches::from_the_beginning(&subject.night) else {
        return BestStart::Fixed;
    };
    let case = |minutes: usize| switches.case(&switches.together(minutes));
    let search = StartSearch {
        simulation,
        subject,
        case: &case,
        most: switches.most,
        target,
    };
    // Cold-soaked, the hours of the file are the earliest start.
    let cold = subject.night.initial.temperature == InitialTemperature::cold_soaked;
    let earliest = (cold && chance(written).is_some()).then(|| written.to_vec());
    let found = search.latest(earliest);
    found.map_or(BestStart::Fixed, |found| {
        BestStart::Searched(Box::new(found))
    })
}
