//! Water vapour: how much air can hold, where it settles as a film, and how it leaves the oil.
//!
//! Everything that decides whether an engine's inside stays dry hangs on one saturation law, used
//! alike for the oil's water, the films on the walls and the dew (below freezing: frost) point.
//! Film masses and vapour are in grams; vapour densities in g/m³.

use super::air::{HEAT_CAPACITY_J_PER_KGK, REFERENCE_DENSITY_KG_PER_M3, kelvin};
use super::number::Number;

/// Heat given to a wall per gram of vapour that settles on it, J/g, also below freezing.
///
/// *Valid*: the heat of evaporation over liquid is 2575 J/g at -30 °C and 2406 at 40 °C, so one value
/// is right within 4 %; frost would give 334 J/g more.
/// *Source*: Murphy and Koop 2005 and CoolProp 8.0.0; checked in `tests/physics/vapour.rs`.
pub const LATENT_HEAT_J_PER_G: f64 = 2500.0;

/// Gas constant of water vapour, J/(kg·K).
///
/// *Source*: 461.52, rounded (IAPWS).
pub const GAS_CONSTANT_J_PER_KGK: f64 = 461.5;

/// Lewis number to the two thirds, turning a heat transfer into a mass transfer coefficient.
///
/// *Source*: 0.87 to the two thirds; at 0 °C the diffusivities of Sherwood and Pigford and of Marrero and
/// Mason 1972 (both from memory) give 0.905 and 0.930; checked in `tests/physics/vapour.rs`.
pub const LEWIS_FACTOR: f64 = 0.91;

/// Film on which evaporation falls to half, g/m²: keeps what leaves a wall below what is there.
/// *Source*: numerical choice.
pub const FILM_SOFTNESS_G_PER_M2: f64 = 0.5;

/// Film a wall can hold before it drips, g/m² (a layer of 0.06 mm). *Source*: estimate.
pub const FILM_HELD_G_PER_M2: f64 = 60.0;

/// Time in which the water beyond [`FILM_HELD_G_PER_M2`] drips off, s. *Source*: estimate.
pub const DRIP_TIME_S: f64 = 600.0;

/// Oil water at which its activity falls to half, g. *Source*: numerical choice.
pub const OIL_WATER_SOFTNESS_G: f64 = 0.5;

/// Temperature below which [`dew_point_c`] no longer follows drier air, °C.
pub const DRIEST_DEW_POINT_C: f64 = -100.0;

const AT_ZERO_PA: f64 = 611.2;
const LIQUID: (f64, f64) = (17.62, 243.12);
const ICE: (f64, f64) = (22.46, 272.62);

#[inline(always)]
fn magnus<T: Number>(temp_c: T, (slope, offset): (f64, f64)) -> T {
    (temp_c * slope / (temp_c + offset)).exp() * AT_ZERO_PA
}

/// Saturation pressure of water vapour in Pa, over ice below 0 °C and over liquid above.
///
/// ```text
/// p = 611.2 exp(17.62 T / (243.12 + T))      T > 0 °C, over liquid
/// p = 611.2 exp(22.46 T / (272.62 + T))      T <= 0 °C, over ice
/// ```
///
/// *Valid*: -60 to +60 °C; continuous at 0 °C, where its slope has a kink.
/// *Source*: Magnus forms of WMO-No. 8, Guide to Instruments (constants from memory); checked in
/// `tests/physics/vapour.rs` against Hyland and Wexler (PsychroLib 2.5.0), the largest error found
/// being 0.025 % over ice (-30 to -5 °C) and 0.30 % over liquid (0 to 60 °C); against IAPWS 0.055 and 0.32 %.
#[inline(always)]
pub fn saturation_pressure_pa<T: Number>(temp_c: T) -> T {
    temp_c.where_positive(magnus(temp_c, LIQUID), magnus(temp_c, ICE))
}

