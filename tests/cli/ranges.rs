//! Plausible ranges as a user writes them: in place of a model's, at the ends of a thermostat, and of numbers that only a
//! file of one's own can hold.

use super::TempProject;
use serde_json::Value;

/// A short night of the small engine with one heater.
fn night(heater: &str, ranges: &str) -> String {
    format!(
        "(
    title: \"short\",
    clock: (begin: \"04:00\", departure: \"05:00\"),
    engine: \"flat-four-3l1\",
    hangar: \"shut\",
    weather: steady(outdoors: degC(-10)),
    heaters: [({heater})],
    uncertain: {{{ranges}}},
)
"
    )
}

/// A pad that goes on and off at these, in °C.
fn pad(lo: f64, hi: f64) -> String {
    format!(
        "heater: \"sump-pad-150w\", thermostat: (sensor: \"sump_bot\", on_at: degC({lo:?}), off_at: degC({hi:?}))"
    )
}

fn range(path: &str, low: f64, high: f64) -> String {
    format!(
        "\"{path}\": (low: {low:?}, high: {high:?}, distribution: uniform, basis: measured, source: \"mine\"), "
    )
}

fn write(desk: &TempProject, name: &str, text: &str) {
    std::fs::write(desk.path().join(name), text).unwrap();
}

fn spread(desk: &TempProject, file: &str) -> Value {
    let shown = desk.run(&["spread", file, "--samples", "64", "--json"]);
    serde_json::from_str(&shown.done()).unwrap()
}

#[test]
fn a_narrower_range_of_the_night_is_the_only_one() {
    let desk = TempProject::new();
    write(&desk, "wide.ron", &night("heater: \"bay-fan-250w\"", ""));
    let ranges = range("engine.g_sump_case", 1.25, 1.35) + &range("heaters[0].power", 249.0, 251.0);
    write(
        &desk,
        "narrow.ron",
        &night("heater: \"bay-fan-250w\"", &ranges),
    );
    let count = |shown: &Value| shown["uncertain"].as_array().unwrap().len();
    let (wide, narrow) = (spread(&desk, "wide.ron"), spread(&desk, "narrow.ron"));
    assert_eq!(count(&wide), count(&narrow));
    let swing = |shown: &Value, path: &str| {
        let influences = shown["one_at_a_time"].as_array().unwrap();
        let found: Vec<&Value> = influences.iter().filter(|i| i["path"] == path).collect();
        assert_eq!(found.len(), 1, "{path}");
        let at = |end: &str| found[0][end].as_f64().unwrap();
        (at("margin_at_high_k") - at("margin_at_low_k")).abs()
    };
    for path in ["engine.g_sump_case", "heaters[0].power"] {
        let (was, is) = (swing(&wide, path), swing(&narrow, path));
        assert!(is < 0.2 * was, "{path}: {was} K, then {is} K");
    }
    let out = ["spread", "narrow.ron", "--samples", "8", "--out", "s"];
    desk.run(&out).done();
    let csv = std::fs::read_to_string(desk.path().join("s/nights.csv")).unwrap();
    let mut columns: Vec<&str> = csv.lines().next().unwrap().split(',').collect();
    columns.sort_unstable();
    assert!(
        columns.windows(2).all(|pair| pair[0] != pair[1]),
        "{columns:?}"
    );
}

#[test]
fn a_thermostat_of_five_kelvin_goes_through_every_command() {
    let desk = TempProject::new();
    let own = range("heaters[0].thermostat.on_at", 36.0, 43.0)
        + &range("heaters[0].thermostat.off_at", 42.0, 48.0);
    for ranges in ["", own.as_str()] {
        write(&desk, "pad.ron", &night(&pad(40.0, 45.0), ranges));
        write(
            &desk,
            "pads.ron",
            &format!(
                "(title: \"pads\", night: \"pad.ron\", choices: [(name: \"as it is\"), (name: \"warmer\", heaters: [({})])])",
                pad(50.0, 55.0)
            ),
        );
        desk.run(&["check", "pad.ron", "pads.ron"]).done();
        let shown = spread(&desk, "pad.ron");
        assert_eq!(
            (&shown["failed"], &shown["most_common_failure"]),
            (&0.into(), &Value::Null)
        );
        let shown = desk.run(&["compare", "pads.ron", "--json"]).done();
        let shown: Value = serde_json::from_str(&shown).unwrap();
        let of_each = shown["uncertainty"]["choices"].as_array().unwrap();
        assert_eq!(of_each.len(), 2);
        for choice in of_each {
            assert_eq!(choice["nights"], shown["uncertainty"]["nights"], "{choice}");
        }
    }
}

