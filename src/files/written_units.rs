//! The units of plausible ranges: a range is in the unit in which its number is written beside it.

use crate::document::Node;
use crate::scenario::engine::Engine;
use crate::scenario::hangar::Hangar;
use crate::scenario::heater::Heater;
use crate::scenario::oil::Oil;
use crate::scenario::uncertain::Uncertain;

/// A file that says which of its numbers are uncertain.
pub trait HasRanges {
    /// What it says.
    fn uncertain(&mut self) -> &mut Uncertain;
}

impl HasRanges for Engine {
    fn uncertain(&mut self) -> &mut Uncertain {
        match self {
            Self::opposed(layout) => &mut layout.uncertain,
            Self::body(body) => &mut body.uncertain,
        }
    }
}

macro_rules! doubted {
    ($($kind:ident),+) => {
        $(impl HasRanges for $kind {
            fn uncertain(&mut self) -> &mut Uncertain {
                &mut self.uncertain
            }
        })+
    };
}
doubted!(Hangar, Heater, Oil);

/// Gives each range the unit in which its number is written in the tree, unless it names one itself.
pub fn with_units<T: HasRanges>(mut held: T, tree: &Node) -> T {
    for (path, unknown) in held.uncertain() {
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
        let shown = engine.uncertain();
        assert_eq!(shown["oil_litres"].unit.as_deref(), Some("L"));
        assert_eq!(shown["bay.u_cabin"].unit.as_deref(), Some("W_m2K"));
        assert_eq!(shown["bay.fin_air_fraction"].unit, None);
        let heater: Heater = model(Kind::Heater, "bay-fan-350w").unwrap();
        let flow = &heater.uncertain["kind.bay_fan.flow"];
        assert_eq!(flow.unit.as_deref(), Some("kg_s"));
        let mut block: Engine = model(Kind::Engine, "aluminium-block").unwrap();
        let conductivity = &block.uncertain()["parts[0].shape.block.conductivity"];
        assert_eq!(conductivity.unit.as_deref(), Some("W_mK"));
        let night = load_builtin("demo").unwrap().scenario;
        let water = &night.uncertain["initial.water_in_oil"];
        assert_eq!(water.unit.as_deref(), Some("g"));
        assert_eq!(
            night.hangar.uncertain["time_constant"].unit.as_deref(),
            Some("h")
        );
    }
}
