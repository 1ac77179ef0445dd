//! The engine map, the charts of comparisons and the reports.

use super::TempProject;

const NIGHT: &str = "block-cooling";

#[test]
fn a_map_is_written_once_and_says_where_it_comes_from() {
    let desk = TempProject::new();
    let printed = desk.run(&["map", NIGHT, "--at", "23:00"]).done();
    assert_eq!(printed.trim(), "The engine at 23:00 is in engine-map.svg");
    let svg = std::fs::read_to_string(desk.path().join("engine-map.svg")).unwrap();
    assert!(svg.contains("23:00") && svg.contains("coldsoak map block-cooling --at 23:00"));
    let again = desk.run(&["map", NIGHT]);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("--force"), "{}", again.err);
    let shown = desk.run(&["map", NIGHT, "--out", "-"]).done();
    assert!(shown.contains("<svg") && shown.trim_end().ends_with("</svg>"));
    desk.run(&["map", NIGHT, "--every", "2h", "--out", "strip.svg"])
        .done();
    let strip = std::fs::read_to_string(desk.path().join("strip.svg")).unwrap();
    for clock in [
        "20:00", "22:00", "00:00", "02:00", "04:00", "06:00", "08:00",
    ] {
        assert!(strip.contains(&format!(">{clock}<")), "{clock}");
    }
}

#[test]
fn a_slip_in_the_flags_of_a_map_is_told_with_its_way_out() {
    let desk = TempProject::new();
    for (flags, said) in [
        (&["--at", "half five"][..], "not a clock time"),
        (&["--at", "12:00"], "not within the night"),
        (&["--out", "engine.bmp"], "none of .svg, .png and .gif"),
        (&["--out", "engine.gif"], "shows many times"),
        (&["--at", "day 1, 10:00"], "not within the night"),
        (&["--at", "day 9, 10:00"], "not within the night"),
        (&["--every", "often"], "not a time in minutes or hours"),
        (&["--every", "1min"], "96 is the limit"),
    ] {
        let words = [&["map", NIGHT][..], flags].concat();
        let refused = desk.run(&words);
        assert_eq!(refused.code, 2, "{flags:?}");
        assert!(refused.err.contains(said), "{flags:?}: {}", refused.err);
        assert!(refused.err.contains("\n    Try: --"), "{}", refused.err);
    }
    assert!(desk.files(".").is_empty());
}

#[test]
fn a_report_is_one_file_and_is_not_overwritten_unasked() {
    let desk = TempProject::new();
    let printed = desk.run(&["night", NIGHT, "--report", "page.html"]).done();
    assert!(printed.contains("The report is in page.html"), "{printed}");
    let page = std::fs::read_to_string(desk.path().join("page.html")).unwrap();
    assert!(page.contains("coldsoak night block-cooling --report page.html"));
    let again = desk.run(&["night", NIGHT, "--report", "page.html"]);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("--force"), "{}", again.err);
    desk.run(&["night", NIGHT, "--report", "page.html", "--force"])
        .done();
    assert_eq!(desk.files("."), ["page.html"]);
}

const CHOICES: &str =
    r#"(title: "One <choice>", night: "block-cooling", choices: [(name: "no heater")])"#;

#[test]
fn a_comparison_has_a_page_too_and_a_chart() {
    let desk = TempProject::new();
    std::fs::write(desk.path().join("choices.ron"), CHOICES).unwrap();
    let words = ["compare", "choices.ron", "--quick", "--out", "kept"];
    let words = [&words[..], &["--report", "page.html"]].concat();
    let printed = desk.run(&words).done();
    assert!(printed.contains("The report is in page.html"), "{printed}");
    let page = std::fs::read_to_string(desk.path().join("page.html")).unwrap();
    for part in [
        "One &lt;choice&gt;",
        "Card for the hangar wall: no heater",
        "No heater is planned.",
        "Cautions",
        "SHA-256",
        "choices.ron",
    ] {
        assert!(page.contains(part), "{part}");
    }
    let refused = desk.run(&[&words[..4], &["kept2", "--report", "page.html"]].concat());
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("--force"), "{}", refused.err);
    // A file that holds a comparison is known by its keys; its chart is called as in the folder of `compare`.
    desk.run(&["chart", "choices.ron", "--out", "there"]).done();
    for ending in ["csv", "svg"] {
        let name = format!("comparison.{ending}");
        assert!(desk.files("there").contains(&name), "{name}");
    }
    let csv = desk.run(&["chart", "choices.ron", "--out", "c.csv"]).done();
    assert_eq!(csv, "");
    let csv = std::fs::read_to_string(desk.path().join("c.csv")).unwrap();
    assert!(csv.starts_with("time_h,clock,hangar_air_"), "{csv:.60}");
    let refused = desk.run(&["chart", "choices.ron", "--show", "choices,heat"]);
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("is of one night"), "{}", refused.err);
}

