//! Slips of the pen, and what the reader says to each.

use super::super::fault::FileError;
use super::super::night::{NightFile, load};
use super::super::ron::{LONGEST, parse, text_of, written};
use super::{NIGHT, fault, loaded, shows, underlined};
use crate::quantity::{Mass, Temperature};
use crate::scenario::cover::Covers;
use crate::scenario::heater::{Heater, Place};
use std::path::PathBuf;

#[test]
fn what_windows_editors_do_is_no_fault() {
    let windows = format!("\u{feff}{}", NIGHT.replace('\n', "\r\n"));
    loaded(&windows).unwrap_or_else(|e| panic!("{e}"));
    let spoilt = windows.replace("hangar:", "hanger:");
    let Err(FileError::Faults(faults)) = loaded(&spoilt) else {
        panic!("no fault")
    };
    assert_eq!(underlined(&faults[0]), "hanger");
    assert_eq!(faults[0].line_and_column(), Some((5, 5)));
}

#[test]
fn keys_that_are_wrong_missing_or_doubled_are_told() {
    let f = fault("hangar:", "hanger:");
    shows(&f, "no key `hanger`", "hanger", "hangar: \"shut\"");
    let f = fault("    title: \"own night\",\n", "");
    assert!(f.message.contains("the key `title` is missing"), "{f:?}");
    let f = fault("hangar: \"shut\",", "hangar: \"shut\", hangar: \"breezy\",");
    assert!(f.message.contains("`hangar`"), "{f:?}");
    let f = fault(
        "\"UL\": m2K_W(0.3)",
        "\"UL\": m2K_W(0.3), \"UL\": m2K_W(0.4)",
    );
    shows(
        &f,
        "the key `UL` stands there twice",
        "\"UL\"",
        "take one of the two out",
    );
}

#[test]
fn numbers_and_units_that_are_wrong_are_told() {
    let f = fault("degC(-9)", "kg(-9)");
    shows(&f, "`kg` is no unit of a temperature", "kg", "degF(-9)");
    let f = fault("degC(-9)", "-9");
    shows(
        &f,
        "the number -9 has no unit",
        "-9",
        "outdoors: degC(-9), degF(-9) or K(-9)",
    );
    let f = fault("degC(-9)", "degC(-9,5)");
    assert!(
        f.suggestion
            .as_deref()
            .unwrap_or("")
            .contains("decimal point"),
        "{f:?}"
    );
    let f = fault("degC(-9)", "degC(NaN)");
    assert!(f.message.contains("finite"), "{f:?}");
    let f = fault("humidity: 0.8", "humidity: 0,8");
    assert!(
        f.suggestion
            .as_deref()
            .unwrap_or("")
            .contains("decimal point"),
        "{f:?}"
    );
    let f = fault("humidity: 0.8", "humidity: NaN");
    shows(&f, "must be finite", "NaN", "write the number itself");
    let f = fault("\"19:00\"", "\"7 pm\"");
    shows(
        &f,
        "`7 pm` is not a time of day",
        "\"7 pm\"",
        "begin: \"19:00\"",
    );
    let f = fault("\"19:00\"", "\"25:00\"");
    assert!(f.message.contains("`25:00` is not a time of day"), "{f:?}");
}

#[test]
fn texts_that_are_no_model_are_told() {
    let f = fault(")\n", ")\n)\n");
    assert!(f.message.contains("closes nothing"), "{f:?}");
    let bytes = text_of("own.ron", vec![b'(', 0xff, b')']).unwrap_err();
    assert!(
        bytes.message.contains("not UTF-8 text (byte 2"),
        "{bytes:?}"
    );
    let long = text_of("own.ron", vec![b' '; LONGEST + 1]).unwrap_err();
    assert!(long.message.contains("longer than 8 MB"), "{long:?}");
    let deep = format!("(all: {}", "[".repeat(10_000));
    assert!(parse::<NightFile>("own.ron", &deep).is_err());
    assert!(parse::<NightFile>("own.ron", "").is_err());
    assert!(matches!(
        load(&PathBuf::from("no/such.ron")),
        Err(FileError::Read { .. })
    ));
}

#[test]
fn places_read_and_write_without_a_second_pair_of_brackets() {
    let text =
        r#"(name: "pad", kind: bonded, power: W(150), place: aimed(impingement: [("sump", 1.0)]))"#;
    let heater: Heater = parse("pad", text).unwrap_or_else(|e| panic!("{e}"));
    assert!(matches!(&heater.place, Place::aimed(aim) if aim.impingement.len() == 1));
    let again: Heater = parse("pad", &written(&heater).unwrap()).unwrap_or_else(|e| panic!("{e}"));
    assert_eq!(again, heater);
    let covers: Covers = parse("covers", "(propeller: m2K_W(0.45))").unwrap();
    assert!(covers.propeller.is_some());
    assert_eq!(written(&Mass::kg(0.1)).unwrap(), "kg(0.1)");
    assert!(parse::<Temperature>("t", "degC(1) 2").is_err());
}

#[test]
fn one_fault_does_not_hide_the_next() {
    let text = NIGHT
        .replace("hangar:", "hanger:")
        .replace("degC(-9)", "-9")
        .replace("0.8", "0,8")
        .replace("at(\"bottom\")", "at(bottom)")
        .replace("flat-four-3l1", "flat-four-3l");
    let Err(FileError::Faults(faults)) = loaded(&text) else {
        panic!("no fault")
    };
    let places: Vec<&str> = faults.iter().map(underlined).collect();
    assert_eq!(places, ["hanger", "-9", "0,8", "bottom", "flat-four-3l"]);
}
