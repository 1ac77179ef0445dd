//! Cold air: the property constants every other law shares, and the density that drives buoyancy.
//!
//! A night spans perhaps -30 to +40 °C. Over it the properties of air move by a tenth, less than the
//! scatter of the film correlations they enter, so one value each, near 280 K, serves throughout.
//! Only density is followed, because it is what makes warm air rise.

use super::number::Number;

/// Thermal conductivity of air, W/(m·K), one value for the whole night.
///
/// *Valid*: -30 to +40 °C within -10.5 to +11.3 % of CoolProp 8.0.0 (within 0.6 % at 0 °C).
/// *Source*: project constant near 280 K; checked in `tests/physics/air.rs` against CoolProp.
pub const CONDUCTIVITY_W_PER_MK: f64 = 0.0245;

/// Kinematic viscosity of air, m²/s, one value for the whole night.
///
/// *Valid*: -30 to +40 °C within -18 to +30 % of CoolProp 8.0.0 (5.1 % above at 0 °C); it enters
/// the laws under a square root.
/// *Source*: project constant near 280 K; checked in `tests/physics/air.rs` against CoolProp.
pub const KINEMATIC_VISCOSITY_M2_PER_S: f64 = 1.40e-5;

/// Dynamic viscosity of air, Pa·s, one value for the whole night (fin passages).
///
/// *Valid*: -30 to +40 °C within -9 to +12 % of CoolProp 8.0.0 (1.6 % above at 0 °C).
/// *Source*: project constant near 280 K; checked in `tests/physics/air.rs` against CoolProp.
pub const DYNAMIC_VISCOSITY_PA_S: f64 = 1.75e-5;

/// Heat capacity of air at constant pressure, J/(kg·K).
///
/// *Valid*: -30 to +60 °C within 0.2 % of CoolProp 8.0.0.
/// *Source*: checked in `tests/physics/air.rs` against CoolProp.
pub const HEAT_CAPACITY_J_PER_KGK: f64 = 1006.0;

/// Density where it only scales an estimated coefficient, kg/m³; buoyancy and gaps use
/// [`density_kg_per_m3`] instead.
///
/// *Valid*: it is the density of dry air at standard pressure and 9.2 °C.
/// *Source*: project constant; checked in `tests/physics/air.rs` against [`density_kg_per_m3`].
pub const REFERENCE_DENSITY_KG_PER_M3: f64 = 1.25;

/// Rayleigh number of air per cubic metre and kelvin, 1/(m³·K): `B = g β / (ν α)`.
///
/// *Valid*: the value of CoolProp 8.0.0 at 7 °C; its cube root, the largest power it enters with,
/// stays within -20 to +19 % over -30 to +40 °C.
/// *Source*: project constant near 280 K; checked in `tests/physics/air.rs` against CoolProp.
pub const RAYLEIGH_PER_M3K: f64 = 1.28e8;

/// Standard acceleration of gravity, m/s².
///
/// *Source*: 3rd General Conference on Weights and Measures, 1901 (ISO 80000-3).
pub const GRAVITY_M_PER_S2: f64 = 9.80665;

/// The Celsius zero on the kelvin scale, K.
///
/// *Source*: ISO 80000-5.
pub const ZERO_C_IN_K: f64 = 273.15;

/// Standard atmospheric pressure, Pa.
///
/// *Source*: ISO 2533:1975, Standard atmosphere.
pub const STANDARD_PRESSURE_PA: f64 = 101_325.0;

/// Gas constant of dry air, J/(kg·K).
///
/// *Source*: ISO 2533:1975 gives 287.05287; rounded.
pub const GAS_CONSTANT_J_PER_KGK: f64 = 287.05;

/// The absolute temperature in K of a Celsius temperature.
///
/// ```text
/// T_K = T + 273.15
/// ```
///
/// *Valid*: any temperature. *Source*: ISO 80000-5.
#[inline(always)]
pub fn kelvin<T: Number>(temp_c: T) -> T {
    temp_c + ZERO_C_IN_K
}

/// Density of dry air at standard pressure in kg/m³.
///
/// ```text
/// rho = p / (R T_K)      p = 101325 Pa, R = 287.05 J/(kg K)
/// ```
///
/// *Valid*: -60 to +60 °C within 0.2 % of CoolProp 8.0.0; moisture (under 1 % at these temperatures)
/// and weather's changes of pressure are left out.
/// *Source*: ideal gas law with ISO 2533:1975 constants; checked in `tests/physics/air.rs` against
/// CoolProp 8.0.0, largest error found 0.19 %, at -60 °C.
#[inline(always)]
pub fn density_kg_per_m3<T: Number>(temp_c: T) -> T {
    T::constant(STANDARD_PRESSURE_PA / GAS_CONSTANT_J_PER_KGK) / kelvin(temp_c)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::dual::Dual;

    #[test]
    fn density_carries_the_slope_a_difference_quotient_finds() {
        for temp_c in [-30.0, 0.0, 40.0] {
            let slope = density_kg_per_m3(Dual::<1>::variable(temp_c, 0)).slopes[0];
            let step = 1e-3;
            let quotient = (density_kg_per_m3(temp_c + step) - density_kg_per_m3(temp_c - step))
                / (2.0 * step);
            assert!((slope - quotient).abs() < 1e-9, "{slope} {quotient}");
        }
    }
}
