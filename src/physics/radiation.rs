//! Radiation between grey, diffuse surfaces: two of them, or a whole enclosure.
//!
//! ```text
//! q = sigma A_x (T1^4 - T2^4),   T in kelvin
//! ```
//!
//! All geometry and emissivity goes into the exchange area `A_x`, found once for an engine; the fourth
//! powers are left for the night.

use nalgebra::DMatrix;

use super::air::kelvin;
use super::number::Number;

/// The Stefan-Boltzmann constant, W/(m²·K⁴).
///
/// *Source*: CODATA 2018, exact in the SI.
pub const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;

/// Least emissivity [`enclosure_exchange_areas`] computes with: keeps an enclosure of perfect mirrors
/// solvable, and moves nothing a thermometer could see.
const LEAST_EMISSIVITY: f64 = 1e-9;

/// Exchange area in m² of a surface that sees only another one.
///
/// ```text
/// A_x = A / (1/e1 + ratio (1/e2 - 1)),   ratio = A1/A2
/// ```
///
/// *Valid*: surface 1 flat or bulging, so that it does not see itself; ratio one for parallel plates,
/// zero for a small body in a large room. A dead surface (emissivity zero) gives zero.
/// *Source*: Christiansen 1883, Incropera and DeWitt, table of two-surface enclosures (from memory);
/// checked in `tests/physics/radiation.rs` against worked values, error found under 2e-6.
pub fn exchange_area_m2(
    area_m2: f64,
    emissivity_1: f64,
    emissivity_2: f64,
    area_ratio: f64,
) -> f64 {
    area_m2 / (1.0 / emissivity_1 + area_ratio * (1.0 / emissivity_2 - 1.0))
}

/// Heat in W radiated from surface 1 to surface 2.
///
/// ```text
/// q = sigma A_x (T1^4 - T2^4),   T in kelvin
/// ```
///
/// *Valid*: any temperatures above absolute zero. Written as a product of sums and a difference, so
/// that equal temperatures give exactly nothing.
/// *Source*: Stefan and Boltzmann; checked in `tests/physics/radiation.rs` against worked values, error
/// found under 2e-6.
#[inline(always)]
pub fn exchange_w<T: Number>(t1_c: T, t2_c: T, exchange_area_m2: T::Given) -> T {
    let (t1_k, t2_k) = (kelvin(t1_c), kelvin(t2_c));
    ((t1_k.squared() + t2_k.squared()) * (t1_k + t2_k) * (t1_c - t2_c))
        .times(exchange_area_m2 * STEFAN_BOLTZMANN)
}

/// Radiation as a film coefficient in W/(m²·K), for putting beside convection.
///
/// ```text
/// h_r = e sigma (T1^2 + T2^2)(T1 + T2),   T in kelvin
/// ```
///
/// *Valid*: a small surface in large surroundings; exact for any difference.
/// *Source*: the fourth-power law factored; checked in `tests/physics/radiation.rs` against worked values,
/// error found under 2e-5.
#[inline(always)]
pub fn film_coefficient<T: Number>(t1_c: T, t2_c: T, emissivity: T::Given) -> T {
    let (t1_k, t2_k) = (kelvin(t1_c), kelvin(t2_c));
    ((t1_k.squared() + t2_k.squared()) * (t1_k + t2_k)).times(emissivity * STEFAN_BOLTZMANN)
}

