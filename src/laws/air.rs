//! Streams of air between pockets and through gaps, and what they carry.
//!
//! A stream is split into its two one-way parts, which differ by exactly the stream and are both
//! positive; each carries the enthalpy, over that of the hangar air, and the vapour of the pocket it
//! leaves. So what one pocket loses another gains, and no pocket is pushed beyond its neighbours.

use super::element::{Each, Law};
use crate::physics::air::{
    GRAVITY_M_PER_S2, HEAT_CAPACITY_J_PER_KGK, REFERENCE_DENSITY_KG_PER_M3, density_kg_per_m3,
};
use crate::physics::number::{Number, Register};
use crate::physics::{exchange, orifice, vapour};

/// Pressure below which an opening between pockets is laminar, Pa (estimate, 0.001 to 0.02; so is the next).
const PASSAGE_SOFTNESS_PA: f64 = 0.004;
/// The same for an opening to the hangar, where the air is less still, Pa.
const GAP_SOFTNESS_PA: f64 = 0.02;
/// Stream below which an opening passes air both ways, kg/s: a thousandth of the least exchange.
const REVERSAL_KG_PER_S: f64 = 1e-6;

/// Gauge pressure in a pocket at a height over its middle.
#[inline(always)]
pub fn pressure_at<T: Number>(middle_pa: T, rho: T, rho_hangar: T, height_m: T::Given) -> T {
    middle_pa + (rho_hangar - rho).times(height_m * GRAVITY_M_PER_S2)
}

/// One level of an opening between two pockets.
///
/// Columns: pressures, temperatures and vapours of the two pockets in turn, hangar temperature.
/// Rows: heat, vapour, mass and air speed of the two pockets in turn.
#[derive(Debug, Clone, PartialEq)]
pub struct Passage {
    /// Area, m2.
    pub area_m2: f64,
    /// Its height over the middle of each pocket, m.
    pub heights_m: [f64; 2],
}

impl Passage {
    /// The stream from the first pocket to the second, kg/s.
    #[inline(always)]
    pub fn stream<T: Number>(it: Each<'_, Self, T>, p: [T; 2], temps: [T; 2], hangar: T) -> T {
        let rho = [density_kg_per_m3(temps[0]), density_kg_per_m3(temps[1])];
        let rho_h = density_kg_per_m3(hangar);
        let low = T::of(it, |l: &Self| l.heights_m[0]);
        let high = T::of(it, |l: &Self| l.heights_m[1]);
        let dp = pressure_at(p[0], rho[0], rho_h, low) - pressure_at(p[1], rho[1], rho_h, high);
        let area_m2 = T::of(it, |l: &Self| l.area_m2);
        orifice::stream_kg_per_s(dp, rho[0], rho[1], area_m2, PASSAGE_SOFTNESS_PA)
    }
}

impl Law<7, 8> for Passage {
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [pa, pb, a, b, wa, wb, hangar]: [T; 7],
        _: T::Given,
    ) -> [T; 8] {
        let m = Self::stream(it, [pa, pb], [a, b], hangar);
        let (there, back) = orifice::both_ways(m, REVERSAL_KG_PER_S);
        let heat = (there * (a - hangar) - back * (b - hangar)) * HEAT_CAPACITY_J_PER_KGK;
        let vapour = there * wa / density_kg_per_m3(a) - back * wb / density_kg_per_m3(b);
        let moved = (there + back) * 0.5;
        [-heat, heat, -vapour, vapour, -m, m, moved, moved]
    }
}

/// One level of an opening to the hangar.
///
/// Columns: pressure, temperature and vapour of the pocket, hangar temperature and vapour, wind.
/// Rows: heat, vapour, mass and air speed of the pocket, book of heat, book of vapour.
#[derive(Debug, Clone, PartialEq)]
pub struct Gap {
    /// Area, m2.
    pub area_m2: f64,
    /// Its height over the middle of the pocket, m.
    pub height_m: f64,
    /// Wind pressure coefficient.
    pub wind_coefficient: f64,
    /// Share of the wind that pumps.
    pub gust: f64,
}

