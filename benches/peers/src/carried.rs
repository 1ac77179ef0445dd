//! A night carried by a peer, from stop to stop and from sample to sample.

use crate::problem::{SAME_MOMENT_S, SAMPLE_S, Switches, stops};
use coldsoak::balance::Balance;
use coldsoak::network::Network;

/// What a method did: the cells at every sample, and its work.
#[derive(Default, Clone)]
pub struct Carried {
    /// Temperatures of all cells, °C, a row a sample.
    pub cells: Vec<Vec<f64>>,
    /// Switchings of heaters.
    pub switchings: usize,
    /// Its work.
    pub work: Work,
}

/// Counts.
#[derive(Default, Clone, Copy, Debug)]
pub struct Work {
    /// Steps.
    pub steps: usize,
    /// Evaluations of the rates.
    pub rates: usize,
    /// Of the slopes.
    pub jacobians: usize,
    /// Factorisations.
    pub factorisations: usize,
}

impl Work {
    /// The mean of several, rounded down.
    pub fn mean(works: impl Iterator<Item = Self>) -> Self {
        let (mut sum, mut count) = (Self::default(), 0);
        for work in works {
            sum.steps += work.steps;
            sum.rates += work.rates;
            sum.jacobians += work.jacobians;
            sum.factorisations += work.factorisations;
            count += 1;
        }
        let count = count.max(1);
        Self {
            steps: sum.steps / count,
            rates: sum.rates / count,
            jacobians: sum.jacobians / count,
            factorisations: sum.factorisations / count,
        }
    }
}

/// Why an integrator came back.
pub enum Reached {
    /// It is where it was sent.
    There,
    /// A thermostat acts, at this time; the heaters concerned are in the list.
    Crossing(f64, Vec<usize>),
}

/// A general-purpose integrator under way.
pub trait Integrator<'n> {
    /// Works on the balance it evaluates and on the switches; what it knew of the balance is forgotten.
    fn given<R>(&mut self, work: impl FnOnce(&mut Balance<'n>, &mut Switches<'n>) -> R) -> R;
    /// Begins anew here: the rates have jumped.
    fn restart(&mut self, time_s: f64);
    /// May not step over this.
    fn stop_at(&mut self, stop_s: f64);
    /// Goes on to this time, which is not beyond the stop; the states there.
    fn advance(&mut self, to_s: f64) -> Result<Reached, String>;
    /// The states where it is.
    fn states(&self) -> Vec<f64>;
    /// The work done.
    fn work(&mut self) -> Work;
}

/// Carries a whole night.
pub fn carry<'n>(net: &'n Network, mut peer: impl Integrator<'n>) -> Result<Carried, String> {
    let cells = net.index.cells;
    let mut carried = Carried::default();
    carried.cells.push(net.initial[..cells].to_vec());
    let (mut time_s, mut sample_s) = (0.0, SAMPLE_S);
    for stop in stops(net) {
        let states = peer.states();
        let changed =
            peer.given(|balance, switches| switches.follow_hours(time_s, &states, balance));
        if changed {
            peer.restart(time_s);
        }
        peer.stop_at(stop);
        while stop - time_s > SAME_MOMENT_S {
            let to = sample_s.min(stop);
            match peer.advance(to)? {
                Reached::There => time_s = to,
                Reached::Crossing(at, heaters) => {
                    time_s = at;
                    peer.given(|balance, switches| {
                        for heater in heaters {
                            switches.flip(heater, balance);
                        }
                    });
                    peer.restart(at);
                    peer.stop_at(stop);
                }
            }
            if sample_s - time_s <= SAME_MOMENT_S {
                carried.cells.push(peer.states()[..cells].to_vec());
                sample_s += SAMPLE_S;
            }
        }
        time_s = stop;
    }
    carried.switchings = peer.given(|_, switches| switches.made);
    carried.work = peer.work();
    Ok(carried)
}
