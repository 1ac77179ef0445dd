//! Exit codes, and what is said where.

use super::{Ran, TempProject};
use std::io::Read;
use std::process::Stdio;

#[test]
fn a_night_that_is_not_ready_is_done_all_the_same() {
    let desk = TempProject::new();
    let ran = desk.run(&["night", "block-cooling"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let first = "Ready at 08:00 in < 2 % of 256 simulated nights (95 % interval 0 to 1 %).\n";
    assert!(ran.out.starts_with(first), "{}", ran.out);
}

#[test]
fn readiness_that_was_required_and_is_not_there_is_three() {
    let desk = TempProject::new();
    let unready = desk.run(&["night", "block-cooling", "--require-ready"]);
    assert_eq!(unready.code, 3);
    assert!(
        unready.out.starts_with("Ready at 08:00 in < 2 % "),
        "the night is printed all the same"
    );
    // The demo is ready in the nominal night and in three of four others, but not in 95 of 100.
    let demo = |more: &[&str]| {
        let words = ["night", "demo", "--require-ready"];
        desk.run(&[&words[..], more].concat()).code
    };
    assert_eq!(demo(&["--quick"]), 0);
    assert_eq!(demo(&["--chance", "50"]), 0);
    assert_eq!(demo(&[]), 3);
}

#[test]
fn a_slip_in_the_flags_is_two() {
    let desk = TempProject::new();
    for words in [
        &["night"][..],
        &["night", "demo", "--units", "degK"],
        &["night", "demo", "--threads", "0"],
        &["compare", "--force"],
        &["knight", "demo"],
    ] {
        let ran = desk.run(words);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{words:?}");
        assert!(ran.err.contains("\n    Try: "), "{}", ran.err);
    }
}

/// Errors in flags have the form of all others; a name of 0.1 is refused with the one that replaced it.
#[test]
fn an_error_in_a_flag_says_what_to_write_instead() {
    let desk = TempProject::new();
    for (words, error) in [
        (
            &["map", "demo", "--at", "5"][..],
            "--at: \"5\" is not a clock time.\n    Try: --at 05:00\n",
        ),
        (
            &["night", "demo", "--units", "degK"],
            "--units: \"degK\" is not one of degC, degF.\n    Try: --units degF\n",
        ),
        (
            &["knight", "demo"],
            "\"knight\": not a command.\n    Try: coldsoak night\n",
        ),
        (
            &["spread", "demo", "--nights=8"],
            "--nights: not a flag of this command.\n    Try: --samples\n",
        ),
        (
            &["spread", "demo", "--indices"],
            "--indices: not a flag of this command.\n    Try: --sobol\n",
        ),
        (
            &["chart", "demo", "--paper", "dark"],
            "--paper: not a flag of this command.\n    Try: --theme\n",
        ),
        (
            &["check", "--as", "oil", "a.ron"],
            "--as: not a flag of this command.\n    Try: --kind\n",
        ),
        (
            &["new", "a.ron", "--unheated"],
            "--unheated: not a flag of this command.\n    Try: --no-heater\n",
        ),
    ] {
        let ran = desk.run(words);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{words:?}");
        assert_eq!(ran.err, error, "{words:?}");
    }
}

#[test]
fn a_fault_in_a_file_is_two_told_at_its_line_and_nothing_is_written() {
    let desk = TempProject::new();
    let file = desk.path().join("mine.ron");
    std::fs::write(
        &file,
        "(\n    title: \"mine\",\n    night: \"demo\",\n    choices: [\n        \
         (name: \"typo\", heaters: [(heater: \"bay-fan-350w\", place: at(\"top-blowing-rigth\"))]),\n    ],\n)\n",
    )
    .unwrap();
    for words in [
        &["compare", "mine.ron"][..],
        &["compare", "mine.ron", "--json", "--out", "there"],
    ] {
        let ran = desk.run(words);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{}", ran.err);
        assert!(ran.err.contains("mine.ron, line 5"), "{}", ran.err);
        assert!(ran.err.contains("top-blowing-right"), "{}", ran.err);
        assert_eq!(desk.files("."), ["mine.ron"]);
    }
}

#[test]
fn a_name_that_is_no_night_is_two_and_tells_those_there_are() {
    let ran = TempProject::new().run(&["night", "nowhere"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("small-engine-top"), "{}", ran.err);
}

/// `coldsoak compare class-oil | head -1`: the reader goes, the folder is written whole, and nobody complains.
#[test]
fn a_reader_that_closes_the_pipe_is_a_quiet_success() {
    let desk = TempProject::new();
    let mut child = desk
        .command(&["compare", "class-oil", "--quick", "--json", "--out", "kept"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let status = child.wait().unwrap();
    let mut said = String::new();
    child
        .stderr
        .take()
        .unwrap()
        .read_to_string(&mut said)
        .unwrap();
    assert_eq!((status.code(), said.as_str()), (Some(0), ""));
    assert!(desk.files("kept").contains(&"findings.json".to_owned()));
}

#[test]
fn a_full_disk_under_the_output_is_one() {
    let Ok(full) = std::fs::OpenOptions::new().write(true).open("/dev/full") else {
        println!("skipped: this system has no /dev/full");
        return;
    };
    let desk = TempProject::new();
    let mut command = desk.command(&["night", "block-cooling"]);
    let ran = Ran::of(&command.stdout(full).output().unwrap());
    assert_eq!(ran.code, 1);
    assert!(ran.err.starts_with("error: "), "{}", ran.err);
}

/// So many that a machine may run out of addresses are refused before any is begun.
#[test]
fn threads_beyond_all_sense_are_refused() {
    let desk = TempProject::new();
    let ran = desk.run(&["night", "block-cooling", "--threads", "5000"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{}", ran.err);
    assert!(
        ran.err.contains("--threads") && ran.err.contains("1024"),
        "{}",
        ran.err
    );
}

#[test]
fn help_and_version_are_told_on_standard_output() {
    let desk = TempProject::new();
    assert!(desk.run(&["--help"]).done().contains("Examples:"));
    assert!(
        desk.run(&["--version"])
            .done()
            .contains(env!("CARGO_PKG_VERSION"))
    );
}

#[test]
fn colour_is_for_those_who_ask() {
    let desk = TempProject::new();
    std::fs::write(desk.path().join("taken.ron"), "mine").unwrap();
    let faulty = |color| desk.run(&["new", "taken.ron", "--color", color]).err;
    assert!(faulty("always").contains("\u{1b}["));
    assert!(!faulty("auto").contains("\u{1b}["));
    assert!(!faulty("never").contains("\u{1b}["));
}
