//! The balance put together: from the states and the time to the rates, and to their exact slopes.
//!
//! Auxiliary unknowns (means, watts, pressures, draughts ...) follow from the states at once. For the
//! rates they are found in order; for the slopes they stay in the matrix as a border, whose elimination
//! gives the slopes of the states alone.

use super::law::{Law, Visitor};
use super::order::{Values, visit_all, visit_gas, visit_means, visit_rest, visit_streams};
use super::pressures::{PressureError, Pressures};
use crate::network::Network;
use crate::physics::number::Dual;

/// An entry of the matrix of slopes: row, column, and where its value stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Entry {
    /// The row.
    pub row: usize,
    /// The column.
    pub column: usize,
}

/// The balance of one network, with its work space.
#[derive(Debug, Clone)]
pub struct Balance<'n> {
    net: &'n Network,
    x: Vec<f64>,
    out: Vec<f64>,
    input_rates: Vec<f64>,
    on: Vec<f64>,
    warm_start: Vec<f64>,
    pressures: Pressures,
    entries: Vec<Entry>,
    slots: Vec<u32>,
    slopes: Vec<f64>,
    /// Evaluations of the rates since the beginning.
    pub evaluations: usize,
}

impl<'n> Balance<'n> {
    /// The balance of a network, all heaters off.
    pub fn new(net: &'n Network) -> Self {
        let mut pattern = Pattern::default();
        visit_all(&net.laws, &mut pattern);
        let mut sorted = pattern.pairs.clone();
        sorted.sort_unstable();
        sorted.dedup();
        let slots = pattern
            .pairs
            .iter()
            .map(|pair| sorted.binary_search(pair).unwrap_or(0) as u32)
            .collect();
        let entries: Vec<Entry> = sorted
            .into_iter()
            .map(|(row, column)| Entry { row, column })
            .collect();
        Self {
            net,
            x: vec![0.0; net.index.columns()],
            out: vec![0.0; net.index.rows()],
            input_rates: vec![0.0; net.index.inputs],
            on: vec![0.0; net.heaters.len()],
            warm_start: vec![0.0; net.pockets.len()],
            pressures: Pressures::new(net.pockets.len()),
            slopes: vec![0.0; entries.len()],
            entries,
            slots,
            evaluations: 0,
        }
    }

