//! The work space of a balance, and the parts of an evaluation that work through the laws.

use super::law::Visitor;
use super::order::{visit_all, visit_gas, visit_means, visit_rest, visit_streams};
use super::pressures::Pressures;
use super::slopes::Slopes;
use super::values::Values;
use crate::network::Network;
use crate::physics::number::{Register, Work};

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
    pub(super) nets: G::Each<'n, Network>,
    pub(super) x: Vec<G>,
    pub(super) out: Vec<G>,
    pub(super) input_rates: Vec<G>,
    pub(super) on: Vec<G>,
    pub(super) warm_start: Vec<G>,
    pub(super) pressures: Pressures,
    pub(super) entries: Vec<Entry>,
    pub(super) slots: Vec<u32>,
    pub(super) slopes: Vec<G>,
    /// Evaluations of the rates since the beginning.
    pub evaluations: usize,
}

/// A part of an evaluation.
pub enum Part<'a, G> {
    /// Rates.
    Rates(Through),
    /// The slopes of all laws at the columns as they stand.
    Slopes,
    /// How fast each row changes with the inputs, into this.
    Drift(&'a mut [G]),
}

/// Which laws are gone through; in one place of the machine code, since there are many.
#[derive(Clone, Copy)]
pub struct Through {
    /// Those of what is known before the streams are.
    pub before: bool,
    /// Those of the streams between fins.
    pub fins: bool,
    /// Those of what follows from the streams.
    pub after: bool,
    /// Whether auxiliaries are found on the way; if not, what they are wrong by stands in their rows.
    pub finding: bool,
}

/// An evaluation, as work on registers.
pub struct Evaluation<'b, 'n, 'a, G: Register> {
    /// The balance.
    pub of: &'b mut Balance<'n, G>,
    /// Which part.
    pub part: Part<'a, G>,
}

impl<G: Register> Work for Evaluation<'_, '_, '_, G> {
    type Done = ();
    #[inline(always)]
    fn done<const WIDE: bool>(self) {
        match self.part {
            Part::Rates(through) => self.of.go_through::<WIDE>(through),
            Part::Slopes => self.of.find_slopes::<WIDE>(),
            Part::Drift(out) => self.of.find_drift(out),
        }
    }
}

impl<'n, G: Register> Balance<'n, G> {
    /// The network of the first lane, for what is alike in all.
    pub(super) fn net(&self) -> &'n Network {
        G::first(self.nets)
    }

    #[inline(always)]
    fn go_through<const WIDE: bool>(&mut self, through: Through) {
        let order = &self.net().auxiliaries;
        if through.before {
            self.out.fill(G::all(0.0));
            visit_means(&mut self.values::<WIDE>());
            self.close(&order.means, through);
            self.values::<WIDE>().visit(|l| &l.fan_watts);
            self.close(&order.watts, through);
            self.values::<WIDE>().visit(|l| &l.impacts);
            self.close(&order.impacts, through);
        }
        if through.fins {
            self.values::<WIDE>().visit(|l| &l.fin_streams);
            self.close(&order.fin_streams, through);
        }
        if through.after {
            visit_streams(&mut self.values::<WIDE>());
            self.close_draughts::<WIDE>(through);
            visit_gas(&mut self.values::<WIDE>());
            if through.finding {
                self.close(order.gas_heat.as_slice(), through);
            } else {
                self.values::<WIDE>().visit(|l| &l.gas_heat);
            }
            visit_rest(&mut self.values::<WIDE>());
        }
    }

    #[inline(always)]
    fn close_draughts<const WIDE: bool>(&mut self, through: Through) {
        if !through.finding {
            self.values::<WIDE>().visit(|l| &l.draughts);
            return;
        }
        let nets = self.nets;
        for (number, pocket) in self.net().pockets.iter().enumerate() {
            let scale = G::read(nets, |net| net.pockets[number].draught_scale);
            self.x[pocket.draught] = self.out[pocket.draught] / scale;
            self.out[pocket.draught] = G::all(0.0);
        }
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
    fn close(&mut self, auxiliaries: &[usize], through: Through) {
        if !through.finding {
            return;
        }
        for &column in auxiliaries {
            self.x[column] = self.out[column];
            self.out[column] = G::all(0.0);
        }
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
