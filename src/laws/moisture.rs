//! Water inside the engine: walls, oil surface, breather.

use super::element::{Each, Law};
use crate::physics::air::{HEAT_CAPACITY_J_PER_KGK, REFERENCE_DENSITY_KG_PER_M3, ZERO_C_IN_K};
use crate::physics::convection::{self, Facing};
use crate::physics::exchange;
use crate::physics::number::{Number, Register};
use crate::physics::vapour::{self, LATENT_HEAT_J_PER_G};

/// Length of the inner walls along the flow of the gas, m (estimate, 0.05 to 0.2: a crank throw to a case half).
const WALL_LENGTH_M: f64 = 0.10;
/// Heat capacity of a cubic metre of the air inside, J/K.
const GAS_J_PER_M3K: f64 = REFERENCE_DENSITY_KG_PER_M3 * HEAT_CAPACITY_J_PER_KGK;

/// An inner wall with its film.
///
/// Columns: wall temperature, gas temperature, gas vapour, film.
/// Rows: heat of the wall, heat of the gas, vapour of the gas, film, water of the oil.
#[derive(Debug, Clone, PartialEq)]
pub struct WallFilm {
    /// Area, m2.
    pub area_m2: f64,
    /// Which way it faces.
    pub facing: Facing,
    /// Mass factor.
    pub mass_factor: f64,
    /// Whether what drips off reaches the oil.
    pub drips: bool,
}

impl Law<4, 5> for WallFilm {
    fn choice(&self) -> u8 {
        self.facing as u8 * 2 + u8::from(self.drips)
    }
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [wall, gas, vapour, film]: [T; 4],
        _: T::Given,
    ) -> [T; 5] {
        let area_m2 = T::of(it, |l: &Self| l.area_m2);
        let mass_factor = T::of(it, |l: &Self| l.mass_factor);
        let first = T::Given::first(it);
        let h = convection::free(wall - gas, T::Given::all(WALL_LENGTH_M), first.facing);
        let q = (h * (wall - gas)).times(area_m2 * mass_factor.sqrt());
        let h_m = vapour::transfer_coefficient_m_per_s(h, mass_factor);
        let drive = vapour - vapour::saturation_density_g_per_m3(wall);
        let gained = vapour::condensation_g_per_s(h_m, area_m2, drive, film);
        let drip = if first.drips {
            vapour::drip_g_per_s(film, area_m2)
        } else {
            T::constant(0.0)
        };
        [
            gained * LATENT_HEAT_J_PER_G - q,
            q,
            -gained,
            gained - drip,
            drip,
        ]
    }
}

/// The surface of the oil.
///
/// Columns: temperature of the top layer, gas temperature, gas vapour, water in the oil.
/// Rows: heat of the layer, heat of the gas, vapour of the gas, water.
#[derive(Debug, Clone, PartialEq)]
pub struct OilSurface {
    /// Area, m2.
    pub area_m2: f64,
    /// How freely water passes.
    pub oil_film: f64,
}

impl Law<4, 4> for OilSurface {
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [oil, gas, vapour, water]: [T; 4],
        _: T::Given,
    ) -> [T; 4] {
        let area_m2 = T::of(it, |l: &Self| l.area_m2);
        let oil_film = T::of(it, |l: &Self| l.oil_film);
        let h = convection::free(oil - gas, T::Given::all(WALL_LENGTH_M), Facing::Up);
        let q = (h * (oil - gas)).times(area_m2);
        let h_m = vapour::transfer_coefficient_m_per_s(h, T::Given::all(1.0));
        let given = vapour::oil_evaporation_g_per_s(h_m, area_m2, oil_film, water, oil, vapour);
        [-q - given * LATENT_HEAT_J_PER_G, q, given, -given]
    }
}

/// The air flow through breather and filler.
///
/// Columns: temperatures and vapours, gas and pocket in turn: T, T, w, w.
/// Rows: heat of the gas, heat of the pocket, vapour of the gas, vapour of the pocket, book of latent heat.
#[derive(Debug, Clone, PartialEq)]
pub struct Vent {
    /// Steady exchange, m3/s.
    pub steady_m3_per_s: f64,
    /// Diameter of the open filler, m; zero when the cap is on.
    pub filler_m: f64,
    /// Flow coefficient of the filler.
    pub epstein: f64,
}

impl Law<4, 5> for Vent {
    fn choice(&self) -> u8 {
        u8::from(self.filler_m > 0.0)
    }
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [gas, rear, w_gas, w_rear]: [T; 4],
        _: T::Given,
    ) -> [T; 5] {
        let mut flow = T::given(T::of(it, |l: &Self| l.steady_m3_per_s));
        if T::Given::first(it).filler_m > 0.0 {
            let filler_m = T::of(it, |l: &Self| l.filler_m);
            let epstein = T::of(it, |l: &Self| l.epstein);
            flow = flow + exchange::filler_m3_per_s(gas, rear, filler_m, epstein);
        }
        let q = flow * (gas - rear) * GAS_J_PER_M3K;
        let lost = flow * (w_gas - w_rear);
        [-q, q, -lost, lost, lost * LATENT_HEAT_J_PER_G]
    }
}

/// The air inside as it warms and cools, breathing through the breather.
///
/// Columns: heat to the gas, temperatures and vapours of gas and pocket in turn: Q, T, T, w, w.
/// Rows: heat of the gas, heat of the pocket, vapour of the gas, vapour of the pocket, book of latent heat.
#[derive(Debug, Clone, PartialEq)]
pub struct Breathing {
    /// Heat capacity of the gas and what goes with it, J/K.
    pub capacity_j_per_k: f64,
    /// Volume, m3.
    pub volume_m3: f64,
}

impl Law<5, 5> for Breathing {
    /// Warming gas breathes out, cooling gas breathes in. The heat that goes along depends on the rate
    /// of warming, which depends on that heat: solved in closed form for the rate.
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [heat, gas, rear, w_gas, w_rear]: [T; 5],
        _: T::Given,
    ) -> [T; 5] {
        let volume_m3 = T::of(it, |l: &Self| l.volume_m3);
        let kelvin = gas + ZERO_C_IN_K;
        let carried = ((gas - rear) / kelvin).times(volume_m3 * GAS_J_PER_M3K);
        let signed = heat.where_positive(carried, -carried);
        let rate = heat / signed.plus(T::of(it, |l: &Self| l.capacity_j_per_k));
        let swept = (rate / kelvin).times(volume_m3);
        let out = swept.positive_part();
        let back = (-swept).positive_part();
        let exchanged = (out + back) * (gas - rear) * GAS_J_PER_M3K;
        let lost = out * w_gas - back * w_rear;
        [
            heat - exchanged,
            exchanged,
            -lost,
            lost,
            lost * LATENT_HEAT_J_PER_G,
        ]
    }
}