/// Read back by the decoder of the GIF library.
#[test]
fn a_map_in_motion_has_a_picture_for_every_moment() {
    let desk = TempProject::new();
    let words = [
        "map",
        NIGHT,
        "--every",
        "2h",
        "--theme",
        "dark",
        "--out",
        "night.gif",
    ];
    desk.run(&words).done();
    let bytes = std::fs::read(desk.path().join("night.gif")).unwrap();
    assert!(bytes.len() < 600_000, "{} bytes", bytes.len());
    let mut decoder = gif::DecodeOptions::new()
        .read_info(bytes.as_slice())
        .unwrap();
    assert!(decoder.global_palette().is_some());
    let (mut frames, mut local) = (0, 0);
    while let Some(frame) = decoder.read_next_frame().unwrap() {
        frames += 1;
        local += usize::from(frame.palette.is_some());
    }
    // From 20:00 to 08:00, both printed.
    assert_eq!((frames, local), (7, 0));
    let printed = b"coldsoak map block-cooling --every 2h";
    assert!(bytes.windows(printed.len()).any(|w| w == printed));
}

/// Two choices, one of them with a heater, so that the circuit is printed.
const TWO: &str = r#"(title: "Which of the two, in a title that is longer than a narrow terminal is wide?",
    night: "small-engine-top", choices: [
        (name: "no heater", heaters: []),
        (name: "a fan of 350 W and good plugs besides", heaters: [(heater: "bay-fan-350w", place: at("bottom"))]),
    ])"#;

/// Its text with so many columns, after a look at the width of each line.
fn told_in(desk: &TempProject, columns: usize, words: &[&str]) -> String {
    let mut command = desk.command(words);
    let ran = super::Ran::of(
        &command
            .env("COLUMNS", columns.to_string())
            .output()
            .unwrap(),
    );
    let text = ran.done();
    for line in text.lines() {
        assert!(
            line.chars().count() <= columns,
            "{words:?}, {columns}: {line}"
        );
    }
    text
}

#[test]
fn a_comparison_fits_its_terminal() {
    let desk = TempProject::new();
    std::fs::write(desk.path().join("two.ron"), TWO).unwrap();
    for columns in [60, 80, 118] {
        let out = columns.to_string();
        let words = ["compare", "two.ron", "--quick", "--out", &out, "--wide"];
        let wide = usize::from(columns >= 110);
        let text = told_in(&desk, columns, &words[..words.len() - 1 + wide]);
        assert_eq!(text.contains("\nWith \""), columns >= 110, "{text}");
        // What stands under the table has some of these words too.
        let (table, _) = text.split_once("Margin: coldest part").unwrap();
        for head in ["Choice", "Ready", "Margin", "Wet", "Coldest", "kWh"] {
            assert!(table.contains(head), "{columns}: {head} in\n{table}");
        }
        assert_eq!(table.contains("mm²/s"), columns >= 110, "{table}");
    }
}

#[test]
fn a_night_fits_its_terminal() {
    let desk = TempProject::new();
    for columns in [60, 80] {
        for name in [NIGHT, "small-engine-top", "thermostat-pad"] {
            let text = told_in(&desk, columns, &["night", name, "--samples", "8"]);
            assert!(text.contains("\nPart "), "{text}");
        }
    }
}

/// A part that was warm at first and did not stay so was not warm "to the end".
#[test]
fn warm_at_first_is_not_told_as_warm_to_the_end() {
    let printed = TempProject::new()
        .run(&["night", NIGHT, "--quick", "--wide"])
        .done();
    assert!(printed.contains("cooled again"), "{printed}");
    let first = "First time  from the first switch-on\n";
    assert!(printed.contains(first), "{printed}");
}

/// Reported before the night is computed, whatever else is wrong.
#[test]
fn a_report_that_could_not_be_kept_is_refused_at_once() {
    let desk = TempProject::new();
    let kept = ["night", NIGHT, "--out", "kept", "--quiet", "--quick"];
    desk.run(&kept).done();
    std::fs::create_dir(desk.path().join("there.html")).unwrap();
    let before = desk.files("kept");
    for (flags, said) in [
        (
            &["--report", "none/page.html"][..],
            "there is no folder none",
        ),
        (&["--report", "there.html", "--force"], "not a plain file"),
        (
            &["--report", "mine.ron", "--force"],
            "does not end in .html",
        ),
        (&["--report", "-"], "`-` is standard output"),
        (&["--out", "-"], "`-` is standard output"),
        (
            &["--out", "kept", "--force", "--report", "kept/page.html"],
            "lies in the folder of --out",
        ),
    ] {
        for command in [&["night", NIGHT][..], &["compare", "class-oil", "--quick"]] {
            let refused = desk.run(&[command, flags].concat());
            assert_eq!((refused.code, refused.out.as_str()), (2, ""), "{flags:?}");
            assert!(refused.err.contains(said), "{flags:?}: {}", refused.err);
        }
    }
    assert_eq!(desk.files("kept"), before);
    // So the folder can still be replaced.
    desk.run(&[&kept[..], &["--force"]].concat()).done();
}
