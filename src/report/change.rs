//! Changes to a night, in words.

use crate::quantity::Units;
use crate::scenario::clock::NightClock;
use crate::scenario::document::Scenario;
use crate::scenario::heater::Place;
use crate::study::change::Change;

/// A change, against the scenario it is made to.
pub fn words(change: &Change, base: &Scenario, clock: &NightClock, units: Units) -> String {
    // Nearly sealed is not sealed.
    let percent = |share: f64| match 100.0 * share {
        p if p > 99.4 && p < 100.0 => format!("{p:.1}"),
        p => format!("{p:.0}"),
    };
    let covers = &base.covers;
    match change {
        Change::Colder { kelvin } => {
            format!("the night is {} colder", units.chosen_size(*kelvin))
        }
        Change::Draught { times } => format!("{times:.0} times the air movement in the hangar"),
        Change::Outlet { closed } => format!(
            "close the outlet to {} % (now {} %)",
            percent(*closed),
            percent(covers.outlet_plug)
        ),
        Change::Inlets { closed } => format!(
            "fit inlet plugs that close {} % (now {} %)",
            percent(*closed),
            percent(covers.inlet_plug)
        ),
        Change::Watts { heater, watts } => match base.heaters.get(*heater) {
            Some(h) => format!(
                "{watts:.0} W for \"{}\" (now {:.0} W)",
                h.name,
                h.power.si()
            ),
            None => format!("{watts:.0} W"),
        },
        Change::Blanket {
            pockets,
            resistance_m2k_w,
        } => format!(
            "a blanket of {resistance_m2k_w:.2} m²K/W over the cowl at {}",
            pockets.join(", ")
        ),
        Change::BegunEarlier { minutes } => format!(
            "switch on {} before {}, so begin the night at {}",
            match minutes {
                0..90 => format!("{minutes} min"),
                _ => format!("{:.1} h", *minutes as f64 / 60.0),
            },
            clock.dated(0.0),
            clock.dated(-60.0 * *minutes as f64)
        ),
        Change::Added(heater) => {
            let place = match &heater.place {
                Place::at(place) => format!(" at `{place}`"),
                Place::aimed(_) => String::new(),
            };
            let watts = heater.power.si();
            format!("add a \"{}\"{place}, running at {watts:.0} W", heater.name)
        }
    }
}
