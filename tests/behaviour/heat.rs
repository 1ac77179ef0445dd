//! Where heaters put their heat.

use super::{at_departure, computed, group, lost, mean};
use crate::kit::{ENGINES, fan, heater, night, pad, parked, plugged};
use coldsoak::quantity::{Area, Resistance, Temperature, Volume};
use coldsoak::scenario::cover::{Covers, OpenSide};
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::engine::Engine;
use coldsoak::scenario::hours::Hours;
use coldsoak::trace::LossPath;

/// 15 °F, where the practice readings were taken.
const HANGAR: Temperature = Temperature::degF(15.0);
const HANGAR_C: f64 = -85.0 / 9.0;

fn heated(engine: &str, watts: f64, place: &str) -> Scenario {
    let mut scenario = night(engine, HANGAR, 12);
    scenario.heaters.push(fan(watts, place));
    scenario
}

/// All three engines, parked, cold, 15 g, 250 W on top blowing right: the bay lies in layers, the struck side
/// warmest; the oil only conducts (every layer warmer than the one below).
#[test]
fn heated_on_top_the_bay_lies_in_layers() {
    for engine in ENGINES {
        let night = computed(&heated(engine, 250.0, "top-blowing-right"));
        let air = ["UR", "UL", "LO", "FL"].map(|p| at_departure(&night, &format!("air_{p}_c")));
        assert!(air.windows(2).all(|w| w[0] > w[1]), "{engine}: {air:?}");
        assert!(group(&night, "right_cylinders") > group(&night, "left_cylinders") + 5.0);
        let oil = [0, 1, 2, 3].map(|i| at_departure(&night, &format!("oil{i}_c")));
        assert!(
            oil.windows(2).all(|w| w[0] <= w[1] + 1e-6),
            "{engine}: {oil:?}"
        );
        let coldest = night.findings.coldest.as_ref().unwrap().part.as_str();
        // With the sump hung by a neck it is the sump or the oil. With one bolted along the whole case the
        // specification allows the crank nose besides; its equations, parked, give the carburettor or the
        // generator too (see the decisions in DEVELOPERS.md, and the next test).
        let allowed: &[&str] = if engine == "flat-four-3l1" {
            &["sump_bot", "sump_side", "oil0"]
        } else {
            &["crank0", "carb", "gen"]
        };
        assert!(allowed.contains(&coldest), "{engine}: {coldest}");
    }
}

/// Flat-four 5.9 L, inlets and outlet plugged (0.97, 0.60), cold, 15 g, 250 W on top: the crank nose is last.
/// An independent model of the same equations, parked: carburettor 6.29, crank nose 6.77, sump bottom 8.00 °C.
#[test]
fn with_plugged_inlets_the_crank_nose_is_last_and_parked_the_figures_are_those_of_another_model() {
    let mut scenario = heated("flat-four-5l9", 250.0, "top-blowing-right");
    let night = computed(&scenario);
    for (key, other) in [
        ("carb_c", 6.29),
        ("crank0_c", 6.77),
        ("sump_bot_c", 8.00),
        ("air_LO_c", 4.2),
    ] {
        let found = at_departure(&night, key);
        assert!(
            (found - other).abs() < 0.1,
            "{key}: {found}, the other model {other}"
        );
    }
    scenario.covers = plugged();
    let night = computed(&scenario);
    assert_eq!(night.findings.coldest.as_ref().unwrap().part, "crank0");
}

