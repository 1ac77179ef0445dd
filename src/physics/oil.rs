//! Oil: how thick it is at a temperature, and how it mixes when it is heated from below.
//!
//! Heated from above, cold oil only conducts; heated from below it turns over, the slower the thicker
//! it is. That asymmetry decides what a heater under the sump can do and one on top cannot.

use std::f64::consts::LN_10;

use super::air::{GRAVITY_M_PER_S2, kelvin};
use super::number::{Number, Register};

/// Thermal conductivity of engine oil, W/(m·K).
///
/// *Valid*: -30 to +60 °C; oils differ by 8 %.
/// *Source*: within +0.3 to +5.4 % of Cragoe 1929 (NBS Misc. Pub. 97; from memory) and -8.2 to -2.8 % of
/// the oil table of Incropera and DeWitt (from memory); checked in `tests/physics/oil.rs`.
pub const CONDUCTIVITY_W_PER_MK: f64 = 0.135;

/// Thermal expansion of engine oil, 1/K.
///
/// *Source*: 7.0e-4 in the table of unused engine oil of Incropera and DeWitt (from memory).
pub const EXPANSION_PER_K: f64 = 7e-4;

/// Thermal diffusivity of engine oil, m²/s.
///
/// *Source*: conductivity over 880 kg/m³ and 1900 J/(kg·K), rounded; within -12.2 to +2.8 % of the oil
/// table of Incropera and DeWitt (from memory), checked in `tests/physics/oil.rs`.
pub const DIFFUSIVITY_M2_PER_S: f64 = 8e-8;

/// Factor of the mixing law; 0.08 to 0.18 is plausible.
///
/// *Source*: fitted to Hollands, Raithby and Konicek 1975; see [`mixing`].
pub const MIXING_FACTOR: f64 = 0.12;

/// Fall of temperature over which mixing sets in, K.
const ONSET_K: f64 = 0.05;
/// The constant in Walther's equation, mm²/s.
const WALTHER_SHIFT: f64 = 0.7;

/// Walther's line through an oil's viscosities at 40 and 100 °C.
///
/// ```text
/// log10 log10(nu + 0.7) = a - b log10(T_K),   nu in mm2/s
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Walther<G = f64> {
    /// The intercept a.
    pub a: G,
    /// The slope b.
    pub b: G,
}

impl Walther {
    /// The line through the viscosities in mm²/s at 40 and 100 °C that an oil's data sheet gives.
    ///
    /// *Valid*: both above 2 mm²/s (below, the standard adds further terms).
    /// *Source*: ASTM D341 (from memory); checked in `tests/physics/oil.rs` against six oils, error found
    /// under 2e-6 of a and b.
    pub fn through(nu40_mm2_s: f64, nu100_mm2_s: f64) -> Self {
        let double_log = |nu: f64| (nu + WALTHER_SHIFT).log10().log10();
        let log_kelvin = |temp_c: f64| kelvin(temp_c).log10();
        let (cool, hot) = (log_kelvin(40.0), log_kelvin(100.0));
        let b = (double_log(nu40_mm2_s) - double_log(nu100_mm2_s)) / (hot - cool);
        Self {
            a: double_log(nu40_mm2_s) + b * cool,
            b,
        }
    }
}

impl<G: Register> Walther<G> {
    /// Kinematic viscosity in mm²/s at a temperature.
    ///
    /// ```text
    /// nu = 10^(10^(a - b log10 T_K)) - 0.7
    /// ```
    ///
    /// *Valid*: above 2 mm²/s and above the oil's pour point; below that it is an equivalent only, as
    /// wax makes the oil thicker still and no longer a liquid. The caller flags it.
    /// *Source*: ASTM D341 (from memory); checked in `tests/physics/oil.rs` against 42 rows of six oils and
    /// against the cranking limits of SAE J300: two typical winter oils at 7.8 of 7.0 and 8.7 of 9.5 Pa·s.
    #[inline(always)]
    pub fn viscosity_mm2_s<T: Number<Given = G>>(&self, temp_c: T) -> T {
        let log_shifted = (kelvin(temp_c).ln().times(-self.b))
            .plus(self.a * LN_10)
            .exp();
        (log_shifted * LN_10).exp() - WALTHER_SHIFT
    }
}

/// How many times better than by conduction oil carries heat, given its fall of temperature upward.
///
/// ```text
/// E(d) = 1 + 0.12 Ra_1^(1/3) d+ (d+^2 + 0.05^2)^(-1/3),   d+ = max(d, 0)
/// Ra_1 = g beta h^3 / (nu alpha)      per kelvin, h the whole depth of oil
/// ```
///
/// with d the fall in K from lower to upper, scaled to a quarter of the depth; `beta` = 7e-4 /K,
/// `alpha` = 8e-8 m²/s, nu at the mean oil temperature. As d is a gradient, cutting the oil into more
/// layers changes nothing. Heated from above (d at or below zero) it is exactly one. The flux `d E(d)`
/// has bounded first and second slopes; E's own slope at zero is taken as that from below, zero.
///
/// *Valid*: 10 K from shell to surface, -15 to 70 °C, depths 0.08 to 0.10 m.
/// *Source*: anchored to Hollands, Raithby and Konicek 1975 (IJHMT 18:879), general-Prandtl form;
/// checked in `tests/physics/oil.rs`: within -12.4 to +23.0 % for six oils in three sumps. Globe and
/// Dropkin 1959 find 33 to 58 % more where they measured (Ra over 3e5, Pr under 8750).
#[inline(always)]
pub fn mixing<T: Number>(fall_k: T, mean_viscosity_mm2_s: T, oil_depth_m: T::Given) -> T {
    let per_kelvin =
        oil_depth_m.cubed() * (GRAVITY_M_PER_S2 * EXPANSION_PER_K) / (1e-6 * DIFFUSIVITY_M2_PER_S);
    let ra_1 = T::given(per_kelvin) / mean_viscosity_mm2_s;
    let fall = fall_k.positive_part();
    let gate = fall / (fall.squared() + ONSET_K * ONSET_K).cbrt();
    ra_1.cbrt() * gate * MIXING_FACTOR + 1.0
}

