//! `coldsoak network`: what is being solved, in two forms.

use super::TempProject;
use super::machine::hold;

#[test]
fn the_json_keeps_its_schema_and_the_moment_asked_for() {
    let desk = TempProject::new();
    let words = ["network", "small-engine-top", "--at", "05:30", "--json"];
    let shown = serde_json::from_str(&desk.run(&words).done()).unwrap();
    hold("network", &shown);
    assert_eq!(shown["clock"], "05:30");
    // From 19:00 to half past five.
    assert_eq!(shown["time_s"], 10.5 * 3600.0);
    let departure = serde_json::from_str::<serde_json::Value>(
        &desk.run(&["network", "block-cooling", "--json"]).done(),
    )
    .unwrap();
    hold("network", &departure);
    assert_eq!(departure["clock"], "08:00");
}

#[test]
fn a_network_goes_into_a_folder_that_is_not_overwritten() {
    let desk = TempProject::new();
    let words = ["network", "block-cooling", "--out", "net", "--json"];
    let printed = desk.run(&words).done();
    let text = std::fs::read_to_string(desk.path().join("net/findings.json")).unwrap();
    assert!(text.contains("\"nodes\""), "{text}");
    assert_eq!(printed.trim_end(), text.trim_end());
    assert_eq!(desk.files("net"), ["findings.json", "provenance.json"]);
    assert_eq!(desk.run(&words).code, 2);
    desk.run(&[&words[..], &["--force"]].concat()).done();
}

#[test]
fn the_table_is_told_in_the_degrees_asked_for() {
    let desk = TempProject::new();
    let shown = desk
        .run(&["network", "block-cooling", "--units", "degF"])
        .done();
    assert!(
        shown.contains("Slowest time constants") && shown.contains("°F"),
        "{shown}"
    );
}

#[test]
fn a_moment_that_is_none_is_two() {
    let desk = TempProject::new();
    for at in ["half past", "15:00"] {
        let ran = desk.run(&["network", "block-cooling", "--at", at]);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{at}: {}", ran.err);
    }
}
