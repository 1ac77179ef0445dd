//! Water inside the engine: walls, oil surface, breather.

use super::law::Law;
use crate::network::elements::{Breathing, OilSurface, Vent, WallFilm};
use crate::physics::air::{HEAT_CAPACITY_J_PER_KGK, REFERENCE_DENSITY_KG_PER_M3, ZERO_C_IN_K};
use crate::physics::convection::{self, Facing};
use crate::physics::exchange;
use crate::physics::number::Number;
use crate::physics::vapour::{self, LATENT_HEAT_J_PER_G};

/// Length of the inner walls along the flow of the gas, m (estimate, 0.05 to 0.2: a crank throw to a case half).
const WALL_LENGTH_M: f64 = 0.10;
/// Heat capacity of a cubic metre of the air inside, J/K.
const GAS_J_PER_M3K: f64 = REFERENCE_DENSITY_KG_PER_M3 * HEAT_CAPACITY_J_PER_KGK;

impl Law<4, 5> for WallFilm {
    fn columns(&self) -> [usize; 4] {
        self.columns
    }
    fn rows(&self) -> [usize; 5] {
        self.rows
    }
    fn apply<T: Number>(&self, [wall, gas, vapour, film]: [T; 4], _: &[f64]) -> [T; 5] {
        let h = convection::free(wall - gas, WALL_LENGTH_M, self.facing);
        let q = h * (wall - gas) * (self.area_m2 * self.mass_factor.sqrt());
        let h_m = vapour::transfer_coefficient_m_per_s(h, self.mass_factor);
        let drive = vapour - vapour::saturation_density_g_per_m3(wall);
        let gained = vapour::condensation_g_per_s(h_m, self.area_m2, drive, film);
        let drip = if self.drips {
            vapour::drip_g_per_s(film, self.area_m2)
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

impl Law<4, 4> for OilSurface {
    fn columns(&self) -> [usize; 4] {
        self.columns
    }
    fn rows(&self) -> [usize; 4] {
        self.rows
    }
    fn apply<T: Number>(&self, [oil, gas, vapour, water]: [T; 4], _: &[f64]) -> [T; 4] {
        let h = convection::free(oil - gas, WALL_LENGTH_M, Facing::Up);
        let q = h * (oil - gas) * self.area_m2;
        let h_m = vapour::transfer_coefficient_m_per_s(h, 1.0);
        let given =
            vapour::oil_evaporation_g_per_s(h_m, self.area_m2, self.oil_film, water, oil, vapour);
        [-q - given * LATENT_HEAT_J_PER_G, q, given, -given]
    }
}

impl Law<4, 5> for Vent {
    fn columns(&self) -> [usize; 4] {
        self.columns
    }
    fn rows(&self) -> [usize; 5] {
        self.rows
    }
    fn apply<T: Number>(&self, [gas, rear, w_gas, w_rear]: [T; 4], _: &[f64]) -> [T; 5] {
        let mut flow = T::constant(self.steady_m3_per_s);
        if self.filler_m > 0.0 {
            flow = flow + exchange::filler_m3_per_s(gas, rear, self.filler_m, self.epstein);
        }
        let q = flow * (gas - rear) * GAS_J_PER_M3K;
        let lost = flow * (w_gas - w_rear);
        [-q, q, -lost, lost, lost * LATENT_HEAT_J_PER_G]
    }
}

impl Law<5, 5> for Breathing {
    fn columns(&self) -> [usize; 5] {
        self.columns
    }
    fn rows(&self) -> [usize; 5] {
        self.rows
    }
    /// Warming gas breathes out, cooling gas breathes in. The heat that goes along depends on the rate
    /// of warming, which depends on that heat: solved in closed form for the rate.
    fn apply<T: Number>(&self, [heat, gas, rear, w_gas, w_rear]: [T; 5], _: &[f64]) -> [T; 5] {
        let kelvin = gas + ZERO_C_IN_K;
        let carried = (gas - rear) / kelvin * (GAS_J_PER_M3K * self.volume_m3);
        let signed = heat.where_positive(carried, -carried);
        let rate = heat / (signed + self.capacity_j_per_k);
        let swept = rate / kelvin * self.volume_m3;
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