/// All three engines, parked, cold, 15 g, 250 W underneath: left and right agree, carburettor and intake are
/// warmest, the floor is the coldest pocket, sump or crank nose the coldest part.
#[test]
fn heated_from_underneath_the_sides_agree_and_the_carburettor_leads() {
    for engine in ENGINES {
        let night = computed(&heated(engine, 250.0, "bottom"));
        let sides = group(&night, "left_cylinders") - group(&night, "right_cylinders");
        assert!(sides.abs() < 0.2, "{engine}: {sides}");
        let carburettor = group(&night, "carburettor");
        for key in [
            "left_cylinders",
            "upper_case",
            "lower_case",
            "rear",
            "sump",
            "oil",
        ] {
            assert!(carburettor > group(&night, key), "{engine}: {key}");
        }
        let floor = at_departure(&night, "air_FL_c");
        for pocket in ["UL", "UR", "FR", "LO", "RE"] {
            assert!(
                floor <= at_departure(&night, &format!("air_{pocket}_c")),
                "{engine}: {pocket}"
            );
        }
        let coldest = &night.findings.coldest.as_ref().unwrap().part;
        let allowed = [
            "sump_bot",
            "sump_side",
            "crank0",
            "oil0",
            "oil1",
            "oil2",
            "oil3",
        ];
        assert!(allowed.contains(&coldest.as_str()), "{engine}: {coldest}");
    }
}

/// All three engines, parked, cold, 15 g, a 150 W pad: oil and sump far hotter than the rest, carburettor and
/// cylinders the coldest groups.
#[test]
fn a_pad_alone_leaves_carburettor_and_cylinders_coldest() {
    for engine in ENGINES {
        let mut scenario = night(engine, HANGAR, 12);
        scenario.heaters.push(pad(150.0));
        let night = computed(&scenario);
        let cold = ["carburettor", "left_cylinders", "right_cylinders"].map(|k| group(&night, k));
        for key in ["upper_case", "lower_case", "sump", "oil"] {
            assert!(
                cold.iter().all(|&c| c < group(&night, key)),
                "{engine}: {key}"
            );
        }
        let case = group(&night, "upper_case");
        assert!(
            group(&night, "oil") > case + 10.0 && group(&night, "sump") > case + 10.0,
            "{engine}"
        );
    }
}

/// Flat-four 3.1 L, inlets open, outlet parked, cold, 15 g, 1500 W ducted under the nose for the last three
/// hours: front and bottom lead, the rear lags, and more than half of the power leaves with the air.
#[test]
fn ducted_hot_air_leads_in_front_and_mostly_leaves_again() {
    let mut scenario = night("flat-four-3l1", HANGAR, 12);
    scenario.covers.inlet_plug = 0.0;
    let mut duct = heater("household-fan-1500w", 1500.0, "duct-under-nose");
    duct.hours = Hours::before_departure(coldsoak::quantity::Duration::h(3.0));
    scenario.heaters.push(duct);
    let night = computed(&scenario);
    let nose = at_departure(&night, "case0ll_c");
    let front = at_departure(&night, "cylL1head_c");
    assert!(nose > group(&night, "rear") && front > at_departure(&night, "cylL2head_c"));
    assert!(lost(&night, LossPath::Gaps) > 750.0);
}

/// Flat-four 3.1 L, cold, 15 g, 250 W on top. Blanket: 0.3 m2K/W on nose, sides and lower cowl. Each alone
/// helps a little, both together more than the sum.
#[test]
fn plugs_and_blanket_together_give_more_than_their_sum() {
    let rise = |covers: Covers| {
        let mut scenario = heated("flat-four-3l1", 250.0, "top-blowing-right");
        scenario.covers = covers;
        mean(&computed(&scenario)) - HANGAR_C
    };
    let blankets: std::collections::BTreeMap<_, _> = ["FR", "UL", "UR", "LO"]
        .map(|p| (p.to_owned(), Resistance::m2K_W(0.3)))
        .into();
    let sealed = Covers {
        outlet_plug: 0.90,
        ..plugged()
    };
    let bare = rise(parked());
    let plugs = rise(sealed.clone()) - bare;
    let blanket = rise(Covers {
        blankets: blankets.clone(),
        ..parked()
    }) - bare;
    let both = rise(Covers { blankets, ..sealed }) - bare;
    assert!(
        plugs > 0.5 && blanket > 0.5,
        "plugs {plugs}, blanket {blanket}"
    );
    assert!(both > plugs + blanket, "{both} against {plugs} + {blanket}");
}

