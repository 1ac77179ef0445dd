//! The folder a run leaves behind.

use super::TempProject;

/// Two choices through the small engine's night.
const TWO: &str = "(
    title: \"two\",
    night: \"small-engine-top\",
    choices: [
        (name: \"No heater!\", heaters: []),
        (name: \"fan / top\", heaters: [(heater: \"bay-fan-250w\", place: at(\"top-blowing-right\"))]),
    ],
)
";

fn desk() -> TempProject {
    let desk = TempProject::new();
    std::fs::write(desk.path().join("two.ron"), TWO).unwrap();
    desk
}

#[test]
fn a_comparison_leaves_findings_traces_and_charts_and_never_overwrites_unasked() {
    let desk = desk();
    let shown = desk.run(&["compare", "two.ron", "--quick"]).done();
    assert!(shown.contains("coldsoak-out"), "{shown}");
    let mut files = desk.files("coldsoak-out");
    files.retain(|f| !f.ends_with(".png"));
    // Findings and provenance; comparison (SVG, CSV); for each choice a trace and four charts (SVG, CSV).
    assert_eq!(files.len(), 2 + 2 + 2 * (1 + 8), "{files:?}");
    for ending in [
        "no-heater.csv",
        "no-heater-temperature.svg",
        "no-heater-heat.csv",
        "fan-top.csv",
        "fan-top-water.svg",
        "fan-top-dew.csv",
    ] {
        assert!(
            files.iter().any(|f| f.ends_with(ending)),
            "{ending}: {files:?}"
        );
    }
    assert!(files.contains(&"comparison.svg".to_owned()));
    assert!(files.contains(&"findings.json".to_owned()));

    let kept = desk.path().join("coldsoak-out/findings.json");
    std::fs::write(&kept, "mine").unwrap();
    desk.run(&["compare", "two.ron", "--quick"]).done();
    assert!(!desk.files("coldsoak-out-2").is_empty());
    let refused = desk.run(&["compare", "two.ron", "--quick", "--out", "coldsoak-out"]);
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("--force"), "{}", refused.err);
    assert_eq!(std::fs::read_to_string(&kept).unwrap(), "mine");
    desk.run(&[
        "compare",
        "two.ron",
        "--quick",
        "--out",
        "coldsoak-out",
        "--force",
    ])
    .done();
    assert_ne!(std::fs::read_to_string(&kept).unwrap(), "mine");
}

/// Before anything is computed: this night would be refused by the gate, and the folder is refused first.
#[test]
fn an_occupied_folder_is_refused_at_once() {
    let desk = desk();
    let text = "(title: \"none\", clock: (begin: \"19:00\", departure: \"07:00\"), engine: \"flat-four-3l1\", hangar: \"shut\",
        weather: steady(outdoors: degC(-9)), heaters: [(heater: \"bay-fan-250w\", place: at(\"nowhere\"))])";
    std::fs::write(desk.path().join("none.ron"), text).unwrap();
    std::fs::create_dir(desk.path().join("there")).unwrap();
    let words = ["night", "none.ron", "--out", "there"];
    let said = desk.run(&words).err;
    assert!(said.contains("nowhere"), "{said}");
    std::fs::write(desk.path().join("there/mine.txt"), "mine").unwrap();
    for words in [&words[..], &["compare", "two.ron", "--out", "there"]] {
        let refused = desk.run(words);
        assert_eq!((refused.code, refused.out.as_str()), (2, ""));
        assert!(
            refused.err.contains("there is there already") && !refused.err.contains("nowhere"),
            "{}",
            refused.err
        );
    }
    assert_eq!(desk.files("there"), ["mine.txt"]);
}

#[test]
fn json_is_printed_and_no_folder_written_unless_one_is_named() {
    let desk = desk();
    let printed = desk
        .run(&["compare", "two.ron", "--quick", "--json"])
        .done();
    assert_eq!(desk.files("."), ["two.ron"]);
    let named = desk
        .run(&["compare", "two.ron", "--quick", "--json", "--out", "there"])
        .done();
    // The same but for the words that were typed.
    let but_words = |text: &str| {
        let mut shown: serde_json::Value = serde_json::from_str(text).unwrap();
        shown.as_object_mut().unwrap().remove("command");
        shown
    };
    assert_eq!(but_words(&printed), but_words(&named));
    let kept = std::fs::read_to_string(desk.path().join("there/findings.json")).unwrap();
    assert_eq!(kept.trim_end(), named.trim_end());
}

#[test]
fn a_trace_has_a_line_a_sample_and_its_units_in_its_head() {
    let desk = desk();
    desk.run(&["night", "small-engine-top", "--out", "night"])
        .done();
    let trace = std::fs::read_to_string(desk.path().join("night/night.csv")).unwrap();
    let mut lines = trace.lines().skip_while(|l| l.starts_with('#'));
    let head: Vec<&str> = lines.next().unwrap().split(',').collect();
    assert!(head.contains(&"carb_c"), "{head:?}");
    let rows: Vec<usize> = lines.map(|l| l.split(',').count()).collect();
    assert!(
        rows.len() > 12 * 60,
        "{} samples of a night of 12 h",
        rows.len()
    );
    assert!(rows.iter().all(|n| *n == head.len()));
}