/// Oil that must be thicker at 40 °C than at 100 °C, of which either range alone is sound.
#[test]
fn why_plausible_nights_could_not_be_computed_is_told_in_a_line() {
    let desk = TempProject::new();
    let oil = range("oil.at_40", 20.0, 160.0) + &range("oil.at_100", 16.0, 140.0);
    write(&desk, "oil.ron", &night("heater: \"bay-fan-250w\"", &oil));
    let shown = spread(&desk, "oil.ron");
    super::machine::hold("spread", &shown);
    let failed = shown["failed"].as_u64().unwrap();
    assert!((10..54).contains(&failed), "{failed}");
    assert_eq!(shown["most_common_failure"]["nights"], failed);
    let why = shown["most_common_failure"]["why"].as_str().unwrap();
    assert!(
        why.starts_with("oil.at_100: ") && !why.contains('\n'),
        "{why}"
    );
    let text = desk.run(&["spread", "oil.ron", "--samples", "64"]).done();
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let why = why.split_whitespace().collect::<Vec<_>>().join(" ");
    for line in [
        format!("{failed} nights could not be computed and are left out."),
        format!("All have one reason, such as: {why}."),
    ] {
        assert!(text.contains(&line), "{line}\n{text}");
    }
}

/// What a message suggests corrects it.
#[test]
fn a_number_of_the_engine_that_was_measured_goes_into_a_file_of_its_own() {
    let desk = TempProject::new();
    let measured = range("engine.g_sump_case", 1.9, 2.1);
    let text = night("heater: \"bay-fan-250w\"", &measured);
    write(&desk, "mine.ron", &text);
    let refused = desk.run(&["spread", "mine.ron", "--samples", "8"]);
    assert_eq!((refused.code, refused.out.as_str()), (2, ""));
    for shown in [
        "`engine.g_sump_case` is 1.3",
        "`coldsoak catalogue engine NAME > my-engine.ron`",
        "`engine: \"my-engine.ron\"`",
    ] {
        assert!(refused.err.contains(shown), "{shown}: {}", refused.err);
    }
    let model = desk.run(&["catalogue", "engine", "flat-four-3l1"]).done();
    let changed = model.replacen("g_sump_case: W_K(1.3)", "g_sump_case: W_K(2.0)", 1);
    assert_ne!(changed, model);
    write(&desk, "my-engine.ron", &changed);
    let named = text.replacen("\"flat-four-3l1\"", "\"my-engine.ron\"", 1);
    write(&desk, "mine.ron", &named);
    let shown = spread(&desk, "mine.ron");
    let uncertain = shown["uncertain"].as_array().unwrap();
    let found: Vec<&Value> = uncertain
        .iter()
        .filter(|u| u["path"] == "engine.g_sump_case")
        .collect();
    assert_eq!(found.len(), 1);
    let number = |key: &str| found[0][key].as_f64().unwrap();
    assert_eq!(
        (number("value"), number("low"), number("high")),
        (2.0, 1.9, 2.1)
    );
}

/// A value set on the command line takes its range along, and an error in it names the line to write.
#[test]
fn a_value_is_set_by_its_path_in_every_command_on_nights() {
    let desk = TempProject::new();
    let set = [
        "--set",
        "covers.outlet_plug=0.9",
        "--samples",
        "8",
        "--json",
    ];
    let told = desk.run(&[&["spread", "demo"][..], &set].concat());
    let note = "set: covers.outlet_plug 0.9 (0.87 to 0.93; night: 0.48)";
    assert!(told.err.contains(note), "{}", told.err);
    let value: Value = serde_json::from_str(&told.out).unwrap();
    let found = value["uncertain"].as_array().unwrap();
    let plug = found.iter().find(|i| i["path"] == "covers.outlet_plug");
    assert_eq!(
        (&plug.unwrap()["low"], &plug.unwrap()["high"]),
        (&0.87.into(), &0.93.into())
    );
    for (command, value, error) in [
        (
            "night",
            "covers.outlet_plugs=0.9",
            "Try: --set covers.outlet_plug=0.9",
        ),
        (
            "network",
            "departure=08:00",
            "Try: --set clock.departure=08:00",
        ),
        ("map", "initial.water_in_oil=20", "has no unit"),
        ("chart", "covers.outlet_plug=1.5", "must be from 0 to 1"),
        ("when", "oil=sae-51", "sae-50"),
        ("compare", "covers.outlet_plug", "not PATH=VALUE"),
    ] {
        let said = desk.run(&[command, "demo", "--set", value]);
        assert_eq!(said.code, 2, "{command} {value}: {}", said.err);
        assert!(said.err.contains(error), "{command} {value}: {}", said.err);
    }
}

/// What the help of `new` says of its heater is what it writes.
#[test]
fn the_heater_of_a_new_night_is_where_the_help_says() {
    let desk = TempProject::new();
    let (help, night) = (desk.run(&["new", "--help"]), desk.run(&["new", "-"]));
    assert!(help.done().contains("a fan on top"));
    assert!(night.done().contains("place: at(\"top-blowing-right\")"));
}
