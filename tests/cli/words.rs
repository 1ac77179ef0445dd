//! What people read: the table fits, both kinds of degrees, cautions always.

use super::Desk;

#[test]
fn the_table_fits_a_hundred_and_twenty_columns_and_a_narrow_terminal() {
    let desk = Desk::new();
    let told = desk.run(&["compare", "--nights", "8", "--out", "a"]).done();
    let widest = told.lines().map(|l| l.chars().count()).max().unwrap();
    assert!(widest <= 120, "{widest}");
    let output = desk
        .command(&["compare", "--nights", "8", "--out", "b"])
        .env("COLUMNS", "100")
        .output()
        .unwrap();
    let narrow = String::from_utf8(output.stdout).unwrap();
    let wide: Vec<&str> = narrow.lines().filter(|l| l.chars().count() > 100).collect();
    assert!(wide.is_empty(), "{wide:#?}");
}

#[test]
fn a_night_fits_too() {
    let desk = Desk::new();
    for night in ["demo", "six-after-flight"] {
        let told = desk.run(&["night", night]).done();
        let wide: Vec<&str> = told.lines().filter(|l| l.chars().count() > 120).collect();
        assert!(wide.is_empty(), "{wide:#?}");
    }
}

#[test]
fn degrees_are_the_readers_and_the_water_at_the_start_is_told() {
    let desk = Desk::new();
    let fahrenheit = desk.run(&["night", "demo", "--units", "degF"]).done();
    assert!(
        fahrenheit.contains("°F") && !fahrenheit.contains("°C."),
        "{fahrenheit}"
    );
    let celsius = desk
        .run(&["night", "small-engine-top", "--units", "degC"])
        .done();
    assert!(
        celsius.contains("°C") && !celsius.contains("°F"),
        "{celsius}"
    );
    assert!(celsius.contains("15 g of water in the oil"), "{celsius}");
}

#[test]
fn cautions_and_trust_are_in_every_telling() {
    let desk = Desk::new();
    for words in [
        &["night", "block-cooling"][..],
        &["compare", "--quick", "--out", "kept"],
    ] {
        let told = desk.run(words).done();
        for word in [
            "manual",
            "Fire",
            "breaker",
            "Propeller",
            "Carbon monoxide",
            "practice readings",
        ] {
            assert!(told.contains(word), "{words:?}: {word}");
        }
    }
}

#[test]
fn a_never_in_a_night_says_why_and_the_best_it_came_to() {
    let told = Desk::new().run(&["night", "block-cooling"]).done();
    let line = told.lines().find(|l| l.contains("never within")).unwrap();
    assert!(line.contains("the best was"), "{line}");
}
