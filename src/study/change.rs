//! Changes to a night that are tried around an answer: each makes a case of it, and alters nothing else.

use super::case::Case;
use super::path::Tree;
use crate::quantity::{Resistance, Speed, Temperature};
use crate::scenario::check::check;
use crate::scenario::document::Scenario;
use crate::scenario::heater::Heater;
use crate::scenario::part::Role;
use crate::scenario::weather::Weather;

/// A change to a night.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// Outdoors and the hangar are colder by so many kelvin, at the same humidity; so is a cold-soaked engine,
    /// since it begins as cold as the hangar. Temperatures given for the engine stay.
    Colder {
        /// By so many kelvin.
        kelvin: f64,
    },
    /// The air in the hangar moves so many times as fast past the cowl.
    Draught {
        /// Times.
        times: f64,
    },
    /// The outlet is closed so far.
    Outlet {
        /// The share of the opening that is closed.
        closed: f64,
    },
    /// The cooling inlets are closed so far.
    Inlets {
        /// The share of the opening that is closed.
        closed: f64,
    },
    /// A heater has another power; its air and its place stay.
    Watts {
        /// Which heater, in the order of the scenario.
        heater: usize,
        /// Its power, W.
        watts: f64,
    },
    /// A blanket over these pockets' skin, on top of what lies there.
    Blanket {
        /// The pockets.
        pockets: Vec<String>,
        /// The resistance laid on, m²K/W.
        resistance_m2k_w: f64,
    },
    /// The night begins so many minutes earlier, by the clock.
    BegunEarlier {
        /// Minutes.
        minutes: usize,
    },
    /// One more heater.
    Added(Box<Heater>),
}

impl Change {
    /// The night with this change; a heater that is not there is not changed.
    pub fn of(&self, night: &Scenario) -> Scenario {
        let changed = Tree::of(night).and_then(|base| self.case(night).night(&base));
        changed.unwrap_or_else(|_| night.clone())
    }

    /// The case of a night with this change.
    ///
    /// *Valid*: a heater that is there. The night may have problems (a record that does not reach back, an engine without
    /// such a place), which its check finds.
    pub fn case(&self, night: &Scenario) -> Case {
        let case = Case::default();
        let covers = &night.covers;
        match self {
            Self::Colder { kelvin } => {
                let lower = |t: Temperature| Temperature::degC(t.celsius() - kelvin);
                let case = case.set("hangar.start", &night.hangar.start.map(lower));
                case.set("weather", &colder(&night.weather, *kelvin))
            }
            Self::Draught { times } => {
                let hangar = &night.hangar;
                let speed = Speed::m_s(hangar.air_speed.si() * times);
                let case = case.set("hangar.air_speed", &speed);
                case.set(
                    "hangar.wind_fraction",
                    &(hangar.wind_fraction * times).min(1.0),
                )
            }
            Self::Outlet { closed } => case.measured("covers.outlet_plug", *closed, None),
            Self::Inlets { closed } => case.measured("covers.inlet_plug", *closed, None),
            Self::Watts { heater, watts } => {
                case.measured(&format!("heaters[{heater}].power"), *watts, Some("W"))
            }
            Self::Blanket {
                pockets,
                resistance_m2k_w,
            } => {
                let mut blankets = covers.blankets.clone();
                for pocket in pockets {
                    let there = blankets.get(pocket).map_or(0.0, |r| r.si());
                    let laid = Resistance::m2K_W(there + resistance_m2k_w);
                    blankets.insert(pocket.clone(), laid);
                }
                case.set("covers.blankets", &blankets)
            }
            Self::BegunEarlier { minutes } => case.set(
                "clock.begin",
                &night.clock.begin.earlier_by_minutes(*minutes),
            ),
            Self::Added(heater) => case.set(
                "heaters",
                &[&night.heaters[..], &[(**heater).clone()]].concat(),
            ),
        }
    }
}

impl Change {
    /// The change to a night as `--set` takes it: a path and a value; none for one that is no single value.
    pub fn setting(&self, night: &Scenario) -> Option<(String, String)> {
        let (path, value) = match self {
            Self::Outlet { closed } => ("covers.outlet_plug".to_owned(), format!("{closed}")),
            Self::Inlets { closed } => ("covers.inlet_plug".to_owned(), format!("{closed}")),
            Self::Watts { heater, watts } => {
                (format!("heaters[{heater}].power"), format!("W({watts:.1})"))
            }
            Self::BegunEarlier { minutes } => {
                let begin = night.clock.begin.earlier_by_minutes(*minutes);
                (
                    "clock.begin".to_owned(),
                    format!("{:?}", String::from(begin)),
                )
            }
            Self::Blanket {
                pockets,
                resistance_m2k_w,
            } => {
                let laid = pockets
                    .iter()
                    .map(|p| format!("{p:?}: m2K_W({resistance_m2k_w})"));
                let laid = laid.collect::<Vec<_>>().join(", ");
                ("covers.blankets".to_owned(), format!("{{{laid}}}"))
            }
            Self::Colder { .. } | Self::Draught { .. } | Self::Added(_) => return None,
        };
        Some((path, value))
    }
}

