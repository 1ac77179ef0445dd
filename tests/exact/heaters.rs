//! Heaters whose nights have a closed form: jets, ducts, elements that limit themselves.

use crate::kit::bench::{at, face, lost_w, lump, near, problem, solved, steady};
use coldsoak::night::Night;
use coldsoak::quantity::{Area, Conductance, Length, MassFlow, Power, Temperature, Volume};
use coldsoak::scenario::body::{AirVolume, Body, CowlLeak, OpeningKind};
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::heater::{Aim, Heater, HeaterKind, Place, SelfLimiting};
use coldsoak::scenario::hours::Hours;
use coldsoak::scenario::part::Spot;

/// The integration at a thousandth of the default tolerance, K.
const MARCH_K: f64 = 2e-4;
/// Heat capacity of bay air, J/(m3 K): 1.25 kg/m3 and 1006 J/(kg K).
const AIR_J_PER_M3K: f64 = 1.25 * 1006.0;
/// Heat capacity of air, J/(kg K).
const CP: f64 = 1006.0;

fn room(volume_m3: f64) -> AirVolume {
    AirVolume {
        name: "room".to_owned(),
        label: "the room".to_owned(),
        volume: Volume::m3(volume_m3),
        mid_height: Length::m(0.0),
        flow_section: Area::m2(1.0),
        after_flight: Default::default(),
    }
}

/// A body whose part touches surroundings through a millionth of a watt per kelvin: a part must touch something.
fn hung(part: &str) -> Body {
    Body {
        surfaces: vec![face(part, Spot::whole, "void", 1.0, 1e-6)],
        surroundings: vec![steady("void", -10.0)],
        ..Body::default()
    }
}

/// A heater aimed by hand, on all the time.
fn aimed(kind: HeaterKind, watts: f64, aim: Aim) -> Heater {
    Heater {
        name: "heater".to_owned(),
        kind,
        power: Power::W(watts),
        place: Place::aimed(aim),
        hours: Hours::always,
        thermostat: None,
        self_limiting: None,
        uncertain: Default::default(),
    }
}

fn fan(flow: f64, entrainment: f64, impingement: f64) -> HeaterKind {
    HeaterKind::bay_fan {
        flow: MassFlow::kg_s(flow),
        entrainment,
        entrainment_from_intake: 0.5,
        impingement: Conductance::W_K(impingement),
    }
}

fn shares(name: &str) -> Vec<(String, f64)> {
    vec![(name.to_owned(), 1.0)]
}

fn air(night: &Night, seconds: f64) -> f64 {
    let note = &night.trace.legend.pockets[0];
    night.trace.at(seconds)[note.temperature]
}

fn with(body: Body, start_c: f64, heater: Heater) -> Scenario {
    let mut scenario = problem(body, start_c, &[], 43_200.0, 1);
    scenario.heaters = vec![heater];
    scenario
}

/// A fan heater in a sealed, insulated room of 1000 m3 that strikes nothing: all of its enthalpy stays in the
/// air, `T = T0 + W t / C`. Source: first law, exact.
#[test]
fn a_jet_that_strikes_nothing_leaves_all_its_enthalpy_in_the_room() {
    let body = Body {
        parts: vec![lump("idle", 1e3)],
        air_volumes: vec![room(1000.0)],
        ..hung("idle")
    };
    let aim = Aim {
        intake: shares("room"),
        discharge: shares("room"),
        impingement: vec![],
    };
    let night = solved(&with(
        body,
        -10.0,
        aimed(fan(0.0075, 0.95, 0.0), 350.0, aim),
    ));
    for hours in [1.0, 6.0, 12.0_f64] {
        let exact = -10.0 + 350.0 * hours * 3600.0 / (1000.0 * AIR_J_PER_M3K);
        near(air(&night, hours * 3600.0), exact, MARCH_K, "room");
    }
}

