//! The balance put together: from the states and the time to the rates, and to their exact slopes.
//!
//! Auxiliary unknowns (means, watts, pressures, draughts ...) follow from the states at once. For the
//! rates they are found in order; for the slopes they stay in the matrix as a border, whose elimination
//! gives the slopes of the states alone.

use super::law::{Law, Visitor};
use super::order::{
    Four, Values, is_on, visit_all, visit_gas, visit_means, visit_rest, visit_streams,
};
use super::pressures::{PressureError, Pressures};
use crate::network::Network;
use crate::network::graph::Laws;
use crate::physics::number::{Dual, Number, Register, Work};

/// An entry of the matrix of slopes: row, column, and where its value stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Entry {
    /// The row.
    pub row: usize,
    /// The column.
    pub column: usize,
}

/// The balance of a network, or of several that differ in sizes only, with its work space.
#[derive(Debug, Clone)]
pub struct Balance<'n, G: Register = f64> {
    nets: G::Each<'n, Network>,
    x: Vec<G>,
    out: Vec<G>,
    input_rates: Vec<G>,
    on: Vec<G>,
    warm_start: Vec<G>,
    pressures: Pressures,
    entries: Vec<Entry>,
    slots: Vec<u32>,
    slopes: Vec<G>,
    /// Evaluations of the rates since the beginning.
    pub evaluations: usize,
}

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
    pub fn settle(&mut self) {
        for (kept, pocket) in self.warm_start.iter_mut().zip(&self.nets.pockets) {
            *kept = self.x[pocket.pressure];
        }
    }
    /// The rates at any columns: states, auxiliaries and inputs as given. What an auxiliary is wrong by stands in its row.
    pub fn rates_at(&mut self, columns: &[f64]) -> &[f64] {
        self.x.copy_from_slice(columns);
        self.part(Part::Open);
        &self.out
    }
    /// The slopes at any columns: states, auxiliaries (not closed) and inputs as given.
    pub fn slopes_at(&mut self, columns: &[f64]) -> &[f64] {
        self.x.copy_from_slice(columns);
        self.slopes()
    }
}

