//! Files without a fault: reported as valid, warned of where a number is hard to believe, and written out in full.

use super::run;
use std::fs;
use tempfile::tempdir;

const NIGHT: &str = include_str!("inputs/with-sound.ron");

#[test]
fn a_sound_file_of_every_kind_is_recognised() {
    let models = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("models");
    for (file, kind) in [
        ("nights/block-cooling.ron", "a valid night"),
        ("comparisons/class-oil.ron", "a valid comparison"),
        ("engines/flat-four-3l1.ron", "a valid engine"),
        ("engines/aluminium-block.ron", "a valid engine"),
        ("heaters/bay-fan-350w.ron", "a valid heater"),
        ("hangars/shut.ron", "a valid hangar"),
        ("oils/sae-50.ron", "a valid oil"),
        (
            "weather/greensboro_nc_1996-02-04.csv",
            "a valid weather record",
        ),
    ] {
        let ran = run(&models, &["check", file]);
        let said = String::from_utf8_lossy(&ran.stdout).into_owned();
        let err = String::from_utf8_lossy(&ran.stderr).into_owned();
        assert_eq!(ran.status.code(), Some(0), "{file}: {err}");
        assert!(said.contains(kind), "{file}: {said}");
        assert_eq!(err, "", "{file}");
    }
}

/// A text of reports is known by its lines, whatever its name; what a night has to say of it is no fault of its own.
#[test]
fn weather_is_recognised_by_what_stands_in_it() {
    let one = "KMMH 111435Z 33004KT 10SM CLR M05/M07 A3026\n";
    let two = "KMMH 111435Z 33004KT 10SM CLR M05/M07 A3026\nKTVL 111435Z 33004KT 10SM CLR M05/M07 A3026\n";
    let table = "time_local,temp_c,rh_%\n2018-01-09 22:00,-4,80\n2018-01-09 23:00,-4,80\n";
    for (name, text, taken_for, notes) in [
        (
            "reports.txt",
            one,
            "METAR reports of KMMH, 1 reading",
            &["month: \"2018-01\""][..],
        ),
        ("kmmh.metar", one, "METAR reports of KMMH", &["month"]),
        ("kmmh", one, "METAR reports of KMMH", &["month"]),
        ("two.txt", two, "several stations", &["station: \"KMMH\""]),
        (
            "logger.txt",
            table,
            "a table, 2 readings",
            &["zone: ", "wind: m_s(1)"],
        ),
    ] {
        let folder = tempdir().unwrap();
        fs::write(folder.path().join(name), text).unwrap();
        let ran = run(folder.path(), &["check", name]);
        let said = String::from_utf8_lossy(&ran.stdout).into_owned();
        let err = String::from_utf8_lossy(&ran.stderr).into_owned();
        assert_eq!(ran.status.code(), Some(0), "{name}: {err}");
        assert!(
            said.contains("a valid weather record") && said.contains(taken_for),
            "{name}: {said}"
        );
        assert_eq!(err.matches("note: ").count(), notes.len(), "{name}: {err}");
        for note in notes {
            assert!(err.contains(note), "{name}: {err}");
        }
    }
    // What is wrong whatever a night says is a fault.
    let folder = tempdir().unwrap();
    fs::write(
        folder.path().join("bad.txt"),
        "KMMH 119935Z 33004KT M05/M07 A3026\n",
    )
    .unwrap();
    assert_eq!(
        run(folder.path(), &["check", "bad.txt"]).status.code(),
        Some(2)
    );
}