/// Exchange areas in m² between every two surfaces of an enclosure, many reflections included.
///
/// ```text
/// q_i = sum_j A_ij sigma (T_i^4 - T_j^4)
/// A_ij = e_i A_i [F (I - (1 - e) F)^-1]_ij e_j
/// ```
///
/// where `F_ij` is the share of what leaves surface i that falls on j. The matrix is symmetric; the
/// diagonal (what comes back to where it left) carries no heat and is kept so that in a closed
/// enclosure each row sums to `e_i A_i`.
///
/// *Valid*: grey, diffuse, each surface at one temperature, `A_i F_ij = A_j F_ji`. What reciprocity is
/// missing by rounding is averaged out. Emissivities under 1e-9 count as 1e-9.
/// *Source*: Gebhart 1961 (from memory); equal to the radiosity equations of Hottel and Sarofim 1967; checked in
/// `tests/physics/radiation.rs` against a worked three-surface enclosure, error found under 2e-6.
///
/// # Panics
///
/// If the slices and the matrix differ in size: a bug in the caller.
pub fn enclosure_exchange_areas(
    areas: &[f64],
    emissivities: &[f64],
    view: &DMatrix<f64>,
) -> DMatrix<f64> {
    let n = areas.len();
    assert!(
        emissivities.len() == n && view.shape() == (n, n),
        "one area, one emissivity and one row of view factors per surface"
    );
    let emissivity = |i: usize| emissivities[i].max(LEAST_EMISSIVITY);
    let reflections = DMatrix::from_fn(n, n, |i, j| {
        f64::from(u8::from(i == j)) - (1.0 - emissivity(i)) * view[(i, j)]
    });
    // The rows of (1 - e) F sum to less than one, so the matrix is diagonally dominant, never singular.
    let all_paths = reflections
        .try_inverse()
        .map_or_else(|| DMatrix::zeros(n, n), |inverse| view * inverse);
    let one_way = DMatrix::from_fn(n, n, |i, j| {
        emissivity(i) * areas[i] * all_paths[(i, j)] * emissivity(j)
    });
    (&one_way + one_way.transpose()) * 0.5
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::dual::Dual;
    use proptest::prelude::*;

    #[test]
    fn equal_temperatures_exchange_nothing_but_have_a_slope() {
        let q = exchange_w(Dual::<1>::variable(-17.3, 0), Dual::constant(-17.3), 0.3);
        assert!(q.value == 0.0 && q.slopes[0] > 0.0);
    }

    #[test]
    fn two_surfaces_are_an_enclosure_of_two() {
        let (a1, a2, e1, e2) = (0.5, 1.25, 0.46, 0.4);
        let view = DMatrix::from_row_slice(2, 2, &[0.0, 1.0, a1 / a2, 1.0 - a1 / a2]);
        let areas = enclosure_exchange_areas(&[a1, a2], &[e1, e2], &view);
        let direct = exchange_area_m2(a1, e1, e2, a1 / a2);
        assert!((areas[(0, 1)] - direct).abs() < 1e-12);
    }

    #[test]
    fn mirrors_exchange_nothing() {
        let view = DMatrix::from_row_slice(2, 2, &[0.0, 1.0, 1.0, 0.0]);
        let areas = enclosure_exchange_areas(&[1.0, 1.0], &[0.0, 0.0], &view);
        assert!(areas.iter().all(|a| a.abs() < 1e-8));
    }

    proptest! {
        #[test]
        fn a_closed_enclosure_passes_on_all_it_emits(
            e in prop::array::uniform3(0.05..1.0_f64), f12 in 0.1..0.9_f64,
        ) {
            // Three areas of a long triangular duct's kind: reciprocity fixes the rest.
            let areas = [1.0, 1.0, 2.0];
            let f13 = 1.0 - f12;
            let view = DMatrix::from_row_slice(3, 3, &[
                0.0, f12, f13, f12, 0.0, f13, f13 / 2.0, f13 / 2.0, 1.0 - f13,
            ]);
            let exchange = enclosure_exchange_areas(&areas, &e, &view);
            for i in 0..3 {
                prop_assert!((exchange.row(i).sum() - e[i] * areas[i]).abs() < 1e-12);
                for j in 0..3 {
                    prop_assert!(exchange[(i, j)] >= 0.0);
                    prop_assert!((exchange[(i, j)] - exchange[(j, i)]).abs() < 1e-15);
                }
            }
        }

        #[test]
        fn slopes_are_those_of_difference_quotients(t1 in -40.0..120.0_f64, t2 in -40.0..120.0_f64) {
            let q = exchange_w(Dual::<2>::variable(t1, 0), Dual::variable(t2, 1), 0.3);
            let at = |t1, t2| exchange_w(t1, t2, 0.3);
            let h = 1e-3;
            prop_assert!((q.slopes[0] - (at(t1 + h, t2) - at(t1 - h, t2)) / (2.0 * h)).abs() < 1e-7);
            prop_assert!((q.slopes[1] - (at(t1, t2 + h) - at(t1, t2 - h)) / (2.0 * h)).abs() < 1e-7);
        }
    }
}
