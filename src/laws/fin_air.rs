//! The slow stream between the fins of a cylinder, what it carries, and the heat it takes from each finned cell.

use super::air::pressure_at;
use super::element::{Each, Law};
use crate::physics::air::{GRAVITY_M_PER_S2, HEAT_CAPACITY_J_PER_KGK, density_kg_per_m3};
use crate::physics::number::Number;
use crate::physics::{fin, orifice};

/// Stream below which air passes both ways between fins, kg/s.
const FIN_REVERSAL_KG_PER_S: f64 = 1e-5;

/// The stream through the fin passage of one cylinder: an auxiliary unknown.
///
/// Columns: the stream, pressures below and above, temperatures below, above, of the hangar and of the fins.
/// The row that defines the stream.
#[derive(Debug, Clone, PartialEq)]
pub struct FinStream {
    /// Laminar flow conductance, kg/s/Pa.
    pub kg_per_s_pa: f64,
    /// Heights of the lower end over the middle of the lower pocket, and of the upper end over that of the upper, m.
    pub heights_m: [f64; 2],
    /// Length of the way, m.
    pub length_m: f64,
}

impl FinStream {
    /// The stream upward through the fins, kg/s.
    #[inline(always)]
    pub fn stream<T: Number>(
        it: Each<'_, Self, T>,
        p: [T; 2],
        temps: [T; 2],
        hangar: T,
        fins: T,
    ) -> T {
        let rho = [density_kg_per_m3(temps[0]), density_kg_per_m3(temps[1])];
        let rho_h = density_kg_per_m3(hangar);
        let length_m = T::of(it, |l: &Self| l.length_m);
        let lift = (rho_h - density_kg_per_m3(fins)).times(length_m * GRAVITY_M_PER_S2);
        let low = T::of(it, |l: &Self| l.heights_m[0]);
        let high = T::of(it, |l: &Self| l.heights_m[1]);
        let dp =
            pressure_at(p[0], rho[0], rho_h, low) - pressure_at(p[1], rho[1], rho_h, high) + lift;
        dp.times(T::of(it, |l: &Self| l.kg_per_s_pa))
    }
}

impl Law<7, 1> for FinStream {
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [m, pl, ph, low, high, hangar, fins]: [T; 7],
        _: T::Given,
    ) -> [T; 1] {
        [Self::stream(it, [pl, ph], [low, high], hangar, fins) - m]
    }
}

/// What the fin stream carries.
///
/// Columns: the stream, temperatures below and above, vapours below and above, hangar temperature, fin temperature.
/// Rows: heat, vapour and mass, below and above in turn.
#[derive(Debug, Clone, PartialEq)]
pub struct FinCarry {
    /// Film coefficient times fin area, W/K.
    pub ha_w_per_k: f64,
}

impl Law<7, 6> for FinCarry {
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [m, low, high, wl, wh, hangar, fins]: [T; 7],
        _: T::Given,
    ) -> [T; 6] {
        let (up, down) = orifice::both_ways(m, FIN_REVERSAL_KG_PER_S);
        let ha_w_per_k = T::of(it, |l: &Self| l.ha_w_per_k);
        let gain_up = fin::passage_effectiveness(up, ha_w_per_k) * (fins - low);
        let gain_down = fin::passage_effectiveness(down, ha_w_per_k) * (fins - high);
        let leave_low = up * (low - hangar);
        let leave_high = down * (high - hangar);
        let heat_low = down * (high - hangar + gain_down) - leave_low;
        let heat_high = up * (low - hangar + gain_up) - leave_high;
        let vapour = up * wl / density_kg_per_m3(low) - down * wh / density_kg_per_m3(high);
        [
            heat_low * HEAT_CAPACITY_J_PER_KGK,
            heat_high * HEAT_CAPACITY_J_PER_KGK,
            -vapour,
            vapour,
            -m,
            m,
        ]
    }
}

/// One finned cell's share of the heat that the fin stream takes.
///
/// Columns: the stream, temperatures below and above, cell temperature.
/// Heat row of the cell.
#[derive(Debug, Clone, PartialEq)]
pub struct FinCell {
    /// Film coefficient times fin area of the cylinder, W/K.
    pub ha_w_per_k: f64,
    /// The cell's share of that area.
    pub share: f64,
}

impl Law<4, 1> for FinCell {
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [m, low, high, cell]: [T; 4],
        _: T::Given,
    ) -> [T; 1] {
        let (up, down) = orifice::both_ways(m, FIN_REVERSAL_KG_PER_S);
        let ha_w_per_k = T::of(it, |l: &Self| l.ha_w_per_k);
        let taken = up * fin::passage_effectiveness(up, ha_w_per_k) * (cell - low)
            + down * fin::passage_effectiveness(down, ha_w_per_k) * (cell - high);
        [taken.times(T::of(it, |l: &Self| l.share) * -HEAT_CAPACITY_J_PER_KGK)]
    }
}
