//! From dusk to dawn.

use super::failure::SolveError;
use super::marched::{Effort, Marched};
use super::pace::{END_ORDER, FIRST_STEP_S, FirstSteps, Pace, WAY_ORDER, growth};
use super::sampler::Sampler;
use super::step::{StepError, Stepper};
use super::switching::Switches;
use crate::balance::{Balance, stored_j, water_g};
use crate::network::Network;
use crate::trace::Ledger;

/// A step shorter than this is no progress, s.
const LEAST_STEP_S: f64 = 1e-7;
/// Moments closer than this are one, s.
const SAME_MOMENT_S: f64 = 1e-6;
/// A thermostat's crossing is hit to this, K.
const CROSSING_K: f64 = 1e-4;
/// Most tries to hit it.
const CROSSING_TRIES: usize = 12;
/// Most switchings of one night: one every five seconds for half a day.
const MOST_SWITCHINGS: usize = 10_000;
/// Most steps of one night.
const MOST_STEPS: usize = 5_000_000;

/// Marches through the night of a network. `tolerance` scales the error allowed in a step; samples are at
/// most `sample_s` apart.
///
/// *Errors*: [`SolveError`], with the time and the column it failed at.
pub fn march(net: &Network, tolerance: f64, sample_s: f64) -> Result<Marched, SolveError> {
    let mut walk = Walk::new(net, tolerance, sample_s);
    let mut stops: Vec<f64> = walk
        .switches
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
    walk.sampler.mark(0.0, &walk.vector);
    for stop in stops {
        walk.to(stop)?;
    }
    Ok(walk.end())
}

struct Walk<'n> {
    net: &'n Network,
    stepper: Stepper<'n>,
    pace: Pace,
    switches: Switches<'n>,
    sampler: Sampler<'n>,
    vector: Vec<f64>,
    time_s: f64,
    step_s: f64,
    first_steps: FirstSteps,
    effort: Effort,
    at_departure: (Vec<f64>, Vec<f64>),
}

impl<'n> Walk<'n> {
    fn new(net: &'n Network, tolerance: f64, sample_s: f64) -> Self {
        let mut vector = net.initial.clone();
        vector.resize(net.index.states() + net.index.books, 0.0);
        Self {
            net,
            stepper: Stepper::new(Balance::new(net)),
            pace: Pace::new(&net.index, tolerance),
            switches: Switches::new(net),
            sampler: Sampler::new(net, sample_s),
            vector,
            time_s: 0.0,
            step_s: FIRST_STEP_S,
            first_steps: FirstSteps::default(),
            effort: Effort::default(),
            at_departure: (Vec::new(), Vec::new()),
        }
    }

    /// Marches to the next moment at which something may change.
    fn to(&mut self, stop_s: f64) -> Result<(), SolveError> {
        let changed = self
            .switches
            .follow_hours(self.time_s, &mut self.stepper, &self.vector);
        if changed {
            self.step_s = self.first_steps.after_switching(self.stepper.balance.on());
        }
        while stop_s - self.time_s > SAME_MOMENT_S {
            let left = stop_s - self.time_s;
            // Two even steps rather than one long and one tiny.
            let wanted = if self.step_s >= left {
                left
            } else if self.step_s > 0.5 * left {
                0.5 * left
            } else {
                self.step_s
            };
            let made = self.advance(wanted)?;
            self.time_s = if made == left {
                stop_s
            } else {
                self.time_s + made
            };
            self.sampler.follow(self.time_s, made, &self.stepper);
            self.effort.steps += 1;
            if self.effort.steps > MOST_STEPS {
                return Err(self.stuck(made, None));
            }
            self.act_on_crossing()?;
        }
        self.time_s = stop_s;
        self.sampler.mark(stop_s, &self.vector);
        if stop_s == self.net.departure_s {
            let states = self.vector[..self.net.index.states()].to_vec();
            self.at_departure = (states, self.stepper.balance.on().to_vec());
        }
        Ok(())
    }

    /// Makes one step of at most this length, cut short where a thermostat acts; returns its length.
    fn advance(&mut self, wanted_s: f64) -> Result<f64, SolveError> {
        let mut step = wanted_s;
        if let Err(cause) = self.stepper.begin(self.time_s, &self.vector) {
            return Err(self.stuck(step, Some(cause)));
        }
        let mut refused = false;
        loop {
            let tried = self.tried(step);
            let (measured, growth) = *tried.as_ref().unwrap_or(&(f64::NAN, f64::NAN));
            if measured <= 1.0 {
                let grown = step * growth;
                self.first_steps.learn(self.stepper.balance.on(), grown);
                // A step cut short by a stop says little about the next.
                self.step_s = if refused {
                    grown.min(step)
                } else if step < self.step_s {
                    grown.max(self.step_s)
                } else {
                    grown
                };
                break;
            }
            refused = true;
            self.effort.rejected += 1;
            step *= if measured.is_nan() {
                0.25
            } else {
                growth.min(0.9)
            };
            if step < LEAST_STEP_S {
                return Err(self.stuck(step, tried.err()));
            }
        }
        let step = self.cut_at_crossing(step)?;
        self.vector.copy_from_slice(&self.stepper.after);
        if let Some(bad) = self.vector.iter().position(|v| !v.is_finite()) {
            return Err(SolveError::NotANumber {
                time_h: self.time_s / 3600.0,
                column: self.column(bad),
            });
        }
        Ok(step)
    }

