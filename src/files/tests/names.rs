//! Names that lead to built-in models, to files beside the night, or nowhere.

use super::super::comparison::load_named_comparison_from;
use super::super::fault::FileError;
use super::super::library::{Kind, MODELS};
use super::super::night::{load, load_builtin, load_named_from};
use super::super::sources::{Outside, label};
use super::{NIGHT, fault, folder, loaded, shows};
use crate::scenario::check::check;

#[test]
fn the_night_itself_is_sound() {
    let loaded = loaded(NIGHT).unwrap_or_else(|e| panic!("{e}"));
    check(&loaded.scenario).unwrap_or_else(|p| panic!("{p:#?}"));
    let names: Vec<&str> = loaded.inputs.iter().map(|i| i.name.as_str()).collect();
    assert!(names[0].ends_with("night.ron"));
    assert!(
        names.contains(&"built-in engines/flat-four-3l1.ron"),
        "{names:?}"
    );
    assert!(names.contains(&"built-in oils/15w-50.ron"), "{names:?}");
}

#[test]
fn names_that_lead_nowhere_are_told() {
    let f = fault("\"flat-four-3l1\"", "\"flat-four-3l\"");
    shows(
        &f,
        "no built-in engine `flat-four-3l`",
        "flat-four-3l",
        "engine: \"flat-four-3l1\"",
    );
    let f = fault("\"shut\"", "\"heated\"");
    shows(
        &f,
        "no built-in hangar `heated`",
        "heated",
        "one of shut, breezy",
    );
    let f = fault("\"shut\"", "\"own-hangar.ron\"");
    assert!(f.message.contains("could not be read"), "{f:?}");
    for outside in ["../shut.ron", "/etc/shut.ron", "a/../../shut.ron"] {
        let f = fault("\"shut\"", &format!("\"{outside}\""));
        shows(&f, "is not a file in the folder", outside, "without `..`");
    }
    let Err(FileError::Faults(faults)) = load_named_from("dmo", Outside::Refused) else {
        panic!("no fault")
    };
    assert!(
        faults[0]
            .suggestion
            .as_deref()
            .unwrap_or("")
            .contains("demo"),
        "{faults:?}"
    );
}

#[test]
fn a_built_in_comparison_is_no_night_and_says_which_night_it_shares() {
    for (name, shares) in [
        ("class-places", "demo"),
        ("class-covers", "small-engine-top"),
    ] {
        let Err(FileError::Faults(faults)) = load_named_from(name, Outside::Refused) else {
            panic!("no fault")
        };
        assert_eq!(
            faults[0].message,
            format!("`{name}` is a built-in comparison, and a night is wanted here")
        );
        let help = faults[0].suggestion.as_deref().unwrap_or("");
        assert!(
            help.contains(&format!("`coldsoak compare {name}`"))
                && help.ends_with(&format!("`{shares}`")),
            "{help}"
        );
    }
    // Built in as both.
    assert!(load_named_from("demo", Outside::Refused).is_ok());
    let path = std::path::Path::new("thermostat-pad");
    let Err(FileError::Faults(faults)) = load_named_comparison_from(path, Outside::Refused) else {
        panic!("no fault")
    };
    let help = faults[0].suggestion.as_deref().unwrap_or("");
    assert!(help.contains("`coldsoak night thermostat-pad`"), "{help}");
}

#[cfg(unix)]
#[test]
fn a_link_out_of_the_folder_is_not_followed() {
    let (_elsewhere, secret) = folder(&[("secret.ron", "()")]);
    let (room, path) = folder(&[("night.ron", &NIGHT.replace("\"shut\"", "\"own.ron\""))]);
    std::os::unix::fs::symlink(secret, room.path().join("own.ron")).unwrap();
    let said = load(&path).map(|_| ()).unwrap_err().to_string();
    assert!(said.contains("leads out of the folder"), "{said}");
}

#[test]
fn a_file_beside_the_night_is_read() {
    let hangar = MODELS
        .iter()
        .find(|(kind, ..)| *kind == Kind::Hangar)
        .unwrap()
        .2;
    let night = NIGHT.replace("\"shut\"", "\"own.ron\"");
    let (_room, path) = folder(&[("night.ron", &night), ("own.ron", hangar)]);
    let loaded = load(&path).unwrap_or_else(|e| panic!("{e}"));
    assert!(loaded.inputs.iter().any(|input| input.name == "own.ron"));
    // SHA-256 of "abc": FIPS 180-2, appendix B.1.
    let (_room, path) = folder(&[("abc", "abc")]);
    let mut sources = crate::files::sources::Sources::beside(&path);
    sources.open(&path).unwrap();
    let hash = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    assert_eq!(sources.inputs()[0].sha256, hash);
}

#[test]
fn every_built_in_comes_under_its_label() {
    for (kind, name, _) in MODELS {
        let file = label(*kind, name);
        let path = file.replace("built-in ", concat!(env!("CARGO_MANIFEST_DIR"), "/models/"));
        assert!(std::path::Path::new(&path).exists(), "{path}");
    }
    assert_eq!(
        load_builtin("demo").unwrap().file,
        "built-in nights/demo.ron"
    );
}