/// The pockets with skin: those over the cylinders, at least half as high as the highest, or all if none is over them.
pub fn upper_skins(scenario: &Scenario) -> Vec<String> {
    let Ok(checked) = check(scenario) else {
        return Vec::new();
    };
    let body = checked.body();
    let mut pockets: Vec<String> = Vec::new();
    for part in &body.parts {
        if let Role::skin(over) = &part.role
            && !pockets.contains(over)
        {
            pockets.push(over.clone());
        }
    }
    let height = |name: &String| {
        let pocket = body.air_volumes.iter().find(|p| p.name == *name);
        pocket.map_or(0.0, |p| p.mid_height.si())
    };
    let highest = pockets.iter().map(height).fold(0.0, f64::max);
    let upper: Vec<String> = pockets
        .iter()
        .filter(|p| height(p) > 0.0 && height(p) >= 0.5 * highest)
        .cloned()
        .collect();
    if upper.is_empty() { pockets } else { upper }
}

/// The weather colder by so much; dew points as far below the temperature as before, so that the humidity stays within
/// a percent or two.
fn colder(weather: &Weather, kelvin: f64) -> Weather {
    let mut weather = weather.clone();
    match &mut weather {
        Weather::steady { outdoors, .. } => {
            *outdoors = Temperature::degC(outdoors.celsius() - kelvin);
        }
        Weather::recorded(record) => {
            for reading in &mut record.readings {
                reading.temp_c -= kelvin;
                reading.dew_point_c -= kelvin;
            }
        }
    }
    weather
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::library::{Kind, model};
    use crate::files::night::load_builtin;
    use crate::quantity::Power;
    use crate::scenario::check::check;

    fn demo() -> Scenario {
        load_builtin("demo").unwrap().scenario
    }

    /// Every change keeps a sound scenario sound, and alters what it names and nothing else.
    #[test]
    fn a_change_alters_what_it_names_and_nothing_else() {
        let base = demo();
        let all = |change: Change| {
            let changed = change.of(&base);
            assert!(check(&changed).is_ok(), "{change:?}");
            assert_ne!(changed, base, "{change:?}");
            changed
        };
        let draughty = all(Change::Draught { times: 2.0 });
        assert_eq!(draughty.hangar.wind_fraction, 0.04);
        assert_eq!(
            (&draughty.covers, &draughty.weather),
            (&base.covers, &base.weather)
        );
        let shut = all(Change::Outlet { closed: 0.9 }).covers;
        assert_eq!(
            (shut.inlet_plug, shut.outlet_plug),
            (base.covers.inlet_plug, 0.9)
        );
        let shut = all(Change::Inlets { closed: 0.97 }).covers;
        assert_eq!(
            (shut.inlet_plug, shut.outlet_plug),
            (0.97, base.covers.outlet_plug)
        );
        let strong = all(Change::Watts {
            heater: 0,
            watts: 500.0,
        });
        assert_eq!(strong.heaters[0].power, Power::W(500.0));
        let blanket = Change::Blanket {
            pockets: vec!["UL".to_owned()],
            resistance_m2k_w: 0.3,
        };
        let twice = blanket.of(&all(blanket.clone()));
        assert!((twice.covers.blankets["UL"].si() - 0.6).abs() < 1e-12);
        let pad: Heater = model(Kind::Heater, "sump-pad-150w").unwrap();
        assert_eq!(all(Change::Added(Box::new(pad))).heaters.len(), 2);
    }

    #[test]
    fn a_colder_night_is_colder_outdoors_and_in_the_hangar_from_the_beginning() {
        let base = demo();
        let colder = Change::Colder { kelvin: 3.0 }.of(&base);
        let start = |s: &Scenario| s.hangar.start.unwrap().celsius();
        assert!((start(&base) - start(&colder) - 3.0).abs() < 1e-12);
        let (Weather::recorded(a), Weather::recorded(b)) = (&base.weather, &colder.weather) else {
            panic!("the demo's weather is recorded");
        };
        for (a, b) in a.readings.iter().zip(&b.readings) {
            assert!((a.temp_c - b.temp_c - 3.0).abs() < 1e-9);
            assert_eq!(a.wind_m_s, b.wind_m_s);
        }
    }

    #[test]
    fn an_earlier_night_is_longer_by_as_much() {
        let length = |s: &Scenario| s.clock.resolve().unwrap().night_s();
        for name in ["demo", "small-engine-top"] {
            let base = load_builtin(name).unwrap().scenario;
            let earlier = Change::BegunEarlier { minutes: 95 }.of(&base);
            assert_eq!(length(&earlier) - length(&base), 95.0 * 60.0, "{name}");
        }
    }
}
