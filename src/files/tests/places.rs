//! Problems of the gate, shown where they stand in the files.

use super::super::comparison::load_comparison_from;
use super::super::fault::{FileError, InputError};
use super::super::library::Kind;
use super::super::night::load;
use super::super::sources::Outside;
use super::{NIGHT, fault, folder, shows};
use crate::scenario::check::check;

const COMPARISON: &str = r#"(
    title: "two pads", night: "night.ron",
    choices: [
        (name: "one", heaters: [(heater: "sump-pad-150w")]),
        (name: "two", heaters: [(heater: "sump-pad-150w", place: at("sump"))]),
    ],
)"#;

#[test]
fn problems_of_the_night_are_shown_where_they_stand() {
    let f = fault("\"UL\"", "\"UP\"");
    shows(&f, "no air volume named `UP`", "UP", "\"UL\": m2K_W(0.3)");
    let f = fault("at(\"bottom\")", "at(\"botom\")");
    shows(
        &f,
        "no place named `botom`",
        "botom",
        "place: at(\"bottom\")",
    );
    let f = fault("min(30)", "h(30)");
    shows(
        &f,
        "lies before the beginning",
        "before_departure",
        "always",
    );
    let f = fault("(blankets", "(outlet_plug: 1.5, blankets");
    shows(&f, "must be from 0 to 1; found 1.5", "1.5", "");
    // The second heater's power, not the first's.
    let f = fault("\"sump-pad-150w\",", "\"sump-pad-150w\", power: W(-3),");
    shows(&f, "must not be negative", "W(-3)", "power: W(3)");
    let f = fault(
        "\"sump-pad-150w\",",
        "\"sump-pad-150w\", thermostat: (sensor: \"sump_bot\", on_at: degC(90), off_at: degC(80)),",
    );
    shows(
        &f,
        "`on_at` must be below `off_at`",
        "degC(90)",
        "comes on again",
    );
}

#[test]
fn a_problem_of_an_engine_file_is_shown_in_that_file() {
    let text = crate::files::library::builtin(Kind::Engine, "aluminium-block").unwrap();
    let spoilt = text.replace("kg(32.4)", "kg(-32.4)");
    let night = NIGHT
        .replace("\"flat-four-3l1\"", "\"own.ron\"")
        .replace("covers: (blankets: { \"UL\": m2K_W(0.3) }),", "")
        .replace("(heater: \"bay-fan-350w\", place: at(\"bottom\")),", "")
        .replace("\"sump-pad-150w\",", "\"sump-pad-150w\", place: at(\"plate\"), thermostat: (sensor: \"block\", on_at: degC(1), off_at: degC(2)),");
    let (_room, path) = folder(&[("night.ron", &night), ("own.ron", &spoilt)]);
    let FileError::Faults(faults) = load(&path).unwrap_err() else {
        panic!("the file can be read");
    };
    assert_eq!(
        (faults.len(), faults[0].file.as_str()),
        (1, "own.ron"),
        "{faults:?}"
    );
    shows(
        &faults[0],
        "must be above zero",
        "kg(-32.4)",
        "mass: kg(32.4)",
    );
}

#[test]
fn a_problem_of_a_choice_is_shown_at_that_choice() {
    let (_room, path) = folder(&[("two.ron", COMPARISON), ("night.ron", NIGHT)]);
    let loaded = load_comparison_from(&path, Outside::Refused).unwrap_or_else(|e| panic!("{e}"));
    let choice = &loaded.choices[1];
    let problems = check(&choice.night).unwrap_err();
    let faults = loaded.located(&problems, &choice.name);
    assert_eq!(faults.len(), 1, "{faults:?}");
    shows(
        &faults[0],
        "no place named `sump`",
        "sump",
        "its places are",
    );
    assert_eq!(faults[0].line_and_column().unwrap().0, 5);
    // Comparison, night, hangar, engine, oil, and the two heaters of the night.
    assert_eq!(loaded.base.inputs.len(), 7, "{:?}", loaded.base.inputs);

    let twice = COMPARISON.replace("\"two\"", "\"one\"");
    let (_room, path) = folder(&[("two.ron", &twice), ("night.ron", NIGHT)]);
    let said = load_comparison_from(&path, Outside::Refused)
        .map(|_| ())
        .unwrap_err()
        .to_string();
    assert!(said.contains("two choices named `one`"), "{said}");
}

#[test]
fn an_error_is_printed_with_its_line_and_column() {
    let shown = fault("at(\"bottom\")", "at(\"botom\")").to_string();
    assert!(
        shown.ends_with(
            "night.ron, line 9, column 45: the engine has no place named `botom`.\n    Try: place: at(\"bottom\")"
        ),
        "{shown}"
    );
    let whole = InputError::of("own.ron", "it is empty").to_string();
    assert_eq!(whole, "own.ron: it is empty.");
}