/// Saturation pressure in Pa over liquid water at any temperature, as weather stations report dew
/// points even below freezing.
///
/// ```text
/// p = 611.2 exp(17.62 T / (243.12 + T))
/// ```
///
/// *Valid*: -45 to +60 °C.
/// *Source*: as [`saturation_pressure_pa`]; checked in `tests/physics/vapour.rs` against Murphy and
/// Koop 2005 (supercooled) and IAPWS-97, largest error found 0.46 % at -30 °C.
#[inline(always)]
pub fn saturation_pressure_over_water_pa<T: Number>(temp_c: T) -> T {
    magnus(temp_c, LIQUID)
}

/// Vapour density in g/m³ of a vapour pressure at an air temperature.
///
/// ```text
/// w = 1000 p / (461.5 T_K)
/// ```
///
/// *Valid*: as an ideal gas, within 0.1 % up to 60 °C.
/// *Source*: ideal gas law; checked in `tests/physics/vapour.rs` against PsychroLib rows.
#[inline(always)]
pub fn density_g_per_m3<T: Number>(pressure_pa: T, temp_c: T) -> T {
    pressure_pa * (1000.0 / GAS_CONSTANT_J_PER_KGK) / kelvin(temp_c)
}

/// Vapour pressure in Pa of a vapour density at an air temperature; the inverse of
/// [`density_g_per_m3`].
///
/// ```text
/// p = w 461.5 T_K / 1000
/// ```
///
/// *Valid*, *Source*: as [`density_g_per_m3`]; checked in `tests/physics/vapour.rs` by going there
/// and back.
#[inline(always)]
pub fn pressure_pa<T: Number>(density_g_per_m3: T, temp_c: T) -> T {
    density_g_per_m3 * kelvin(temp_c) * (GAS_CONSTANT_J_PER_KGK / 1000.0)
}

/// The most vapour air can hold, g/m³, over ice below 0 °C.
///
/// ```text
/// w_sat = 1000 p_sat(T) / (461.5 T_K)
/// ```
///
/// *Valid*, *Source*: as [`saturation_pressure_pa`]; checked in `tests/physics/vapour.rs` against the
/// closed-box condensation of a rigid vessel.
#[inline(always)]
pub fn saturation_density_g_per_m3<T: Number>(temp_c: T) -> T {
    density_g_per_m3(saturation_pressure_pa(temp_c), temp_c)
}

/// Dew point in °C of a vapour pressure (below 0 °C the frost point); the exact inverse of
/// [`saturation_pressure_pa`].
///
/// ```text
/// x = ln(p / 611.2)
/// T = 243.12 x / (17.62 - x)      x > 0
/// T = 272.62 x / (22.46 - x)      x <= 0
/// ```
///
/// *Valid*: pressures down to that of ice at -100 °C (1.4 mPa); drier air, and no vapour at all or a
/// rounding error below it, gives -100 °C ([`DRIEST_DEW_POINT_C`]).
/// *Source*: as [`saturation_pressure_pa`]; checked in `tests/physics/vapour.rs` against PsychroLib
/// dew and frost points, largest error found 0.051 K.
pub fn dew_point_c(pressure_pa: f64) -> f64 {
    let driest_pa = saturation_pressure_pa(DRIEST_DEW_POINT_C);
    let x = (pressure_pa.max(driest_pa) / AT_ZERO_PA).ln();
    let (slope, offset) = if x > 0.0 { LIQUID } else { ICE };
    offset * x / (slope - x)
}

/// Dew point over liquid water in °C of a vapour pressure, below freezing too, as weather stations report it; the
/// exact inverse of [`saturation_pressure_over_water_pa`].
///
/// ```text
/// x = ln(p / 611.2)
/// T = 243.12 x / (17.62 - x)
/// ```
///
/// *Valid*: dew points of -45 to +60 °C; no vapour at all, or a rounding error below it, gives -100 °C
/// ([`DRIEST_DEW_POINT_C`]).
/// *Source*: as [`saturation_pressure_over_water_pa`]; checked by going there and back, and against the stations'
/// own dew points and humidities.
pub fn dew_point_over_water_c(pressure_pa: f64) -> f64 {
    let driest_pa = saturation_pressure_over_water_pa(DRIEST_DEW_POINT_C);
    let x = (pressure_pa.max(driest_pa) / AT_ZERO_PA).ln();
    let (slope, offset) = LIQUID;
    offset * x / (slope - x)
}

