//! diffsol 0.18, a general-purpose integrator in Rust: its BDF and two of its singly diagonally implicit Runge-Kutta
//! methods, on the states alone, with exact slopes, a full matrix and root-finding.

use crate::carried::{Carried, Integrator, Reached, Work, carry};
use crate::problem::{Field, Hold, SAME_MOMENT_S, Switches};
use coldsoak::balance::Balance;
use coldsoak::network::Network;
use diffsol::{
    NalgebraLU, NalgebraMat, NalgebraVec, OdeBuilder, OdeEquations, OdeSolverMethod,
    OdeSolverStopReason,
};
use std::cell::RefCell;
use std::marker::PhantomData;

type Matrix = NalgebraMat<f64>;
type Linear = NalgebraLU<f64>;

/// Which of its methods.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Method {
    /// Variable order, 1 to 5.
    Bdf,
    /// Order 2.
    TrBdf2,
    /// Order 3(4).
    Esdirk34,
}

/// What its closures share.
struct Shared<'n> {
    field: Field<'n>,
    switches: Switches<'n>,
    place: Vec<f64>,
}

impl Shared<'_> {
    fn rates(&mut self, time_s: f64, states: &[f64], out: &mut [f64]) {
        if self.field.rates(time_s, states, out).is_err() {
            // Its iteration then does not converge, and it tries a shorter step.
            out.fill(f64::NAN);
        }
    }

    /// Slopes times a vector. A whole matrix is asked for column by column at one place: a column is then only copied.
    fn along(&mut self, time_s: f64, states: &[f64], vector: &[f64], out: &mut [f64]) {
        if self.place.first() != Some(&time_s) || self.place[1..] != *states {
            if !self.field.slopes_alone(time_s, states) {
                out.fill(f64::NAN);
                return;
            }
            self.place.clear();
            self.place.push(time_s);
            self.place.extend_from_slice(states);
        }
        out.fill(0.0);
        let alone = &self.field.slopes.alone;
        for (column, &share) in vector.iter().enumerate() {
            if share != 0.0 {
                for slot in alone.starts[column]..alone.starts[column + 1] {
                    out[alone.rows[slot]] += share * alone.values[slot];
                }
            }
        }
    }
}

/// A solver under way.
struct Stepping<'p, 'n, Eqn: OdeEquations, S> {
    solver: S,
    shared: &'p RefCell<Shared<'n>>,
    states: Vec<f64>,
    /// A root in the step just made that has not been reached yet.
    ahead: Option<(f64, usize)>,
    _equations: PhantomData<Eqn>,
}

impl<'p, 'n, Eqn, S> Integrator<'n> for Stepping<'p, 'n, Eqn, S>
where
    Eqn: OdeEquations<
            T = f64,
            V = NalgebraVec<f64>,
            C = <NalgebraVec<f64> as diffsol::VectorCommon>::C,
        > + 'p,
    S: OdeSolverMethod<'p, Eqn>,
{
    fn given<R>(&mut self, work: impl FnOnce(&mut Balance<'n>, &mut Switches<'n>) -> R) -> R {
        let shared = &mut *self.shared.borrow_mut();
        shared.place.clear();
        shared.field.switched();
        work(&mut shared.field.balance, &mut shared.switches)
    }
    fn restart(&mut self, time_s: f64) {
        let problem = self.solver.problem();
        let mut rates = vec![0.0; self.states.len()];
        self.shared
            .borrow_mut()
            .rates(time_s, &self.states, &mut rates);
        let mut state = self.solver.state_mut();
        for (i, rate) in rates.into_iter().enumerate() {
            state.dy[i] = rate;
        }
        state.set_step_size(problem.h0, &problem.atol, problem.rtol, &problem.eqn, 1);
    }
    fn stop_at(&mut self, stop_s: f64) {
        self.solver.set_stop_time(stop_s).expect("a stop ahead");
    }
    fn advance(&mut self, to_s: f64) -> Result<Reached, String> {
        loop {
            if let Some((at, heater)) = self.ahead
                && at <= to_s
            {
                self.ahead = None;
                self.solver.state_mut_back(at).map_err(|e| e.to_string())?;
                let y = self.solver.state().y;
                self.states
                    .iter_mut()
                    .enumerate()
                    .for_each(|(i, to)| *to = y[i]);
                return Ok(Reached::Crossing(at, vec![heater]));
            }
            let now = self.solver.state().t;
            if now >= to_s - SAME_MOMENT_S {
                if now - to_s <= SAME_MOMENT_S {
                    let y = self.solver.state().y;
                    self.states
                        .iter_mut()
                        .enumerate()
                        .for_each(|(i, to)| *to = y[i]);
                } else {
                    let y = self.solver.interpolate(to_s).map_err(|e| e.to_string())?;
                    self.states
                        .iter_mut()
                        .enumerate()
                        .for_each(|(i, to)| *to = y[i]);
                }
                return Ok(Reached::There);
            }
            if let OdeSolverStopReason::RootFound(at, heater) =
                self.solver.step().map_err(|e| e.to_string())?
            {
                self.ahead = Some((at, heater));
            }
        }
    }
    fn states(&self) -> Vec<f64> {
        self.states.clone()
    }
    fn work(&mut self) -> Work {
        let counted = self.solver.get_statistics().clone();
        let field = &self.shared.borrow().field;
        Work {
            steps: counted.number_of_steps,
            rates: field.balance.evaluations,
            jacobians: field.jacobians,
            factorisations: counted.number_of_linear_solver_setups,
        }
    }
}

/// Carries a night.
pub fn integrate<'n>(
    net: &'n Network,
    field: Field<'n>,
    hold: Hold,
    method: Method,
) -> Result<Carried, String> {
    let n = net.index.states();
    let shared = RefCell::new(Shared {
        field,
        switches: Switches::new(net),
        place: Vec::new(),
    });
    macro_rules! carried {
        ($problem:expr) => {{
            let problem = $problem.map_err(|e| e.to_string())?;
            macro_rules! by {
                ($solver:expr) => {
                    carry(
                        net,
                        Stepping {
                            solver: $solver.map_err(|e| e.to_string())?,
                            shared: &shared,
                            states: net.initial.clone(),
                            ahead: None,
                            _equations: PhantomData,
                        },
                    )
                };
            }
            match method {
                Method::Bdf => by!(problem.bdf::<Linear>()),
                Method::TrBdf2 => by!(problem.tr_bdf2::<Linear>()),
                Method::Esdirk34 => by!(problem.esdirk34::<Linear>()),
            }
        }};
    }
    let builder = OdeBuilder::<Matrix>::new()
        .rtol(hold.relative())
        .atol(hold.absolute(net))
        .rhs_implicit(
            |x: &[f64], _: &[f64], t: f64, y: &mut [f64]| shared.borrow_mut().rates(t, x, y),
            |x: &[f64], _: &[f64], t: f64, v: &[f64], y: &mut [f64]| {
                shared.borrow_mut().along(t, x, v, y)
            },
        )
        .init(
            |_: &[f64], _: f64, y: &mut [f64]| y.copy_from_slice(&net.initial),
            n,
        );
    if net.heaters.iter().any(|h| h.thermostat.is_some()) {
        let felt = |x: &[f64], _: &[f64], _: f64, out: &mut [f64]| {
            shared.borrow().switches.distances(x, out);
        };
        carried!(builder.root(felt, net.heaters.len()).build())
    } else {
        carried!(builder.build())
    }
}
