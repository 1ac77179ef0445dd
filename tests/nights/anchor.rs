//! The regression anchor.

use crate::kit::{fan, night};
use coldsoak::night::run;
use coldsoak::quantity::Temperature;

/// Common practice, no source; the defaults were adjusted to it, so it is no validation. Flat-four 3.1 L,
/// parked coverings, hangar 15 °F, 250 W on top blowing to one side, 12 h from a cold start with 15 g water.
#[test]
fn a_small_heater_on_top_warms_the_struck_side_most() {
    let mut scenario = night("flat-four-3l1", Temperature::degF(15.0), 12);
    scenario.heaters.push(fan(250.0, "top-blowing-right"));
    let night = run(&scenario).unwrap();
    let group = |key: &str| {
        let g = night
            .findings
            .groups_c
            .iter()
            .find(|g| g.key == key)
            .unwrap();
        Temperature::degC(g.temp_c).fahrenheit()
    };
    for g in &night.findings.groups_c {
        println!("{} {:.2} F", g.key, g.temp_c * 1.8 + 32.0);
    }
    println!(
        "{:?} {:?} {:?}",
        night.effort,
        night.ledger.energy_error(),
        night.ledger.water_error()
    );
    let (jet, far, rear) = (
        group("right_cylinders"),
        group("left_cylinders"),
        group("rear"),
    );
    assert!((78.0..=86.0).contains(&jet), "jet side {jet:.1} °F");
    assert!((48.0..=62.0).contains(&far), "far side {far:.1} °F");
    assert!((55.0..=65.0).contains(&rear), "rear {rear:.1} °F");
}
