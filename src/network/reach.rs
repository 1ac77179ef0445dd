//! What each heater puts where: jets, ducts, bonded elements and lamps.

use super::frame::Frame;
use super::graph::Network;
use crate::laws::{Bonded, FanWatts, HeaterConstant, HeaterTerm, HeaterVapour, Law, Term};
use crate::physics::{air, jet};
use crate::scenario::heater::{Aim, Heater, HeaterKind};
use crate::trace::LossPath;

/// Lays down the heaters.
pub fn lay(frame: &Frame, net: &mut Network) {
    let heaters = &frame.checked.scenario().heaters;
    for (number, (heater, aim)) in heaters.iter().zip(frame.checked.aims()).enumerate() {
        let mut placement = HeaterPlacement {
            frame,
            net: &mut *net,
            number,
            heater,
            aim,
        };
        match heater.kind {
            HeaterKind::bay_fan {
                flow,
                entrainment,
                entrainment_from_intake,
                impingement,
            } => {
                let blower = Blower {
                    flow: flow.si(),
                    entrainment,
                    delivered: 1.0,
                    impingement: impingement.si(),
                };
                placement.blow(&blower, None);
                placement.move_air(flow.si() * (1.0 + entrainment * entrainment_from_intake));
            }
            HeaterKind::ducted {
                flow,
                duct_loss,
                entrainment,
                impingement,
            } => {
                let blower = Blower {
                    flow: flow.si(),
                    entrainment,
                    delivered: 1.0 - duct_loss,
                    impingement: impingement.si(),
                };
                placement.blow(&blower, Some(frame.index.hangar()));
                placement.blow_in(flow.si());
            }
            HeaterKind::bonded => placement.warm(),
            HeaterKind::radiant { radiant_share } => placement.shine(radiant_share),
        }
    }
}

/// A fan heater's numbers.
struct Blower {
    /// Air through the fan, kg/s.
    flow: f64,
    /// Air dragged along, as a share of it.
    entrainment: f64,
    /// Share of the watts that arrives.
    delivered: f64,
    /// Conductance to all it strikes, W/K.
    impingement: f64,
}

struct HeaterPlacement<'a, 'b> {
    frame: &'a Frame<'a>,
    net: &'b mut Network,
    number: usize,
    heater: &'a Heater,
    aim: &'a Aim,
}

impl HeaterPlacement<'_, '_> {
    fn term(&mut self, row: usize, column: usize, factor: f64) {
        let heater = self.number;
        let term = HeaterTerm { heater, factor }.between([column], [row]);
        self.net.laws.heater_terms.push(term);
    }
    fn constant(&mut self, row: usize, value: f64) {
        self.net.laws.heater_constants.push(
            HeaterConstant {
                heater: self.number,
                value,
            }
            .between([], [row]),
        );
    }
    fn mean(&mut self, row: usize, terms: &[(usize, f64)]) {
        self.net.auxiliaries.means.push(row);
        self.net.laws.means.push(Term::minus_itself(row));
        for &(column, factor) in terms {
            self.net.laws.means.push(Term::new(row, column, factor));
        }
    }
    fn pocket_temperatures(&self, shares: &[(String, f64)]) -> Vec<(usize, f64)> {
        shares
            .iter()
            .map(|(name, share)| (self.frame.index.pocket(self.frame.pocket(name)), *share))
            .collect()
    }
    fn limits(&self) -> Option<[f64; 2]> {
        self.heater
            .self_limiting
            .as_ref()
            .map(|s| [s.full_power_below.celsius(), s.zero_power_above.celsius()])
    }

