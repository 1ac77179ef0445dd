//! A night in which everything happens at once, and its balance at one moment.

use crate::kit::{fan, heater, night, pad};
use coldsoak::balance::Balance;
use coldsoak::inspect::Nodes;
use coldsoak::network::assemble;
use coldsoak::night::run;
use coldsoak::quantity::{Temperature, TemperatureStep};
use coldsoak::scenario::document::Scenario;

/// The moment, s.
const MOMENT_S: f64 = 5.0 * 3600.0;

/// A night with three kinds of heater, all on, an open filler and a cabin warmer than the hangar.
pub fn busy(engine: &str) -> Scenario {
    let mut scenario = night(engine, Temperature::degC(-12.0), 6);
    scenario.heaters = vec![
        fan(300.0, "top-blowing-right"),
        pad(100.0),
        heater("lamp-100w", 60.0, "lamp-under-sump"),
    ];
    scenario.covers.filler_open = true;
    scenario.hangar.cabin_above = TemperatureStep::K(7.0);
    scenario
}

/// Its balance after five hours, every inner wall wetted and the air inside made moister.
pub fn evaluated(scenario: &Scenario, then: impl FnOnce(&mut Balance, &Nodes)) {
    let night = run(scenario).unwrap();
    let net = assemble(&night.scenario);
    let mut balance = Balance::new(&net);
    for number in 0..net.heaters.len() {
        balance.switch(number, true);
    }
    let ix = &net.index;
    let mut states = night.trace.at(MOMENT_S);
    states.truncate(ix.states());
    for wall in 0..ix.films {
        states[ix.film(wall)] = 0.3;
    }
    states[ix.gas_vapour()] *= 3.0;
    balance.rates(MOMENT_S, &states).unwrap();
    let nodes = Nodes::new(&night.scenario, &balance);
    then(&mut balance, &nodes);
}
