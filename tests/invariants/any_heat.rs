//! Random heaters of every kind, coverings and weather, for the random engines.

use super::any_body::{Dice, name};
use coldsoak::quantity::{Conductance, Duration, MassFlow, Power, Resistance, Speed, Temperature};
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::heater::{Aim, Heater, HeaterKind, Place, SelfLimiting, Thermostat};
use coldsoak::scenario::hours::Hours;
use coldsoak::scenario::weather::Weather;

fn all(name: &str) -> Vec<(String, f64)> {
    vec![(name.to_owned(), 1.0)]
}

/// Two heaters of random kinds on an engine of so many parts in two pockets: fan, duct, pad or lamp, some of them
/// with a thermostat, some limiting themselves.
pub fn heaters(dice: &mut Dice, parts: usize) -> Vec<Heater> {
    (0..2).map(|number| heater(dice, parts, number)).collect()
}

fn heater(dice: &mut Dice, parts: usize, number: usize) -> Heater {
    let struck = name(dice.one_of(parts));
    let impingement = Conductance::W_K(dice.between(4.0, 15.0));
    let entrainment = dice.between(0.3, 2.0);
    let (kind, aim) = match dice.one_of(4) {
        0 => (
            HeaterKind::bay_fan {
                flow: MassFlow::kg_s(dice.between(0.005, 0.012)),
                entrainment,
                entrainment_from_intake: dice.between(0.1, 0.9),
                impingement,
            },
            Aim {
                intake: all("low"),
                discharge: all("high"),
                impingement: all(&struck),
            },
        ),
        1 => (
            HeaterKind::ducted {
                flow: MassFlow::kg_s(dice.between(0.005, 0.02)),
                duct_loss: dice.between(0.05, 0.4),
                entrainment,
                impingement,
            },
            Aim {
                discharge: all("low"),
                impingement: all(&struck),
                ..Aim::default()
            },
        ),
        kind => (
            if kind == 2 {
                HeaterKind::bonded
            } else {
                HeaterKind::radiant {
                    radiant_share: dice.between(0.3, 0.7),
                }
            },
            Aim {
                discharge: if kind == 2 { vec![] } else { all("low") },
                impingement: all(&struck),
                ..Aim::default()
            },
        ),
    };
    let limits_itself = dice.one_of(3) == 0 && !matches!(kind, HeaterKind::radiant { .. });
    Heater {
        name: format!("heater {number}"),
        kind,
        power: Power::W(dice.between(50.0, 500.0)),
        place: Place::aimed(aim),
        hours: Hours::always,
        thermostat: (dice.one_of(3) == 0).then(|| Thermostat {
            sensor: struck,
            on_at: Temperature::degC(15.0),
            off_at: Temperature::degC(25.0),
        }),
        self_limiting: limits_itself.then_some(SelfLimiting {
            full_power_below: Temperature::degC(0.0),
            zero_power_above: Temperature::degC(80.0),
        }),
        uncertain: Default::default(),
    }
}

/// Heaters on both ends of an engine, coverings, and a hangar that follows the outdoors while the wind blows past.
pub fn furnished(mut scenario: Scenario, dice: &mut Dice, parts: usize) -> Scenario {
    scenario.heaters = heaters(dice, parts);
    scenario.covers.inlet_plug = dice.between(0.0, 1.0);
    scenario.covers.outlet_plug = dice.between(0.0, 1.0);
    scenario.covers.filler_open = dice.one_of(2) == 0;
    for pocket in ["low", "high"] {
        let blanket = Resistance::m2K_W(dice.between(0.1, 1.0));
        scenario.covers.blankets.insert(pocket.to_owned(), blanket);
    }
    scenario.hangar.time_constant = Duration::h(dice.between(0.5, 4.0));
    scenario.hangar.wind_fraction = dice.between(0.02, 0.4);
    if let Weather::steady {
        outdoors, humidity, ..
    } = scenario.weather
    {
        scenario.weather = Weather::steady {
            outdoors: Temperature::degC(outdoors.celsius() - dice.between(0.0, 8.0)),
            humidity,
            wind: Some(Speed::m_s(dice.between(0.0, 8.0))),
        };
    }
    scenario
}