/// Mass transfer coefficient in m/s beside a film coefficient in W/(m²·K), lessened by a factor for
/// walls the gas reaches badly.
///
/// ```text
/// h_m = f h / (rho cp Le^(2/3))      rho = 1.25 kg/m3, cp = 1006 J/(kg K), Le^(2/3) = 0.91
/// ```
///
/// *Valid*: thin vapour in air, -20 to +60 °C.
/// *Source*: Chilton and Colburn 1934 (from memory), analogy of heat and mass transfer; checked in
/// `tests/physics/vapour.rs` against the analogy with measured diffusivities, error found within
/// -11.2 to +11.8 % over -20 to +40 °C (air's density is held constant).
#[inline(always)]
pub fn transfer_coefficient_m_per_s<T: Number>(film_coefficient: T, mass_factor: T::Given) -> T {
    film_coefficient
        .times(mass_factor / (REFERENCE_DENSITY_KG_PER_M3 * HEAT_CAPACITY_J_PER_KGK * LEWIS_FACTOR))
}

/// Net rate in g/s at which a wall's film grows: condensation less what evaporates again.
///
/// ```text
/// rate = h_m A max(drive, 0) - h_m A max(-drive, 0) m / (m + 0.5 A)
/// drive = w_gas - w_sat(T_wall) in g/m3, m = max(film, 0) in g, A in m2
/// ```
///
/// *Valid*: area above zero. A bare wall evaporates nothing; a film well over 0.5 g/m² evaporates
/// like a free surface. The slope has a kink at zero drive and at zero film.
/// *Source*: film law of the heat-mass analogy, the limiter being a numerical choice; checked in
/// `tests/physics/vapour.rs` against the evaporation from a wet floor to a cold wall.
#[inline(always)]
pub fn condensation_g_per_s<T: Number>(
    h_m: T,
    area_m2: T::Given,
    drive_g_per_m3: T,
    film_g: T,
) -> T {
    let film = film_g.positive_part();
    let wet_share = film / film.plus(area_m2 * FILM_SOFTNESS_G_PER_M2);
    let settling = drive_g_per_m3.positive_part();
    let leaving = (-drive_g_per_m3).positive_part() * wet_share;
    h_m.times(area_m2) * (settling - leaving)
}

/// Rate in g/s at which a wall's film drips back into the sump.
///
/// ```text
/// rate = max(m - 60 g/m2 A, 0) / 600 s
/// ```
///
/// *Valid*: any film; zero below what the wall can hold.
/// *Source*: estimate; its threshold and rate are checked in `tests/physics/vapour.rs`.
#[inline(always)]
pub fn drip_g_per_s<T: Number>(film_g: T, area_m2: T::Given) -> T {
    film_g.plus(area_m2 * -FILM_HELD_G_PER_M2).positive_part() / DRIP_TIME_S
}

