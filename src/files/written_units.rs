//! The units of plausible ranges: a range is in the unit in which its number is written beside it.

use super::outline::Outline;
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

/// Gives each range the unit in which its number is written in the text, unless it names one itself.
pub fn with_units<T: HasRanges>(mut held: T, text: &str) -> T {
    let outline = Outline::of(text);
    for (path, unknown) in held.unknowns() {
        if unknown.unit.is_none() {
            unknown.unit = spellings(path)
                .iter()
                .filter_map(|path| outline.find(path).filter(|found| found.missing == 0))
                .find_map(|found| unit(&text[found.value]));
        }
    }
    held
}

/// The word before the brackets: `kg` of `kg(22)`; none of a plain number.
fn unit(value: &str) -> Option<String> {
    let (word, rest) = value.split_once('(')?;
    let word = word.trim();
    let number = rest.trim_end().strip_suffix(')')?.trim();
    let plain = !word.is_empty() && number.parse::<f64>().is_ok();
    plain.then(|| word.to_owned())
}

/// A path, and it without one or two of its inner steps: an outline does not count the names of variants.
fn spellings(path: &str) -> Vec<String> {
    let steps: Vec<&str> = path.split('.').collect();
    let inner = 1..steps.len().saturating_sub(1).max(1);
    let without = |gone: &[usize]| {
        let kept = steps.iter().enumerate().filter(|(i, _)| !gone.contains(i));
        kept.map(|(_, step)| *step).collect::<Vec<_>>().join(".")
    };
    let mut spelt = vec![path.to_owned()];
    for i in inner.clone() {
        spelt.push(without(&[i]));
    }
    for i in inner.clone() {
        for j in inner.clone().filter(|j| *j > i) {
            spelt.push(without(&[i, j]));
        }
    }
    spelt
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
        assert_eq!(told["bay.fin_pen"].unit, None);
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
