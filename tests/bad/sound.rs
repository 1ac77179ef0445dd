//! Files without a fault: told as sound, doubted where a number is hard to believe, and written out in full.

use super::run;
use std::fs;
use tempfile::tempdir;

const NIGHT: &str = include_str!("inputs/with-sound.ron");

#[test]
fn a_sound_file_of_every_kind_is_recognised() {
    let models = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("models");
    for (file, kind) in [
        ("nights/block-cooling.ron", "a sound night"),
        ("comparisons/demo.ron", "a sound comparison"),
        ("engines/flat-four-3l1.ron", "a sound engine"),
        ("engines/aluminium-block.ron", "a sound engine"),
        ("heaters/bay-fan-350w.ron", "a sound heater"),
        ("hangars/shut.ron", "a sound hangar"),
        ("oils/sae-50.ron", "a sound oil"),
        (
            "weather/greensboro_nc_1996-02-04.csv",
            "a sound weather record",
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

#[test]
fn a_number_that_is_hard_to_believe_is_a_warning_and_no_error() {
    for (was, is, told) in [
        (
            "\"bay-fan-350w\"",
            "\"bay-fan-350w\", power: kW(40)",
            "40000 W",
        ),
        ("m2K_W(0.3)", "m2K_W(9)", "blanket"),
        (
            "hangar: \"shut\"",
            "hangar: \"shut\", circuit: (tariff_per_kwh: 200)",
            "price",
        ),
        (
            "hangar: \"shut\"",
            "hangar: \"shut\", question: (threshold: degC(80))",
            "threshold",
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
            "hangar: \"shut\"",
            "hangar: \"shut\", start: (warmth: given(all: degC(140), parts: {}))",
            "at the beginning",
        ),
    ] {
        let folder = tempdir().unwrap();
        assert!(NIGHT.contains(was), "{was}");
        fs::write(folder.path().join("own.ron"), NIGHT.replacen(was, is, 1)).unwrap();
        let ran = run(folder.path(), &["check", "own.ron"]);
        let err = String::from_utf8_lossy(&ran.stderr).into_owned();
        assert_eq!(ran.status.code(), Some(0), "{err}");
        assert!(err.starts_with("warning: ") && err.contains(told), "{err}");
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
