//! What a choice changes in the night that all choices share, and what it inherits.

use super::super::comparison::{Choice, LoadedComparison, load_comparison_from};
use super::super::fault::FileError;
use super::super::settings::SetValue;
use super::super::sources::Outside;
use super::{NIGHT, folder};
use crate::document::InputError;
use crate::quantity::Power;
use crate::scenario::weather::Weather;

fn read(choices: &str) -> Result<LoadedComparison, FileError> {
    let text = format!("(night: \"night.ron\", choices: [{choices}])");
    let night = NIGHT.replace(
        "covers:",
        "uncertain: {
            \"heaters[0].power\": (low: 300, high: 360, distribution: uniform, basis: measured, source: \"a meter\"),
            \"covers.outlet_plug\": (low: 0.2, high: 0.6, distribution: uniform, basis: measured, source: \"a ruler\"),
        },\n    covers:",
    );
    let (_room, path) = folder(&[("choices.ron", &text), ("night.ron", &night)]);
    load_comparison_from(&path, Outside::default())
}

fn loaded(choices: &str) -> LoadedComparison {
    read(choices).unwrap_or_else(|e| panic!("{e}"))
}

fn errors(choices: &str) -> Vec<InputError> {
    read(choices).map(|_| ()).unwrap_err().into_errors()
}

/// Each change as it is listed.
fn changes(choice: &Choice) -> Vec<String> {
    choice.changes.iter().map(SetValue::line).collect()
}

#[test]
fn covers_of_a_choice_are_merged_key_by_key_into_those_of_the_night() {
    let all =
        loaded(r#"(name: "closed", covers: (outlet_plug: 0.9, blankets: { "UR": m2K_W(0.5) }))"#);
    let (base, night) = (&all.base.scenario, &all.choices[0].night);
    assert_eq!(night.covers.outlet_plug, 0.9);
    assert_eq!(night.covers.inlet_plug, base.covers.inlet_plug);
    assert_eq!(night.covers.blankets["UL"], base.covers.blankets["UL"]);
    assert_eq!(night.covers.blankets["UR"].si(), 0.5);
    assert_eq!(
        changes(&all.choices[0]),
        [
            "covers.outlet_plug 0.9 (night: 0.48)",
            "covers.blankets.UR 0.5 m2K/W (night: nothing)"
        ]
    );
    assert_eq!(base.title, "own night");
}

#[test]
fn heaters_of_a_choice_are_one_value_and_absent_those_of_the_night() {
    let all = loaded(
        r#"(name: "as it is"), (name: "none", heaters: []), (name: "pad", heaters: [(heater: "sump-pad-150w")])"#,
    );
    let count = |i: usize| all.choices[i].night.heaters.len();
    assert_eq!((count(0), count(1), count(2)), (2, 0, 1));
    assert!(changes(&all.choices[0]).is_empty());
    assert_eq!(
        changes(&all.choices[1]),
        [
            "heaters none (night: bay-fan-350w at bottom, sump-pad-150w hours before_departure 30 min)"
        ]
    );
    // What the night says of its own heaters does not hold for others.
    let said = |i: usize| {
        all.choices[i]
            .night
            .uncertain
            .contains_key("heaters[0].power")
    };
    assert_eq!((said(0), said(1), said(2)), (true, false, false));
    assert!(
        all.choices[2]
            .night
            .uncertain
            .contains_key("covers.outlet_plug")
    );
}

#[test]
fn a_second_choice_that_changes_nothing_is_an_error() {
    let found = errors(r#"(name: "as it is"), (name: "no heater")"#);
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(
        found[0].message.contains("both change nothing"),
        "{found:?}"
    );
    assert!(
        found[0]
            .suggestion
            .as_ref()
            .unwrap()
            .contains("heaters: []"),
        "{found:?}"
    );
}

#[test]
fn a_choice_changes_anything_of_a_night() {
    let all = loaded(
        r#"
        (name: "engine", engine: "flat-four-5l9"),
        (name: "oil", oil: "sae-30"),
        (name: "weather", weather: steady(outdoors: degC(-20))),
        (name: "hangar", hangar: "breezy"),
        (name: "clock", clock: (departure: "09:00")),
        (name: "water", initial: (water_in_oil: g(30))),
        (name: "path", set: { "hangar.cabin_above": K(5), "heaters[0].power": W(500), "oil.at_40": cSt(90) })
        "#,
    );
    let base = &all.base.scenario;
    let night = |i: usize| &all.choices[i].night;
    assert_ne!(night(0).engine, base.engine);
    assert_ne!(night(1).oil, base.oil);
    let Weather::steady {
        outdoors, humidity, ..
    } = &night(2).weather
    else {
        panic!("{:?}", night(2).weather);
    };
    assert_eq!((outdoors.celsius(), *humidity), (-20.0, 0.8));
    assert_ne!(night(3).hangar, base.hangar);
    assert_eq!(night(4).clock.begin, base.clock.begin);
    assert_eq!(night(4).clock.resolve().unwrap().night_s(), 14.0 * 3600.0);
    assert!((night(5).initial.water_in_oil.si() - 0.03).abs() < 1e-12);
    assert_eq!(night(6).heaters[0].power, Power::W(500.0));
    assert_eq!(night(6).oil.at_40.si(), 90.0);
    assert_eq!(night(6).heaters[1], base.heaters[1]);
    for path in [
        "hangar.cabin_above 5 K (night: 0 K)",
        "heaters[0].power 500 W (night: as its model)",
    ] {
        assert!(
            changes(&all.choices[6]).iter().any(|c| c == path),
            "{:?}",
            changes(&all.choices[6])
        );
    }
}

#[test]
fn an_error_in_a_choice_names_its_place_and_what_was_meant() {
    for (choice, message, suggestion, place) in [
        (
            r#"(name: "x", set: { "covers.outlet_plugs": 0.9 })"#,
            "nothing stands at `covers.outlet_plugs`",
            "\"covers.outlet_plug\": 0.9",
            "\"covers.outlet_plugs\"",
        ),
        (
            r#"(name: "x", set: { "departure": "09:00" })"#,
            "nothing stands at `departure`",
            "\"clock.departure\": \"09:00\"",
            "\"departure\"",
        ),
        (
            r#"(name: "x", set: { "covers.outlet_plug": 1.5 })"#,
            "must be from 0 to 1",
            "",
            "\"covers.outlet_plug\"",
        ),
        (
            r#"(name: "x", covers: (inlet_plugs: 0.9))"#,
            "no key `inlet_plugs`",
            "inlet_plug: 0.9",
            "inlet_plugs",
        ),
        (
            r#"(name: "x", oil: "sae-31")"#,
            "no built-in oil `sae-31`",
            "sae-30",
            "sae-31",
        ),
    ] {
        let found = errors(choice);
        assert_eq!(found.len(), 1, "{choice}: {found:?}");
        assert!(found[0].message.contains(message), "{found:?}");
        let said = found[0].suggestion.as_deref().unwrap_or("");
        assert!(said.contains(suggestion), "{found:?}");
        assert_eq!(found[0].there(), Some(place), "{choice}");
    }
}