    /// The network.
    pub fn network(&self) -> &'n Network {
        self.net
    }
    /// The places of the matrix of slopes that can be other than zero, by rows; columns reach over states,
    /// auxiliaries and inputs, rows over states, auxiliaries and books.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }
    /// Switches a heater.
    pub fn switch(&mut self, heater: usize, on: bool) {
        self.on[heater] = f64::from(u8::from(on));
    }
    /// Which heaters are on.
    pub fn on(&self) -> &[f64] {
        &self.on
    }
    /// The pressures from which later searches start.
    pub fn expect(&mut self, pressures: &[f64]) {
        self.warm_start.copy_from_slice(pressures);
    }
    /// Lets later searches start from the pressures last found.
    pub fn settle(&mut self) {
        for (kept, pocket) in self.warm_start.iter_mut().zip(&self.net.pockets) {
            *kept = self.x[pocket.pressure];
        }
    }
    /// The pressures as they were last found.
    pub fn pressures(&self) -> impl Iterator<Item = f64> + '_ {
        self.net.pockets.iter().map(|p| self.x[p.pressure])
    }
    /// Overrides an input for the next evaluations made with [`Balance::rates_given_inputs`].
    pub fn set_input(&mut self, which: usize, value: f64) {
        let column = self.net.index.input(which);
        self.x[column] = value;
        self.input_rates[which] = 0.0;
    }
    /// All columns as they were last evaluated.
    pub fn columns(&self) -> &[f64] {
        &self.x
    }

    /// The rates at a time: a row for each state (watts, grams a second), then auxiliaries (zero), then books.
    ///
    /// *Errors*: the air streams do not balance.
    pub fn rates(&mut self, time_s: f64, states: &[f64]) -> Result<&[f64], PressureError> {
        self.read_inputs(time_s);
        self.rates_given_inputs(states)
    }

    /// The rates with the inputs as they stand.
    ///
    /// *Errors*: the air streams do not balance.
    pub fn rates_given_inputs(&mut self, states: &[f64]) -> Result<&[f64], PressureError> {
        let net = self.net;
        self.begin_rates(states);
        for (kept, pocket) in self.warm_start.iter().zip(&net.pockets) {
            self.x[pocket.pressure] = *kept;
        }
        self.pressures.solve(net, &mut self.x, &self.on)?;
        self.finish_rates();
        for pocket in &net.pockets {
            self.out[pocket.pressure] = 0.0;
        }
        Ok(&self.out)
    }

    /// The rates at a time with these pressures, which need not balance the streams: what each pocket then has
    /// too much stands in the row of its pressure, kg/s.
    pub fn rates_under(&mut self, time_s: f64, states: &[f64], pressures: &[f64]) -> &[f64] {
        let net = self.net;
        self.read_inputs(time_s);
        self.begin_rates(states);
        for (given, pocket) in pressures.iter().zip(&net.pockets) {
            self.x[pocket.pressure] = *given;
        }
        for &column in &net.auxiliaries.fin_streams {
            self.x[column] = 0.0;
        }
        self.values().visit_each(&net.laws.fin_streams);
        self.close(&net.auxiliaries.fin_streams);
        self.finish_rates();
        &self.out
    }

    fn read_inputs(&mut self, time_s: f64) {
        for (which, curve) in self.net.inputs.iter().enumerate() {
            let (value, rate) = curve.at(time_s);
            self.x[self.net.index.input(which)] = value;
            self.input_rates[which] = rate;
        }
    }

    /// What is known before the streams are.
    fn begin_rates(&mut self, states: &[f64]) {
        self.evaluations += 1;
        let net = self.net;
        let (laws, order) = (&net.laws, &net.auxiliaries);
        self.x[..states.len()].copy_from_slice(states);
        self.out.fill(0.0);
        // A trial that went astray leaves nothing behind.
        for &column in [&order.means, &order.watts, &order.impacts]
            .into_iter()
            .flatten()
        {
            self.x[column] = 0.0;
        }
        visit_means(laws, &mut self.values());
        self.close(&order.means);
        self.values().visit_each(&laws.fan_watts);
        self.close(&order.watts);
        self.values().visit_each(&laws.impacts);
        self.close(&order.impacts);
    }

    /// What follows from the streams.
    fn finish_rates(&mut self) {
        let net = self.net;
        let laws = &net.laws;
        visit_streams(laws, &mut self.values());
        for pocket in &net.pockets {
            self.x[pocket.draught] = self.out[pocket.draught] / pocket.draught_scale;
            self.out[pocket.draught] = 0.0;
        }
        visit_gas(laws, &mut self.values());
        if let Some(heat) = net.auxiliaries.gas_heat {
            self.x[heat] = self.out[heat];
            self.out[heat] = 0.0;
        }
        visit_rest(laws, &mut self.values());
    }

    fn values(&mut self) -> Values<'_, f64> {
        Values {
            x: &self.x,
            on: &self.on,
            out: &mut self.out,
        }
    }

    /// Finds auxiliaries whose rows are linear in themselves with factor −1, from rows met while they were zero.
    fn close(&mut self, auxiliaries: &[usize]) {
        for &column in auxiliaries {
            self.x[column] = self.out[column];
            self.out[column] = 0.0;
        }
    }

    /// The slopes where the rates were last evaluated, a value for each entry.
    pub fn slopes(&mut self) -> &[f64] {
        self.slopes.fill(0.0);
        let mut visitor = Slopes {
            x: &self.x,
            on: &self.on,
            slots: &self.slots,
            at: 0,
            values: &mut self.slopes,
        };
        visit_all(&self.net.laws, &mut visitor);
        &self.slopes
    }

    /// The slopes at any columns: states, auxiliaries (not closed) and inputs as given.
    pub fn slopes_at(&mut self, columns: &[f64]) -> &[f64] {
        self.x.copy_from_slice(columns);
        self.slopes()
    }

    /// How fast each row changes by itself, with the inputs, where the slopes were last evaluated.
    pub fn drift(&self, out: &mut [f64]) {
        out.fill(0.0);
        let first = self.net.index.unknowns();
        for (entry, slope) in self.entries.iter().zip(&self.slopes) {
            if entry.column >= first {
                out[entry.row] += slope * self.input_rates[entry.column - first];
            }
        }
    }
}

/// Records which places of the matrix the laws touch, in their order.
#[derive(Default)]
struct Pattern {
    pairs: Vec<(usize, usize)>,
}

impl Visitor for Pattern {
    fn visit<const K: usize, const R: usize, L: Law<K, R>>(&mut self, law: &L) {
        let columns = law.columns();
        for row in law.rows() {
            self.pairs.extend(columns.map(|column| (row, column)));
        }
    }
}

/// Adds the slopes of each law to their places.
struct Slopes<'a> {
    x: &'a [f64],
    on: &'a [f64],
    slots: &'a [u32],
    at: usize,
    values: &'a mut [f64],
}

impl Visitor for Slopes<'_> {
    fn visit<const K: usize, const R: usize, L: Law<K, R>>(&mut self, law: &L) {
        let columns = law.columns();
        let mut x = [Dual::<K> {
            value: 0.0,
            slopes: [0.0; K],
        }; K];
        for (k, column) in columns.into_iter().enumerate() {
            x[k] = Dual::variable(self.x[column], k);
        }
        for row in law.apply(x, self.on) {
            for slope in row.slopes {
                self.values[self.slots[self.at] as usize] += slope;
                self.at += 1;
            }
        }
    }
}