/// The same in 20 m3 of air around a lump of 80 kJ/K that the jet strikes with 12 W/K. With `a = W/(m cp)` the jet's
/// excess, m the stream with what it drags along, and `g = m cp (1 - exp(-UA/(m cp)))`, the air's excess over the lump
/// `D` obeys `D' = W/C - g (D + a)(1/C + 1/K)`, and what both hold is `W t`. Source: first law and the effectiveness of
/// one stream past a surface of even temperature (Kays and London, Compact Heat Exchangers, 1984; from memory).
#[test]
fn what_a_struck_lump_takes_is_missing_in_the_room() {
    let (watts, flow, entrainment, impingement) = (350.0, 0.0075, 0.95, 12.0);
    let (volume, lump_j) = (20.0, 80e3);
    let body = Body {
        parts: vec![lump("struck", lump_j)],
        air_volumes: vec![room(volume)],
        ..hung("struck")
    };
    let aim = Aim {
        intake: shares("room"),
        discharge: shares("room"),
        impingement: shares("struck"),
    };
    let heater = aimed(fan(flow, entrainment, impingement), watts, aim);
    let night = solved(&with(body, -10.0, heater));
    let stream = flow * (1.0 + entrainment) * CP;
    let (excess, g) = (
        watts / stream,
        stream * (1.0 - (-impingement / stream).exp()),
    );
    let air_j = volume * AIR_J_PER_M3K;
    let both = 1.0 / air_j + 1.0 / lump_j;
    let settled = watts / air_j / (g * both) - excess;
    for seconds in [600.0, 3600.0, 14_400.0, 43_200.0_f64] {
        let apart = settled * (1.0 - (-g * both * seconds).exp());
        // Together they hold W t: C (T + D) + K T = W t.
        let lump_c = -10.0 + (watts * seconds - air_j * apart) / (air_j + lump_j);
        near(at(&night, "struck", seconds), lump_c, MARCH_K, "lump");
        near(air(&night, seconds), lump_c + apart, MARCH_K, "room");
    }
}

/// A duct blows 0.012 kg/s of hangar air at -10 °C and 1500 W, a fifth lost on the way, into an insulated room with
/// one gap: it settles at `Th + 0.8 W/(m cp)` and the gap carries 1200 W. Source: steady flow energy equation.
#[test]
fn a_ducted_room_settles_where_the_stream_carries_the_watts() {
    let (watts, flow, loss) = (1500.0, 0.012, 0.2);
    let mut body = Body {
        parts: vec![lump("idle", 1e3)],
        air_volumes: vec![room(1.0)],
        cowl_leaks: vec![CowlLeak {
            pocket: "room".to_owned(),
            opening: OpeningKind::seam,
            area: Area::m2(0.02),
            centre: Length::m(0.0),
            height: Length::m(0.0),
            slices: 1,
            wind_coefficient: 0.0,
        }],
        ..hung("idle")
    };
    body.air.gust = 0.0;
    let kind = HeaterKind::ducted {
        flow: MassFlow::kg_s(flow),
        duct_loss: loss,
        entrainment: 0.5,
        impingement: Conductance::W_K(0.0),
    };
    let aim = Aim {
        discharge: shares("room"),
        ..Aim::default()
    };
    let night = solved(&with(body, -10.0, aimed(kind, watts, aim)));
    let rise = watts * (1.0 - loss) / (flow * CP);
    // What trickles back through the gap, 1e-6 squared over 4 m, is a ten-millionth.
    near(air(&night, 43_200.0), rise - 10.0, 1e-4, "room");
    near(lost_w(&night), watts, 1e-3, "duct and gap");
}

/// A bonded element of 250 W that falls from full at 0 °C to nothing at 80 °C, on a lump of 80 kJ/K in air of -15 °C
/// with 2 W/K, from 0 °C: `C T' = W (80 - T)/80 - G (T + 15)`, an exponential to 43.6 °C. Before, from -15 °C, it
/// is full and follows the exponential of 250 W. Exact.
#[test]
fn an_element_that_limits_itself_settles_by_its_own_exponential() {
    let (watts, none, g, ambient, capacity) = (250.0, 80.0, 2.0, -15.0, 80e3);
    let body = || Body {
        parts: vec![lump("metal", capacity)],
        surfaces: vec![face("metal", Spot::whole, "air", 1.0, g)],
        surroundings: vec![steady("air", ambient)],
        ..Body::default()
    };
    let element = || {
        let aim = Aim {
            impingement: shares("metal"),
            ..Aim::default()
        };
        Heater {
            self_limiting: Some(SelfLimiting {
                full_power_below: Temperature::degC(0.0),
                zero_power_above: Temperature::degC(none),
            }),
            ..aimed(HeaterKind::bonded, watts, aim)
        }
    };
    let night = solved(&with(body(), 0.0, element()));
    let slope = watts / none + g;
    let settled = (watts + g * ambient) / slope;
    for seconds in [600.0, 3600.0, 14_400.0, 43_200.0_f64] {
        let exact = settled * (1.0 - (-slope * seconds / capacity).exp());
        near(at(&night, "metal", seconds), exact, MARCH_K, "limited");
    }
    let night = solved(&with(body(), ambient, element()));
    for seconds in [600.0, 3600.0_f64] {
        let exact = ambient + watts / g * (1.0 - (-g * seconds / capacity).exp());
        near(at(&night, "metal", seconds), exact, MARCH_K, "full");
    }
    // What it drew is what the metal gained and lost, to the joule.
    near(night.ledger.energy_error(), 0.0, 1e-12, "books");
}
