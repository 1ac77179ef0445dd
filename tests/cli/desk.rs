//! Files to begin with, what is built in, names, standard input, and what is assumed.

use super::machine::hold;
use super::{Ran, TempProject};
use std::io::Write;
use std::process::Stdio;

/// Runs with a text on standard input.
fn fed(desk: &TempProject, words: &[&str], text: &str) -> Ran {
    let mut child = desk
        .command(words)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child
        .stdin
        .take()
        .unwrap()
        .write_all(text.as_bytes())
        .unwrap();
    Ran::of(&child.wait_with_output().unwrap())
}

/// A short night of the small engine.
const SHORT: &str = "(
    title: \"short\",
    clock: (begin: \"04:00\", departure: \"05:00\"),
    engine: \"flat-four-3l1\",
    hangar: \"shut\",
    weather: steady(outdoors: degC(-10)),
    heaters: [(heater: \"HEATER\")],
)
";

#[test]
fn a_new_night_runs_as_it_stands_and_is_never_overwritten_unasked() {
    let desk = TempProject::new();
    let wrote = desk.run(&["new", "mine.ron"]).done();
    assert!(wrote.contains("coldsoak night mine.ron"), "{wrote}");
    let shown = desk.run(&["night", "mine.ron", "--quick"]).done();
    assert!(shown.contains("\nNight     My night\n"), "{shown}");
    std::fs::write(desk.path().join("mine.ron"), "edited").unwrap();
    let refused = desk.run(&["new", "mine.ron"]);
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("--force"), "{}", refused.err);
    let kept = std::fs::read_to_string(desk.path().join("mine.ron")).unwrap();
    assert_eq!(kept, "edited");
    desk.run(&["new", "mine.ron", "--force", "--quiet"]).done();
}

#[test]
fn a_new_night_can_be_printed_and_read_back_from_standard_input() {
    let desk = TempProject::new();
    let text = desk
        .run(&[
            "new",
            "-",
            "--engine",
            "radial-nine",
            "--heater",
            "household-fan-1500w",
        ])
        .done();
    let shown = fed(&desk, &["night", "-", "--quick", "--wide"], &text).done();
    assert!(shown.contains("household fan heater 1500 W"), "{shown}");
    assert!(shown.contains("standard input "), "{shown}");
    assert!(desk.files(".").is_empty());
}

#[test]
fn a_name_that_is_not_built_in_is_two_with_the_nearest() {
    let desk = TempProject::new();
    for (words, near) in [
        (
            &["new", "a.ron", "--engine", "flat-four-5l8"][..],
            "flat-four-5l9",
        ),
        (&["new", "a.ron", "--heater", "bay-fan-350"], "bay-fan-350w"),
        (&["catalogue", "heater", "sump-pad-150"], "sump-pad-150w"),
        (&["catalogue", "enginse"], "engine"),
    ] {
        let ran = desk.run(words);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{words:?}");
        assert!(ran.err.contains(&format!("Try: {near}")), "{}", ran.err);
    }
    assert!(desk.files(".").is_empty());
}

#[test]
fn a_file_of_the_catalogue_can_be_saved_and_named() {
    let desk = TempProject::new();
    let fan = desk.run(&["catalogue", "heater", "bay-fan-250w"]).done();
    assert!(fan.starts_with("//"), "with its comments");
    std::fs::write(desk.path().join("my-fan.ron"), fan).unwrap();
    std::fs::write(
        desk.path().join("n.ron"),
        SHORT.replace("HEATER", "my-fan.ron"),
    )
    .unwrap();
    let shown = desk.run(&["night", "n.ron", "--quick"]).done();
    assert!(
        shown.contains("Heater    bay fan 250 W, at bottom, "),
        "{shown}"
    );
    let listed = desk.run(&["catalogue"]).done();
    for name in [
        "flat-six-8l5",
        "sae-60",
        "open-shed",
        "chicago_il_1986-01-06",
        "demo",
    ] {
        assert!(listed.contains(name), "{name}");
    }
    let one = desk.run(&["catalogue", "oil"]).done();
    assert!(one.contains("15w-50") && !one.contains("shut"), "{one}");
    let json: serde_json::Value =
        serde_json::from_str(&desk.run(&["catalogue", "engines", "--json"]).done()).unwrap();
    hold("catalogue", &json);
    assert_eq!(json.as_array().unwrap().len(), 5);
    assert_eq!(json[0]["kind"], "engine");
}

#[test]
fn names_lead_out_of_the_folder_only_if_told_so() {
    let desk = TempProject::new();
    let fan = desk.run(&["catalogue", "heater", "bay-fan-250w"]).done();
    std::fs::write(desk.path().join("fan.ron"), fan).unwrap();
    std::fs::create_dir(desk.path().join("nights")).unwrap();
    let night = desk.path().join("nights/n.ron");
    let absolute = desk.path().join("fan.ron").display().to_string();
    for name in ["../fan.ron", absolute.as_str()] {
        std::fs::write(&night, SHORT.replace("HEATER", name)).unwrap();
        let refused = desk.run(&["night", "nights/n.ron"]);
        assert_eq!(refused.code, 2);
        assert!(refused.err.contains("--allow-outside"), "{}", refused.err);
        assert!(refused.err.contains("n.ron, line 7"), "{}", refused.err);
        desk.run(&["night", "nights/n.ron", "--allow-outside", "--quick"])
            .done();
    }
    // From standard input, names resolve in the working directory.
    let text = SHORT.replace("HEATER", "fan.ron");
    fed(&desk, &["night", "-", "--quick"], &text).done();
}

#[test]
fn every_output_says_where_it_comes_from() {
    let desk = TempProject::new();
    std::fs::write(
        desk.path().join("n.ron"),
        SHORT.replace("HEATER", "lamp-100w"),
    )
    .unwrap();
    let words = ["night", "n.ron", "--out", "kept", "--wide", "--quick"];
    let shown = desk.run(&words).done();
    let made = shown
        .split("\n\n")
        .find(|text| text.starts_with("Made by "));
    let last: Vec<&str> = made.unwrap().split_whitespace().collect();
    let last = last.join(" ");
    assert!(
        last.contains("`coldsoak night n.ron --out kept --wide --quick`"),
        "{last}"
    );
    assert!(
        last.contains("n.ron ") && last.contains("built-in oils/15w-50.ron "),
        "{last}"
    );
    let read = |name: &str| std::fs::read_to_string(desk.path().join("kept").join(name)).unwrap();
    for name in ["findings.json", "provenance.json"] {
        let json: serde_json::Value = serde_json::from_str(&read(name)).unwrap();
        assert_eq!(json["command"], serde_json::json!(words), "{name}");
        assert_eq!(json["inputs"][0]["name"], "n.ron");
        assert_eq!(json["inputs"][0]["sha256"].as_str().unwrap().len(), 64);
    }
    let kept: serde_json::Value = serde_json::from_str(&read("provenance.json")).unwrap();
    hold("provenance", &kept);
    let named: Vec<&str> = kept["files"]
        .as_array()
        .unwrap()
        .iter()
        .map(|f| f["name"].as_str().unwrap())
        .collect();
    assert!(
        named.contains(&"night.csv") && named.contains(&"night-temperature.svg"),
        "{named:?}"
    );
    let svg = read("night-temperature.svg");
    assert!(svg.contains("<metadata>coldsoak ") && svg.contains("night n.ron --out kept"));
    // A plain CSV reader finds the heads in the first line.
    assert!(read("night.csv").starts_with("time_s,"));
    // The same words leave the same bytes.
    let before = (read("findings.json"), svg, read("provenance.json"));
    desk.run(&["night", "n.ron", "--out", "kept", "--force", "--quick"])
        .done();
    desk.run(&words.map(|w| if w == "kept" { "again" } else { w }))
        .done();
    std::fs::remove_dir_all(desk.path().join("kept")).unwrap();
    desk.run(&words).done();
    assert_eq!(
        before,
        (
            read("findings.json"),
            read("night-temperature.svg"),
            read("provenance.json")
        )
    );
}

#[test]
fn quiet_tells_nothing_but_the_result() {
    let desk = TempProject::new();
    std::fs::write(
        desk.path().join("n.ron"),
        SHORT.replace("HEATER", "lamp-100w"),
    )
    .unwrap();
    let quiet = desk.run(&["night", "n.ron", "--quiet", "--samples", "8"]);
    assert_eq!(quiet.err, "");
    assert!(quiet.out.starts_with("Ready at 05:00 in "), "{}", quiet.out);
}

#[test]
fn no_color_is_honoured_and_always_is_always() {
    let desk = TempProject::new();
    let faulty = |words: &[&str]| {
        let output = desk.command(words).env("NO_COLOR", "1").output().unwrap();
        Ran::of(&output).err
    };
    assert!(!faulty(&["new", "taken.ron"]).contains('\u{1b}'));
    assert!(faulty(&["new", "taken.ron", "--color", "always"]).contains('\u{1b}'));
}

#[test]
fn shells_and_manuals_know_every_command() {
    let desk = TempProject::new();
    let commands = [
        "night",
        "compare",
        "new",
        "catalogue",
        "network",
        "completions",
        "man",
    ];
    for shell in ["bash", "zsh", "fish"] {
        let text = desk.run(&["completions", shell]).done();
        for command in commands {
            assert!(text.contains(command), "{shell}: {command}");
        }
    }
    desk.run(&["man", "--out", "pages"]).done();
    let pages = desk.files("pages");
    for command in commands {
        assert!(
            pages.contains(&format!("coldsoak-{command}.1")),
            "{pages:?}"
        );
        let help = desk.run(&[command, "--help"]).done();
        assert!(
            help.contains("coldsoak "),
            "{command} teaches without an example: {help}"
        );
    }
    assert!(desk.run(&["man"]).done().contains(".TH coldsoak 1"));
    assert_eq!(desk.run(&["man", "--out", "pages"]).code, 2);
    // All or none: one page that is there already keeps the others from being written.
    std::fs::create_dir(desk.path().join("half")).unwrap();
    std::fs::write(desk.path().join("half/coldsoak-night.1"), "mine").unwrap();
    assert_eq!(desk.run(&["man", "--out", "half"]).code, 2);
    assert_eq!(desk.files("half"), ["coldsoak-night.1"]);
    desk.run(&["man", "--out", "half", "--force"]).done();
    assert_eq!(desk.files("half"), pages);
}

#[test]
fn standard_input_tells_its_kind_like_a_file() {
    let desk = TempProject::new();
    for (kind, name) in [
        ("heater", "bay-fan-350w"),
        ("oil", "sae-50"),
        ("night", "block-cooling"),
    ] {
        let text = desk.run(&["catalogue", kind, name]).done();
        let shown = fed(&desk, &["check", "-"], &text).done();
        assert!(shown.contains(&format!("a valid {kind} file")), "{shown}");
    }
}

#[test]
fn what_has_no_engine_is_not_expanded() {
    let desk = TempProject::new();
    let heater = desk.run(&["catalogue", "heater", "bay-fan-350w"]).done();
    std::fs::write(desk.path().join("fan.ron"), heater).unwrap();
    let ran = desk.run(&["check", "fan.ron", "--expand"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{}", ran.err);
    assert!(
        ran.err.contains("a heater file has no engine"),
        "{}",
        ran.err
    );
}

#[test]
fn a_folder_and_a_device_are_not_replaced_by_a_file() {
    let desk = TempProject::new();
    std::fs::create_dir(desk.path().join("there")).unwrap();
    let ran = desk.run(&["new", "there", "--force"]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    assert!(desk.path().join("there").is_dir());
}

/// What was skipped of the weather is printed by `network` as by `night`.
#[test]
fn a_network_tells_what_was_noticed_in_its_files() {
    let desk = TempProject::new();
    let odd = SHORT.replace(
        "(heater: \"HEATER\")",
        "(heater: \"bay-fan-350w\", power: W(9000))",
    );
    std::fs::write(desk.path().join("odd.ron"), &odd).unwrap();
    let shown = |words: &[&str]| -> serde_json::Value {
        serde_json::from_str(&desk.run(words).done()).unwrap()
    };
    let network = shown(&["network", "odd.ron", "--json"]);
    let night = shown(&["night", "odd.ron", "--json", "--quick"]);
    for key in ["input_notes", "plausibility_warnings"] {
        assert_eq!(network[key], night[key], "{key}");
    }
    assert!(
        !network["plausibility_warnings"]
            .as_array()
            .unwrap()
            .is_empty(),
        "{network}"
    );
}

/// Ranges that only a study would use are checked as well, and reported where they stand.
#[test]
fn check_tells_what_is_wrong_with_plausible_ranges() {
    let desk = TempProject::new();
    let night = SHORT.replace("HEATER", "bay-fan-350w");
    let with = |ranges: &str| {
        let text = night.replacen(
            "heaters:",
            &format!("uncertain: {{\n        {ranges}\n    }},\n    heaters:"),
            1,
        );
        std::fs::write(desk.path().join("ranges.ron"), text).unwrap();
        desk.run(&["check", "ranges.ron"])
    };
    let range = |path: &str, low: &str, high: &str| {
        format!(
            "\"{path}\": (low: {low}, high: {high}, distribution: uniform, basis: estimated, source: \"a guess\"),"
        )
    };
    with(&range("covers.inlet_plug", "0.5", "0.9")).done();
    for (ranges, shown) in [
        (range("covers.inlet_plug", "-0.5", "1.5"), "plausible range"),
        (range("covers.inlet_plgu", "0.0", "0.5"), "did you mean"),
        (
            range("covers.inlet_plug", "0.0", "0.5"),
            "outside the range",
        ),
    ] {
        let ran = with(&ranges);
        assert_eq!(
            (ran.code, ran.out.as_str()),
            (2, ""),
            "{ranges}: {}",
            ran.err
        );
        assert!(
            ran.err.contains(shown) && ran.err.contains("ranges.ron, line 8"),
            "{ranges}: {}",
            ran.err
        );
    }
}
