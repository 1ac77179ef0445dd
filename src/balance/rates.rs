//! The balance put together: from the states and the time to the rates, and to their exact slopes.
//!
//! Auxiliary unknowns (means, watts, pressures, air speeds ...) follow from the states at once. For the
//! rates they are found in order; for the slopes they stay in the matrix as rows of their own, whose elimination
//! gives the slopes of the states alone.

use super::evaluation::{Balance, Entry, Evaluate, Through};
use super::jacobian::Pattern;
use super::pressures::{Lane, PressureError, Pressures};
use crate::laws::visit_all;
use crate::network::Network;

impl<'n> Balance<'n> {
    /// The balance of a network, all heaters off.
    pub fn new(net: &'n Network) -> Self {
        Self::of(net)
    }
    /// Switches a heater.
    pub fn switch(&mut self, heater: usize, on: bool) {
        self.switch_lane(0, heater, on);
    }
    /// The network.
    pub fn network(&self) -> &'n Network {
        self.nets
    }
    /// Overrides an input for the next evaluations made with [`Balance::rates_given_inputs`].
    pub fn set_input(&mut self, which: usize, value: f64) {
        let column = self.nets.index.input(which);
        self.x[column] = value;
        self.input_rates[which] = 0.0;
    }
    /// Lets later searches start from the pressures last found.
    pub fn solve_algebraic(&mut self) {
        for (kept, pocket) in self.warm_start.iter_mut().zip(&self.nets.pockets) {
            *kept = self.x[pocket.pressure];
        }
    }
    /// The rates at any columns: states, auxiliaries and inputs as given. What an auxiliary is wrong by stands in its row.
    pub fn rates_at(&mut self, columns: &[f64]) -> &[f64] {
        self.x.copy_from_slice(columns);
        self.go_through(Through {
            before: true,
            fins: true,
            after: true,
            finding: false,
        });
        &self.out
    }
    /// The slopes at any columns: states, auxiliaries (not closed) and inputs as given.
    pub fn jacobian_at(&mut self, columns: &[f64]) -> &[f64] {
        self.x.copy_from_slice(columns);
        self.slopes()
    }
}

#[allow(private_bounds)]
impl<'n, G: Evaluate> Balance<'n, G> {
    /// The balance of the networks of all lanes, all heaters off. They must be alike ([`super::same_structure`]).
    pub fn of(nets: G::Each<'n, Network>) -> Self {
        let net = G::first(nets);
        let mut pattern = Pattern {
            laws: &net.laws,
            pairs: Vec::new(),
        };
        visit_all(&mut pattern);
        let (places, slots) = pattern.places();
        let entries: Vec<Entry> = places
            .into_iter()
            .map(|(row, column)| Entry { row, column })
            .collect();
        let zeros = |count: usize| vec![G::all(0.0); count];
        Self {
            nets,
            x: zeros(net.index.columns()),
            out: zeros(net.index.rows()),
            input_rates: zeros(net.index.inputs),
            on: zeros(net.heaters.len()),
            warm_start: zeros(net.pockets.len()),
            pressures: Pressures::new(net.pockets.len()),
            slopes: zeros(entries.len()),
            entries,
            slots,
            evaluations: 0,
        }
    }