    /// The jet of a fan heater: what it strikes takes heat, the pockets it is thrown into get the rest.
    fn blow(&mut self, blower: &Blower, drawn_from: Option<usize>) {
        let Some([intake, local, watts, impact]) = self.frame.fan(self.number) else {
            return;
        };
        let drawn = match drawn_from {
            Some(column) => vec![(column, 1.0)],
            None => self.pocket_temperatures(&self.aim.intake),
        };
        let discharge = self.pocket_temperatures(&self.aim.discharge);
        self.mean(intake, &drawn);
        self.mean(local, &discharge);

        let flow_w_per_k = blower.flow * air::HEAT_CAPACITY_J_PER_KGK;
        let limits_c = self.limits();
        self.net.auxiliaries.watts.push(watts);
        self.net.laws.fan_watts.push(
            FanWatts {
                rated_w: self.heater.power.si(),
                flow_w_per_k,
                limits_c,
            }
            .between([watts, intake], [watts]),
        );

        let whole = 1.0 + blower.entrainment;
        self.net.auxiliaries.impacts.push(impact);
        let mixed = jet::Impact::of(flow_w_per_k, blower.entrainment, blower.delivered);
        for (column, factor) in [
            (impact, -1.0),
            (intake, mixed.intake),
            (watts, mixed.k_per_w),
            (local, mixed.local),
        ] {
            self.net
                .laws
                .impacts
                .push(Term::new(impact, column, factor));
        }

        let struck: f64 = self.aim.impingement.iter().map(|(_, share)| share).sum();
        let effect = jet::strike_share(blower.impingement * struck, blower.flow * whole);
        for (part, share) in &self.aim.impingement {
            let cut = self.frame.cut(part);
            for (cell, cell_share) in cut.cells().zip(&cut.shares) {
                let g = blower.impingement * share * cell_share * effect;
                self.term(cell, impact, g);
                self.term(cell, cell, -g);
                for &(pocket, discharge_share) in &discharge {
                    self.term(pocket, impact, -g * discharge_share);
                    self.term(pocket, cell, g * discharge_share);
                }
            }
        }
        for &(pocket, discharge_share) in &discharge {
            self.term(pocket, watts, blower.delivered * discharge_share);
        }
        self.term(self.frame.energy_integral(self.number), watts, 1.0);
        if blower.delivered < 1.0 {
            let duct = self.frame.path_book(LossPath::Duct);
            self.term(duct, watts, 1.0 - blower.delivered);
        }
        for (name, share) in &self.aim.discharge {
            let air_speed = self.frame.air_speed(self.frame.pocket(name));
            self.constant(air_speed, share * blower.flow * whole);
        }
    }

    /// Air moved from the intake pockets to those it is thrown into.
    fn move_air(&mut self, kg_per_s: f64) {
        let ix = &self.frame.index;
        for (from_name, from_share) in &self.aim.intake {
            for (to_name, to_share) in &self.aim.discharge {
                let [from, to] = [from_name, to_name].map(|name| self.frame.pocket(name));
                let stream = kg_per_s * from_share * to_share;
                if from == to || stream <= 0.0 {
                    continue;
                }
                let carried = stream * air::HEAT_CAPACITY_J_PER_KGK;
                for (row, sign) in [(ix.pocket(from), -1.0), (ix.pocket(to), 1.0)] {
                    self.term(row, ix.pocket(from), sign * carried);
                    self.term(row, ix.hangar(), -sign * carried);
                }
                let rows = [from, to].map(|p| self.net.mass_row(p));
                self.constant(rows[0], -stream);
                self.constant(rows[1], stream);
                for pocket in [from, to] {
                    self.constant(self.frame.air_speed(pocket), 0.5 * stream);
                }
                self.net.laws.heater_vapours.push(
                    HeaterVapour {
                        heater: self.number,
                        kg_per_s: stream,
                    }
                    .between(
                        [ix.pocket(from), ix.vapour(from)],
                        [ix.vapour(from), ix.vapour(to)],
                    ),
                );
            }
        }
    }

    /// Hangar air blown into the pockets.
    fn blow_in(&mut self, kg_per_s: f64) {
        let ix = &self.frame.index;
        for (name, share) in &self.aim.discharge {
            let pocket = self.frame.pocket(name);
            let stream = kg_per_s * share;
            let row = self.net.mass_row(pocket);
            self.constant(row, stream);
            self.constant(self.frame.air_speed(pocket), 0.5 * stream);
            self.net.laws.heater_vapours.push(
                HeaterVapour {
                    heater: self.number,
                    kg_per_s: stream,
                }
                .between(
                    [ix.hangar(), self.frame.hangar_vapour()],
                    [self.frame.vapour_book(), ix.vapour(pocket)],
                ),
            );
        }
    }

    /// A bonded element: watts straight into the metal.
    fn warm(&mut self) {
        let limits_c = self.limits();
        for (part, share) in &self.aim.impingement {
            let cut = self.frame.cut(part);
            for (cell, cell_share) in cut.cells().zip(&cut.shares) {
                self.net.laws.bonded.push(
                    Bonded {
                        heater: self.number,
                        rated_w: self.heater.power.si() * share * cell_share,
                        limits_c,
                    }
                    .between([cell], [cell, self.frame.energy_integral(self.number)]),
                );
            }
        }
    }

    /// A lamp: part of its power as radiation to what it sees, the rest into the air around it.
    fn shine(&mut self, radiant_share: f64) {
        let power = self.heater.power.si();
        for (part, share) in &self.aim.impingement {
            let cut = self.frame.cut(part);
            for (cell, cell_share) in cut.cells().zip(&cut.shares) {
                self.constant(cell, power * radiant_share * share * cell_share);
            }
        }
        for (name, share) in &self.aim.discharge {
            let pocket = self.frame.index.pocket(self.frame.pocket(name));
            self.constant(pocket, power * (1.0 - radiant_share) * share);
        }
        self.constant(self.frame.energy_integral(self.number), power);
    }
}