impl<'n, G: Register> Balance<'n, G> {
    /// The balance of the networks of all lanes, all heaters off. They must be [alike](crate::network::Network).
    pub fn of(nets: G::Each<'n, Network>) -> Self {
        let net = G::first(nets);
        let mut pattern = Pattern {
            laws: &net.laws,
            pairs: Vec::new(),
        };
        visit_all(&mut pattern);
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
    fn net(&self) -> &'n Network {
        G::first(self.nets)
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
    /// The pressures from which later searches start.
    pub fn expect(&mut self, pressures: &[G]) {
        self.warm_start.copy_from_slice(pressures);
    }
    /// The pressures as they were last found.
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
    /// The rates as they were last evaluated.
    pub fn last(&self) -> &[G] {
        &self.out
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
        self.part(Part::Begin(states));
        for (kept, pocket) in self.warm_start.iter().zip(&net.pockets) {
            self.x[pocket.pressure] = *kept;
        }
        self.find_pressures()?;
        self.part(Part::Finish);
        for pocket in &net.pockets {
            self.out[pocket.pressure] = G::all(0.0);
        }
        Ok(&self.out)
    }

    /// The rates at a time with these pressures, which need not balance the streams: what each pocket then has
    /// too much stands in the row of its pressure, kg/s.
    pub fn rates_under(&mut self, time_s: G, states: &[G], pressures: &[G]) -> &[G] {
        self.read_inputs(time_s);
        self.part(Part::Under(states, pressures));
        &self.out
    }

    #[inline(always)]
    fn all_under<const WIDE: bool>(&mut self, states: &[G], pressures: &[G]) {
        let net = self.net();
        self.begin_rates::<WIDE>(states);
        for (given, pocket) in pressures.iter().zip(&net.pockets) {
            self.x[pocket.pressure] = *given;
        }
        for &column in &net.auxiliaries.fin_streams {
            self.x[column] = G::all(0.0);
        }
        self.values::<WIDE>().visit(|l| &l.fin_streams);
        self.close(&net.auxiliaries.fin_streams);
        self.finish_rates::<WIDE>();
    }

    /// Finds the pressures of every lane, each for itself: they are few, and take other numbers of iterations.
    fn find_pressures(&mut self) -> Result<(), PressureError> {
        for lane in 0..G::LANES {
            let net = G::nth(self.nets, lane);
            let on = |heater: usize| self.on[heater].lane(lane);
            let mut column = Column {
                of: &mut self.x,
                lane,
            };
            match self.pressures.solve(net, &mut column, on) {
                Err(error) if G::LANES == 1 => return Err(error),
                // Of nights abreast, one must not stop the others.
                Err(_) => column.set(net.pockets[0].pressure, f64::NAN),
                Ok(()) => {}
            }
        }
        Ok(())
    }

    fn part(&mut self, part: Part<G>) {
        G::work(Evaluation { of: self, part });
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

    /// What is known before the streams are.
    #[inline(always)]
    fn begin_rates<const WIDE: bool>(&mut self, states: &[G]) {
        self.evaluations += 1;
        let order = &self.net().auxiliaries;
        self.x[..states.len()].copy_from_slice(states);
        self.out.fill(G::all(0.0));
        // A trial that went astray leaves nothing behind.
        for &column in [&order.means, &order.watts, &order.impacts]
            .into_iter()
            .flatten()
        {
            self.x[column] = G::all(0.0);
        }
        visit_means(&mut self.values::<WIDE>());
        self.close(&order.means);
        self.values::<WIDE>().visit(|l| &l.fan_watts);
        self.close(&order.watts);
        self.values::<WIDE>().visit(|l| &l.impacts);
        self.close(&order.impacts);
    }

    /// What follows from the streams.
    #[inline(always)]
    fn finish_rates<const WIDE: bool>(&mut self) {
        let nets = self.nets;
        visit_streams(&mut self.values::<WIDE>());
        for (number, pocket) in self.net().pockets.iter().enumerate() {
            let scale = G::read(nets, |net| net.pockets[number].draught_scale);
            self.x[pocket.draught] = self.out[pocket.draught] / scale;
            self.out[pocket.draught] = G::all(0.0);
        }
        visit_gas(&mut self.values::<WIDE>());
        if let Some(heat) = self.net().auxiliaries.gas_heat {
            self.x[heat] = self.out[heat];
            self.out[heat] = G::all(0.0);
        }
        visit_rest(&mut self.values::<WIDE>());
    }

    #[inline(always)]
    fn values<const WIDE: bool>(&mut self) -> Values<'_, 'n, G, WIDE> {
        Values {
            laws: G::part(self.nets, |net| &net.laws),
            x: &self.x,
            on: &self.on,
            out: &mut self.out,
        }
    }

    /// Finds auxiliaries whose rows are linear in themselves with factor −1, from rows met while they were zero.
    #[inline(always)]
    fn close(&mut self, auxiliaries: &[usize]) {
        for &column in auxiliaries {
            self.x[column] = self.out[column];
            self.out[column] = G::all(0.0);
        }
    }

    /// The slopes where the rates were last evaluated, a value for each entry.
    pub fn slopes(&mut self) -> &[G] {
        self.part(Part::Slopes);
        &self.slopes
    }

    #[inline(always)]
    fn open_rates<const WIDE: bool>(&mut self) {
        self.out.fill(G::all(0.0));
        visit_all(&mut self.values::<WIDE>());
    }

    #[inline(always)]
    fn find_slopes<const WIDE: bool>(&mut self) {
        self.slopes.fill(G::all(0.0));
        let mut visitor = Slopes::<G, WIDE> {
            laws: G::part(self.nets, |net| &net.laws),
            x: &self.x,
            on: &self.on,
            slots: &self.slots,
            values: &mut self.slopes,
        };
        visit_all(&mut visitor);
    }

    /// How fast each row changes by itself, with the inputs, where the slopes were last evaluated.
    pub fn drift(&mut self, out: &mut [G]) {
        self.part(Part::Drift(out));
    }

    #[inline(always)]
    fn find_drift(&self, out: &mut [G]) {
        out.fill(G::all(0.0));
        let first = self.net().index.unknowns();
        for (entry, slope) in self.entries.iter().zip(&self.slopes) {
            if entry.column >= first {
                out[entry.row] = out[entry.row] + *slope * self.input_rates[entry.column - first];
            }
        }
    }
}

/// A part of an evaluation.
enum Part<'a, G> {
    /// What is known before the streams are, from these states.
    Begin(&'a [G]),
    /// What follows from the streams.
    Finish,
    /// All of it, from these states and pressures.
    Under(&'a [G], &'a [G]),
    /// All rows at the columns as they stand, nothing found.
    Open,
    Slopes,
    Drift(&'a mut [G]),
}

struct Evaluation<'b, 'n, 'a, G: Register> {
    of: &'b mut Balance<'n, G>,
    part: Part<'a, G>,
}

impl<G: Register> Work for Evaluation<'_, '_, '_, G> {
    type Done = ();
    #[inline(always)]
    fn done<const WIDE: bool>(self) {
        match self.part {
            Part::Begin(states) => self.of.begin_rates::<WIDE>(states),
            Part::Finish => self.of.finish_rates::<WIDE>(),
            Part::Under(states, pressures) => self.of.all_under::<WIDE>(states, pressures),
            Part::Open => self.of.open_rates::<WIDE>(),
            Part::Slopes => self.of.find_slopes::<WIDE>(),
            Part::Drift(out) => self.of.find_drift(out),
        }
    }
}

/// One lane of a vector.
pub(super) struct Column<'a, G> {
    of: &'a mut [G],
    lane: usize,
}