    /// The networks.
    pub fn networks(&self) -> G::Each<'n, Network> {
        self.nets
    }
    /// The places of the matrix of slopes that can be other than zero, by rows; columns reach over states,
    /// auxiliaries and inputs, rows over states, auxiliaries and books.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }
    /// Switches a heater of one lane.
    pub fn switch_lane(&mut self, lane: usize, heater: usize, on: bool) {
        self.on[heater].set_lane(lane, f64::from(u8::from(on)));
    }
    /// Which heaters are on.
    pub fn on(&self) -> &[G] {
        &self.on
    }
    /// Lets later searches start from these pressures, Pa.
    pub fn predict_pressures(&mut self, pressures: &[G]) {
        self.warm_start.copy_from_slice(pressures);
    }
    /// The pressures as they last stood, found or given, Pa.
    pub fn pressures(&self) -> impl Iterator<Item = G> + '_ {
        self.net().pockets.iter().map(|p| self.x[p.pressure])
    }
    /// Puts another network, all heaters off, into a lane.
    pub fn load(&mut self, lane: usize, net: &'n Network) {
        G::put(&mut self.nets, lane, net);
        for on in &mut self.on {
            on.set_lane(lane, 0.0);
        }
    }
    /// All columns as they were last evaluated.
    pub fn columns(&self) -> &[G] {
        &self.x
    }

    /// The rates at a time: a row for each state (watts, grams a second), then auxiliaries (zero), then books.
    ///
    /// *Errors*: the air streams do not balance.
    pub fn rates(&mut self, time_s: G, states: &[G]) -> Result<&[G], PressureError> {
        self.read_inputs(time_s);
        self.rates_given_inputs(states)
    }

    /// The rates with the inputs as they stand.
    ///
    /// *Errors*: the air streams do not balance.
    pub fn rates_given_inputs(&mut self, states: &[G]) -> Result<&[G], PressureError> {
        let net = self.net();
        self.set_state(states);
        self.go_through(Through {
            before: true,
            fins: false,
            after: false,
            finding: true,
        });
        for (kept, pocket) in self.warm_start.iter().zip(&net.pockets) {
            self.x[pocket.pressure] = *kept;
        }
        self.find_pressures()?;
        self.go_through(Through {
            before: false,
            fins: false,
            after: true,
            finding: true,
        });
        for pocket in &net.pockets {
            self.out[pocket.pressure] = G::ZERO;
        }
        Ok(&self.out)
    }

    /// The rates at a time with these pressures, which need not balance the streams: what each pocket then has
    /// too much stands in the row of its pressure, kg/s. The pressure of a pocket whose air has no way out is taken as it is.
    pub fn rates_under(&mut self, time_s: G, states: &[G], pressures: &[G]) -> &[G] {
        self.read_inputs(time_s);
        self.set_state(states);
        for (given, pocket) in pressures.iter().zip(&self.net().pockets) {
            self.x[pocket.pressure] = *given;
        }
        self.go_through(Through {
            before: true,
            fins: true,
            after: true,
            finding: true,
        });
        &self.out
    }

    /// Finds the pressures of every lane, each for itself: they are few, and take other numbers of iterations.
    fn find_pressures(&mut self) -> Result<(), PressureError> {
        for lane in 0..G::LANES {
            let net = G::nth(self.nets, lane);
            let on = |heater: usize| self.on[heater].lane(lane);
            let mut column = Lane {
                of: &mut self.x,
                lane,
            };
            match self.pressures.solve(net, &mut column, on) {
                Err(error) if G::LANES == 1 => return Err(error),
                // Of nights in lanes, one must not stop the others. A pressure that is no number spoils all that hangs on it,
                // so that the step is refused; one that is pinned may touch little, hence all of them.
                Err(_) => {
                    for pocket in &net.pockets {
                        column.set(pocket.pressure, f64::NAN);
                    }
                }
                Ok(()) => {}
            }
        }
        Ok(())
    }

    /// Takes states; auxiliaries that are found by adding up begin at nothing, so that a trial that went astray leaves
    /// nothing behind.
    fn set_state(&mut self, states: &[G]) {
        self.evaluations += 1;
        self.x[..states.len()].copy_from_slice(states);
        let order = &self.net().auxiliaries;
        for &column in [
            &order.means,
            &order.watts,
            &order.impacts,
            &order.fin_streams,
        ]
        .into_iter()
        .flatten()
        {
            self.x[column] = G::ZERO;
        }
    }

    fn read_inputs(&mut self, time_s: G) {
        let ix = &self.net().index;
        for lane in 0..G::LANES {
            let at = time_s.lane(lane);
            for (which, curve) in G::nth(self.nets, lane).inputs.iter().enumerate() {
                let (value, rate) = curve.at(at);
                self.x[ix.input(which)].set_lane(lane, value);
                self.input_rates[which].set_lane(lane, rate);
            }
        }
    }

    /// The slopes where the rates were last evaluated, a value for each entry.
    pub fn slopes(&mut self) -> &[G] {
        self.find_slopes();
        &self.slopes
    }

    /// How fast each row changes by itself, with the inputs, where the slopes were last evaluated.
    pub fn time_derivative(&self, out: &mut [G]) {
        self.find_time_derivative(out);
    }
}