    /// Tries a step: its error over what is allowed, at its end or on the way, whichever is larger, and how many times
    /// longer a step might be.
    fn tried(&mut self, step_s: f64) -> Result<(f64, f64), StepError> {
        let before = &self.vector[..self.net.index.states()];
        self.stepper.attempt(self.time_s, step_s)?;
        let at_end = self
            .pace
            .measure(self.stepper.error(), before, &self.stepper.after);
        if at_end > 1.0 || at_end.is_nan() {
            return Ok((at_end, growth(at_end, END_ORDER)));
        }
        let on_the_way = self.stepper.error_on_the_way(self.time_s, step_s);
        // What is weighed is the size before the step.
        let on_the_way = self.pace.measure(on_the_way, before, before);
        let growth = growth(at_end, END_ORDER).min(growth(on_the_way, WAY_ORDER));
        Ok((at_end.max(on_the_way), growth))
    }

    /// Shortens the step just tried so that it ends where a thermostat acts.
    fn cut_at_crossing(&mut self, step_s: f64) -> Result<f64, SolveError> {
        let mut step = step_s;
        for _ in 0..CROSSING_TRIES {
            let Some((heater, share)) = self.switches.crossing(&self.stepper) else {
                return Ok(step);
            };
            if self.switches.overshoot(heater, &self.stepper) <= CROSSING_K {
                return Ok(step);
            }
            step = (step * share).max(LEAST_STEP_S);
            if let Err(cause) = self.stepper.attempt(self.time_s, step) {
                return Err(self.stuck(step, Some(cause.into())));
            }
        }
        Ok(step)
    }

    /// Flips the thermostats that the step just made has brought to their crossing.
    fn act_on_crossing(&mut self) -> Result<(), SolveError> {
        let mut acted = false;
        for heater in 0..self.net.heaters.len() {
            let over = self.switches.overshoot(heater, &self.stepper);
            if self.switches.waits(heater) && over >= -CROSSING_K {
                self.switches.flip(heater, self.time_s, &mut self.stepper);
                acted = true;
            }
        }
        if acted {
            self.sampler.mark(self.time_s, &self.vector);
            self.step_s = self.first_steps.after_switching(self.stepper.balance.on());
            if self.switches.made.len() > MOST_SWITCHINGS {
                return Err(SolveError::Restless {
                    time_h: self.time_s / 3600.0,
                    switchings: self.switches.made.len(),
                });
            }
        }
        Ok(())
    }

    fn column(&self, component: usize) -> String {
        let states = self.net.index.states();
        let column = if component < states {
            component
        } else {
            component + 1
        };
        self.net.legend.columns[column].label.clone()
    }

    fn stuck(&self, step_s: f64, cause: Option<StepError>) -> SolveError {
        let states = self.net.index.states();
        let worst = self.pace.worst(
            self.stepper.error(),
            &self.vector[..states],
            &self.stepper.after[..states],
        );
        SolveError::Stuck {
            time_h: self.time_s / 3600.0,
            step_s,
            column: self.column(worst),
            cause,
        }
    }

    /// Closes the books.
    fn end(mut self) -> Marched {
        let net = self.net;
        let states = net.index.states();
        let books = &self.vector[states..];
        let mut trace = std::mem::take(&mut self.sampler.trace);
        trace.switchings = std::mem::take(&mut self.switches.made);
        let heaters = net.heaters.len();
        let legend = &trace.legend;
        let ledger = Ledger {
            stored_before_j: stored_j(net, &net.initial),
            stored_after_j: stored_j(net, &self.vector),
            drawn_j: books[..heaters].to_vec(),
            fed_j: net.fed_w * net.end_s,
            lost_j: legend
                .losses
                .iter()
                .zip(&books[heaters..])
                .map(|(&(path, _), &joules)| (path, joules))
                .collect(),
            water_before_g: water_g(net, &net.initial),
            water_after_g: water_g(net, &self.vector),
            water_lost_g: books[heaters + legend.losses.len()],
            turnover_g: trace.turnover_g(f64::INFINITY),
        };
        Marched {
            effort: Effort {
                states,
                factorisations: self.stepper.factorisations(),
                evaluations: self.stepper.balance.evaluations,
                ..self.effort
            },
            trace,
            ledger,
            at_departure: self.at_departure,
        }
    }
}
