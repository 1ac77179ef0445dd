//! The units of plausible ranges: a range is in the unit in which its number is written beside it.

use crate::document::Node;
use crate::scenario::engine::Engine;
use crate::scenario::hangar::Hangar;
use crate::scenario::heater::Heater;
use crate::scenario::oil::Oil;
use crate::scenario::unknowns::Unknowns;

/// A file that says which of its numbers are uncertain.
pub trait HasRanges {
    /// What it says.
    fn unknowns(&mut self) -> &mut Unknowns;
}

impl HasRanges for Engine {
    fn unknowns(&mut self) -> &mut Unknowns {
        match self {
            Self::opposed(layout) => &mut layout.unknowns,
            Self::body(body) => &mut body.unknowns,
        }
    }
}

macro_rules! doubted {
    ($($kind:ident),+) => {
        $(impl HasRanges for $kind {
            fn unknowns(&mut self) -> &mut Unknowns {
                &mut self.unknowns
            }
        })+
    };
}
doubted!(Hangar, Heater, Oil);

/// Gives each range the unit in which its number is written in the tree, unless it names one itself.
pub fn with_units<T: HasRanges>(mut held: T, tree: &Node) -> T {
    for (path, unknown) in held.unknowns() {
        if unknown.unit.is_none() {
            let number = tree.at(path).and_then(Node::measured);
            unknown.unit = number.and_then(|(_, unit)| unit.map(str::to_owned));
        }
    }
    held
}

#[cfg(test)]
mod tests {
    use super::super::library::{Kind, model};
    use super::super::night::load_builtin;
    use super::*;

    #[test]
    fn a_range_is_in_the_unit_its_number_is_written_in() {
        let mut engine: Engine = model(Kind::Engine, "flat-four-5l9").unwrap();
        let told = engine.unknowns();
        assert_eq!(told["oil_litres"].unit.as_deref(), Some("L"));
        assert_eq!(told["bay.u_cabin"].unit.as_deref(), Some("W_m2K"));
        assert_eq!(told["bay.fin_air_fraction"].unit, None);
        let heater: Heater = model(Kind::Heater, "bay-fan-350w").unwrap();
        let flow = &heater.unknowns["kind.bay_fan.flow"];
        assert_eq!(flow.unit.as_deref(), Some("kg_s"));
        let mut block: Engine = model(Kind::Engine, "aluminium-block").unwrap();
        let conductivity = &block.unknowns()["parts[0].shape.block.conductivity"];
        assert_eq!(conductivity.unit.as_deref(), Some("W_mK"));
        let night = load_builtin("demo").unwrap().scenario;
        let water = &night.unknowns["start.water_in_oil"];
        assert_eq!(water.unit.as_deref(), Some("g"));
        assert_eq!(night.hangar.unknowns["lag"].unit.as_deref(), Some("h"));
    }
}
