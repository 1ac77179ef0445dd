//! Every built-in file loads, passes the gate, and survives a night whose books close.

mod classroom;

use coldsoak::files::comparison::load_builtin_comparison;
use coldsoak::files::library::{Kind, MODELS, model, names};
use coldsoak::files::night::load_builtin;
use coldsoak::night::{Night, run};
use coldsoak::scenario::{engine::Engine, hangar::Hangar, heater::Heater, oil::Oil};
use coldsoak::trace::Conservation;

fn sound(name: &str, scenario: &coldsoak::scenario::document::Scenario) -> Night {
    let night = run(scenario).unwrap_or_else(|e| panic!("{name}: {e}"));
    let (energy, water) = (night.ledger.energy_error(), night.ledger.water_error());
    println!(
        "{name}: energy {energy:.1e}, water {water:.1e}, {:?}",
        night.effort
    );
    assert!(
        energy.abs() < Conservation::ALLOWED,
        "{name}: energy error {energy:e}"
    );
    assert!(
        water.abs() < Conservation::ALLOWED,
        "{name}: water error {water:e}"
    );
    night
}

#[test]
fn every_part_of_the_library_is_of_its_kind() {
    for name in names(Kind::Engine) {
        model::<Engine>(Kind::Engine, name).unwrap_or_else(|e| panic!("{e}"));
    }
    for name in names(Kind::Heater) {
        model::<Heater>(Kind::Heater, name).unwrap_or_else(|e| panic!("{e}"));
    }
    for name in names(Kind::Hangar) {
        model::<Hangar>(Kind::Hangar, name).unwrap_or_else(|e| panic!("{e}"));
    }
    for name in names(Kind::Oil) {
        model::<Oil>(Kind::Oil, name).unwrap_or_else(|e| panic!("{e}"));
    }
}

#[test]
fn every_file_of_models_is_built_in() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("models");
    let mut count = 0;
    for folder in std::fs::read_dir(root).unwrap() {
        for file in std::fs::read_dir(folder.unwrap().path()).unwrap() {
            let path = file.unwrap().path();
            let ending = path.extension().unwrap().to_str().unwrap().to_owned();
            if ending == "ron" || ending == "csv" {
                let stem = path.file_stem().unwrap().to_str().unwrap();
                assert!(MODELS.iter().any(|(_, name, _)| *name == stem), "{stem}");
                count += 1;
            }
        }
    }
    assert_eq!(count, MODELS.len());
}

#[test]
fn every_built_in_night_closes_its_books() {
    for name in names(Kind::Night) {
        let loaded = load_builtin(name).unwrap_or_else(|e| panic!("{name}: {e}"));
        sound(name, &loaded.scenario);
    }
}

#[test]
fn every_choice_of_the_built_in_comparison_closes_its_books() {
    let loaded = load_builtin_comparison("demo").unwrap_or_else(|e| panic!("{e}"));
    for choice in &loaded.choices {
        let night = sound(&choice.name, &choice.night);
        let f = &night.findings;
        println!(
            "   ready {:?} coldest {:?} upper {:?} kWh {:?}",
            f.ready,
            f.coldest.as_ref().map(|c| (c.part.clone(), c.temp_c)),
            f.condensation.as_ref().map(|c| c.upper_g),
            f.energy.kwh
        );
        println!(
            "   {:?}",
            f.groups_c
                .iter()
                .map(|g| format!("{} {:.1}", g.key, g.temp_c))
                .collect::<Vec<_>>()
        );
    }
}
