//! The engine map and the report.

use super::Desk;

const NIGHT: &str = "block-cooling";

#[test]
fn a_map_is_written_once_and_says_where_it_comes_from() {
    let desk = Desk::new();
    let told = desk.run(&["map", NIGHT, "--at", "23:00"]).done();
    assert_eq!(told.trim(), "The engine at 23:00 is in engine-map.svg");
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
    let desk = Desk::new();
    for (flags, said) in [
        (&["--at", "half five"][..], "no time of day"),
        (&["--at", "12:00"], "not within the night"),
        (&["--out", "engine.bmp"], "neither .svg nor .png"),
        (&["--every", "often"], "no span of time"),
        (&["--every", "1min"], "96 at most"),
    ] {
        let words = [&["map", NIGHT][..], flags].concat();
        let refused = desk.run(&words);
        assert_eq!(refused.code, 2, "{flags:?}");
        assert!(refused.err.contains(said), "{flags:?}: {}", refused.err);
        assert!(refused.err.contains("as in --") || refused.err.contains("name a time"));
    }
    assert!(desk.files(".").is_empty());
}

#[test]
fn a_report_is_one_file_and_is_not_overwritten_unasked() {
    let desk = Desk::new();
    let told = desk.run(&["night", NIGHT, "--report", "page.html"]).done();
    assert!(told.contains("The report is in page.html"), "{told}");
    let page = std::fs::read_to_string(desk.path().join("page.html")).unwrap();
    assert!(page.contains("coldsoak night block-cooling --report page.html"));
    let again = desk.run(&["night", NIGHT, "--report", "page.html"]);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("--force"), "{}", again.err);
    desk.run(&["night", NIGHT, "--report", "page.html", "--force"])
        .done();
    assert_eq!(desk.files("."), ["page.html"]);
}
