//! What heaters put into the balance while they are on.

use super::law::Law;
use crate::network::elements::{Bonded, FanWatts, HeaterConstant, HeaterTerm, HeaterVapour};
use crate::physics::air::density_kg_per_m3;
use crate::physics::number::Number;

/// This number, no less than zero and no more than `most`.
fn between_zero_and<T: Number>(x: T, most: f64) -> T {
    x.positive_part().least(T::constant(most))
}

impl Law<1, 1> for HeaterTerm {
    fn columns(&self) -> [usize; 1] {
        [self.term.column]
    }
    fn rows(&self) -> [usize; 1] {
        [self.term.row]
    }
    fn apply<T: Number>(&self, [x]: [T; 1], on: &[f64]) -> [T; 1] {
        [x * (self.term.factor * on[self.heater])]
    }
}

impl Law<0, 1> for HeaterConstant {
    fn columns(&self) -> [usize; 0] {
        []
    }
    fn rows(&self) -> [usize; 1] {
        [self.row]
    }
    fn apply<T: Number>(&self, _: [T; 0], on: &[f64]) -> [T; 1] {
        [T::constant(self.value * on[self.heater])]
    }
}

impl Law<2, 2> for HeaterVapour {
    fn columns(&self) -> [usize; 2] {
        self.columns
    }
    fn rows(&self) -> [usize; 2] {
        self.rows
    }
    fn apply<T: Number>(&self, [temp, vapour]: [T; 2], on: &[f64]) -> [T; 2] {
        let moved = vapour / density_kg_per_m3(temp) * (self.kg_per_s * on[self.heater]);
        [-moved, moved]
    }
}

impl Law<2, 1> for FanWatts {
    fn columns(&self) -> [usize; 2] {
        self.columns
    }
    fn rows(&self) -> [usize; 1] {
        [self.row]
    }
    /// A self-limiting element is as hot as the air that leaves it, which is hotter the more it gives:
    /// solved for the watts.
    fn apply<T: Number>(&self, [watts, intake]: [T; 2], _: &[f64]) -> [T; 1] {
        let given = match self.limits_c {
            None => T::constant(self.rated_w),
            Some([full, none]) => {
                let slope = self.rated_w / (none - full + self.rated_w / self.flow_w_per_k);
                between_zero_and((-intake + none) * slope, self.rated_w)
            }
        };
        [given - watts]
    }
}

impl Law<1, 2> for Bonded {
    fn columns(&self) -> [usize; 1] {
        [self.column]
    }
    fn rows(&self) -> [usize; 2] {
        self.rows
    }
    fn apply<T: Number>(&self, [cell]: [T; 1], on: &[f64]) -> [T; 2] {
        let share = match self.limits_c {
            None => T::constant(1.0),
            Some([full, none]) => between_zero_and((-cell + none) / (none - full), 1.0),
        };
        let watts = share * (self.rated_w * on[self.heater]);
        [watts, watts]
    }
}
