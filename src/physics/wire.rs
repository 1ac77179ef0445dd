//! The resistance of a copper wire by its American gauge.

/// Diameter of gauge 36, m, and the ratio of diameters over 39 gauges. *Source*: ASTM B258, the definition of the
/// gauge (from memory).
const GAUGE_36_M: f64 = 0.127e-3;
const RATIO: f64 = 92.0;
const GAUGES: f64 = 39.0;
/// Resistivity of annealed copper at 20 °C, ohm m, and its temperature coefficient, 1/K. *Source*: IEC 60028, the
/// International Annealed Copper Standard (from memory).
const COPPER_OHM_M: f64 = 1.7241e-8;
const PER_K: f64 = 3.93e-3;

/// Resistance of a metre of solid copper wire, ohm/m.
///
/// ```text
/// d = 0.127 mm 92^((36 - n)/39)        R = rho (1 + 0.00393 (t - 20)) / (pi d^2 / 4)
/// ```
///
/// with `n` the gauge (AWG) and `t` the temperature in °C. *Valid*: 10 to 18 AWG within 0.3 percent of the tabled
/// values; the strands of a cord add a few percent (not counted). *Checked by*
/// `the_tabled_resistances_come_out` below.
pub fn ohm_per_m(gauge_awg: u32, temp_c: f64) -> f64 {
    let d_m = GAUGE_36_M * RATIO.powf((36.0 - f64::from(gauge_awg)) / GAUGES);
    let area_m2 = std::f64::consts::PI * d_m * d_m / 4.0;
    COPPER_OHM_M * (1.0 + PER_K * (temp_c - 20.0)) / area_m2
}

#[cfg(test)]
mod tests {
    use super::ohm_per_m;

    /// Wire tables at 20 °C give 20.95, 13.17, 8.29, 5.21 and 3.28 mohm/m for 18 to 10 AWG (as in NBS Handbook 100,
    /// "Copper Wire Tables", 1966; values from memory, two decimals).
    #[test]
    fn the_tabled_resistances_come_out() {
        for (gauge, tabled) in [(18, 20.95), (16, 13.17), (14, 8.29), (12, 5.21), (10, 3.28)] {
            let error = 1e3 * ohm_per_m(gauge, 20.0) / tabled - 1.0;
            assert!(error.abs() < 3e-3, "{gauge} AWG: {error:.1e}");
        }
    }

    #[test]
    fn three_gauges_halve_the_area_nearly_and_cold_copper_conducts_better() {
        let ratio = ohm_per_m(14, 20.0) / ohm_per_m(11, 20.0);
        assert!((ratio - 2.0).abs() < 0.01, "{ratio}");
        let cold = ohm_per_m(14, -20.0) / ohm_per_m(14, 20.0);
        assert!((cold - (1.0 - 0.1572)).abs() < 1e-9, "{cold}");
    }
}
