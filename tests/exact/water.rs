//! Water inside a closed box.

use crate::bench::{lump, near, problem, solved};
use coldsoak::physics::convection::Facing;
use coldsoak::quantity::{Area, Length, Temperature, Volume};
use coldsoak::scenario::body::{Body, Pocket};
use coldsoak::scenario::moisture::{GasRoom, Wall, WallGroup};
use coldsoak::scenario::part::{AfterFlight, Spot};
use coldsoak::scenario::start::Warmth;

/// A box of 20 litres at 60 °C with a dew point of 40 °C (what a night after a flight begins with), cooled to
/// 10, 0 and -10 °C: all vapour but the saturation there, over ice below freezing, settles on the walls. The
/// vapour it starts with is `p_ws(40) / (461.5 T)`; with Hyland and Wexler's pressures (ASHRAE Fundamentals 2017,
/// chapter 1, eq. 5 and 6) that is of 7383.46 Pa, and 0.18794, 0.09696 and 0.04280 g stay in the air.
#[test]
fn a_closed_box_leaves_on_its_walls_what_it_cannot_hold() {
    for (wall_c, stays_g) in [(10.0, 0.18794), (0.0, 0.09696), (-10.0, 0.04280)] {
        // Cooling gas breathes in through the breather, whatever its draught: V ln(T0/T1) of bay air, whose
        // vapour (80 percent over ice at -10 °C, 1.71 g/m3) is its own small share.
        let breathed_g = 0.020 * (333.15_f64 / (wall_c + 273.15)).ln() * 1.71;
        let had_g = 1e3 * 7383.46 / (461.5 * 333.15) * 0.020;
        let settled_g = had_g + breathed_g - stays_g;
        near(
            settled(wall_c),
            settled_g,
            0.01 * settled_g,
            "settled grams",
        );
    }
}

/// Grams on the walls of the box, after a night.
fn settled(wall_c: f64) -> f64 {
    let walls = ["top", "bottom"].map(|name| Wall {
        part: name.to_owned(),
        at: Spot::whole,
        area: Area::m2(0.4),
        facing: Facing::Upright,
        mass_factor: 1.0,
        group: WallGroup::upper,
    });
    let cold = |name: &str| {
        let mut part = lump(name, 1e9);
        part.after_flight = AfterFlight::at(Temperature::degC(wall_c));
        part
    };
    let body = Body {
        parts: vec![cold("top"), cold("bottom")],
        pockets: vec![Pocket {
            name: "bay".to_owned(),
            label: "the bay".to_owned(),
            volume: Volume::m3(0.05),
            mid_height: Length::m(0.0),
            flow_section: Area::m2(0.1),
            after_flight: AfterFlight::at(Temperature::degC(wall_c)),
        }],
        joints: vec![crate::bench::joint("top", "bottom", 1.0)],
        gas_room: Some(GasRoom {
            volume: Volume::L(20.0),
            walls: walls.to_vec(),
            oil: None,
            breather: "bay".to_owned(),
            breather_l_s: 0.0,
            filler_draught_l_s: 0.0,
            filler_diameter: Length::m(0.045),
            after_flight: AfterFlight::at(Temperature::degC(60.0)),
        }),
        ..Body::default()
    };
    let mut scenario = problem(body, wall_c, &[], 43_200.0, 1);
    scenario.start.warmth = Warmth::after_flight {
        delay: coldsoak::quantity::Duration::s(0.0),
    };
    let night = solved(&scenario);
    night.findings.condensation.unwrap().upper_g
}
