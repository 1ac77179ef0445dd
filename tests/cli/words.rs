//! What people read: the table fits, both kinds of degrees, cautions always.

use super::TempProject;

#[test]
fn the_table_fits_a_hundred_and_twenty_columns_and_a_narrow_terminal() {
    let desk = TempProject::new();
    let shown = desk
        .run(&["compare", "--samples", "8", "--out", "a"])
        .done();
    let widest = shown.lines().map(|l| l.chars().count()).max().unwrap();
    assert!(widest <= 120, "{widest}");
    let output = desk
        .command(&["compare", "--samples", "8", "--out", "b"])
        .env("COLUMNS", "100")
        .output()
        .unwrap();
    let narrow = String::from_utf8(output.stdout).unwrap();
    let wide: Vec<&str> = narrow.lines().filter(|l| l.chars().count() > 100).collect();
    assert!(wide.is_empty(), "{wide:#?}");
}

#[test]
fn a_night_fits_too() {
    let desk = TempProject::new();
    for night in ["demo", "six-after-flight"] {
        let shown = desk.run(&["night", night, "--samples", "8"]).done();
        let wide: Vec<&str> = shown.lines().filter(|l| l.chars().count() > 120).collect();
        assert!(wide.is_empty(), "{wide:#?}");
    }
}

#[test]
fn degrees_are_the_readers_and_the_water_at_the_start_is_told() {
    let desk = TempProject::new();
    let fahrenheit = desk
        .run(&["night", "demo", "--units", "degF", "--samples", "8"])
        .done();
    assert!(
        fahrenheit.contains("°F") && !fahrenheit.contains("°C."),
        "{fahrenheit}"
    );
    let celsius = desk
        .run(&[
            "night",
            "small-engine-top",
            "--units",
            "degC",
            "--samples",
            "8",
        ])
        .done();
    assert!(
        celsius.contains("°C") && !celsius.contains("°F"),
        "{celsius}"
    );
    assert!(celsius.contains("15 g of water in the oil"), "{celsius}");
}

#[test]
fn cautions_and_trust_are_in_every_telling() {
    let desk = TempProject::new();
    for words in [
        &["night", "block-cooling", "--quick"][..],
        &["compare", "--quick", "--out", "kept"],
        &["when", "small-engine-top", "--samples", "8"],
        &["spread", "block-cooling", "--samples", "8"],
    ] {
        let shown = desk.run(words).done();
        for word in [
            "manual",
            "local code",
            "Fire",
            "Propeller",
            "Carbon monoxide",
            "feel oil",
        ] {
            assert!(shown.contains(word), "{words:?}: {word}");
        }
    }
    let page = ["night", "block-cooling", "--quick", "--report", "page.html"];
    desk.run(&page).done();
    let page = std::fs::read_to_string(desk.path().join("page.html")).unwrap();
    for word in ["breaker", "practice readings", "licensed"] {
        assert!(page.contains(word), "the page: {word}");
    }
}

#[test]
fn a_never_in_a_night_says_why_and_the_best_it_came_to() {
    let shown = TempProject::new()
        .run(&["night", "block-cooling", "--quick", "--wide"])
        .done();
    let line = shown.lines().find(|l| l.contains("never within")).unwrap();
    assert!(line.contains("the best was"), "{line}");
}

/// After a flight a pad is on when the delay is over, not all night, whatever hours it was given.
#[test]
fn a_heater_that_waits_for_the_delay_is_told_from_there() {
    let desk = TempProject::new();
    let night = desk.run(&["catalogue", "night", "six-after-flight"]).done();
    let shown = |hours: &str| {
        let file = night.replace(
            "at(\"sump-pad\")",
            &format!("at(\"sump-pad\"), hours: {hours}"),
        );
        std::fs::write(desk.path().join("six.ron"), file).unwrap();
        desk.run(&["night", "six.ron", "--units", "degC", "--quick"])
            .done()
    };
    for (hours, said) in [
        ("always", "21:00 to 07:30"),
        ("from(\"20:15\")", "21:00 to 07:30"),
        ("from(\"23:00\")", "23:00 to 07:30"),
        ("between([(\"20:10\", \"22:00\")])", "21:00 to 22:00"),
    ] {
        let night = shown(hours);
        let line = format!("250 W, at sump-pad, {said}");
        assert!(night.contains(&line), "{line}: {night}");
    }
}
