//! `coldsoak when`: the answer with its chance in the first line, its schema, its folder, its page, its refusals.

use super::TempProject;
use super::machine::{Slip, hold, valid};
use serde_json::Value;

fn json(desk: &TempProject, words: &[&str]) -> Value {
    serde_json::from_str(&desk.run(words).done()).unwrap()
}

#[test]
fn the_first_line_says_when_with_its_chance_and_the_rest_what_to_do() {
    let desk = TempProject::new();
    let words = ["when", "small-engine-top", "--samples", "32"];
    let shown = desk.run(&words).done();
    let first = shown.split("\n\n").next().unwrap().replace('\n', " ");
    assert!(first.starts_with("Switch on at "), "{first}");
    assert!(
        first.contains(" % chance of ready at 07:00 (95 % interval "),
        "{first}"
    );
    assert!(first.contains("Limiting part: sump bottom."), "{first}");
    let flowing = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let text = flowing(&shown);
    for said in [
        "07:00 off unplug every heater before anybody touches the propeller",
        "Thermometer on the ",
        " 06:00: expect ",
        "or more: leave at 07:00. Below",
        "Wrong \"leave\":",
        "Wrong \"stay\":",
        "Circuit 2.1 A + 0.0 A other load, limit 12.0 A (80 % of the 15 A breaker)",
        "Switch on at",
        "heater stays on",
        "unplugged at 07:00",
        "maker manuals and local code come first",
    ] {
        assert!(text.contains(said), "{said}: {shown}");
    }
    let wide = desk.run(&[&words[..], &["--wide"]].concat()).done();
    let text = flowing(&wide);
    for said in [
        "If the night is 5.4 °F colder",
        "If 2 times the air movement in the hangar",
        "Latest start, nominal",
        "at 120 V: bay fan 250 W 2.1 A",
    ] {
        assert!(text.contains(said), "{said}: {wide}");
    }
}

#[test]
fn a_plan_and_a_never_keep_the_schema_and_a_slip_does_not() {
    let desk = TempProject::new();
    let few = |night: &str| json(&desk, &["when", night, "--json", "--samples", "32"]);
    let plan = few("small-engine-top");
    hold("when", &plan);
    assert_eq!(plan["reached"], true);
    let (chance, target) = (&plan["summary"]["ready"], plan["target"].as_f64().unwrap());
    assert!(chance["fraction"].as_f64().unwrap() >= target, "{chance}");
    assert!(plan["improvements"].as_array().unwrap().is_empty());
    assert!(plan["thermometer"].is_object());
    let never = few("demo");
    hold("when", &never);
    assert_eq!(never["reached"], false);
    let chance = never["summary"]["ready"]["fraction"].as_f64().unwrap();
    assert!(chance < target, "{chance}");
    let improved = never["improvements"].as_array().unwrap();
    assert!(!improved.is_empty());
    for line in improved {
        assert!(
            line["ready"]["fraction"].as_f64().unwrap() > chance,
            "{line}"
        );
    }
    // No reading of a thermometer is worth a departure in a night that is ready with no start.
    let hopeless = few("radial-underneath");
    hold("when", &hopeless);
    assert_eq!(hopeless["summary"]["ready"]["count"], 0);
    assert!(hopeless["thermometer"].is_null());
    let slips: [Slip; 4] = [
        ("a start that is enough, with what would help", |v| {
            let improved = v["summary"]["ready"].clone();
            v["improvements"] = serde_json::json!([
                {"changes": ["x"], "set": null, "ready": improved, "energy_kwh": 1.0}
            ])
        }),
        ("a rule without its error rate", |v| {
            let rule = v["thermometer"]["whole_celsius"].as_object_mut().unwrap();
            rule.remove("wrong_leave");
        }),
        ("a key too many", |v| v["surprise"] = 1.into()),
        ("half a minute", |v| {
            v["starts"][0]["minutes_before_departure"] = 0.5.into()
        }),
    ];
    for (slip, make) in slips {
        let mut shown = plan.clone();
        make(&mut shown);
        assert!(!valid("when", &shown), "{slip}");
    }
}

