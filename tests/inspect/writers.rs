//! The network as table and JSON.

use crate::kit::{fan, night};
use coldsoak::inspect::{NetworkSnapshot, anatomy};
use coldsoak::quantity::{Temperature, Units};
use coldsoak::report::Report;
use coldsoak::report::network::report;
use coldsoak::report::provenance::Provenance;

fn found() -> NetworkSnapshot {
    let mut scenario = night("flat-four-3l1", Temperature::degC(-12.0), 6);
    scenario.title = "a \"quoted\" night {".to_owned();
    scenario.heaters.push(fan(300.0, "top-blowing-right"));
    anatomy(&scenario, 3600.0).unwrap()
}

fn written(network: &NetworkSnapshot) -> Report {
    let from = Provenance::new(vec!["network".to_owned()], Vec::new());
    report(network, Units::Fahrenheit, &from)
}

#[test]
fn the_json_names_its_units_and_holds_every_path() {
    let anatomy = found();
    let json: serde_json::Value = serde_json::from_str(&written(&anatomy).json()).unwrap();
    assert_eq!(json["paths"].as_array().unwrap().len(), anatomy.paths.len());
    let path = json["paths"][0].as_object().unwrap();
    for key in ["conductance_w_per_k", "heat_w", "difference_k"] {
        assert!(path[key].is_f64(), "{key}");
    }
    assert!(json["nodes"][0]["temp_c"].is_f64());
    assert!(json["modes"][0]["time_constant_h"].is_f64());
}

#[test]
fn the_table_has_every_node_in_the_unit_requested() {
    let anatomy = found();
    let text = written(&anatomy).text(120);
    assert!(text.contains("°F") && !text.contains("°C"));
    for node in &anatomy.nodes {
        let degrees = format!("{:.2}", Units::Fahrenheit.temperature(node.temp_c));
        let found = text.lines().any(|line| {
            line.trim_start().starts_with(&format!("{} ", node.name)) && line.contains(&degrees)
        });
        assert!(found, "{}", node.name);
    }
    assert!(text.contains("Slowest time constants"));
    assert!(text.lines().all(|line| line.chars().count() <= 120));
}
