//! Copper wires against the gauge's diameters in fluids.

use super::table::{assert_agrees, numbers};
use coldsoak::physics::wire::ohm_per_m;
use std::f64::consts::PI;

/// fluids 1.3.1: diameters by gauge.
const WIRE: &str = include_str!("reference/wire.csv");
/// Its diameters are rounded to a ten-thousandth of an inch: at 18 AWG by 0.12 percent, and the area by twice that.
const ROUNDED: f64 = 2.5e-3;

/// Source: fluids 1.3.1, American wire gauge; annealed copper of 1.7241e-8 ohm m at 20 °C (IEC 60028, from memory).
#[test]
fn a_metre_of_wire_resists_by_its_section() {
    for row in numbers(WIRE) {
        let section = PI * row[1] * row[1] / 4.0;
        assert_agrees(ohm_per_m(row[0] as u32, 20.0), 1.7241e-8 / section, ROUNDED);
    }
}