#[test]
fn the_folder_has_the_findings_and_the_chart_of_the_planned_night() {
    let desk = TempProject::new();
    let shown = desk
        .run(&[
            "when",
            "small-engine-top",
            "--out",
            "tonight",
            "--json",
            "--samples",
            "8",
        ])
        .done();
    let files = desk.files("tonight");
    for name in [
        "findings.json",
        "night.csv",
        "night-temperature.svg",
        "provenance.json",
    ] {
        assert!(files.contains(&name.to_owned()), "{name}: {files:?}");
    }
    let kept = std::fs::read_to_string(desk.path().join("tonight/findings.json")).unwrap();
    assert_eq!(kept.trim_end(), shown.trim_end());
}

#[test]
fn a_page_has_the_rule_of_the_thermometer_on_its_card() {
    let desk = TempProject::new();
    let words = [
        "when",
        "small-engine-top",
        "--samples",
        "32",
        "--report",
        "card.html",
    ];
    desk.run(&words).done();
    let page = std::fs::read_to_string(desk.path().join("card.html")).unwrap();
    for said in [
        "Switch on at",
        "Card for the hangar wall",
        "Put a thermometer on the ",
        "leave at 07:00. Less: do not leave then",
    ] {
        assert!(page.contains(said), "{said}");
    }
}

#[test]
fn never_is_three_only_where_readiness_is_required() {
    let desk = TempProject::new();
    let words = ["when", "radial-underneath", "--samples", "8"];
    let shown = desk.run(&words).done();
    let harm = "Do not heat like this: the breaker is loaded too high for hours.";
    assert!(shown.starts_with(harm), "{shown}");
    let required = desk.run(&[&words[..], &["--require-ready"]].concat());
    assert_eq!(required.code, 3);
}

#[test]
fn a_departure_can_be_typed_and_a_wrong_one_is_two() {
    let desk = TempProject::new();
    let shown = desk
        .run(&[
            "when",
            "small-engine-top",
            "--depart",
            "08:15",
            "--samples",
            "8",
        ])
        .done();
    assert!(
        shown
            .lines()
            .next()
            .unwrap()
            .contains("chance of ready at 08:15"),
        "{shown}"
    );
    for (typed, said) in [
        ("8 o'clock", "hours and minutes"),
        ("1996-02-04 17:00", "does not come after the beginning"),
        ("1996-02-09 07:30", "weather"),
    ] {
        let ran = desk.run(&["when", "demo", "--depart", typed]);
        assert_eq!(
            (ran.code, ran.out.as_str()),
            (2, ""),
            "{typed}: {}",
            ran.err
        );
        assert!(
            ran.err.contains(said) && ran.err.contains("--depart"),
            "{typed}: {}",
            ran.err
        );
    }
}

/// Hours that are sought again do not keep a night from being left earlier.
#[test]
fn a_departure_before_the_hours_of_a_heater_that_is_sought_is_answered() {
    let desk = TempProject::new();
    let night = "(title: \"t\", clock: (begin: \"19:00\", departure: \"07:00\"), engine: \"flat-four-3l1\", \
                 hangar: \"shut\", weather: steady(outdoors: degC(2)), \
                 heaters: [(heater: \"bay-fan-250w\", hours: from(\"05:00\"))])";
    std::fs::write(desk.path().join("early.ron"), night).unwrap();
    let shown = desk
        .run(&["when", "early.ron", "--depart", "02:00", "--samples", "8"])
        .done();
    assert!(shown.contains("02:00"), "{shown}");
}

#[test]
fn nothing_to_switch_is_two_and_told_where_it_stands() {
    let desk = TempProject::new();
    let ran = desk.run(&["when", "block-cooling"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("there is no heater"), "{}", ran.err);
    let file = desk.path().join("timer.ron");
    std::fs::write(
        &file,
        "(\n    title: \"t\",\n    clock: (begin: \"19:00\", departure: \"07:00\"),\n    engine: \"flat-four-3l1\",\n    \
         hangar: \"shut\",\n    weather: steady(outdoors: degC(-5)),\n    heaters: [\n        (heater: \"bay-fan-250w\", \
         hours: between([(\"20:00\", \"22:00\")])),\n    ],\n)\n",
    )
    .unwrap();
    let ran = desk.run(&["when", "timer.ron"]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.err.contains("timer.ron, line 8") && ran.err.contains("timer of its own"),
        "{}",
        ran.err
    );
}
