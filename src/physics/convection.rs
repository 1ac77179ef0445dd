//! Heat from a surface into the air along it: by its own buoyancy, by air movement, and by both.
//!
//! The published correlations switch between branches. Here each is replaced by one smooth curve
//! inside their scatter, so that an implicit method sees exact, finite slopes everywhere, also for a
//! surface exactly as warm as its air and for air exactly at rest.

use serde::{Deserialize, Serialize};

use super::air::{CONDUCTIVITY_W_PER_MK, KINEMATIC_VISCOSITY_M2_PER_S, RAYLEIGH_PER_M3K};
use super::number::{Number, Register};

/// Where a surface looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Facing {
    /// Level, looking up: warm, it sheds plumes; cold, it holds a still pool.
    Up,
    /// Level, looking down: the other way round.
    Down,
    /// Upright or bluff: the air always slides along it.
    Upright,
}

/// Difference below which a surface counts as being at air temperature, K: rounds off the cusp.
const CUSP_K: f64 = 0.05;
/// Difference over which a level surface turns from still to shedding, K.
const TURN_K: f64 = 0.3;
/// Factor of the laminar flat plate: 0.664 times the cube root of Prandtl's number 0.71.
const DRAUGHT_FACTOR: f64 = 0.59;

/// Film coefficient of still air in W/(m²·K), from the surface's excess over its air and its length.
///
/// ```text
/// a = sqrt(dT^2 + 0.05^2),  Ra = B a L^3,  B = 1.28e8 /(m3 K)
/// upright:  h = k/L (1.5 + 0.52 Ra^(1/4))
/// level:    h = u h_unst + (1 - u) h_stab,   u = (1 + tanh(face dT / 0.3 K))/2,  face = +1 up, -1 down
///           h_unst = k (0.14 (B a)^(1/3) + 0.6/L)
///           h_stab = k/L (0.6 + 0.27 Ra^(1/4))
/// ```
///
/// *Valid*: Ra 1e3 to 1e8, which for a tenth to a third of a metre means differences up to 20 to
/// 80 K. Below, it tends to a constant film as conduction does; above, it is some percent low.
/// *Source*: upright after Churchill and Chu 1975 (IJHMT 18:1323), level after McAdams 1954; the
/// smooth forms are this project's. Checked in `tests/physics/convection.rs` against ht 1.2.0: upright
/// within -12.4 to +29.2 % of Churchill and Chu over Ra 1e3 to 1e8 (high below 1e4, low above 1e7); level
/// and shedding within -26.2 to +1.4 % of McAdams over Ra 1e5 to 1e7 (the least at 1e5, where his fourth
/// root is above any cube root), level and still within +3.9 to +12.6 %. McAdams's length is area over
/// perimeter; the shedding film, which hardly knows a length, does not mind which is given.
#[inline(always)]
pub fn free<T: Number>(dt_k: T, length_m: T::Given, facing: Facing) -> T {
    let k = CONDUCTIVITY_W_PER_MK;
    let excess = (dt_k.squared() + CUSP_K * CUSP_K).sqrt();
    let ra = excess.times(length_m.cubed() * RAYLEIGH_PER_M3K);
    let bare = T::Given::all(k) / length_m;
    let face = match facing {
        Facing::Upright => return (ra.sqrt().sqrt() * 0.52 + 1.5).times(bare),
        Facing::Up => 1.0,
        Facing::Down => -1.0,
    };
    let shedding =
        ((excess * RAYLEIGH_PER_M3K).cbrt() * 0.14).plus(T::Given::all(0.6) / length_m) * k;
    let still = (ra.sqrt().sqrt() * 0.27 + 0.6).times(bare);
    let share = (dt_k * (2.0 * face / TURN_K)).logistic();
    still + share * (shedding - still)
}

/// Film coefficient of moving air in W/(m²·K), from its speed and the surface's length.
///
/// ```text
/// h = k/L 0.59 sqrt(v L / nu)
/// ```
///
/// *Valid*: laminar, Re up to 5e5. At or below zero speed it is zero with zero slope, although the
/// true slope there is infinite: at the tiny speeds of a closed bay use [`combined`], whose slope is
/// finite everywhere.
/// *Source*: Pohlhausen 1921 (from memory), laminar flat plate, mean over the length; checked in
/// `tests/physics/convection.rs` against ht 1.2.0, error found -0.4 %.
#[inline(always)]
pub fn forced<T: Number>(speed_m_per_s: T, length_m: T::Given) -> T {
    let film = speed_m_per_s.sqrt().times(forced_factor(length_m));
    speed_m_per_s.where_positive(film, T::constant(0.0))
}

/// Film coefficient in W/(m²·K) of still and moving air acting together.
///
/// ```text
/// h = (h_free^3 + h_forced^3)^(1/3),   h_forced^3 = (0.59 k)^3 (L nu)^(-3/2) v^(3/2)
/// ```
///
/// *Valid*: a positive still-air film, which [`free`] always gives; speeds of zero or below count as
/// still, and the slope there is zero, the limit from above.
/// *Source*: cubic sum, Churchill 1977 (AIChE J. 23:10; from memory); checked in `tests/physics/convection.rs`
/// against that sum of ht 1.2.0 values.
#[inline(always)]
pub fn combined<T: Number>(free: T, speed_m_per_s: T, length_m: T::Given) -> T {
    let speed_to_three_halves =
        speed_m_per_s.where_positive(speed_m_per_s * speed_m_per_s.sqrt(), T::constant(0.0));
    (free.cubed() + speed_to_three_halves.times(forced_factor(length_m).cubed())).cbrt()
}

