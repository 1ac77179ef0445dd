//! One night on its way: which step it tries next, and what becomes of a step that was tried.
//!
//! It knows nothing of how steps are made, so that nights can go alone or abreast.

use super::failure::SolveError;
use super::marched::{Effort, Marched};
use super::method::STAGES;
use super::pace::{self, END_ORDER, FIRST_STEP_S, Pace, WAY_ORDER};
use super::sampler::Sampler;
use super::step::{StepError, Tried};
use super::switching::Switches;
use crate::balance::{stored_j, water_g};
use crate::network::Network;
use crate::physics::number::Register;
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

/// A night on its way.
pub struct Walk<'n> {
    /// Its network.
    pub net: &'n Network,
    pace: Pace,
    switches: Switches<'n>,
    sampler: Sampler<'n>,
    /// States and books where the next step begins.
    pub vector: Vec<f64>,
    /// When the next step begins, s.
    pub time_s: f64,
    /// Moments at which something may change, the next one first.
    stops: std::iter::Peekable<std::vec::IntoIter<f64>>,
    /// How long a step the error allows, s.
    allowed_s: f64,
    trying: Trying,
    effort: Effort,
    at_departure: (Vec<f64>, Vec<f64>),
}

/// The step that is tried.
#[derive(Clone, Copy, PartialEq)]
enum Trying {
    /// None yet from here.
    Nothing,
    /// For its error, which may have refused longer ones; the error measured over what is allowed (not a number where
    /// there is none), and how many times longer the step might be.
    Error {
        step_s: f64,
        refused: bool,
        measured: f64,
        growth: f64,
    },
    /// One whose error is right, cut short where a thermostat acts.
    Crossing { step_s: f64, tries: usize },
}

impl Trying {
    fn of(step_s: f64, refused: bool) -> Self {
        Self::Error {
            step_s,
            refused,
            measured: f64::NAN,
            growth: f64::NAN,
        }
    }
}

impl<'n> Walk<'n> {
    /// The night of a network, at its beginning. `tolerance` scales the error allowed in a step; samples are at most
    /// `sample_s` apart.
    pub fn new(net: &'n Network, tolerance: f64, sample_s: f64) -> Self {
        let mut vector = net.initial.clone();
        vector.resize(net.index.states() + net.index.books, 0.0);
        let switches = Switches::new(net);
        let mut sampler = Sampler::new(net, sample_s);
        sampler.mark(0.0, &vector);
        let mut walk = Self {
            net,
            pace: Pace::new(&net.index, tolerance),
            stops: stops(net, &switches).into_iter().peekable(),
            switches,
            sampler,
            vector,
            time_s: 0.0,
            allowed_s: FIRST_STEP_S,
            trying: Trying::Nothing,
            effort: Effort::default(),
            at_departure: (Vec::new(), Vec::new()),
        };
        walk.follow_hours();
        walk.pass_stops();
        walk
    }

    /// Whether the night is over.
    pub fn is_over(&self) -> bool {
        self.stops.len() == 0
    }
    /// Which heaters are on.
    pub fn on(&self) -> &[bool] {
        self.switches.on()
    }
    /// Whether the next step begins where none was tried yet.
    pub fn is_new_here(&self) -> bool {
        self.trying == Trying::Nothing
    }

    /// The step to try, s.
    pub fn step_to_try_s(&mut self) -> f64 {
        if self.trying == Trying::Nothing {
            let left = self.left_s();
            // Two even steps rather than one long and one tiny.
            let step_s = if self.allowed_s >= left {
                left
            } else if self.allowed_s > 0.5 * left {
                0.5 * left
            } else {
                self.allowed_s
            };
            self.trying = Trying::of(step_s, false);
            self.effort.evaluations += 1;
        }
        self.effort.factorisations += 1;
        self.effort.evaluations += STAGES - 1;
        match self.trying {
            Trying::Nothing => 0.0,
            Trying::Error { step_s, .. } | Trying::Crossing { step_s, .. } => step_s,
        }
    }

    fn left_s(&mut self) -> f64 {
        let stop_s = self.stops.peek().copied().unwrap_or(self.time_s);
        stop_s - self.time_s
    }

    /// Measures the error at the end of the step tried, if it is tried for that and could be made; whether it is right.
    pub fn measure_end<G: Register>(&mut self, tried: &Tried<G>, not_made: bool) -> bool {
        let Trying::Error {
            measured, growth, ..
        } = &mut self.trying
        else {
            return false;
        };
        if not_made {
            return false;
        }
        let before = &self.vector[..self.net.index.states()];
        *measured = self
            .pace
            .measure(|i| tried.error(i), before, |i| tried.after(i));
        *growth = pace::growth(*measured, END_ORDER);
        *measured <= 1.0
    }

    /// Measures the error on the way of the step tried, if that at its end is right.
    pub fn measure_way(&mut self, error: impl Fn(usize) -> f64) {
        let Trying::Error {
            measured, growth, ..
        } = &mut self.trying
        else {
            return;
        };
        if *measured > 1.0 || measured.is_nan() {
            return;
        }
        self.effort.evaluations += 1;
        let before = &self.vector[..self.net.index.states()];
        // What is weighed is the size before the step.
        let on_the_way = self.pace.measure(error, before, |i| before[i]);
        *growth = growth.min(pace::growth(on_the_way, WAY_ORDER));
        // `max` would pass over what is no number.
        if !(on_the_way <= *measured) {
            *measured = on_the_way;
        }
    }

