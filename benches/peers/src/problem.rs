//! What every peer is given: coldsoak's rates and slopes, when to stop, when heaters switch, and when to look.

use crate::slopes::Slopes;
use coldsoak::balance::{Balance, PressureError};
use coldsoak::network::Network;

/// Moments closer than this are one, s.
pub const SAME_MOMENT_S: f64 = 1e-6;
/// Everyone is looked at this often, s.
pub const SAMPLE_S: f64 = 300.0;
/// What a peer's tolerance of one allows: K, g, g/m3, and relative. The proportions are those of coldsoak's own
/// weights, so a peer at 1e-3 allows in a step what coldsoak allows at a tolerance of 1.
const WEIGHTS: [f64; 4] = [1.0, 1e-2, 1e-1, 1e-2];

/// How tight a peer is held.
#[derive(Clone, Copy, Debug)]
pub struct Hold {
    /// The tolerance.
    pub tolerance: f64,
    /// How much looser the air is held, temperatures and vapour.
    pub air: f64,
}

impl Hold {
    /// The relative weight.
    pub fn relative(&self) -> f64 {
        self.tolerance * WEIGHTS[3]
    }

    /// The absolute weight of each state.
    pub fn absolute(&self, net: &Network) -> Vec<f64> {
        let ix = &net.index;
        let mut weights = vec![self.tolerance * WEIGHTS[0]; ix.states()];
        for wall in 0..ix.films {
            weights[ix.film(wall)] = self.tolerance * WEIGHTS[1];
        }
        for pocket in 0..ix.pockets {
            weights[ix.pocket(pocket)] *= self.air;
            weights[ix.vapour(pocket)] = self.tolerance * WEIGHTS[2] * self.air;
        }
        if ix.gas {
            weights[ix.gas_temperature()] *= self.air;
            weights[ix.gas_vapour()] = self.tolerance * WEIGHTS[2] * self.air;
        }
        if ix.oil_water {
            weights[ix.oil_water()] = self.tolerance * WEIGHTS[1];
        }
        weights
    }
}

/// The moments at which something may change, the end last.
pub fn stops(net: &Network) -> Vec<f64> {
    let edges = net
        .heaters
        .iter()
        .flat_map(|h| h.spans.iter().flat_map(|&(on, off)| [on, off]));
    let kinks = net.inputs.iter().flat_map(|c| c.kinks().iter().copied());
    let mut stops: Vec<f64> = edges
        .chain(kinks)
        .chain([net.end_s])
        .filter(|&t| t > SAME_MOMENT_S && (t <= net.end_s - SAME_MOMENT_S || t == net.end_s))
        .collect();
    stops.sort_by(f64::total_cmp);
    stops.dedup_by(|b, a| *b - *a < SAME_MOMENT_S);
    stops
}

/// How many crossings an integrator must look for: one a heater, none if no heater has a thermostat.
pub fn crossings(net: &Network) -> i32 {
    let any = net.heaters.iter().any(|h| h.thermostat.is_some());
    if any { net.heaters.len() as i32 } else { 0 }
}

/// coldsoak's balance as a function of the states.
pub struct Field<'n> {
    /// The network.
    pub net: &'n Network,
    /// Its balance.
    pub balance: Balance<'n>,
    /// Its slopes.
    pub slopes: Slopes,
    place: Vec<f64>,
    /// Slopes asked for.
    pub jacobians: usize,
}

impl<'n> Field<'n> {
    /// All heaters off.
    pub fn new(net: &'n Network, slopes: Slopes) -> Self {
        Self {
            net,
            balance: Balance::new(net),
            slopes,
            place: Vec::new(),
            jacobians: 0,
        }
    }

    /// The rates of the states, a second. Pressures are searched from where they were last found.
    pub fn rates(
        &mut self,
        time_s: f64,
        states: &[f64],
        out: &mut [f64],
    ) -> Result<(), PressureError> {
        self.place.clear();
        let rates = self.balance.rates(time_s, states)?;
        for ((out, rate), capacity) in out.iter_mut().zip(rates).zip(&self.net.capacities) {
            *out = rate / capacity;
        }
        self.balance.solve_algebraic();
        self.place.push(time_s);
        self.place.extend_from_slice(states);
        Ok(())
    }

    /// Brings `slopes.alone` to this place; false if that fails.
    pub fn slopes_alone(&mut self, time_s: f64, states: &[f64]) -> bool {
        let here = self.place.first() == Some(&time_s) && self.place[1..] == *states;
        if !here
            && self
                .rates(time_s, states, &mut vec![0.0; states.len()])
                .is_err()
        {
            return false;
        }
        self.jacobians += 1;
        self.slopes.find_alone(self.net, self.balance.slopes())
    }

    /// Forgets the place: heaters were switched.
    pub fn switched(&mut self) {
        self.place.clear();
    }
}

/// Heaters on and off.
pub struct Switches<'n> {
    net: &'n Network,
    plugged: Vec<bool>,
    called: Vec<bool>,
    /// Switchings so far.
    pub made: usize,
}

impl<'n> Switches<'n> {
    /// All unplugged.
    pub fn new(net: &'n Network) -> Self {
        let none = vec![false; net.heaters.len()];
        Self {
            net,
            plugged: none.clone(),
            called: none,
            made: 0,
        }
    }

    fn felt(&self, heater: usize, states: &[f64]) -> Option<f64> {
        let sensor = self.net.heaters[heater].thermostat.as_ref()?;
        Some(
            sensor
                .columns
                .iter()
                .map(|&(column, weight)| weight * states[column])
                .sum(),
        )
    }

    /// How far each heater's thermostat is from acting, K; a kelvin where there is none or it is unplugged.
    pub fn distances(&self, states: &[f64], out: &mut [f64]) {
        for (heater, out) in out.iter_mut().enumerate() {
            *out = 1.0;
            let (Some(felt), Some(sensor)) = (
                self.felt(heater, states),
                &self.net.heaters[heater].thermostat,
            ) else {
                continue;
            };
            if self.plugged[heater] {
                *out = if self.called[heater] {
                    sensor.hi_c - felt
                } else {
                    felt - sensor.lo_c
                };
            }
        }
    }

    /// Plugs in and out as the hours say; whether anything changed.
    pub fn follow_hours(&mut self, time_s: f64, states: &[f64], balance: &mut Balance) -> bool {
        let mut changed = false;
        for (number, heater) in self.net.heaters.iter().enumerate() {
            let plugged = heater
                .spans
                .iter()
                .any(|&(on, off)| on <= time_s && time_s < off);
            if plugged == self.plugged[number] {
                continue;
            }
            self.plugged[number] = plugged;
            if plugged {
                let sensor = heater.thermostat.as_ref();
                self.called[number] = sensor
                    .is_none_or(|s| self.felt(number, states).is_some_and(|felt| felt < s.hi_c));
            }
            if self.called[number] {
                balance.switch(number, plugged);
                self.made += 1;
                changed = true;
            }
        }
        changed
    }

    /// Lets a thermostat act.
    pub fn flip(&mut self, heater: usize, balance: &mut Balance) {
        self.called[heater] = !self.called[heater];
        balance.switch(heater, self.called[heater]);
        self.made += 1;
    }
}
