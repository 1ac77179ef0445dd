//! Machine output: it keeps the published schemas, and says the same whatever the degrees and the threads.

use super::TempProject;
use serde_json::Value;

fn schema(name: &str) -> jsonschema::Validator {
    let file = format!("{}/schema/{name}.schema.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&file).unwrap();
    let schema: Value = serde_json::from_str(&text).unwrap();
    jsonschema::draft202012::meta::validate(&schema).expect("the schema is one");
    jsonschema::draft202012::new(&schema).unwrap()
}

pub fn hold(name: &str, shown: &Value) {
    let faults: Vec<String> = schema(name)
        .iter_errors(shown)
        .map(|e| format!("{}: {e}", e.instance_path))
        .collect();
    assert!(faults.is_empty(), "{faults:#?}");
}

pub fn valid(name: &str, shown: &Value) -> bool {
    schema(name).is_valid(shown)
}

fn json(desk: &TempProject, words: &[&str]) -> Value {
    serde_json::from_str(&desk.run(words).done()).unwrap()
}

/// A slip: what it is, and how it is made.
pub type Slip = (&'static str, fn(&mut Value));

#[test]
fn a_comparison_keeps_its_schema_and_a_never_says_why() {
    let desk = TempProject::new();
    let shown = json(&desk, &["compare", "--json", "--samples", "8"]);
    hold("compare", &shown);
    let choices = shown["choices"].as_array().unwrap();
    assert_eq!(choices.len(), 7);
    let cold = choices.iter().find(|c| c["name"] == "no heater").unwrap();
    assert!(cold["time_to_threshold_h"].is_null());
    assert!(
        cold["not_reached_reason"]
            .as_str()
            .is_some_and(|why| why.contains("°C"))
    );
    assert_eq!(cold["energy_kwh"], 0.0);
    assert!(cold["margin_k"].as_f64().unwrap() < 0.0);
    // What reaches the chance stands before what does not, and last what is not to be used; places never fall.
    let order = ["reached", "not_reached", "do_not_use"];
    let group = |c: &Value| order.iter().position(|g| c["group"] == *g).unwrap();
    let groups: Vec<usize> = choices.iter().map(group).collect();
    assert!(groups.is_sorted(), "{groups:?}");
    let ranks: Vec<u64> = choices
        .iter()
        .map(|c| c["rank"].as_u64().unwrap())
        .collect();
    assert!(ranks[0] == 1 && ranks.is_sorted(), "{ranks:?}");
    // The first three at their own best start; all have the chance at the hours of the file.
    assert!(choices[..3].iter().all(|c| c["best_start"].is_object()));
    for (choice, bands) in choices
        .iter()
        .zip(shown["uncertainty"]["choices"].as_array().unwrap())
    {
        assert_eq!(choice["ready"], bands["ready"], "{choice}");
    }
    // What is ready stands before what is not, where no chance is computed.
    let quick = json(&desk, &["compare", "--json", "--quick"]);
    for shown in [&shown, &quick] {
        let key = shown["ranking_key"].as_str().unwrap();
        assert!(key.starts_with("no hazard "), "{key}");
    }
    let usable = quick["choices"].as_array().unwrap().iter();
    let usable = usable.filter(|c| c["hazards"].as_array().unwrap().is_empty());
    let ready: Vec<bool> = usable
        .map(|c| c["ready_at_departure"].as_bool().unwrap())
        .collect();
    assert!(ready.windows(2).all(|two| two[0] || !two[1]), "{ready:?}");
}

#[test]
fn every_built_in_night_keeps_its_schema() {
    let desk = TempProject::new();
    for night in [
        "demo",
        "small-engine-top",
        "six-after-flight",
        "block-cooling",
        "radial-underneath",
        "thermostat-pad",
    ] {
        println!("{night}");
        let quick = json(&desk, &["night", night, "--json", "--quick"]);
        hold("night", &quick);
        assert!(quick["uncertainty"].is_null());
        let shown = json(&desk, &["night", night, "--json", "--samples", "8"]);
        hold("night", &shown);
        let uncertainty = &shown["uncertainty"];
        assert_eq!(uncertainty["nights"], 8);
        assert_eq!(uncertainty["summary"]["ready"]["of"], 8);
        assert!(shown.get("choices").is_none());
        assert!(!shown["parts"].as_array().unwrap().is_empty());
        let last = shown["events"].as_array().unwrap().last().unwrap();
        assert!(last["time_h"].as_f64().unwrap() >= 0.0);
    }
}

#[test]
fn a_spread_keeps_its_schema_with_and_without_indices() {
    let desk = TempProject::new();
    let words = ["spread", "block-cooling", "--json", "--samples", "8"];
    let shown = json(&desk, &words);
    hold("spread", &shown);
    assert_eq!(shown["nights"], 8);
    assert!(shown["sobol_indices"].as_array().unwrap().is_empty());
    let few = desk.run(&[&words[..], &["--sobol"]].concat());
    assert_eq!((few.code, few.out.as_str()), (2, ""));
    assert!(few.err.contains("Try: --sobol --samples 64"), "{}", few.err);
    let enough = [
        "spread",
        "block-cooling",
        "--json",
        "--samples",
        "64",
        "--sobol",
    ];
    let shown = json(&desk, &enough);
    hold("spread", &shown);
    assert!(!shown["sobol_indices"].as_array().unwrap().is_empty());
    let quick = json(&desk, &["compare", "--quick", "--json"]);
    hold("compare", &quick);
    assert!(quick["uncertainty"].is_null());
}

#[test]
fn a_refined_night_keeps_its_schema_and_is_told_as_a_table() {
    let desk = TempProject::new();
    let shown = json(&desk, &["night", "small-engine-top", "--refine", "--json"]);
    hold("refine", &shown);
    assert_eq!(shown["axes"][0]["levels"][2]["resolution"], 4);
    let slips: [Slip; 2] = [
        ("a key too many", |v| v["surprise"] = 1.into()),
        ("an axis too few", |v| {
            v["axes"].as_array_mut().unwrap().pop();
        }),
    ];
    for (slip, make) in slips {
        let mut shown = shown.clone();
        make(&mut shown);
        assert!(!valid("refine", &shown), "{slip}");
    }
    let text = desk.run(&["night", "small-engine-top", "--refine"]).done();
    assert!(text.contains("(106, 129, 175 numbers)"), "{text}");
    assert!(text.contains("All of these nights are ready"), "{text}");
    let said = |text: &str, words: &str| {
        let flowing: Vec<&str> = text.split_whitespace().collect();
        assert!(flowing.join(" ").contains(words), "{words}: {text}");
    };
    said(&text, "Parts that are lumps are not cut");
    said(&text, "may come or go with finer cells");
    assert!(!text.contains("thermostat"), "{text}");
    let held = desk.run(&["night", "thermostat-pad", "--refine"]).done();
    said(
        &held,
        "The thermostat lets these oscillate before departure:",
    );
    said(&held, "sump by");
    let refused = desk.run(&["night", "demo", "--refine", "--out", "there"]);
    assert_eq!(refused.code, 2, "{}", refused.err);
}

/// A schema that lets anything through proves nothing: each of these slips is refused.
#[test]
fn the_schemas_refuse_what_is_not_in_the_contract() {
    let desk = TempProject::new();
    let sound = json(
        &desk,
        &["night", "block-cooling", "--json", "--samples", "8"],
    );
    let night = schema("night");
    assert!(night.is_valid(&sound));
    let slips: [Slip; 7] = [
        ("a chance above one", |v| {
            v["uncertainty"]["summary"]["ready"]["fraction"] = 1.5.into()
        }),
        ("simulated nights without a seed", |v| {
            v["uncertainty"].as_object_mut().unwrap().remove("seed");
        }),
        ("a key too many", |v| v["surprise"] = 1.into()),
        ("a key too few", |v| {
            v.as_object_mut().unwrap().remove("margin_k");
        }),
        ("a never without a reason", |v| {
            v["not_reached_reason"] = Value::Null
        }),
        ("a text for a number", |v| v["energy_kwh"] = "0".into()),
        ("a path nobody knows", |v| {
            v["losses_w"]["chimney"] = 1.0.into()
        }),
    ];
    for (slip, make) in slips {
        let mut shown = sound.clone();
        make(&mut shown);
        assert!(!night.is_valid(&shown), "{slip}");
    }
}

#[test]
fn machine_output_is_the_same_in_all_degrees_and_with_any_number_of_threads() {
    let desk = TempProject::new();
    // All but the words that were typed, which differ.
    let shown = |words: &[&str]| {
        let mut shown = json(&desk, words);
        shown.as_object_mut().unwrap().remove("command");
        shown.to_string()
    };
    let night = ["night", "small-engine-top", "--json", "--samples", "8"];
    let celsius = shown(&[&night[..], &["--units", "degC"]].concat());
    let fahrenheit = shown(&[&night[..], &["--units", "degF"]].concat());
    assert_eq!(celsius, fahrenheit);
    let celsius = shown(&["compare", "--json", "--quick", "--units", "degC"]);
    let fahrenheit = shown(&["compare", "--json", "--quick", "--units", "degF"]);
    assert_eq!(celsius, fahrenheit);
    assert!(!celsius.contains("°F"), "{celsius}");
    let one = shown(&["compare", "--json", "--samples", "8", "--threads", "1"]);
    let four = shown(&["compare", "--json", "--samples", "8", "--threads", "4"]);
    assert_eq!(one, four);
}

/// What was noted about a night's files reaches a program too: a spike of its weather, and a number hard to believe.
#[test]
fn notes_and_doubts_are_in_machine_output() {
    let desk = TempProject::new();
    let mut table = String::from("time_utc,temp_c,dewpoint_c,wind_m_s\n");
    for hour in 0..6 {
        let temp = if hour == 2 { -30 } else { -5 };
        table += &format!("2018-01-09T0{hour}:00Z,{temp},-35,1\n");
    }
    let night = "(
    title: \"unusual\",
    clock: (begin: \"2018-01-09 00:00\", departure: \"2018-01-09 05:00\", zone: \"UTC\"),
    engine: \"aluminium-block\",
    hangar: \"shut\",
    weather: recorded(\"own.csv\"),
    initial: (temperature: values(all: degC(20), parts: {}), water_in_oil: g(0)),
    circuit: (tariff_per_kwh: 200),
)
";
    let both = "(title: \"two\", night: \"own.ron\", choices: [(name: \"a\"), (name: \"b\", heaters: [])])";
    for (name, text) in [
        ("own.csv", table.as_str()),
        ("own.ron", night),
        ("two.ron", both),
    ] {
        std::fs::write(desk.path().join(name), text).unwrap();
    }
    for (schema, words) in [
        ("night", ["night", "own.ron"]),
        ("compare", ["compare", "two.ron"]),
    ] {
        let shown = json(&desk, &[&words[..], &["--json", "--quick"]].concat());
        hold(schema, &shown);
        let notes = shown["input_notes"].as_array().unwrap();
        assert!(
            notes
                .iter()
                .any(|n| n.as_str().unwrap().contains("own.csv, line 4")
                    && n.as_str().unwrap().contains("spike")),
            "{notes:?}"
        );
        let warnings = shown["plausibility_warnings"].as_array().unwrap();
        assert_eq!(warnings.len(), 1, "{warnings:?}");
        let warning = warnings[0].as_str().unwrap();
        assert!(
            warning.starts_with("own.ron, line 8, column 31: `tariff_per_kwh` is 200"),
            "{warning}"
        );
    }
}

#[test]
fn a_check_tells_a_program_what_it_tells_people() {
    let desk = TempProject::new();
    let fan = desk.run(&["catalogue", "heater", "bay-fan-250w"]).done();
    let hot = fan.replacen("power: W(250)", "power: kW(40)", 1);
    assert_ne!(fan, hot);
    for (name, text) in [
        ("hot.ron", hot.as_str()),
        ("bad.ron", "(grade: \"x\", at_40: 5, at_100: mm2_s(9))"),
        ("kmmh.txt", "KMMH 111435Z 33004KT 10SM CLR M05/M07 A3026\n"),
    ] {
        std::fs::write(desk.path().join(name), text).unwrap();
    }
    let ran = desk.run(&["check", "hot.ron", "kmmh.txt", "bad.ron", "--json"]);
    assert_eq!(ran.code, 2);
    let shown: Value = serde_json::from_str(&ran.out).unwrap();
    hold("check", &shown);
    let files = &shown["files"];
    assert_eq!(
        (&files[0]["valid"], &files[0]["kind"]),
        (&true.into(), &"heater".into())
    );
    let warning = &files[0]["plausibility_warnings"][0];
    let line = 1 + hot.lines().position(|l| l.contains("kW(40)")).unwrap();
    assert_eq!(
        (&warning["file"], &warning["line"]),
        (&"hot.ron".into(), &line.into())
    );
    assert!(
        warning["message"].as_str().unwrap().contains("40000 W"),
        "{warning}"
    );
    assert!(
        files[1]["detected_format"]
            .as_str()
            .unwrap()
            .starts_with("METAR reports")
    );
    assert!(
        files[1]["input_notes"][0]
            .as_str()
            .unwrap()
            .contains("month")
    );
    assert_eq!(
        (&files[2]["valid"], &files[2]["kind"]),
        (&false.into(), &Value::Null)
    );
    assert_eq!(files[2]["errors"][0]["line"], 1);
    let sound = desk.run(&["check", "hot.ron", "--json", "--quiet"]);
    assert_eq!((sound.code, sound.err.as_str()), (0, ""));
    let mut slip: Value = serde_json::from_str(&sound.out).unwrap();
    assert!(schema("check").is_valid(&slip));
    slip["files"][0]["plausibility_warnings"][0]["line"] = "three".into();
    assert!(!schema("check").is_valid(&slip));
}
