//! The work space of a balance, and the parts of an evaluation that work through the laws.

use super::jacobian::Slopes;
use super::pressures::Pressures;
use super::values::Values;
use crate::laws::{Stage, visit, visit_all};
use crate::network::Network;
use crate::physics::four::Four;
use crate::physics::lanes::Lanes;
use crate::physics::number::{Register, Work};

/// The laws evaluated for one night, or for four. The two are compiled here, and in no crate that uses them.
pub(crate) trait Evaluate: Lanes {
    /// Adds what the laws of one stage give.
    fn add_values(stage: Stage, values: &mut Values<Self>);
    /// Adds the slopes of all laws.
    fn add_slopes(slopes: &mut Slopes<Self>);
}

macro_rules! evaluate {
    ($($register:ty),+) => {$(
        impl Evaluate for $register {
            fn add_values(stage: Stage, values: &mut Values<Self>) {
                visit(stage, values);
            }
            fn add_slopes(slopes: &mut Slopes<Self>) {
                visit_all(slopes);
            }
        }
    )+};
}
evaluate!(f64, Four);

/// A place of the matrix of slopes.
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

/// Which laws are gone through.
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

/// How fast each row changes with the inputs, as work on registers.
struct TimeDerivative<'b, G> {
    entries: &'b [Entry],
    slopes: &'b [G],
    input_rates: &'b [G],
    /// The column of the first input.
    first: usize,
    out: &'b mut [G],
}

impl<G: Lanes> Work for TimeDerivative<'_, G> {
    type Done = ();
    #[inline(always)]
    fn done(self) {
        for (entry, slope) in self.entries.iter().zip(self.slopes) {
            if entry.column >= self.first {
                let row = &mut self.out[entry.row];
                *row = *row + *slope * self.input_rates[entry.column - self.first];
            }
        }
    }
}

#[allow(private_bounds)]
impl<'n, G: Evaluate> Balance<'n, G> {
    /// The network of the first lane, for what is alike in all.
    pub(super) fn net(&self) -> &'n Network {
        G::first(self.nets)
    }

    /// Goes through laws for their values, and finds auxiliaries on the way.
    pub(super) fn go_through(&mut self, through: Through) {
        let order = &self.net().auxiliaries;
        if through.before {
            self.out.fill(G::ZERO);
            self.add(Stage::Means);
            self.close(&order.means, through);
            self.add(Stage::FanWatts);
            self.close(&order.watts, through);
            self.add(Stage::Impacts);
            self.close(&order.impacts, through);
        }
        if through.fins {
            self.add(Stage::FinStreams);
            self.close(&order.fin_streams, through);
        }
        if through.after {
            self.add(Stage::Streams);
            self.close_air_speeds(through);
            self.add(Stage::Gas);
            if through.finding {
                self.close(order.gas_heat.as_slice(), through);
            } else {
                self.add(Stage::GasHeat);
            }
            self.add(Stage::Rest);
        }
    }

    fn close_air_speeds(&mut self, through: Through) {
        if !through.finding {
            self.add(Stage::AirSpeeds);
            return;
        }
        let nets = self.nets;
        for (number, pocket) in self.net().pockets.iter().enumerate() {
            let scale = G::read(nets, |net| net.pockets[number].air_speed_scale);
            self.x[pocket.air_speed] = self.out[pocket.air_speed] / scale;
            self.out[pocket.air_speed] = G::ZERO;
        }
    }

    /// Adds what the laws of one stage give to their rows.
    fn add(&mut self, stage: Stage) {
        let mut values = Values {
            laws: G::four(self.nets).map(|net| &net.laws),
            x: &self.x,
            on: &self.on,
            out: &mut self.out,
        };
        G::add_values(stage, &mut values);
    }

    /// Finds auxiliaries whose rows are linear in themselves with factor −1, from rows met while they were zero.
    fn close(&mut self, auxiliaries: &[usize], through: Through) {
        if !through.finding {
            return;
        }
        for &column in auxiliaries {
            self.x[column] = self.out[column];
            self.out[column] = G::ZERO;
        }
    }

    /// The slopes of all laws at the columns as they stand.
    pub(super) fn find_slopes(&mut self) {
        self.slopes.fill(G::ZERO);
        let mut slopes = Slopes {
            laws: G::four(self.nets).map(|net| &net.laws),
            x: &self.x,
            on: &self.on,
            slots: &self.slots,
            values: &mut self.slopes,
        };
        G::add_slopes(&mut slopes);
    }

    /// How fast each row changes with the inputs.
    pub(super) fn find_time_derivative(&self, out: &mut [G]) {
        out.fill(G::ZERO);
        G::work(TimeDerivative {
            entries: &self.entries,
            slopes: &self.slopes,
            input_rates: &self.input_rates,
            first: self.net().index.unknowns(),
            out,
        });
    }
}
