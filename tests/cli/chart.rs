//! `coldsoak chart`.

use super::TempProject;

#[test]
fn a_folder_holds_each_chart_with_its_numbers_and_can_be_made_again() {
    let desk = TempProject::new();
    desk.run(&["chart", "small-engine-top", "--out", "there"])
        .done();
    let files = desk.files("there");
    for word in ["temperature", "heat", "water", "dew"] {
        for ending in ["svg", "csv"] {
            let name = format!("{word}.{ending}");
            assert!(files.contains(&name), "{name}: {files:?}");
        }
    }
    assert!(files.contains(&"provenance.json".to_owned()));
    let again = ["chart", "small-engine-top", "--out", "there"];
    let refused = desk.run(&again);
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("--force"), "{}", refused.err);
    desk.run(&[&again[..], &["--force", "--show", "heat"]].concat())
        .done();
    assert!(!desk.files("there").contains(&"dew.svg".to_owned()));
}

#[test]
fn one_chart_is_a_file_of_the_kind_its_name_says_or_goes_to_standard_output() {
    let desk = TempProject::new();
    let one = |out: &str| {
        let show = ["--show", "heat", "--units", "degC"];
        let words = [&["chart", "small-engine-top", "--out", out], &show[..]].concat();
        desk.run(&words).done()
    };
    assert!(one("-").starts_with("<svg"));
    one("heat.csv");
    let csv = std::fs::read_to_string(desk.path().join("heat.csv")).unwrap();
    assert!(csv.starts_with("time_h,clock,into_engine_W,"), "{csv:.60}");
    one("heat.svg");
    let svg = std::fs::read_to_string(desk.path().join("heat.svg")).unwrap();
    assert!(svg.contains("<metadata>coldsoak"));
}

/// A comparison is known by its keys, wherever it comes from, and by its name.
#[test]
fn a_comparison_is_charted_however_it_is_named() {
    use std::io::Write;
    use std::process::Stdio;
    let desk = TempProject::new();
    desk.run(&["chart", "class-places", "--out", "built-in.svg"])
        .done();
    let text = r#"(title: "Piped", night: "block-cooling", choices: [(name: "no heater")])"#;
    let mut child = desk
        .command(&["chart", "-", "--out", "piped.svg"])
        .stdin(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child
        .stdin
        .take()
        .unwrap()
        .write_all(text.as_bytes())
        .unwrap();
    let ended = child.wait_with_output().unwrap();
    assert!(ended.status.success(), "{ended:?}");
    for (file, said) in [("built-in.svg", "1: "), ("piped.svg", "1: no heater")] {
        let svg = std::fs::read_to_string(desk.path().join(file)).unwrap();
        assert!(svg.contains(said), "{file}");
    }
    // A name that a night and a comparison share is the night's.
    let csv = desk.run(&["chart", "demo", "--show", "heat", "--out", "heat.csv"]);
    assert_eq!(csv.code, 0, "{}", csv.err);
    let refused = desk.run(&["chart", "class-places", "--show", "heat"]);
    assert!(refused.err.contains("is of one night"), "{}", refused.err);
    let sound = desk.run(&["check", "class-places"]).done();
    assert_eq!(sound.trim(), "class-places: a valid comparison file");
}

#[test]
fn what_cannot_be_drawn_is_told_before_anything_is_computed() {
    let desk = TempProject::new();
    for (out, said) in [
        ("all.svg", "for 4 charts"),
        ("x.gif", "cannot be written as .gif"),
    ] {
        let refused = desk.run(&["chart", "nowhere.ron", "--out", out]);
        assert_eq!(refused.code, 2);
        assert!(refused.err.contains(said), "{}", refused.err);
    }
}