impl Gap {
    /// The stream out to the hangar, kg/s.
    #[inline(always)]
    pub fn stream<T: Number>(it: Each<'_, Self, T>, p: T, temp: T, hangar: T, wind: T) -> T {
        let (rho, rho_h) = (density_kg_per_m3(temp), density_kg_per_m3(hangar));
        let dp = pressure_at(p, rho, rho_h, T::of(it, |l: &Self| l.height_m))
            - (rho_h * wind.squared()).times(T::of(it, |l: &Self| l.wind_coefficient) * 0.5);
        let area_m2 = T::of(it, |l: &Self| l.area_m2);
        orifice::stream_kg_per_s(dp, rho, rho_h, area_m2, GAP_SOFTNESS_PA)
    }
}

impl Law<6, 6> for Gap {
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [p, t, w, hangar, w_h, wind]: [T; 6],
        _: T::Given,
    ) -> [T; 6] {
        let m = Self::stream(it, p, t, hangar, wind);
        let (net_out, net_in) = orifice::both_ways(m, REVERSAL_KG_PER_S);
        let gust = wind.times(
            T::of(it, |l: &Self| l.gust)
                * REFERENCE_DENSITY_KG_PER_M3
                * T::of(it, |l: &Self| l.area_m2),
        );
        let (out, back) = (net_out + gust, net_in + gust);
        let heat = out * (t - hangar) * HEAT_CAPACITY_J_PER_KGK;
        let vapour = out * w / density_kg_per_m3(t) - back * w_h / density_kg_per_m3(hangar);
        [-heat, -vapour, -m, (out + back) * 0.5, heat, vapour]
    }
}

/// A level opening through which air is exchanged both ways.
///
/// Columns: temperature and vapour, below and above in turn: T, T, w, w.
/// Rows: heat, vapour and air speed, below and above in turn.
#[derive(Debug, Clone, PartialEq)]
pub struct Exchange {
    /// Area, m2.
    pub area_m2: f64,
    /// Flow coefficient.
    pub epstein: f64,
    /// Exchange when stable, kg/s.
    pub stable_mix_kg_per_s: f64,
}

impl Law<4, 6> for Exchange {
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [low, high, wl, wh]: [T; 4], _: T::Given) -> [T; 6] {
        let m = exchange::level_opening_kg_per_s(
            low,
            high,
            T::of(it, |l: &Self| l.area_m2),
            T::of(it, |l: &Self| l.epstein),
            T::of(it, |l: &Self| l.stable_mix_kg_per_s),
        );
        let heat = m * (low - high) * HEAT_CAPACITY_J_PER_KGK;
        let vapour = m * (wl / density_kg_per_m3(low) - wh / density_kg_per_m3(high));
        [-heat, heat, -vapour, vapour, m, m]
    }
}

/// The vapour density of the hangar air: an auxiliary unknown.
///
/// Columns: itself, hangar temperature, outdoor temperature, humidity input.
/// The row that defines it.
#[derive(Debug, Clone, PartialEq)]
pub struct HangarVapour {
    /// Whether the humidity input is a dew point over water (°C), not a relative humidity.
    pub dew_point: bool,
}

impl Law<4, 1> for HangarVapour {
    fn choice(&self) -> u8 {
        u8::from(self.dew_point)
    }
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [w, hangar, outdoors, humidity]: [T; 4],
        _: T::Given,
    ) -> [T; 1] {
        let saturated = vapour::saturation_density_g_per_m3(outdoors);
        let out = if T::Given::first(it).dew_point {
            let pressure = vapour::saturation_pressure_over_water_pa(humidity);
            vapour::density_g_per_m3(pressure, outdoors).least(saturated)
        } else {
            humidity * saturated
        };
        [out.least(vapour::saturation_density_g_per_m3(hangar)) - w]
    }
}