/// What the square root of an air speed is multiplied with, W s^(1/2)/(m^(5/2) K).
#[inline(always)]
fn forced_factor<G: Register>(length_m: G) -> G {
    G::all(CONDUCTIVITY_W_PER_MK * DRAUGHT_FACTOR)
        / (length_m * KINEMATIC_VISCOSITY_M2_PER_S).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::dual::Dual;
    use proptest::prelude::*;

    const FACINGS: [Facing; 3] = [Facing::Up, Facing::Down, Facing::Upright];

    fn finite<const K: usize>(d: Dual<K>) -> bool {
        d.value.is_finite() && d.slopes.iter().all(|s| s.is_finite())
    }

    #[test]
    fn a_surface_as_warm_as_its_air_has_finite_slopes() {
        for facing in FACINGS {
            let film = free(Dual::<1>::variable(0.0, 0), 0.12, facing);
            assert!(finite(film) && film.value > 0.0, "{facing:?} {film:?}");
        }
    }

    #[test]
    fn air_exactly_at_rest_has_finite_slopes() {
        for speed in [0.0, 1e-300, 1e-20, -1e-12] {
            let still = Dual::<2>::variable(3.0, 0);
            let film = combined(still, Dual::variable(speed, 1), 0.12);
            assert!(finite(film) && (film.value - 3.0).abs() < 1e-12);
            assert!((film.slopes[0] - 1.0).abs() < 1e-12 && film.slopes[1] < 1e-3);
            assert!(finite(forced(Dual::<1>::variable(speed, 0), 0.12)));
        }
    }

    #[test]
    fn a_level_surface_turns_over_with_the_sign_of_its_excess() {
        let up = |dt| free(dt, 0.15, Facing::Up);
        assert!(up(10.0) > 1.8 * up(-10.0));
        assert!((up(10.0) - free(-10.0, 0.15, Facing::Down)).abs() < 1e-12);
    }

    #[test]
    fn the_cusp_and_the_turn_are_as_wide_as_stated() {
        // At no excess the film is that of a twentieth of a kelvin.
        let bare = CONDUCTIVITY_W_PER_MK / 0.12;
        let ra = RAYLEIGH_PER_M3K * 0.05 * 0.12_f64.powi(3);
        let upright = free(0.0, 0.12, Facing::Upright);
        assert!((upright - bare * (1.5 + 0.52 * ra.powf(0.25))).abs() < 1e-12);
        // Looking up and down at the same excess share shedding and still out between them, and at
        // 0.3 K they lie tanh(1) apart.
        let apart = |dt: f64| free(dt, 0.12, Facing::Up) - free(dt, 0.12, Facing::Down);
        let excess = 0.3_f64.hypot(0.05);
        let ra = RAYLEIGH_PER_M3K * excess * 0.12_f64.powi(3);
        let whole = bare * (0.14 * ra.cbrt() - 0.27 * ra.powf(0.25));
        assert!((apart(0.3) - 1.0_f64.tanh() * whole).abs() < 1e-12);
    }

    proptest! {
        #[test]
        fn slopes_are_those_of_difference_quotients(
            dt in -60.0..60.0_f64, speed in 1e-3..3.0_f64, length in 0.03..0.5_f64, which in 0..3_usize,
        ) {
            let law = |dt, v| combined(free(dt, length, FACINGS[which]), v, length);
            let film = combined(
                free(Dual::<2>::variable(dt, 0), length, FACINGS[which]),
                Dual::variable(speed, 1),
                length,
            );
            let (h, k) = (1e-5, 1e-6 * speed);
            let along_dt = (law(dt + h, speed) - law(dt - h, speed)) / (2.0 * h);
            let along_v = (law(dt, speed + k) - law(dt, speed - k)) / (2.0 * k);
            prop_assert!((film.slopes[0] - along_dt).abs() < 1e-5 * (1.0 + along_dt.abs()));
            prop_assert!((film.slopes[1] - along_v).abs() < 1e-5 * (1.0 + along_v.abs()));
        }

        #[test]
        fn more_air_speed_never_cools_less(
            dt in -60.0..60.0_f64, speed in 0.0..3.0_f64, more in 1e-6..1.0_f64,
        ) {
            let still = free(dt, 0.12, Facing::Upright);
            prop_assert!(combined(still, speed + more, 0.12) > combined(still, speed, 0.12));
            prop_assert!(combined(still, speed, 0.12) >= still.max(forced(speed, 0.12)) * (1.0 - 1e-12));
        }

        #[test]
        fn heat_rises_with_the_excess(dt in -60.0..60.0_f64, which in 0..3_usize) {
            let dt = Dual::<1>::variable(dt, 0);
            prop_assert!((dt * free(dt, 0.12, FACINGS[which])).slopes[0] > 0.0);
        }
    }
}
