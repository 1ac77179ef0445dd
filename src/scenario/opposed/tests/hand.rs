//! Single joints of the 3.1 litre flat-four, worked out by hand from its dimensions:
//! L = 0.135 m, H = 0.095, w = 0.11, t = 0.0058, k = 135 W/mK, bore 0.103, barrel wall 0.0055 and length
//! 0.125, d = 0.05, sump 0.045 m2 by 0.12 m of 2.2 kg with 4 L of oil, two blades of 0.13 by 0.014 m.

use super::*;
use crate::quantity::Area;
use crate::scenario::joint::Contact;
use crate::scenario::part::{Shape, Spot};

/// What joins the two, W/K, summed over every joint between them.
fn total(body: &Body, one: &str, other: &str) -> f64 {
    let between = body.joints.iter().filter(|joint| {
        let ends = (joint.from.0.as_str(), joint.to.0.as_str());
        ends == (one, other) || ends == (other, one)
    });
    between
        .map(|joint| match joint.contact {
            Contact::total(g) => g.si(),
            _ => f64::NAN,
        })
        .sum()
}

fn near(value: f64, hand: f64) {
    assert!(
        (value - hand).abs() < 1e-6 * hand.abs(),
        "{value}, by hand {hand}"
    );
}

#[test]
fn links_between_whole_parts() {
    let body = body("flat-four-3l1");
    let links = [
        // 0.135 x 0.0058 x 135 / 0.095 = 1.1126842; x 0.8 or 0.24; web 0.01 x 0.066 x 135 / 0.12 = 0.7425.
        ("case0ul", "case0ll", 1.2613974),
        ("case1ur", "case1lr", 0.6382942),
        // 0.8 x 0.135 x 0.783 / 0.11 + 0.37125.
        ("case2ll", "case2lr", 1.1400136),
        // (0.099 + 0.24 x 0.095) x 0.783 / 0.135.
        ("case0ul", "case1ul", 0.70644),
        // 1.4 x 0.75 x 43 x 0.00196350 / 0.135.
        ("crank1", "crank2", 0.6566801),
        // 1 / (0.09 / (43 x 1.3 x 0.00196350) + 0.05).
        ("crank0", "hub", 1.1494578),
        // 160 x (2 x 0.13 x 0.014 x 0.7) / 0.03.
        ("hub", "blade0", 13.589_333),
        // p = 4 sqrt(0.0495) = 0.8899438, t = 2.2 / (2700 x 0.1967933) = 0.00414042;
        // 140 x 0.00414042 x 0.8899438 / (0.06 + 0.0530330).
        ("sump_side", "sump_bot", 4.5638781),
        // 22 x 0.8899438 x min(0.108, 0.004 / 0.045).
        ("sump_side", "oil", 1.7403346),
        ("crank1", "case1lr", 1.0),
        ("acc_case", "case2ul", 4.3 / 4.0),
        ("acc_case", "crank2", 1.0),
        ("sump_side", "case0lr", 1.3 / 6.0),
        ("intake", "cylR2head", 0.15),
        ("exhaust", "cylL1head", 0.2),
        ("pistonL2", "cylL2b1", 1.2),
        ("pistonL2", "crank2", 0.25),
        ("cowlUL", "cowlUR", 0.162),
        ("mount", "case2ur", 0.06),
    ];
    for (one, other, hand) in links {
        let value = total(&body, one, other);
        assert!(
            (value - hand).abs() < 2e-7 * 10.0_f64.max(hand),
            "{one} - {other}: {value}, by hand {hand}"
        );
    }
}

/// A bar's half length, K/W.
fn half(body: &Body, name: &str) -> f64 {
    let part = body.parts.iter().find(|part| part.name == name).unwrap();
    match &part.shape {
        Shape::bar {
            length,
            section,
            conductivity,
        } => 0.5 * length.si() / (conductivity.si() * section.si()),
        other => panic!("{name} is no bar but {other:?}"),
    }
}

#[test]
fn links_through_barrels_and_blades() {
    let body = body("flat-four-3l1");
    // A_b = pi x 0.1085 x 0.0055 = 0.00187474 m2, s = 0.0416667 m: 43 A_b / s.
    near(
        1.0 / (half(&body, "cylL1b0") + half(&body, "cylL1b1")),
        1.934_737_3,
    );
    // 1 / (0.2584330 + 1/24), half to each level.
    let [upper, lower] = ["case1ul", "case1ll"].map(|case| total(&body, case, "cylL1b0"));
    assert_eq!(upper, lower);
    near(
        1.0 / (half(&body, "cylL1b0") + 1.0 / (upper + lower)),
        3.332_226,
    );
    near(
        1.0 / (half(&body, "cylL1b2") + 1.0 / total(&body, "cylL1b2", "cylL1head")),
        2.608_017_4,
    );
    // 160 x 0.002548 / (0.5 x 0.12 + 0.03).
    near(
        1.0 / (half(&body, "blade0") + 1.0 / total(&body, "hub", "blade0")),
        4.529_777_8,
    );
    // 160 x 0.002548 / (0.5 x (0.15 + 0.30) x 0.8).
    near(
        1.0 / (half(&body, "blade0") + half(&body, "blade1")),
        2.264_888_9,
    );
}

#[test]
fn a_barrels_flange_covers_half_its_foot_on_each_level() {
    let body = body("flat-four-3l1");
    let feet: Vec<_> = body
        .joints
        .iter()
        .filter(|joint| joint.from == ("cylR2b0".to_owned(), Spot::start))
        .collect();
    assert_eq!(feet.len(), 2);
    for joint in feet {
        near(
            joint.footprint.map(Area::si).unwrap(),
            0.001_874_745_4 / 2.0,
        );
    }
}

#[test]
fn the_firewall_holds_the_heat_of_its_two_layers() {
    let body = body("flat-four-3l1");
    let part = body.parts.iter().find(|p| p.name == "firewall").unwrap();
    // 0.5 m2 x (0.0005 x 7900 x 470 + 0.010 x 60 x 900).
    near(part.mass.si() * part.specific_heat.si(), 0.5 * 2396.5);
}

#[test]
fn a_ducts_mouth_strikes_4_4_watts_a_kelvin_in_all() {
    let body = body("flat-four-3l1");
    let aim = &body.places["duct-under-nose"];
    let share = |part: &str| {
        let struck = aim.impingement.iter().filter(|(name, _)| name == part);
        struck.map(|(_, share)| share).sum::<f64>()
    };
    near(4.4 * share("sump_side"), 0.8);
    near(4.4 * share("case0ll"), 0.6);
    near(4.4 * share("case0ur"), 0.4);
    near(4.4 * share("cylR1head"), 0.8);
}
