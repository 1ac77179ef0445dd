//! The whole answer: the start, its chance, the chance of other starts, who leaves later, the thermometer, what would help.

use super::later::{Later, leaving_later};
use super::nominal::{Nominal, nominal};
use super::search::Search;
use super::starts::{Starts, Switches};
use super::thermometer::{Thermometer, thermometer};
use crate::findings::forbidding;
use crate::night::{Night, NightError};
use crate::scenario::document::Scenario;
use crate::scenario::heater::Heater;
use crate::study::case::Case;
use crate::study::change::Change;
use crate::study::improve::{Improvement, improvements};
use crate::study::latest_start::{StartResult, StartSearch};
use crate::study::paired::Bands;
use crate::study::quantile::Share;
use crate::study::simulate::{ProgressCallback, SampleCount, Simulation, chance};

/// How the answer is sought.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WhenOptions {
    /// The simulated nights.
    pub count: SampleCount,
    /// The chance that is required, 0 to 1.
    pub target: f64,
    /// Whether the chance in other weather is computed too.
    pub other_weather: bool,
}

impl Default for WhenOptions {
    /// 256 nights, 95 percent, and no other weather.
    fn default() -> Self {
        Self {
            count: SampleCount::default(),
            target: 0.95,
            other_weather: false,
        }
    }
}

/// The answer.
#[derive(Debug, Clone)]
pub struct When {
    /// The simulated nights and the chance that is required.
    pub options: WhenOptions,
    /// What can be switched.
    pub switches: Switches,
    /// Minutes before departure of each switched heater: the latest starts that reach the chance, or the best there are.
    pub starts: Starts,
    /// The start with what the simulated nights come to.
    pub found: StartResult,
    /// The same as quantiles.
    pub bands: Bands,
    /// The nominal night with these starts.
    pub night: Night,
    /// The latest starts of the nominal night.
    pub nominal: Nominal,
    /// The chance by the earliest start, minutes before departure, the earliest first. A night that is ready at one start is
    /// taken to be ready at every earlier one.
    pub curve: Vec<(usize, Share)>,
    /// Who leaves later; empty if the weather does not reach so far or no heat is needed.
    pub later: Vec<Later>,
    /// The chance of these starts in other weather; empty if that was not wanted.
    pub other_weather: Vec<(Change, Share)>,
    /// Where to put a thermometer, and what it must read; none if no heat is needed or no probe can be put on.
    pub thermometer: Option<Thermometer>,
    /// What would raise the chance, if no start reaches it.
    pub improvements: Vec<Improvement>,
}

/// How much colder the night is, K: what an evening forecast of the minimum is wrong by, now and then (estimate).
const COLDER_K: f64 = 3.0;
/// How many times as fast the air moves past the cowl (estimate: air in a hangar is known no better).
const TIMES: f64 = 2.0;

impl When {
    /// Whether the chance is what is required, and nothing becomes too hot and no circuit is overloaded.
    pub fn is_reached(&self) -> bool {
        self.found.reached && !self.is_hazardous()
    }

    /// Whether something becomes too hot or the circuit is overloaded, in the nominal night or in too many simulated ones.
    pub fn is_hazardous(&self) -> bool {
        !forbidding(&self.night.findings.warnings).is_empty() || self.bands.hazardous()
    }

    /// Whether it is ready without any of the switched heaters.
    pub fn needs_no_heat(&self) -> bool {
        self.is_reached() && self.starts.iter().all(|&minutes| minutes == 0)
    }
}

/// When to switch on so that the engine is ready with the chance that is required. The starts of the nominal night are moved
/// together; see [`nominal`]. `spare` are heaters that may be added if no start is enough.
///
/// *Errors*: the scenario's problems, nothing to switch, or a night that cannot be computed.
pub fn when(
    scenario: &Scenario,
    options: WhenOptions,
    spare: &[Heater],
    progress: ProgressCallback,
) -> Result<When, NightError> {
    let search = Search::of(scenario, progress)?;
    let switches = &search.switches;
    let nominal = nominal(&search)?;
    let simulation = Simulation::of(scenario, options.count, progress)?;
    let subject = simulation
        .subject(&Case::named(&scenario.title))
        .map_err(|e| e.source)?;
    let together = vec![0; switches.heaters.len()];
    let mut pattern = nominal.starts.clone().unwrap_or(together.clone());
    let sought = |pattern: &Starts| {
        let case = |minutes: usize| switches.case(&switches.moved(pattern, minutes));
        let search = StartSearch {
            simulation: &simulation,
            subject: &subject,
            case: &case,
            most: switches.most,
            target: options.target,
        };
        let curve = search.curve();
        Some((search.latest_on(&curve)?, curve))
    };
    let mut found = sought(&pattern);
    if found.as_ref().is_some_and(|(found, _)| !found.reached)
        && pattern.contains(&0)
        && pattern != together
    {
        // A heater that the nominal night does not need may be needed in others.
        pattern = together;
        found = sought(&pattern);
    }
    let Some((found, curve)) = found else {
        // No simulated night can be computed: the nominal one says why.
        let starts = switches.together(switches.most);
        let night = search.run(switches.case(&starts));
        return Err(night.err().unwrap_or(NightError::Problems(Vec::new())));
    };
    let starts = switches.moved(&pattern, found.minutes);
    let night = search.run(switches.case(&starts))?;
    let heats = starts.iter().any(|&minutes| minutes > 0);
    let improvements = match found.reached {
        true => Vec::new(),
        false => {
            let case = switches.from_start(&starts);
            let heated = simulation.subject(&case).map_err(|e| e.source)?;
            improvements(&simulation, &heated, &found.outcomes, spare)
        }
    };
    Ok(When {
        options,
        later: match heats {
            true => leaving_later(&simulation, &subject, switches, &starts),
            false => Vec::new(),
        },
        other_weather: match options.other_weather {
            true => other_weather(&simulation, scenario, &switches.case(&starts)),
            false => Vec::new(),
        },
        thermometer: thermometer(&simulation, &subject, &switches.case(&starts), &night),
        bands: Bands::of(&scenario.title, found.outcomes.iter().flatten()),
        starts,
        found,
        night,
        nominal,
        curve,
        improvements,
        switches: search.switches.clone(),
    })
}

/// The chance of planned starts in other weather; a change that makes no night, or none that can be computed, is left out.
fn other_weather(
    simulation: &Simulation,
    scenario: &Scenario,
    planned: &Case,
) -> Vec<(Change, Share)> {
    let changes = [
        Change::Colder { kelvin: COLDER_K },
        Change::Draught { times: TIMES },
    ];
    let changed = changes.into_iter().filter_map(|change| {
        let subject = simulation.subject(&change.case(scenario)).ok()?;
        let outcomes = simulation.all(&[(&subject, planned)]).pop()?;
        Some((change, chance(&outcomes)?))
    });
    changed.collect()
}
