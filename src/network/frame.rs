//! What each name of a body is numbered, before any law is laid down.

use super::index::Index;
use super::subdivide::Cut;
use crate::scenario::body::Body;
use crate::scenario::check::CheckedScenario;
use crate::scenario::heater::HeaterKind;
use crate::scenario::part::Shape;
use crate::trace::LossPath;
use std::collections::BTreeMap;

/// The paths of lost heat, in the order of their books.
pub const PATHS: [LossPath; 7] = [
    LossPath::Skins,
    LossPath::Gaps,
    LossPath::Duct,
    LossPath::Propeller,
    LossPath::Firewall,
    LossPath::Breather,
    LossPath::Surroundings,
];

/// Input columns that every night has.
pub const OUTDOORS: usize = 0;
/// Humidity: relative, or a dew point.
pub const HUMIDITY: usize = 1;
/// Wind at the cowl.
pub const WIND: usize = 2;
/// The first given surrounding.
pub const SURROUNDINGS: usize = 3;

/// Names and numbers.
pub struct Frame<'a> {
    /// The scenario.
    pub checked: &'a CheckedScenario,
    /// The body.
    pub body: &'a Body,
    /// How each part is cut.
    pub cuts: Vec<Cut>,
    /// The numbering.
    pub index: Index,
    parts: BTreeMap<&'a str, usize>,
    pockets: BTreeMap<&'a str, usize>,
    surroundings: BTreeMap<&'a str, usize>,
    fan_of_heater: Vec<Option<usize>>,
    stack_of_part: BTreeMap<usize, usize>,
}

/// What a face or sight meets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meets {
    /// A part.
    Part(usize),
    /// A pocket of air.
    Pocket(usize),
    /// The hangar.
    Hangar,
    /// The cabin, behind the firewall.
    Cabin,
    /// A given surrounding.
    Surrounding(usize),
}

