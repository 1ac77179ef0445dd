//! `coldsoak when`: the answer in the first line, its schema, its folder, its refusals.

use super::TempProject;
use super::machine::{Slip, hold, valid};
use serde_json::Value;

fn json(desk: &TempProject, words: &[&str]) -> Value {
    serde_json::from_str(&desk.run(words).done()).unwrap()
}

#[test]
fn the_first_line_says_when_and_the_rest_says_how_sure() {
    let desk = TempProject::new();
    let told = desk.run(&["when", "small-engine-top"]).done();
    let first = told.split("\n\n").next().unwrap().replace('\n', " ");
    assert!(
        first.starts_with("Switch on \"bay fan 250 W\" at 0"),
        "{first}"
    );
    assert!(first.ends_with("to be ready at 07:00."), "{first}");
    let flowing = told.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "Limiting",
        "All night",
        "put a thermometer on the sump bottom",
        "Finer cells moved such times by up to some twenty minutes",
        "colder:",
        "air movement in the hangar",
        "at 120 V: bay fan 250 W 2.1 A",
        "licensed",
    ] {
        assert!(flowing.contains(said), "{said}: {told}");
    }
}

#[test]
fn a_plan_and_a_never_keep_the_schema_and_a_slip_does_not() {
    let desk = TempProject::new();
    let plan = json(&desk, &["when", "small-engine-top", "--json"]);
    hold("when", &plan);
    assert_eq!(plan["verdict"], "planned");
    let never = json(&desk, &["when", "radial-underneath", "--json"]);
    hold("when", &never);
    assert_eq!(never["verdict"], "never");
    assert!(
        never["sufficient_changes"].as_array().unwrap().len()
            + never["insufficient_changes"].as_array().unwrap().len()
            >= 4
    );
    let slips: [Slip; 4] = [
        ("a plan that is not ready", |v| {
            v["outcome"]["ready_at_departure"] = false.into()
        }),
        ("a never with a checkpoint", |v| {
            v["verdict"] = "never".into()
        }),
        ("a key too many", |v| v["surprise"] = 1.into()),
        ("half a minute", |v| {
            v["starts"][0]["minutes_before_departure"] = 0.5.into()
        }),
    ];
    for (slip, make) in slips {
        let mut told = plan.clone();
        make(&mut told);
        assert!(!valid("when", &told), "{slip}");
    }
}

#[test]
fn the_folder_has_the_findings_and_the_chart_of_the_planned_night() {
    let desk = TempProject::new();
    let told = desk
        .run(&["when", "small-engine-top", "--out", "tonight", "--json"])
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
    assert_eq!(kept.trim_end(), told.trim_end());
}

#[test]
fn never_is_three_only_where_readiness_is_required() {
    let desk = TempProject::new();
    let words = ["when", "radial-underneath"];
    let told = desk.run(&words).done();
    assert!(told.starts_with("No switch-on time"), "{told}");
    let required = desk.run(&[&words[..], &["--require-ready"]].concat());
    assert_eq!(required.code, 3);
}

#[test]
fn a_departure_can_be_typed_and_a_wrong_one_is_two() {
    let desk = TempProject::new();
    let told = desk
        .run(&["when", "small-engine-top", "--depart", "08:15"])
        .done();
    assert!(
        told.split("\n\n")
            .next()
            .unwrap()
            .replace('\n', " ")
            .ends_with("to be ready at 08:15."),
        "{told}"
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

/// Hours that are sought anew do not keep a night from being left earlier.
#[test]
fn a_departure_before_the_hours_of_a_heater_that_is_sought_is_answered() {
    let desk = TempProject::new();
    let night = "(title: \"t\", clock: (begin: \"19:00\", departure: \"07:00\"), engine: \"flat-four-3l1\", \
                 hangar: \"shut\", weather: steady(outdoors: degC(2)), \
                 heaters: [(heater: \"bay-fan-250w\", hours: from(\"05:00\"))])";
    std::fs::write(desk.path().join("early.ron"), night).unwrap();
    let told = desk.run(&["when", "early.ron", "--depart", "02:00"]).done();
    assert!(told.contains("02:00"), "{told}");
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