/// Flat-four 3.1 L, parked, cold, 15 g, 250 W on top blowing right, the left side open by 0.02 m2: everything
/// is colder, and the left cylinders lose the larger share of their rise.
#[test]
fn an_opened_side_vents_the_whole_bay_and_its_own_side_most() {
    let mut scenario = heated("flat-four-3l1", 250.0, "top-blowing-right");
    let shut = computed(&scenario);
    scenario.covers.open_side = Some(OpenSide {
        pocket: "UL".to_owned(),
        area: Area::m2(0.02),
        centre: coldsoak::quantity::Length::m(0.08),
        height: coldsoak::quantity::Length::m(0.10),
    });
    let open = computed(&scenario);
    let kept = |key: &str| (group(&open, key) - HANGAR_C) / (group(&shut, key) - HANGAR_C);
    for key in [
        "left_cylinders",
        "right_cylinders",
        "upper_case",
        "rear",
        "oil",
    ] {
        assert!(kept(key) < 0.97, "{key}: {}", kept(key));
    }
    assert!(kept("left_cylinders") < kept("right_cylinders"));
}

/// Flat-four 3.1 L, parked, cold, 15 g, 250 W on top: a bare propeller takes less than a tenth of the power,
/// and covering it warms the nose of the crankcase more than the rear.
#[test]
fn a_bare_propeller_takes_less_than_a_tenth_and_its_cover_helps_the_nose() {
    let mut scenario = heated("flat-four-3l1", 250.0, "top-blowing-right");
    let bare = computed(&scenario);
    assert!(lost(&bare, LossPath::Propeller) < 25.0);
    scenario.covers.propeller = Some(Resistance::m2K_W(0.45));
    let covered = computed(&scenario);
    let gain = |key: &str| at_departure(&covered, key) - at_departure(&bare, key);
    let nose = gain("crank0_c");
    assert!(
        nose > 0.2 && nose > gain("acc_case_c") && nose > gain("cylR1head_c"),
        "{nose}"
    );
}

/// Flat-four 3.1 L, parked, cold, 15 g, on top: doubling the watts raises the settled temperatures by less
/// than double.
#[test]
fn doubled_watts_give_less_than_double_the_rise() {
    let settled = |watts: f64| {
        let night = computed(&heated("flat-four-3l1", watts, "top-blowing-right"));
        night.findings.steady.unwrap().groups_c
    };
    for (single, double) in settled(200.0).iter().zip(settled(400.0)) {
        let ratio = (double.temp_c - HANGAR_C) / (single.temp_c - HANGAR_C);
        assert!(ratio > 1.2 && ratio < 2.0, "{}: {ratio}", single.key);
    }
}

/// Flat-four 3.1 L, parked, cold, 15 g, 250 W underneath: with 5.5 instead of 4 litres the oil is slower, and
/// settles within a kelvin of the same.
#[test]
fn more_oil_is_slower_and_settles_nearly_the_same() {
    let with = |litres: f64| {
        let mut scenario = heated("flat-four-3l1", 250.0, "bottom");
        let Engine::opposed(layout) = &mut scenario.engine else {
            panic!("a layout");
        };
        layout.oil_litres = Volume::L(litres);
        computed(&scenario)
    };
    let (little, much) = (with(4.0), with(5.5));
    let warm = |night: &coldsoak::night::Night| {
        let readings = &night.findings.threshold.readings;
        let oil = readings.iter().find(|r| r.key == "oil").unwrap();
        oil.reach.hold.hours().unwrap()
    };
    assert!(warm(&much) > warm(&little));
    let settled = |night: &coldsoak::night::Night| {
        let groups = &night.findings.steady.as_ref().unwrap().groups_c;
        groups.iter().find(|g| g.key == "oil").unwrap().temp_c
    };
    assert!((settled(&much) - settled(&little)).abs() < 1.0);
}
