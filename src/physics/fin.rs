//! Fins: a blade that loses heat along its length, and the narrow passages between cylinder fins.
//!
//! Between fins a few millimetres apart the air hardly moves. What passes is a slow laminar stream
//! that leaves almost at the fins' own temperature, so the fin area times a free-plate coefficient
//! would overstate it several fold.

use super::air::{
    CONDUCTIVITY_W_PER_MK, DYNAMIC_VISCOSITY_PA_S, HEAT_CAPACITY_J_PER_KGK,
    REFERENCE_DENSITY_KG_PER_M3,
};
use super::number::{Number, Register};

/// Nusselt number of a laminar stream between parallel plates, on twice the gap.
const SLOT_NUSSELT: f64 = 8.2;
/// Transfer units beyond which a stream leaves at the fins' temperature to rounding.
const MOST_TRANSFER_UNITS: f64 = 40.0;
/// Stream that stands for none when the fins have no area either, kg/s.
const LEAST_STREAM_KG_PER_S: f64 = 1e-30;

/// Heat in W/K that a straight fin of constant section carries off per kelvin of its root's excess.
///
/// ```text
/// G = sqrt(h P k A) tanh(m L),   m = sqrt(h P / (k A))
/// ```
///
/// with perimeter P and section A.
///
/// *Valid*: thin (`h t/k` well under one), one film coefficient, no heat through the tip.
/// *Source*: Harper and Brown 1922 (NACA TR 158; from memory); checked in `tests/physics/fin.rs` against propeller
/// blades of metal and wood and a numerical solution of the heat equation, error found under 1e-8.
pub fn straight_fin_w_per_k(
    conductivity_w_per_mk: f64,
    section_m2: f64,
    perimeter_m: f64,
    length_m: f64,
    film_coefficient_w_per_m2k: f64,
) -> f64 {
    let side = film_coefficient_w_per_m2k * perimeter_m;
    let core = conductivity_w_per_mk * section_m2;
    (side * core).sqrt() * ((side / core).sqrt() * length_m).tanh()
}

/// Film coefficient in W/(m²·K) on both walls of a passage between fins.
///
/// ```text
/// h = 8.2 k / (2 gap)
/// ```
///
/// *Valid*: laminar, fully developed; 8.2 is the value of evenly heated walls, for walls of even
/// temperature it is 7.54 (8 % less).
/// *Source*: Shah and London 1978 (from memory), parallel plates; checked in `tests/physics/fin.rs` against ht 1.2.0,
/// error found -0.4 %.
pub fn passage_film_coefficient(gap_m: f64) -> f64 {
    SLOT_NUSSELT * CONDUCTIVITY_W_PER_MK / (2.0 * gap_m)
}

/// Mass flow through fin passages per pascal along them, kg/(s·Pa).
///
/// ```text
/// G = rho A gap^2 / (12 mu l),   rho = 1.25 kg/m3, mu = 1.75e-5 Pa s
/// ```
///
/// *Valid*: laminar and fully developed (Re under 2000), gap much smaller than the fin is deep; inlet
/// losses left out.
/// *Source*: Poiseuille flow between plates, exact; checked in `tests/physics/fin.rs` against a
/// difference solution of the velocity profile, error found under 1e-5, and the friction factor 96/Re.
pub fn passage_flow_conductance(free_area_m2: f64, gap_m: f64, length_m: f64) -> f64 {
    REFERENCE_DENSITY_KG_PER_M3 * free_area_m2 * gap_m.powi(2)
        / (12.0 * DYNAMIC_VISCOSITY_PA_S * length_m)
}

/// Share of the way to the fins' temperature that a stream gets in a passage, 0 to 1.
///
/// ```text
/// eps = 1 - exp(-hA / (m cp))
/// ```
///
/// *Valid*: streams above zero. A stream too small for the difference to matter (more than 40
/// transfer units, eps within 5e-18 of one), none, or one written the other way gives one with zero
/// slope.
/// *Source*: Kays and London 1984 (from memory), one stream of negligible capacity ratio; checked in
/// `tests/physics/fin.rs` against ht 1.2.0, error found under 1e-12.
#[inline(always)]
pub fn passage_effectiveness<T: Number>(mass_kg_per_s: T, ha_w_per_k: T::Given) -> T {
    let least = (ha_w_per_k / (MOST_TRANSFER_UNITS * HEAT_CAPACITY_J_PER_KGK))
        .largest(T::Given::all(LEAST_STREAM_KG_PER_S));
    let stream = mass_kg_per_s.largest(T::given(least));
    let transfer_units = T::given(ha_w_per_k / HEAT_CAPACITY_J_PER_KGK) / stream;
    -(-transfer_units).exp() + 1.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::dual::Dual;
    use proptest::prelude::*;

    #[test]
    fn no_stream_has_no_nan_slope() {
        for ha in [0.0, 1e-9, 0.8, 50.0] {
            for mass in [0.0, 1e-300, 1e-12, -1e-5] {
                let eps = passage_effectiveness(Dual::<1>::variable(mass, 0), ha);
                assert!(eps.value.is_finite() && eps.slopes[0].is_finite());
                assert!((0.0..=1.0).contains(&eps.value));
            }
        }
    }

    #[test]
    fn a_short_fin_is_its_area_and_a_long_one_needs_no_tip() {
        let short = straight_fin_w_per_k(160.0, 2e-3, 0.3, 1e-4, 8.0);
        assert!((short / (8.0 * 0.3 * 1e-4) - 1.0).abs() < 1e-5);
        let long = straight_fin_w_per_k(160.0, 2e-3, 0.3, 50.0, 8.0);
        assert!((long / (8.0 * 0.3 * 160.0 * 2e-3_f64).sqrt() - 1.0).abs() < 1e-12);
    }

    proptest! {
        #[test]
        fn slopes_are_those_of_difference_quotients(mass in 1e-5..1e-1_f64, ha in 0.01..20.0_f64) {
            let eps = passage_effectiveness(Dual::<1>::variable(mass, 0), ha);
            let h = 1e-6 * mass;
            let quotient =
                (passage_effectiveness(mass + h, ha) - passage_effectiveness(mass - h, ha)) / (2.0 * h);
            prop_assert!((eps.slopes[0] - quotient).abs() < 1e-8 / mass + 1e-5 * quotient.abs());
        }

        #[test]
        fn a_greater_stream_carries_more_but_leaves_cooler(
            mass in 1e-7..1e-1_f64, ha in 0.01..20.0_f64,
        ) {
            let mass = Dual::<1>::variable(mass, 0);
            let eps = passage_effectiveness(mass, ha);
            prop_assert!(eps.slopes[0] <= 0.0);
            prop_assert!((mass * eps).slopes[0] >= 0.0);
        }
    }
}
