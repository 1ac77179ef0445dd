//! What must make no difference: left and right, threads, repetition, mesh, tolerance.

use super::{computed, group};
use crate::kit::{ENGINES, fan, night, pad};
use coldsoak::Heater;
use coldsoak::quantity::{Area, Length, Temperature, Units};
use coldsoak::report::recommend::answer;
use coldsoak::scenario::cover::OpenSide;
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::engine::Engine;
use coldsoak::scenario::opposed::expand;
use coldsoak::study::case::Case;
use coldsoak::study::compare::{CompareOptions, compare};
use coldsoak::study::simulate::SampleCount;

const HANGAR: Temperature = Temperature::degF(15.0);

/// Left for right in a name of a part or pocket.
fn mirrored_name(name: &str) -> String {
    let swap = |c: char| match c {
        'L' => 'R',
        'R' => 'L',
        'l' => 'r',
        'r' => 'l',
        other => other,
    };
    if name == "UL" || name == "UR" || name == "cowlUL" || name == "cowlUR" {
        let (head, side) = name.split_at(name.len() - 1);
        return format!("{head}{}", swap(side.chars().next().unwrap()));
    }
    for start in ["cyl", "piston"] {
        if let Some(rest) = name.strip_prefix(start) {
            let side = rest.chars().next().unwrap();
            return format!("{start}{}{}", swap(side), &rest[1..]);
        }
    }
    if name.starts_with("case") {
        let (head, side) = name.split_at(name.len() - 1);
        return format!("{head}{}", swap(side.chars().next().unwrap()));
    }
    name.to_owned()
}

/// All three engines, parked, cold, 15 g, wind 1 m/s past the gaps, 250 W on top and one side open: blown the
/// other way, with the seams' wind coefficients and the open side mirrored too, the night is mirrored.
#[test]
fn a_mirrored_night_gives_the_mirrored_answer() {
    for engine in ENGINES {
        let mut nights = Vec::new();
        for (place, side, seams) in [
            ("top-blowing-right", "UL", (-0.1, -0.2)),
            ("top-blowing-left", "UR", (-0.2, -0.1)),
        ] {
            let mut scenario = night(engine, HANGAR, 12);
            let Engine::opposed(layout) = &scenario.engine else {
                panic!("a layout");
            };
            let mut body = expand(layout);
            for gap in &mut body.cowl_leaks {
                match gap.pocket.as_str() {
                    "UL" => gap.wind_coefficient = seams.0,
                    "UR" => gap.wind_coefficient = seams.1,
                    _ => {}
                }
            }
            scenario.engine = Engine::body(body);
            scenario.hangar.air_speed = coldsoak::quantity::Speed::m_s(1.0);
            scenario.covers.open_side = Some(OpenSide {
                pocket: side.to_owned(),
                area: Area::m2(0.01),
                centre: Length::m(0.08),
                height: Length::m(0.10),
            });
            scenario.heaters.push(fan(250.0, place));
            nights.push(computed(&scenario));
        }
        let [one, other] = [0, 1].map(|i| &nights[i]);
        let rows = [one, other].map(|n| n.trace.at(n.trace.departure_s));
        for cell in &one.trace.legend.cells {
            let name = mirrored_name(&cell.part);
            let cells = &other.trace.legend.cells;
            let image = cells.iter().find(|c| c.part == name).unwrap();
            let apart = (rows[0][cell.column] - rows[1][image.column]).abs();
            assert!(
                apart < 5e-3,
                "{engine}: {} and {name} differ by {apart} K",
                cell.part
            );
        }
    }
}

fn choices() -> [Case; 3] {
    ["top-blowing-right", "bottom", "front"].map(|place| {
        let fan = Heater::builtin("bay-fan-250w").unwrap().at(place);
        Case::named(place).set("heaters", &Vec::from([fan]))
    })
}

/// Flat-four 3.1 L, parked, cold, 15 g, three places of 250 W, with simulated nights: bit for bit the same on one thread, on
/// two, on seven, and again.
#[test]
fn the_answer_does_not_depend_on_threads_or_repetition() {
    // As the program reads it: its ranges are in the units of its files.
    let base = Scenario::builtin("small-engine-top").unwrap();
    let options = CompareOptions {
        count: Some(SampleCount { nights: 8, seed: 1 }),
        ..CompareOptions::default()
    };
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .unwrap();
        let compared = pool
            .install(|| compare(&base, &choices(), options, &[], &|_| ()))
            .unwrap();
        let values = compared
            .nights
            .iter()
            .map(|(name, n)| (name.clone(), n.trace.values.clone()));
        (
            values.collect::<Vec<_>>(),
            answer(&compared, Units::Celsius),
        )
    };
    let one = on(1);
    for threads in [1, 2, 7] {
        assert!(on(threads) == one, "{threads} threads");
    }
}

fn settings() -> Vec<(String, Scenario)> {
    let mut settings = Vec::new();
    for engine in ENGINES {
        for (name, heaters) in [
            ("top", vec![fan(350.0, "top-blowing-right")]),
            ("underneath", vec![fan(350.0, "bottom")]),
            ("pad", vec![pad(150.0)]),
        ] {
            let mut scenario = night(engine, HANGAR, 12);
            scenario.heaters = heaters;
            settings.push((format!("{engine}, {name}"), scenario));
        }
    }
    settings
}

/// All three engines, parked, cold, 15 g, fan on top, fan underneath, pad: halving the tolerance, and dividing
/// it by sixteen, moves no group by more than 0.02 K, no time by more than a minute, no water by more than 5 mg.
#[test]
fn a_finer_tolerance_moves_no_finding() {
    for (name, mut scenario) in settings() {
        let coarse = computed(&scenario);
        for tolerance in [0.5, 1.0 / 16.0] {
            scenario.accuracy.tolerance = tolerance;
            let fine = computed(&scenario);
            for g in &coarse.findings.groups_c {
                let apart = (g.temp_c - group(&fine, &g.key)).abs();
                assert!(apart < 0.02, "{name}: {} moves by {apart} K", g.key);
            }
            let reach = |n: &coldsoak::night::Night| n.findings.threshold.all_parts.hold.hours();
            match (reach(&coarse), reach(&fine)) {
                (Some(a), Some(b)) => assert!((a - b).abs() < 1.0 / 60.0, "{name}: {a} h, {b} h"),
                (a, b) => assert_eq!(a.is_some(), b.is_some(), "{name}"),
            }
            let water =
                |n: &coldsoak::night::Night| n.findings.condensation.as_ref().unwrap().upper_g;
            assert!((water(&coarse) - water(&fine)).abs() < 5e-3, "{name}");
        }
    }
}

/// All three engines, parked, cold, 15 g: cut two and four times finer (barrels, blades, oil), the mean oil
/// moves by less than half a kelvin and every group by less than one.
#[test]
fn a_finer_mesh_moves_the_oil_by_less_than_half_a_kelvin() {
    for (name, mut scenario) in settings() {
        let coarse = computed(&scenario);
        for resolution in [2, 4] {
            scenario.accuracy.resolution = resolution;
            let fine = computed(&scenario);
            for g in &coarse.findings.groups_c {
                let apart = (g.temp_c - group(&fine, &g.key)).abs();
                let allowed = if g.key == "oil" { 0.5 } else { 1.0 };
                assert!(apart < allowed, "{name}: {} moves by {apart} K", g.key);
            }
        }
    }
}
