//! Heaters going on and off: timer edges, and thermostats found where they cross.

use super::trial_step::TrialStep;
use crate::network::Network;
use crate::network::graph::Sensor;
use crate::physics::number::Register;
use crate::trace::{SwitchCause, Switching};

/// Shares of a step at which a thermostat's sensor is looked at.
const LOOKS: [f64; 4] = [0.25, 0.5, 0.75, 1.0];
/// A crossing is found to this share of the step.
const SHARE_FOUND: f64 = 1e-12;

/// Whether each heater is plugged in, and whether its thermostat lets it be on.
pub struct Switches<'n> {
    net: &'n Network,
    plugged: Vec<bool>,
    called: Vec<bool>,
    on: Vec<bool>,
    /// Every switching so far.
    pub made: Vec<Switching>,
}

/// The reading of a thermostat's sensor.
fn reading(sensor: &Sensor, value: impl Fn(usize) -> f64) -> f64 {
    sensor
        .columns
        .iter()
        .map(|&(column, weight)| weight * value(column))
        .sum()
}

impl<'n> Switches<'n> {
    /// All unplugged.
    pub fn new(net: &'n Network) -> Self {
        Self {
            net,
            plugged: vec![false; net.heaters.len()],
            called: vec![false; net.heaters.len()],
            on: vec![false; net.heaters.len()],
            made: Vec::new(),
        }
    }

    /// Which heaters are on.
    pub fn on(&self) -> &[bool] {
        &self.on
    }

    /// The times at which a heater is plugged in or out.
    pub fn edges(&self) -> impl Iterator<Item = f64> + '_ {
        self.net
            .heaters
            .iter()
            .flat_map(|h| h.spans.iter().flat_map(|&(on, off)| [on, off]))
    }

    /// Plugs heaters in and out as their hours say; returns whether anything changed.
    pub fn follow_hours(&mut self, time_s: f64, vector: &[f64]) -> bool {
        let mut changed = false;
        for (number, heater) in self.net.heaters.iter().enumerate() {
            let plugged = heater
                .spans
                .iter()
                .any(|&(on, off)| on <= time_s && time_s < off);
            if plugged == self.plugged[number] {
                continue;
            }
            self.plugged[number] = plugged;
            let was_on = self.called[number] && !plugged;
            if plugged {
                self.called[number] = heater
                    .thermostat
                    .as_ref()
                    .is_none_or(|s| reading(s, |c| vector[c]) < s.hi_c);
            }
            let on = plugged && self.called[number];
            if on || was_on {
                self.turn(number, on, time_s, SwitchCause::Hours);
                changed = true;
            }
        }
        changed
    }

    fn turn(&mut self, heater: usize, on: bool, time_s: f64, cause: SwitchCause) {
        self.on[heater] = on;
        self.made.push(Switching {
            time_s,
            heater,
            on,
            cause,
        });
    }

    /// The temperature at which a plugged heater's thermostat would next act, over its sensor.
    fn distance(&self, heater: usize, value: impl Fn(usize) -> f64) -> Option<f64> {
        let sensor = self.net.heaters[heater].thermostat.as_ref()?;
        if !self.plugged[heater] {
            return None;
        }
        let felt = reading(sensor, value);
        Some(if self.called[heater] {
            sensor.hi_c - felt
        } else {
            felt - sensor.lo_c
        })
    }

    /// The first thermostat that acts within the step just tried: the heater and the share of the step.
    pub fn crossing<G: Register>(&self, tried: &TrialStep<G>) -> Option<(usize, f64)> {
        let mut first: Option<(usize, f64)> = None;
        for heater in 0..self.net.heaters.len() {
            let at = |share: f64| self.distance(heater, |c| tried.between(c, share));
            let Some(mut inside) = LOOKS
                .into_iter()
                .find(|&share| at(share).is_some_and(|d| d <= 0.0))
            else {
                continue;
            };
            let mut outside = 0.0;
            while inside - outside > SHARE_FOUND {
                let middle = 0.5 * (inside + outside);
                if at(middle).is_some_and(|d| d <= 0.0) {
                    inside = middle;
                } else {
                    outside = middle;
                }
            }
            if first.is_none_or(|(_, share)| inside < share) {
                first = Some((heater, inside));
            }
        }
        first
    }

    /// Whether a heater is plugged in and has a thermostat.
    pub fn waits(&self, heater: usize) -> bool {
        self.plugged[heater] && self.net.heaters[heater].thermostat.is_some()
    }

    /// How far past its crossing a heater's sensor is at the end of the step just tried, K.
    pub fn overshoot<G: Register>(&self, heater: usize, tried: &TrialStep<G>) -> f64 {
        self.distance(heater, |c| tried.after(c))
            .map_or(0.0, |d| -d)
    }

    /// The name of the heater that switched most often.
    pub fn most_often(&self) -> String {
        let notes = self.net.legend.heaters.iter().enumerate();
        let often = |number: usize| self.made.iter().filter(|s| s.heater == number).count();
        notes
            .max_by_key(|(number, _)| often(*number))
            .map_or_else(String::new, |(_, note)| note.name.clone())
    }

    /// Lets a heater's thermostat act.
    pub fn flip(&mut self, heater: usize, time_s: f64) {
        self.called[heater] = !self.called[heater];
        let on = self.called[heater];
        self.turn(heater, on, time_s, SwitchCause::Thermostat);
    }
}
