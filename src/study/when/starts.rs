//! Switching-on times as whole minutes before the departure, and the nights they make.

use super::super::case::Case;
use crate::night::NightError;
use crate::quantity::Duration;
use crate::scenario::check::{Problem, check};
use crate::scenario::clock::NightClock;
use crate::scenario::document::Scenario;
use crate::scenario::hours::Hours;
use crate::scenario::initial::InitialTemperature;

/// The heaters whose switching-on is sought, and how early it can be.
#[derive(Debug, Clone, PartialEq)]
pub struct Switches {
    /// Their indices in the scenario.
    pub heaters: Vec<usize>,
    /// The earliest switching-on, minutes before the departure: the beginning, or the end of the delay after a
    /// flight.
    pub most: usize,
}

/// Minutes before the departure of each switched heater, in the order of [`Switches::heaters`]; 0 is never.
pub type Starts = Vec<usize>;

impl Switches {
    /// The heaters of a scenario that can be switched: all but those that stay unplugged, have no power, or run by
    /// a timer of their own (`between`).
    ///
    /// *Errors*: the problems of the scenario; no heater; none that can be switched.
    pub fn of(scenario: &Scenario) -> Result<Self, NightError> {
        let checked = check(scenario).map_err(NightError::Problems)?;
        let delay_s = match &scenario.initial.temperature {
            InitialTemperature::after_flight { delay } => delay.si(),
            _ => 0.0,
        };
        let left_s = (checked.clock().night_s() - delay_s).max(0.0);
        let heaters: Vec<usize> = (0..scenario.heaters.len())
            .filter(|&i| kept_as_it_is(scenario, i).is_none())
            .collect();
        if heaters.is_empty() {
            return Err(NightError::Problems(none_to_switch(scenario)));
        }
        // A thermostat switches by itself: it keeps its hours beside heaters that do not.
        let plain = |&i: &usize| scenario.heaters[i].thermostat.is_none();
        let heaters = match heaters.iter().any(plain) {
            true => heaters.into_iter().filter(plain).collect(),
            false => heaters,
        };
        Ok(Self {
            heaters,
            most: (left_s / 60.0).floor() as usize,
        })
    }

    /// The case in which each switched heater comes on so many minutes before the departure and stays on until then; it
    /// is followed until the departure. Other heaters keep their hours.
    pub fn case(&self, starts: &[usize]) -> Case {
        let switched = self.heaters.iter().zip(starts);
        switched.fold(until_departure(), |case, (&heater, &minutes)| {
            switch_on(case, heater, minutes)
        })
    }

    /// The same case, with heaters that come on at the earliest start on from the beginning, so that they are on earlier in a
    /// night that begins earlier.
    pub fn from_start(&self, starts: &[usize]) -> Case {
        let switched = self.heaters.iter().zip(starts);
        let first = switched.filter(|(_, minutes)| **minutes == self.most);
        first.fold(self.case(starts), |case, (&heater, _)| {
            case.set(format!("heaters[{heater}].hours"), &Hours::always)
        })
    }

    /// The heaters of a valid night that are on from the beginning, without a thermostat of their own; none if there is none
    /// of them, or the night has problems.
    pub fn from_the_beginning(scenario: &Scenario) -> Option<Self> {
        let mut switches = Self::of(scenario).ok()?;
        switches.heaters.retain(|&i| {
            let heater = &scenario.heaters[i];
            heater.hours == Hours::always && heater.thermostat.is_none()
        });
        (!switches.heaters.is_empty()).then_some(switches)
    }

    /// The case in which one switched heater (by its place in [`Switches::heaters`]) comes on so early and all others keep
    /// their hours.
    pub fn alone(&self, which: usize, minutes: usize) -> Case {
        switch_on(until_departure(), self.heaters[which], minutes)
    }

    /// The starts that are written, each heater on until the departure.
    pub fn written(&self, scenario: &Scenario, clock: &NightClock) -> Starts {
        let left_s = clock.night_s();
        let start = |&i: &usize| {
            let spans = scenario.heaters[i].hours.spans(clock, 0.0, left_s);
            let on_s = spans.first().map_or(left_s, |(on, _)| *on);
            (((left_s - on_s) / 60.0).round() as usize).min(self.most)
        };
        self.heaters.iter().map(start).collect()
    }

    /// All switched on at once, so early.
    pub fn together(&self, minutes: usize) -> Starts {
        vec![minutes.min(self.most); self.heaters.len()]
    }

    /// The starts moved so that the earliest is so many minutes before departure, within the night. One that is not needed
    /// stays off, unless none is needed.
    pub fn moved(&self, starts: &[usize], earliest: usize) -> Starts {
        let now = starts.iter().copied().max().unwrap_or(0);
        let moved = |&start: &usize| match start {
            0 if now > 0 => 0,
            start => (start + earliest).saturating_sub(now).min(self.most),
        };
        starts.iter().map(moved).collect()
    }
}

fn until_departure() -> Case {
    Case::default().set("criteria.simulated_time", &None::<Duration>)
}

fn switch_on(case: Case, heater: usize, minutes: usize) -> Case {
    let hours = match minutes {
        0 => Hours::never,
        minutes => Hours::before_departure(Duration::min(minutes as f64)),
    };
    case.set(format!("heaters[{heater}].hours"), &hours)
}

/// Why a heater's switching-on cannot be sought; none if it can.
fn kept_as_it_is(scenario: &Scenario, heater: usize) -> Option<&'static str> {
    let heater = &scenario.heaters[heater];
    match &heater.hours {
        Hours::between(_) => {
            Some("runs by a timer of its own, so its switching-on cannot be sought")
        }
        Hours::never => Some("stays unplugged, so its switching-on cannot be sought"),
        _ if heater.power.si() <= 0.0 => Some("has no power, so it can switch nothing on"),
        _ => None,
    }
}

fn none_to_switch(scenario: &Scenario) -> Vec<Problem> {
    if scenario.heaters.is_empty() {
        return vec![Problem {
            path: "heaters".to_owned(),
            word: None,
            what: "there is no heater, so there is nothing to switch on".to_owned(),
            help: Some(
                "add one, as in heaters: [(heater: \"bay-fan-350w\", place: at(\"bottom\"))]"
                    .to_owned(),
            ),
            instead: None,
        }];
    }
    let problem = |i: usize| {
        let why = kept_as_it_is(scenario, i)?;
        let name = &scenario.heaters[i].name;
        let part = if scenario.heaters[i].power.si() > 0.0 {
            "hours"
        } else {
            "power"
        };
        Some(Problem {
            path: format!("heaters[{i}].{part}"),
            word: None,
            what: format!("`{name}` {why}"),
            help: Some("leave `hours` out, or write always, from(\"02:00\") or before_departure(h(3)): when asks for heaters that a hand or a plain timer switches on once".to_owned()),
            instead: None,
        })
    };
    (0..scenario.heaters.len()).filter_map(problem).collect()
}