/// Rate in g/s at which water leaves the oil into the crankcase gas; negative when the oil takes
/// vapour up.
///
/// ```text
/// J = oil_film h_m A (a w_sat(T_oil) - w_gas),   a = W / (W + 0.5 g),   W = max(water, 0)
/// ```
///
/// *Valid*: `oil_film` 0.05 to 1, the share of a free water surface's rate that oil lets through.
/// *Source*: Raoult-like activity with a numerical limiter, `oil_film` an estimate; checked in
/// `tests/physics/vapour.rs`: with `oil_film` one and ample water it is a free surface's rate.
#[inline(always)]
pub fn oil_evaporation_g_per_s<T: Number>(
    h_m: T,
    area_m2: T::Given,
    oil_film: T::Given,
    water_g: T,
    oil_temp_c: T,
    gas_vapour_g_per_m3: T,
) -> T {
    let water = water_g.positive_part();
    let activity = water / (water + OIL_WATER_SOFTNESS_G);
    h_m.times(oil_film * area_m2)
        * (activity * saturation_density_g_per_m3(oil_temp_c) - gas_vapour_g_per_m3)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::dual::Dual;
    use proptest::prelude::*;

    fn close(a: f64, b: f64, tolerance: f64) -> bool {
        (a - b).abs() <= tolerance * b.abs().max(1e-12)
    }

    #[test]
    fn saturation_is_continuous_at_the_freezing_point() {
        let (below, above) = (saturation_pressure_pa(-1e-9), saturation_pressure_pa(1e-9));
        assert!(close(below, above, 1e-9));
        let slope = saturation_pressure_pa(Dual::<1>::variable(0.0, 0)).slopes[0];
        assert!(close(slope, 611.2 * 22.46 / 272.62, 1e-12));
    }

    #[test]
    fn dry_gas_has_the_driest_dew_point() {
        for pressure_pa in [0.0, -1e-9, 1e-4] {
            assert!((dew_point_c(pressure_pa) - DRIEST_DEW_POINT_C).abs() < 1e-9);
        }
    }

    #[test]
    fn no_film_and_no_drive_give_no_nan_slopes() {
        for (drive, film) in [(0.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (1.0, -1e-9)] {
            let rate = condensation_g_per_s(
                Dual::<3>::variable(2e-3, 0),
                0.1,
                Dual::variable(drive, 1),
                Dual::variable(film, 2),
            );
            assert!(rate.value.is_finite() && rate.slopes.iter().all(|s| s.is_finite()));
        }
        let dry = oil_evaporation_g_per_s(
            Dual::<1>::constant(2e-3),
            0.1,
            0.2,
            Dual::variable(0.0, 0),
            Dual::constant(10.0),
            Dual::constant(0.0),
        );
        assert!(dry.value == 0.0 && dry.slopes[0].is_finite());
    }

    proptest! {
        #[test]
        fn the_dew_point_over_water_undoes_saturation_over_water(temp_c in -99.0..80.0_f64) {
            let back = dew_point_over_water_c(saturation_pressure_over_water_pa(temp_c));
            prop_assert!((back - temp_c).abs() < 1e-9);
        }

        #[test]
        fn the_dew_point_undoes_saturation(temp_c in -99.0..80.0_f64) {
            prop_assert!((dew_point_c(saturation_pressure_pa(temp_c)) - temp_c).abs() < 1e-9);
        }

        #[test]
        fn saturation_rises_with_temperature(temp_c in -60.0..60.0_f64) {
            let pressure = saturation_pressure_pa(Dual::<1>::variable(temp_c, 0));
            let density = saturation_density_g_per_m3(Dual::<1>::variable(temp_c, 0));
            prop_assert!(pressure.slopes[0] > 0.0 && density.slopes[0] > 0.0);
        }

        #[test]
        fn a_film_never_evaporates_faster_than_a_free_surface(
            drive in -20.0..0.0_f64, film in 0.0..10.0_f64,
        ) {
            let rate = condensation_g_per_s(3e-3, 0.1, drive, film);
            prop_assert!(rate <= 0.0 && rate >= 3e-3 * 0.1 * drive);
        }

        #[test]
        fn film_slopes_are_those_of_difference_quotients(
            drive in 0.1..20.0_f64, sign in prop::bool::ANY, film in 0.01..10.0_f64,
        ) {
            let drive = if sign { drive } else { -drive };
            let rate = condensation_g_per_s(
                Dual::<2>::constant(3e-3), 0.1, Dual::variable(drive, 0), Dual::variable(film, 1),
            );
            let step = 1e-5;
            let at = |d, m| condensation_g_per_s(3e-3, 0.1, d, m);
            let along_drive = (at(drive + step, film) - at(drive - step, film)) / (2.0 * step);
            let along_film = (at(drive, film + step) - at(drive, film - step)) / (2.0 * step);
            prop_assert!((rate.slopes[0] - along_drive).abs() < 1e-9);
            prop_assert!((rate.slopes[1] - along_film).abs() < 1e-7);
        }
    }
}