    /// Keeps the step tried, or has it tried again, shorter; whether it was kept.
    ///
    /// *Errors*: no step is short enough, a state is not a number, a thermostat never rests.
    pub fn judge<G: Register>(
        &mut self,
        tried: &Tried<G>,
        cause: &Option<StepError>,
    ) -> Result<bool, SolveError> {
        let (step_s, tries) = match self.trying {
            Trying::Nothing => return Ok(false),
            Trying::Crossing { step_s, tries } => (step_s, tries),
            Trying::Error {
                step_s,
                refused,
                measured,
                growth,
            } => {
                if measured > 1.0 || measured.is_nan() {
                    // A corner makes the error fall more slowly than it should: once refused, be bolder.
                    let growth = if refused { growth.min(0.5) } else { growth };
                    return self.refuse(tried, step_s, growth, cause);
                }
                let grown = step_s * growth;
                // A step cut short by a stop says little about the next.
                self.allowed_s = if refused {
                    grown.min(step_s)
                } else if step_s < self.allowed_s {
                    grown.max(self.allowed_s)
                } else {
                    grown
                };
                (step_s, 0)
            }
        };
        if let Some((heater, share)) = self.switches.crossing(tried)
            && self.switches.overshoot(heater, tried) > CROSSING_K
            && tries < CROSSING_TRIES
        {
            self.trying = Trying::Crossing {
                step_s: (step_s * share).max(LEAST_STEP_S),
                tries: tries + 1,
            };
            return Ok(false);
        }
        self.keep(tried, step_s)?;
        Ok(true)
    }

    fn refuse<G: Register>(
        &mut self,
        tried: &Tried<G>,
        step_s: f64,
        growth: f64,
        cause: &Option<StepError>,
    ) -> Result<bool, SolveError> {
        self.effort.rejected += 1;
        let shrink = if growth.is_nan() {
            0.25
        } else {
            growth.min(0.9)
        };
        let step_s = step_s * shrink;
        if step_s < LEAST_STEP_S {
            return Err(self.stuck(tried, step_s, cause.clone()));
        }
        self.trying = Trying::of(step_s, true);
        Ok(false)
    }

    /// Goes to the end of the step tried.
    fn keep<G: Register>(&mut self, tried: &Tried<G>, step_s: f64) -> Result<(), SolveError> {
        self.trying = Trying::Nothing;
        for (i, value) in self.vector.iter_mut().enumerate() {
            *value = tried.after(i);
        }
        if let Some(bad) = self.vector.iter().position(|v| !v.is_finite()) {
            return Err(SolveError::NotANumber {
                time_h: self.time_s / 3600.0,
                column: self.column(bad),
            });
        }
        let stop_s = self.stops.peek().copied().unwrap_or(self.time_s);
        self.time_s = if step_s == stop_s - self.time_s {
            stop_s
        } else {
            self.time_s + step_s
        };
        self.sampler.follow(self.time_s, step_s, tried);
        self.effort.steps += 1;
        if self.effort.steps > MOST_STEPS {
            return Err(self.stuck(tried, step_s, None));
        }
        self.act_on_crossing(tried)?;
        self.pass_stops();
        Ok(())
    }

    /// Flips the thermostats that the step just made has brought to their crossing.
    fn act_on_crossing<G: Register>(&mut self, tried: &Tried<G>) -> Result<(), SolveError> {
        let mut acted = false;
        for heater in 0..self.net.heaters.len() {
            let over = self.switches.overshoot(heater, tried);
            if self.switches.waits(heater) && over >= -CROSSING_K {
                self.switches.flip(heater, self.time_s);
                acted = true;
            }
        }
        if acted {
            self.sampler.mark(self.time_s, &self.vector);
            self.allowed_s = FIRST_STEP_S;
            if self.switches.made.len() > MOST_SWITCHINGS {
                return Err(SolveError::Restless {
                    time_h: self.time_s / 3600.0,
                    switchings: self.switches.made.len(),
                });
            }
        }
        Ok(())
    }

    /// Leaves behind the moments that are reached.
    fn pass_stops(&mut self) {
        while let Some(stop_s) = self
            .stops
            .next_if(|stop_s| stop_s - self.time_s <= SAME_MOMENT_S)
        {
            self.time_s = stop_s;
            self.sampler.mark(stop_s, &self.vector);
            if stop_s == self.net.departure_s {
                let states = self.vector[..self.net.index.states()].to_vec();
                let on = self.switches.on().iter();
                self.at_departure = (states, on.map(|&on| f64::from(u8::from(on))).collect());
            }
            if !self.is_over() {
                self.follow_hours();
            }
        }
    }

    fn follow_hours(&mut self) {
        if self.switches.follow_hours(self.time_s, &self.vector) {
            self.allowed_s = FIRST_STEP_S;
        }
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

    /// The failure of a night that no step brings further.
    pub fn stuck<G: Register>(
        &self,
        tried: &Tried<G>,
        step_s: f64,
        cause: Option<StepError>,
    ) -> SolveError {
        let states = self.net.index.states();
        let worst = self.pace.worst(
            |i| tried.error(i),
            &self.vector[..states],
            |i| tried.after(i),
        );
        SolveError::Stuck {
            time_h: self.time_s / 3600.0,
            step_s,
            column: self.column(worst),
            cause,
        }
    }

    /// Closes the books.
    pub fn end(mut self) -> Marched {
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
            turnover_g: trace.turnover_g(),
        };
        Marched {
            effort: Effort {
                states,
                ..self.effort
            },
            trace,
            ledger,
            at_departure: self.at_departure,
        }
    }
}

/// The moments at which something may change, in their order.
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
