//! Manufactured solutions: the states are given a way to go, and what the real balance lacks to go it is fed in.
//!
//! With a chosen smooth way `y(t)` and the balance `C y' = f(t, y)`, the source `s(t) = C y'(t) - f(t, y(t))` makes
//! `y` the exact solution of `C y' = f + s`. Source of the method: Roache, Verification and Validation in
//! Computational Science and Engineering (1998), chapter 3; Salari and Knupp, SAND2000-1444 (both from memory).
//!
//! What this shows is that the equations as they stand are solved right: stages, slopes, pressures found at every stage,
//! what changes with time by itself. Whether the laws are the right ones it cannot show, since the source is made from
//! them; `tests/physics` and `tests/exact` do.
//!
//! Nothing in the library knows of it: the source of a state is one more given input of the network and a linear
//! term in its row. Given inputs are straight lines between points, and a step looks at them at its stages only; so a
//! line through the values at the stages, which leaves each beginning of a step at the right slope, is to the method
//! what the smooth curve is.

use coldsoak::balance::Balance;
use coldsoak::laws::Term;
use coldsoak::network::Network;
use coldsoak::network::surroundings::Curve;
use coldsoak::solver::Stepper;

/// Where, within a step, RODAS4 looks at what is given besides its ends (as in `solver/method`).
const WITHIN: [f64; 3] = [0.21, 0.386, 0.63];
/// A beginning's slope is held for this share of a step.
const HELD: f64 = 1e-3;

/// A smooth way: a level and a swing about it.
#[derive(Debug, Clone, Copy)]
pub struct Way {
    /// The level.
    pub level: f64,
    /// How far it swings.
    pub swing: f64,
    /// Radians a second.
    pub omega: f64,
    /// Where it begins, radians.
    pub phase: f64,
}

impl Way {
    /// The value at a time.
    pub fn at(&self, time_s: f64) -> f64 {
        self.level + self.swing * (self.omega * time_s + self.phase).sin()
    }
    /// Its rate of change a second.
    pub fn rate(&self, time_s: f64) -> f64 {
        self.swing * self.omega * (self.omega * time_s + self.phase).cos()
    }
}

/// A network whose states and inputs are made to go these ways.
pub struct Forced<'n> {
    /// The network as it is.
    pub net: &'n Network,
    /// A way for each state.
    pub states: Vec<Way>,
    /// A way for each input.
    pub inputs: Vec<Way>,
}

impl Forced<'_> {
    /// What the balance lacks at a time for the states to go their ways, a value a state.
    fn source(&self, balance: &mut Balance, time_s: f64) -> Vec<f64> {
        for (which, way) in self.inputs.iter().enumerate() {
            balance.set_input(which, way.at(time_s));
        }
        let there: Vec<f64> = self.states.iter().map(|way| way.at(time_s)).collect();
        let rates = balance.rates_given_inputs(&there).unwrap();
        (0..there.len())
            .map(|i| self.net.capacities[i] * self.states[i].rate(time_s) - rates[i])
            .collect()
    }

    /// The rates of the sources, by differences of fourth order.
    fn source_rates(&self, balance: &mut Balance, time_s: f64, by_s: f64) -> Vec<f64> {
        let [far_before, before, after, far_after] =
            [-2.0, -1.0, 1.0, 2.0].map(|n| self.source(balance, time_s + n * by_s));
        (0..before.len())
            .map(|i| {
                (8.0 * (after[i] - before[i]) - (far_after[i] - far_before[i])) / (12.0 * by_s)
            })
            .collect()
    }

    /// The network with its sources, for so many even steps over a span, all heaters on.
    fn fed(&self, span_s: f64, steps: usize) -> Network {
        let mut balance = switched_on(Balance::new(self.net));
        let step_s = span_s / steps as f64;
        let by_s = 1.0 / (64.0 * self.states[0].omega);
        let width = self.inputs.len() + self.states.len();
        let mut curves: Vec<Vec<(f64, f64)>> = vec![Vec::new(); width];
        let mut put = |time_s: f64, inputs: &[f64], sources: &[f64]| {
            for (curve, value) in curves.iter_mut().zip(inputs.iter().chain(sources)) {
                curve.push((time_s, *value));
            }
        };
        for number in 0..=steps {
            let begun_s = number as f64 * step_s;
            let given = |t: f64| -> Vec<f64> { self.inputs.iter().map(|w| w.at(t)).collect() };
            let (values, sources) = (given(begun_s), self.source(&mut balance, begun_s));
            put(begun_s, &values, &sources);
            let held_s = HELD * step_s;
            let after = |values: &[f64], rates: &[f64]| -> Vec<f64> {
                let both = values.iter().zip(rates);
                both.map(|(v, r)| v + r * held_s).collect()
            };
            let rates: Vec<f64> = self.inputs.iter().map(|w| w.rate(begun_s)).collect();
            let source_rates = self.source_rates(&mut balance, begun_s, by_s);
            put(
                begun_s + held_s,
                &after(&values, &rates),
                &after(&sources, &source_rates),
            );
            for share in WITHIN {
                let time_s = begun_s + share * step_s;
                put(time_s, &given(time_s), &self.source(&mut balance, time_s));
            }
        }
        let mut net = self.net.clone();
        net.inputs = curves.into_iter().map(Curve::through).collect();
        let first = net.index.inputs;
        assert_eq!(first, self.inputs.len());
        net.index.inputs = width;
        let terms =
            (0..self.states.len()).map(|row| Term::new(row, net.index.input(first + row), 1.0));
        net.laws.means.extend(terms);
        net.initial = self.states.iter().map(|way| way.at(0.0)).collect();
        net
    }

    /// The largest error of each state over an integration of so many even steps.
    pub fn errors(&self, span_s: f64, steps: usize) -> Vec<f64> {
        let net = self.fed(span_s, steps);
        let mut stepper = Stepper::new(switched_on(Balance::new(&net)));
        let mut vector = net.initial.clone();
        vector.resize(net.index.states() + net.index.books, 0.0);
        let step_s = span_s / steps as f64;
        let mut worst = vec![0.0_f64; self.states.len()];
        for number in 0..steps {
            let time_s = number as f64 * step_s;
            stepper.set_state(0, &vector);
            stepper.begin(time_s).unwrap();
            stepper.attempt(time_s, step_s).unwrap();
            for (i, value) in vector.iter_mut().enumerate() {
                *value = stepper.tried(0).after(i);
            }
            stepper.keep(0);
            for (i, way) in self.states.iter().enumerate() {
                worst[i] = worst[i].max((vector[i] - way.at(time_s + step_s)).abs());
            }
        }
        worst
    }
}

/// With every heater on.
fn switched_on(mut balance: Balance) -> Balance {
    for heater in 0..balance.network().heaters.len() {
        balance.switch(heater, true);
    }
    balance
}