/// A piece of the oil's depth, from the shell or a layer below to the layer above.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece<G = f64> {
    /// Its conductance at rest, W/K.
    pub w_per_k: G,
    /// A quarter of the whole depth over the height between its two temperatures.
    pub stretch: G,
    /// The whole depth, m.
    pub oil_depth_m: G,
}

impl Piece {
    /// The piece over this share of the plan area, with this height between its temperatures (half a layer from the shell
    /// to the lowest layer).
    pub fn of(area_m2: f64, share: f64, height_m: f64, oil_depth_m: f64) -> Self {
        Self {
            w_per_k: CONDUCTIVITY_W_PER_MK * area_m2 * share / height_m,
            stretch: 0.25 * oil_depth_m / height_m,
            oil_depth_m,
        }
    }
}

impl<G: Register> Piece<G> {
    /// Heat in W that it carries upward.
    ///
    /// ```text
    /// q = k A / s (T_lower - T_upper) E(d),   d = (T_lower - T_upper) (h/4) / s
    /// ```
    ///
    /// with s the height between the two temperatures and h the whole depth.
    ///
    /// *Valid*: as [`mixing`]; heated from above it is plain conduction.
    /// *Source*: as [`mixing`]; checked in `tests/physics/oil.rs`: the flux for 10 K from shell to surface is
    /// the same with 4, 8 and 16 layers within 1e-9.
    #[inline(always)]
    pub fn carries_w<T: Number<Given = G>>(
        self,
        lower_c: T,
        upper_c: T,
        mean_viscosity_mm2_s: T,
    ) -> T {
        let fall = lower_c - upper_c;
        let mixing = mixing(
            fall.times(self.stretch),
            mean_viscosity_mm2_s,
            self.oil_depth_m,
        );
        (fall * mixing).times(self.w_per_k)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::dual::Dual;
    use proptest::prelude::*;

    #[test]
    fn oil_heated_from_above_conducts_and_no_more() {
        for fall in [0.0, -1e-12, -0.3, -40.0] {
            let e = mixing(
                Dual::<2>::variable(fall, 0),
                Dual::variable(5000.0, 1),
                0.09,
            );
            assert!(e.value == 1.0 && e.slopes == [0.0, 0.0]);
        }
    }

    #[test]
    fn the_flux_bends_within_bounds_through_zero() {
        let flux = |d: f64| d * mixing(d, 500.0, 0.09);
        let h = 1e-4;
        let bend = |d: f64| (flux(d + h) - 2.0 * flux(d) + flux(d - h)) / (h * h);
        let worst = (-200..200)
            .map(|i| bend(f64::from(i) * 2e-3).abs())
            .fold(0.0, f64::max);
        // Twice the factor times Ra_1^(1/3) over the gate's softness: the bend just above zero.
        let ra_1 = 9.80665 * 7e-4 * 0.09_f64.powi(3) / (500e-6 * 8e-8);
        assert!(
            worst < 1.01 * 2.0 * 0.12 * ra_1.cbrt() / 0.0025_f64.cbrt(),
            "{worst}"
        );
    }

    proptest! {
        #[test]
        fn slopes_are_those_of_difference_quotients(fall in 0.01..20.0_f64, nu in 50.0..1e5_f64) {
            let e = mixing(Dual::<2>::variable(fall, 0), Dual::variable(nu, 1), 0.09);
            let (h, k) = (1e-6 * fall, 1e-6 * nu);
            let along_fall = (mixing(fall + h, nu, 0.09) - mixing(fall - h, nu, 0.09)) / (2.0 * h);
            let along_nu = (mixing(fall, nu + k, 0.09) - mixing(fall, nu - k, 0.09)) / (2.0 * k);
            prop_assert!((e.slopes[0] - along_fall).abs() < 1e-6 * (1.0 + along_fall.abs()));
            prop_assert!((e.slopes[1] - along_nu).abs() < 1e-6 * along_nu.abs() + 1e-10);
        }

        #[test]
        fn colder_oil_is_thicker(temp in -40.0..99.0_f64, nu40 in 60.0..400.0_f64) {
            let oil = Walther::through(nu40, nu40 / 9.0);
            let nu = oil.viscosity_mm2_s(Dual::<1>::variable(temp, 0));
            prop_assert!(nu.slopes[0] < 0.0 && nu.value > 2.0);
        }
    }
}
