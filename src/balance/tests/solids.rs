//! Heat between solids, oil and air.

use super::gives;
use crate::laws::{Feed, Fins, Linear, Link, OilLink, Outdoors, PowerFace, Radiation, Surface};
use crate::physics::convection::{self, Facing};
use crate::physics::oil::{self, Piece, Walther};
use crate::physics::radiation;

/// Each gives watts to its second row, which the first loses, over `1/G` and whatever lies before it.
#[test]
fn solids_pass_heat_from_warm_to_cold() {
    let w_per_k = 2.0;
    gives(&Link { w_per_k }, [30.0, 10.0], [-40.0, 40.0]);
    // Stefan and Boltzmann, from 400 to 300 K: 5.670374e-8 (2.56e10 - 8.1e9) = 992.32 W.
    let area_m2 = 1.0;
    let grey = Radiation { area_m2 };
    gives(&grey, [126.85, 26.85], [-992.315, 992.315]);
    // 8 W/K at 85 K are 680 W; at half the difference 8 (1/2)^(1/4) 42.5; behind 1/8 K/W, half of the 680 W.
    let face = |behind_k_per_w| PowerFace {
        w_per_k: 8.0,
        at_k: 85.0,
        exponent: 0.25,
        behind_k_per_w,
    };
    gives(&face(0.0), [70.0, -15.0], [-680.0, 680.0]);
    let half = 8.0 * 0.5_f64.powf(0.25) * 42.5;
    gives(&face(0.0), [-15.0, 27.5], [half, -half]);
    gives(&face(0.125), [70.0, -15.0], [-340.0, 340.0]);
    // Without a corner at no difference: a millionth of a kelvin counts for the root of two of them.
    let soft = 8.0 * (2.0_f64.sqrt() * 1e-6 / 85.0).powf(0.25) * 1e-6;
    gives(&face(0.0), [1e-6, 0.0], [-soft, soft]);
    gives(&face(0.0), [3.0, 3.0], [0.0, 0.0]);
    gives(&Linear { factor: -0.5 }, [8.0], [-4.0]);
    gives(&Feed { watts: 25.0 }, [], [25.0]);
}

#[test]
fn oil_mixes_only_when_warmer_below() {
    let viscosity = Walther::through(141.0, 19.6);
    let stack = OilLink {
        piece: Piece {
            w_per_k: 3.0,
            stretch: 2.0,
            oil_depth_m: 0.09,
        },
        viscosity,
    };
    gives(&stack, [10.0, 20.0, 15.0], [30.0, -30.0]);
    let mixed = oil::mixing(2.0 * 10.0, viscosity.viscosity_mm2_s(15.0), 0.09);
    assert!(mixed > 1.2, "{mixed}");
    gives(&stack, [20.0, 10.0, 15.0], [-30.0 * mixed, 30.0 * mixed]);
}

/// Resistances in series (ISO 6946): the film and what lies before it.
#[test]
fn surfaces_pass_heat_through_their_film_and_their_cover() {
    let (facing, length_m, area_m2) = (Facing::Upright, 0.3, 0.5);
    for behind_k_per_w in [0.0, 0.4] {
        let surface = Surface {
            area_m2,
            length_m,
            facing,
            behind_k_per_w,
        };
        let free = convection::free(30.0, length_m, facing);
        let film = area_m2 * convection::combined(free, 0.6, length_m);
        let q = 30.0 / (1.0 / film + behind_k_per_w);
        gives(&surface, [20.0, -10.0, 0.6], [-q, q]);
    }
    let fins = Fins {
        area_m2,
        length_m,
        penetration: 0.25,
    };
    let q = 30.0 * area_m2 * convection::forced(0.25 * 0.8, length_m);
    gives(&fins, [20.0, -10.0, 0.8], [-q, q]);
    for cover_m2k_per_w in [0.0, 0.3] {
        let emissivity = 0.9;
        let skin = Outdoors {
            area_m2,
            length_m,
            facing,
            emissivity,
            cover_m2k_per_w,
        };
        let free = convection::free(30.0, length_m, facing);
        let film = convection::combined(free, 2.0, length_m)
            + radiation::film_coefficient(20.0, -10.0, emissivity);
        let q = 30.0 * area_m2 / (1.0 / film + cover_m2k_per_w);
        gives(&skin, [20.0, -10.0, 2.0], [-q, q]);
    }
}