impl<'a> Frame<'a> {
    /// Numbers everything.
    pub fn new(checked: &'a CheckedScenario) -> Self {
        let body = checked.body();
        let resolution = checked.scenario().accuracy.resolution;
        let mut cuts = Vec::new();
        let mut cells = 0;
        for part in &body.parts {
            let cut = Cut::new(part, resolution, cells);
            cells += cut.len();
            cuts.push(cut);
        }
        fn numbered<'a>(names: impl Iterator<Item = &'a String>) -> BTreeMap<&'a str, usize> {
            names.enumerate().map(|(i, n)| (n.as_str(), i)).collect()
        }
        let parts = numbered(body.parts.iter().map(|p| &p.name));
        let gas = body.crankcase_gas.as_ref();
        let films = gas.map_or(0, |g| {
            g.walls
                .iter()
                .map(|w| cuts[parts[w.part.as_str()]].touched(w.at, None).len())
                .sum()
        });
        let mut fans = 0;
        let fan_of_heater = checked
            .scenario()
            .heaters
            .iter()
            .map(|h| match h.kind {
                HeaterKind::bay_fan { .. } | HeaterKind::ducted { .. } => {
                    fans += 1;
                    Some(fans - 1)
                }
                HeaterKind::bonded | HeaterKind::radiant { .. } => None,
            })
            .collect();
        let stack_of_part: BTreeMap<usize, usize> = body
            .parts
            .iter()
            .enumerate()
            .filter(|(_, p)| matches!(p.shape, Shape::stack { .. }))
            .enumerate()
            .map(|(stack, (part, _))| (part, stack))
            .collect();
        let pockets = body.air_volumes.len();
        let index = Index {
            cells,
            films,
            pockets,
            gas: gas.is_some(),
            oil_water: gas.is_some_and(|g| g.oil.is_some()),
            auxiliaries: 1
                + stack_of_part.len()
                + 2 * body.fin_passages.len()
                + 4 * fans
                + usize::from(gas.is_some())
                + 2 * pockets,
            inputs: SURROUNDINGS + body.surroundings.len(),
            books: checked.scenario().heaters.len() + PATHS.len() + 1,
        };
        Self {
            checked,
            body,
            cuts,
            index,
            parts,
            pockets: numbered(body.air_volumes.iter().map(|p| &p.name)),
            surroundings: numbered(body.surroundings.iter().map(|s| &s.name)),
            fan_of_heater,
            stack_of_part,
        }
    }

    /// The cut of a part, by its name.
    pub fn cut(&self, part: &str) -> &Cut {
        &self.cuts[self.parts[part]]
    }
    /// A pocket, by its name.
    pub fn pocket(&self, name: &str) -> usize {
        self.pockets[name]
    }
    /// What a name means.
    pub fn meets(&self, name: &str) -> Meets {
        if let Some(&part) = self.parts.get(name) {
            Meets::Part(part)
        } else if let Some(&pocket) = self.pockets.get(name) {
            Meets::Pocket(pocket)
        } else if name == "cabin" {
            Meets::Cabin
        } else if let Some(&given) = self.surroundings.get(name) {
            Meets::Surrounding(given)
        } else {
            Meets::Hangar
        }
    }

    /// The vapour of the hangar.
    pub fn hangar_vapour(&self) -> usize {
        self.index.auxiliary(0)
    }
    /// The mean temperature of a stack of oil, by the number of its part.
    pub fn stack_mean(&self, part: usize) -> usize {
        self.index.auxiliary(1 + self.stack_of_part[&part])
    }
    fn after_stacks(&self) -> usize {
        1 + self.stack_of_part.len()
    }
    /// The mean temperature of the fins of a passage.
    pub fn fin_mean(&self, passage: usize) -> usize {
        self.index.auxiliary(self.after_stacks() + passage)
    }
    /// The stream through a fin passage.
    pub fn fin_stream(&self, passage: usize) -> usize {
        let n = self.body.fin_passages.len();
        self.index.auxiliary(self.after_stacks() + n + passage)
    }
    fn after_fins(&self) -> usize {
        self.after_stacks() + 2 * self.body.fin_passages.len()
    }
    /// The four unknowns of a fan heater: intake, discharge, watts, impact.
    pub fn fan(&self, heater: usize) -> Option<[usize; 4]> {
        let first = self.after_fins() + 4 * self.fan_of_heater[heater]?;
        Some([0, 1, 2, 3].map(|i| self.index.auxiliary(first + i)))
    }
    fn after_fans(&self) -> usize {
        self.after_fins() + 4 * self.fan_of_heater.iter().flatten().count()
    }
    /// Heat to the air inside the engine.
    pub fn gas_heat(&self) -> usize {
        self.index.auxiliary(self.after_fans())
    }
    fn after_gas(&self) -> usize {
        self.after_fans() + usize::from(self.index.gas)
    }
    /// The pressure of a pocket.
    pub fn pressure(&self, pocket: usize) -> usize {
        self.index.auxiliary(self.after_gas() + pocket)
    }
    /// The air_speed of a pocket.
    pub fn air_speed(&self, pocket: usize) -> usize {
        self.pressure(pocket) + self.body.air_volumes.len()
    }

    /// The book of the energy a heater draws.
    pub fn energy_integral(&self, heater: usize) -> usize {
        self.index.book(heater)
    }
    /// The book of a path of lost heat.
    pub fn path_book(&self, path: LossPath) -> usize {
        let at = PATHS.iter().position(|&p| p == path).unwrap_or(0);
        self.index.book(self.checked.scenario().heaters.len() + at)
    }
    /// The book of the vapour lost.
    pub fn vapour_book(&self) -> usize {
        self.index
            .book(self.checked.scenario().heaters.len() + PATHS.len())
    }
}

impl Frame<'_> {
    /// The temperature columns of a part (each cell by its share) or pocket, with weights summing to one.
    pub fn temperature_columns(&self, name: &str) -> Vec<(usize, f64)> {
        match self.meets(name) {
            Meets::Part(part) => {
                let cut = &self.cuts[part];
                cut.cells().zip(cut.shares.iter().copied()).collect()
            }
            Meets::Pocket(pocket) => vec![(self.index.pocket(pocket), 1.0)],
            Meets::Hangar | Meets::Cabin => vec![(self.index.hangar(), 1.0)],
            Meets::Surrounding(given) => vec![(self.index.input(SURROUNDINGS + given), 1.0)],
        }
    }
    /// The temperature column of what is no part, and the row its heat is booked in.
    pub fn boundary(&self, meets: Meets, path: LossPath) -> (usize, usize) {
        match meets {
            Meets::Pocket(p) => (self.index.pocket(p), self.index.pocket(p)),
            Meets::Part(part) => (self.cuts[part].first, self.cuts[part].first),
            Meets::Hangar | Meets::Cabin => (self.index.hangar(), self.path_book(path)),
            Meets::Surrounding(given) => {
                (self.index.input(SURROUNDINGS + given), self.path_book(path))
            }
        }
    }
}