/// Where it stands: file, line and column.
#[test]
fn a_number_that_is_hard_to_believe_is_shown_at_its_place() {
    let folder = tempdir().unwrap();
    let text = NIGHT.replacen("m2K_W(0.3)", "m2K_W(9)", 1);
    fs::write(folder.path().join("own.ron"), &text).unwrap();
    let both = "(title: \"two\", night: \"own.ron\", choices: [(name: \"a\"),\n(name: \"b\", heaters: [\n\
        (heater: \"bay-fan-350w\", place: at(\"bottom\"), power: kW(40))])])";
    fs::write(folder.path().join("two.ron"), both).unwrap();
    let err =
        |words: &[&str]| String::from_utf8_lossy(&run(folder.path(), words).stderr).into_owned();
    let line = 1 + text.lines().position(|l| l.contains("m2K_W(9)")).unwrap();
    let said = err(&["check", "own.ron"]);
    assert!(
        said.contains(&format!("own.ron, line {line}, column ")),
        "{said}"
    );
    // Of a comparison, in its own file and in that of its night, and what all choices share once.
    let said = err(&["check", "two.ron"]);
    assert!(said.contains("two.ron, line 3, column "), "{said}");
    assert_eq!(said.matches("blankets.UL").count(), 1, "{said}");
}

#[test]
fn a_number_that_is_hard_to_believe_is_a_warning_and_no_error() {
    for (was, is, shown) in [
        (
            "\"bay-fan-350w\"",
            "\"bay-fan-350w\", power: kW(40)",
            "40000 W",
        ),
        ("m2K_W(0.3)", "m2K_W(9)", "blanket"),
        (
            "hangar: \"shut\"",
            "hangar: \"shut\", circuit: (tariff_per_kwh: 200)",
            "tariff_per_kwh",
        ),
        (
            "hangar: \"shut\"",
            "hangar: \"shut\", criteria: (min_temperature: degC(80))",
            "min_temperature",
        ),
        (
            "hangar: \"shut\"",
            "hangar: \"shut\", circuit: (other_load: W(5000))",
            "less than the 15 A breaker",
        ),
        (
            "hangar: \"shut\"",
            "hangar: \"shut\", hangar_start: degC(-60)",
            "less the outdoors",
        ),
        ("outdoors: degC(-9)", "outdoors: degF(80)", "outdoors"),
        ("departure: \"07:00\"", "departure: \"18:30\"", "23.5 h"),
        (
            "begin: \"19:00\", departure: \"07:00\"",
            "begin: \"2018-03-10 19:00\", departure: \"2018-03-11 02:30\", zone: \"America/New_York\"",
            "2018-03-11 02:30 never was",
        ),
        (
            "hangar: \"shut\"",
            "hangar: \"shut\", initial: (temperature: values(all: degC(140), parts: {}))",
            "140 °C",
        ),
    ] {
        let folder = tempdir().unwrap();
        assert!(NIGHT.contains(was), "{was}");
        fs::write(folder.path().join("own.ron"), NIGHT.replacen(was, is, 1)).unwrap();
        let ran = run(folder.path(), &["check", "own.ron"]);
        let err = String::from_utf8_lossy(&ran.stderr).into_owned();
        assert_eq!(ran.status.code(), Some(0), "{err}");
        assert!(err.contains(": warning: ") && err.contains(shown), "{err}");
        assert!(err.contains("usual is"), "{err}");
        let quiet = run(folder.path(), &["check", "own.ron", "--quiet"]);
        assert!(quiet.stderr.is_empty() && quiet.stdout.is_empty());
    }
}

#[test]
fn an_expanded_engine_is_the_same_engine() {
    use coldsoak::files::{library::Kind, night::load_builtin, ron::parse};
    use coldsoak::network::assemble;
    use coldsoak::scenario::{check::check, engine::Engine};
    let models = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("models/engines");
    let ran = run(&models, &["check", "flat-four-5l9.ron", "--expand"]);
    assert_eq!(ran.status.code(), Some(0));
    let text = String::from_utf8(ran.stdout).unwrap();
    let engine: Engine = parse("expanded", &text).unwrap_or_else(|e| panic!("{e}"));
    assert!(matches!(engine, Engine::body(_)));
    assert!(coldsoak::files::library::builtin(Kind::Night, "demo").is_some());
    let mut night = load_builtin("demo").unwrap().scenario;
    let before = assemble(&check(&night).unwrap());
    night.engine = engine;
    let after = assemble(&check(&night).unwrap_or_else(|p| panic!("{p:#?}")));
    assert_eq!(format!("{before:?}"), format!("{after:?}"));
}
