//! What heaters put into the balance while they are on.

use super::law::{Each, Law};
use crate::network::elements::{Bonded, FanWatts, HeaterConstant, HeaterTerm, HeaterVapour};
use crate::physics::air::density_kg_per_m3;
use crate::physics::number::{Number, Register};

/// The temperature at which a self-limiting element gives all (0) or none (1) of its watts, °C.
fn limit(limits_c: Option<[f64; 2]>, end: usize) -> f64 {
    limits_c.map_or(0.0, |limits| limits[end])
}

/// This number, no less than zero and no more than `most`.
#[inline(always)]
fn between_zero_and<T: Number>(x: T, most: T::Given) -> T {
    x.positive_part().least(T::given(most))
}

impl Law<1, 1> for HeaterTerm {
    fn heater(&self) -> Option<usize> {
        Some(self.heater)
    }
    fn columns(&self) -> [usize; 1] {
        [self.term.column]
    }
    fn rows(&self) -> [usize; 1] {
        [self.term.row]
    }
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [x]: [T; 1], on: T::Given) -> [T; 1] {
        [x.times(T::of(it, |l: &Self| l.term.factor) * on)]
    }
}

impl Law<0, 1> for HeaterConstant {
    fn heater(&self) -> Option<usize> {
        Some(self.heater)
    }
    fn columns(&self) -> [usize; 0] {
        []
    }
    fn rows(&self) -> [usize; 1] {
        [self.row]
    }
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, _: [T; 0], on: T::Given) -> [T; 1] {
        [T::given(T::of(it, |l: &Self| l.value) * on)]
    }
}

impl Law<2, 2> for HeaterVapour {
    fn heater(&self) -> Option<usize> {
        Some(self.heater)
    }
    fn columns(&self) -> [usize; 2] {
        self.columns
    }
    fn rows(&self) -> [usize; 2] {
        self.rows
    }
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [temp, vapour]: [T; 2], on: T::Given) -> [T; 2] {
        let stream = T::of(it, |l: &Self| l.kg_per_s) * on;
        let moved = (vapour / density_kg_per_m3(temp)).times(stream);
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
    fn choice(&self) -> u8 {
        u8::from(self.limits_c.is_some())
    }
    /// A self-limiting element is as hot as the air that leaves it, which is hotter the more it gives:
    /// solved for the watts.
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [watts, intake]: [T; 2], _: T::Given) -> [T; 1] {
        let rated = T::of(it, |l: &Self| l.rated_w);
        let given = if T::Given::first(it).limits_c.is_none() {
            T::given(rated)
        } else {
            let full = T::of(it, |l: &Self| limit(l.limits_c, 0));
            let none = T::of(it, |l: &Self| limit(l.limits_c, 1));
            let slope = rated / (none - full + rated / T::of(it, |l: &Self| l.flow_w_per_k));
            between_zero_and((-intake).plus(none).times(slope), rated)
        };
        [given - watts]
    }
}

impl Law<1, 2> for Bonded {
    fn heater(&self) -> Option<usize> {
        Some(self.heater)
    }
    fn columns(&self) -> [usize; 1] {
        [self.column]
    }
    fn rows(&self) -> [usize; 2] {
        self.rows
    }
    fn choice(&self) -> u8 {
        u8::from(self.limits_c.is_some())
    }
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [cell]: [T; 1], on: T::Given) -> [T; 2] {
        let share = if T::Given::first(it).limits_c.is_none() {
            T::constant(1.0)
        } else {
            let full = T::of(it, |l: &Self| limit(l.limits_c, 0));
            let none = T::of(it, |l: &Self| limit(l.limits_c, 1));
            between_zero_and((-cell).plus(none).over(none - full), T::Given::all(1.0))
        };
        let watts = share.times(T::of(it, |l: &Self| l.rated_w) * on);
        [watts, watts]
    }
}
