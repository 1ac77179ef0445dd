//! Machine output: it keeps the published schemas, and says the same whatever the degrees and the threads.

use super::Desk;
use serde_json::Value;

fn schema(name: &str) -> jsonschema::Validator {
    let file = format!("{}/schema/{name}.schema.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&file).unwrap();
    let schema: Value = serde_json::from_str(&text).unwrap();
    jsonschema::draft202012::meta::validate(&schema).expect("the schema is one");
    jsonschema::draft202012::new(&schema).unwrap()
}

pub fn hold(name: &str, told: &Value) {
    let faults: Vec<String> = schema(name)
        .iter_errors(told)
        .map(|e| format!("{}: {e}", e.instance_path))
        .collect();
    assert!(faults.is_empty(), "{faults:#?}");
}

pub fn valid(name: &str, told: &Value) -> bool {
    schema(name).is_valid(told)
}

fn json(desk: &Desk, words: &[&str]) -> Value {
    serde_json::from_str(&desk.run(words).done()).unwrap()
}

/// A slip: what it is, and how it is made.
pub type Slip = (&'static str, fn(&mut Value));

#[test]
fn a_comparison_keeps_its_schema_and_a_never_says_why() {
    let desk = Desk::new();
    let told = json(&desk, &["compare", "--json", "--nights", "8"]);
    hold("compare", &told);
    let choices = told["choices"].as_array().unwrap();
    assert_eq!(choices.len(), 7);
    let cold = choices.iter().find(|c| c["name"] == "no heater").unwrap();
    assert!(cold["time_to_threshold_h"].is_null());
    assert!(
        cold["never_because"]
            .as_str()
            .is_some_and(|why| why.contains("°C"))
    );
    assert_eq!(cold["energy_kwh"], 0.0);
    assert!(cold["margin_k"].as_f64().unwrap() < 0.0);
    // What is ready stands before what is not.
    let ready: Vec<bool> = choices
        .iter()
        .map(|c| c["ready_at_departure"].as_bool().unwrap())
        .collect();
    assert!(ready.windows(2).all(|two| two[0] || !two[1]), "{ready:?}");
}

#[test]
fn every_built_in_night_keeps_its_schema() {
    let desk = Desk::new();
    for night in [
        "demo",
        "small-engine-top",
        "six-after-flight",
        "block-cooling",
        "radial-underneath",
        "thermostat-pad",
    ] {
        let told = json(&desk, &["night", night, "--json"]);
        println!("{night}");
        hold("night", &told);
        assert!(told.get("choices").is_none());
        assert!(!told["parts"].as_array().unwrap().is_empty());
        let last = told["events"].as_array().unwrap().last().unwrap();
        assert!(last["time_h"].as_f64().unwrap() >= 0.0);
    }
}

#[test]
fn a_spread_keeps_its_schema_with_and_without_indices() {
    let desk = Desk::new();
    let words = ["spread", "block-cooling", "--json", "--nights", "8"];
    let told = json(&desk, &words);
    hold("spread", &told);
    assert_eq!(told["nights"], 8);
    assert!(told["indices"].as_array().unwrap().is_empty());
    let told = json(&desk, &[&words[..], &["--indices"]].concat());
    hold("spread", &told);
    assert!(!told["indices"].as_array().unwrap().is_empty());
    let quick = json(&desk, &["compare", "--quick", "--json"]);
    hold("compare", &quick);
    assert!(quick["plausible"].is_null());
}

/// A schema that lets anything through proves nothing: each of these slips is refused.
#[test]
fn the_schemas_refuse_what_is_not_in_the_contract() {
    let desk = Desk::new();
    let sound = json(&desk, &["night", "block-cooling", "--json"]);
    let night = schema("night");
    assert!(night.is_valid(&sound));
    let slips: [Slip; 5] = [
        ("a key too many", |v| v["surprise"] = 1.into()),
        ("a key too few", |v| {
            v.as_object_mut().unwrap().remove("margin_k");
        }),
        ("a never without a reason", |v| {
            v["never_because"] = Value::Null
        }),
        ("a text for a number", |v| v["energy_kwh"] = "0".into()),
        ("a path nobody knows", |v| {
            v["losses_w"]["chimney"] = 1.0.into()
        }),
    ];
    for (slip, make) in slips {
        let mut told = sound.clone();
        make(&mut told);
        assert!(!night.is_valid(&told), "{slip}");
    }
}

#[test]
fn machine_output_is_the_same_in_all_degrees_and_with_any_number_of_threads() {
    let desk = Desk::new();
    // All but the words that were typed, which differ.
    let told = |words: &[&str]| {
        let mut told = json(&desk, words);
        told.as_object_mut().unwrap().remove("command");
        told.to_string()
    };
    let night = ["night", "small-engine-top", "--json"];
    let celsius = told(&[&night[..], &["--units", "degC"]].concat());
    let fahrenheit = told(&[&night[..], &["--units", "degF"]].concat());
    assert_eq!(celsius, fahrenheit);
    let celsius = told(&["compare", "--json", "--quick", "--units", "degC"]);
    let fahrenheit = told(&["compare", "--json", "--quick", "--units", "degF"]);
    assert_eq!(celsius, fahrenheit);
    assert!(!celsius.contains("°F"), "{celsius}");
    let one = told(&["compare", "--json", "--nights", "8", "--threads", "1"]);
    let four = told(&["compare", "--json", "--nights", "8", "--threads", "4"]);
    assert_eq!(one, four);
}