impl<G: Register> Column<'_, G> {
    pub(super) fn get(&self, at: usize) -> f64 {
        self.of[at].lane(self.lane)
    }
    pub(super) fn set(&mut self, at: usize, value: f64) {
        self.of[at].set_lane(self.lane, value);
    }
}

/// Records which places of the matrix the laws touch, in their order.
struct Pattern<'a> {
    laws: &'a Laws,
    pairs: Vec<(usize, usize)>,
}

impl Visitor for Pattern<'_> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[L],
    ) {
        for law in pick(self.laws) {
            let columns = law.columns();
            for row in law.rows() {
                self.pairs.extend(columns.map(|column| (row, column)));
            }
        }
    }
}

/// Adds the slopes of each law to their places, of laws of a kind four at a time if `WIDE`.
struct Slopes<'a, 'n, G: Register, const WIDE: bool> {
    laws: G::Each<'n, Laws>,
    x: &'a [G],
    on: &'a [G],
    slots: &'a [u32],
    values: &'a mut [G],
}

impl<G: Register, const WIDE: bool> Visitor for Slopes<'_, '_, G, WIDE> {
    #[inline(always)]
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[L],
    ) {
        let each = G::part(self.laws, |laws| pick(laws));
        let count = G::first(each).len();
        let (mine, rest) = self.slots.split_at(count * R * K);
        self.slots = rest;
        let mut number = 0;
        while number < count {
            if WIDE && let Some(four) = Four::<G, L, K>::at(each, number, self.x, self.on) {
                let rows = L::apply(four.it, variables(four.x), four.on);
                for lane in 0..4 {
                    let slots = &mine[(number + lane) * R * K..][..R * K];
                    for r in 0..R {
                        for k in 0..K {
                            let value = &mut self.values[slots[r * K + k] as usize];
                            *value = *value + G::narrow(rows[r].slopes[k])[lane];
                        }
                    }
                }
                number += 4;
                continue;
            }
            let it = G::part(each, |laws| &laws[number]);
            let law = G::first(it);
            let columns = law.columns();
            let mut x = [G::all(0.0); K];
            for k in 0..K {
                x[k] = self.x[columns[k]];
            }
            let rows = L::apply(it, variables(x), is_on(law, self.on));
            let slots = &mine[number * R * K..][..R * K];
            for r in 0..R {
                for k in 0..K {
                    let value = &mut self.values[slots[r * K + k] as usize];
                    *value = *value + rows[r].slopes[k];
                }
            }
            number += 1;
        }
    }
}

/// The columns as variables, each with a slope of one along itself.
#[inline(always)]
fn variables<const K: usize, G: Register>(x: [G; K]) -> [Dual<K, G>; K] {
    let mut variables = [Dual::<K, G>::given(G::all(0.0)); K];
    for k in 0..K {
        variables[k] = Dual::variable(x[k], k);
    }
    variables
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::night::load_builtin;
    use crate::network::assemble;
    use crate::scenario::check::check;

    #[test]
    fn a_trial_that_went_astray_leaves_nothing_behind() {
        let scenario = load_builtin("demo").unwrap().scenario;
        let net = assemble(&check(&scenario).unwrap());
        let mut balance = Balance::new(&net);
        balance.switch(0, true);
        let good = balance.rates(0.0, &net.initial).unwrap().to_vec();
        let astray = vec![f64::NAN; net.initial.len()];
        let _ = balance.rates(0.0, &astray);
        assert_eq!(balance.rates(0.0, &net.initial).unwrap(), good);
    }
}
