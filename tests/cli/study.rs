//! Studies that are broken off, killed, taken up again, or pointed at the wrong file.

use super::TempProject;
use std::process::{Child, Stdio};
use std::time::{Duration, Instant};

const NIGHTS: &str = "1024";

fn words<'a>(study: &'a str, out: &'a str) -> Vec<&'a str> {
    let mut words = vec!["spread", "block-cooling", "--samples", NIGHTS, "--out", out];
    if !study.is_empty() {
        words.extend(["--study", study]);
    }
    words
}

fn begun(desk: &TempProject) -> Child {
    desk.command(&words("s.db", "resumed"))
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap()
}

/// Nights in a study file.
fn kept(desk: &TempProject) -> usize {
    let Ok(file) = rusqlite::Connection::open(desk.path().join("s.db")) else {
        return 0;
    };
    let count = file.query_row("SELECT count(*) FROM night", [], |row| row.get(0));
    count.map_or(0, |n: i64| n as usize)
}

fn same_as_unbroken(desk: &TempProject) {
    desk.run(&words("", "unbroken")).done();
    let read =
        |out: &str, file: &str| std::fs::read_to_string(desk.path().join(out).join(file)).unwrap();
    assert!(
        read("resumed", "nights.csv") == read("unbroken", "nights.csv"),
        "nights.csv differs after a resumption"
    );
    let findings = |out: &str| {
        let mut shown: serde_json::Value =
            serde_json::from_str(&read(out, "findings.json")).unwrap();
        // The one thing that differs is what was typed.
        shown.as_object_mut().unwrap().remove("command").unwrap();
        shown
    };
    assert_eq!(findings("resumed"), findings("unbroken"));
    let csv = std::fs::read_to_string(desk.path().join("resumed/nights.csv")).unwrap();
    assert_eq!(csv.lines().count(), 1 + NIGHTS.parse::<usize>().unwrap());
}

/// Killed at several moments (SIGKILL), taken up again, and in the end byte for byte what an unbroken run gives.
#[test]
fn a_study_that_is_killed_and_resumed_is_the_same_to_the_last_byte() {
    let desk = TempProject::new();
    let (mut partial, mut last) = (0, 0);
    for kill in 0..60_u64 {
        let mut child = begun(&desk);
        // Moments spread over the run, by a step that is no multiple of anything in it.
        std::thread::sleep(Duration::from_millis(40 + (kill * 137) % 330));
        let ended = child.try_wait().unwrap().is_some();
        let _ = child.kill();
        child.wait().unwrap();
        if ended {
            break;
        }
        let now = kept(&desk);
        assert!(now >= last, "nights were lost: {last} and then {now}");
        partial += usize::from(now > last);
        last = now;
        if partial >= 4 {
            break;
        }
    }
    assert!(partial >= 1, "no kill fell into the study");
    // On a fast machine the last of them came to its end before it was to be killed: it is the resumed one.
    if !desk.path().join("resumed").exists() {
        desk.run(&words("s.db", "resumed")).done();
    }
    same_as_unbroken(&desk);
}

/// Ctrl-C: no further night is begun, what was done is printed and kept, the exit code says that it is not all.
#[test]
#[cfg(unix)]
fn ctrl_c_stops_soon_and_keeps_what_was_done() {
    let desk = TempProject::new();
    let mut child = begun(&desk);
    // Until the first nights are in the file, so that the handler is there.
    let patience = Instant::now();
    while kept(&desk) == 0 && patience.elapsed() < Duration::from_secs(30) {
        std::thread::sleep(Duration::from_millis(10));
    }
    let pid = child.id().to_string();
    let asked = Instant::now();
    let sent = std::process::Command::new("kill")
        .args(["-INT", &pid])
        .status();
    assert!(sent.unwrap().success());
    let status = child.wait().unwrap();
    let took = asked.elapsed();
    let mut said = String::new();
    std::io::Read::read_to_string(child.stderr.as_mut().unwrap(), &mut said).unwrap();
    println!("stopped after {took:?}: {said}");
    assert_eq!(status.code(), Some(1), "{said}");
    assert!(
        said.contains("stopped after") && said.contains("s.db"),
        "{said}"
    );
    // A second on a free machine; tests share theirs.
    assert!(took < Duration::from_secs(5), "{took:?}");
    let before = kept(&desk);
    assert!(before > 0);
    // No half folder is in the way of the very same command.
    assert!(!desk.path().join("resumed").exists());
    desk.run(&words("s.db", "resumed")).done();
    same_as_unbroken(&desk);
}

#[test]
fn the_wrong_study_file_is_two_and_a_place_that_cannot_be_written_is_one() {
    let desk = TempProject::new();
    let block = ["spread", "block-cooling", "--samples", "8", "--study"];
    let with = |file: &'static str| desk.run(&[&block[..], &[file]].concat());
    assert_eq!(with("s.db").code, 0);
    let other = desk.run(&[
        "spread",
        "thermostat-pad",
        "--samples",
        "8",
        "--study",
        "s.db",
    ]);
    assert_eq!((other.code, other.out.as_str()), (2, ""));
    assert!(other.err.contains("another scenario"), "{}", other.err);
    let seed = desk.run(&[&block[..], &["s.db", "--seed", "5"]].concat());
    assert_eq!(seed.code, 2);
    assert!(seed.err.contains("--seed 1"), "{}", seed.err);
    std::fs::write(desk.path().join("letter.txt"), "Dear reader, ".repeat(50)).unwrap();
    let letter = with("letter.txt");
    assert_eq!(letter.code, 2);
    assert!(letter.err.contains("not a study file"), "{}", letter.err);
    std::fs::create_dir(desk.path().join("folder")).unwrap();
    let folder = with("folder");
    assert_eq!(folder.code, 2);
    assert!(folder.err.contains("not a study file"), "{}", folder.err);
    let missing = with("no/such/s.db");
    assert_eq!(missing.code, 1);
    assert!(
        missing.err.contains("is the folder there"),
        "{}",
        missing.err
    );
}

/// A row that lacks some of its numbers, or is no night at all, is reported with what to do, and is never half used.
#[test]
fn a_damaged_row_of_a_study_is_an_error_that_names_it() {
    let desk = TempProject::new();
    let words = [
        "spread",
        "block-cooling",
        "--samples",
        "8",
        "--study",
        "s.db",
    ];
    desk.run(&words).done();
    let file = rusqlite::Connection::open(desk.path().join("s.db")).unwrap();
    let row = "purpose = 'sample' AND number = 1";
    let sound: String = file
        .query_row(&format!("SELECT outcome FROM night WHERE {row}"), [], |r| {
            r.get(0)
        })
        .unwrap();
    let without = |key: &str| {
        let mut night: serde_json::Value = serde_json::from_str(&sound).unwrap();
        let numbers = night["Ok"][key].as_array_mut().unwrap();
        match numbers[0].as_array_mut() {
            Some(times) => times.pop(),
            None => numbers.pop(),
        };
        night.to_string()
    };
    for damaged in [
        without("over_time_c"),
        without("groups_c"),
        "half a ni".to_owned(),
    ] {
        file.execute(
            &format!("UPDATE night SET outcome = ?1 WHERE {row}"),
            [&damaged],
        )
        .unwrap();
        let ran = desk.run(&words);
        assert_eq!((ran.code, ran.out.as_str()), (1, ""), "{}", ran.err);
        assert_eq!(
            ran.err,
            "error: the sample night 1 in s.db is damaged; begin a new file with --study\n"
        );
    }
    file.execute(
        &format!("UPDATE night SET outcome = ?1 WHERE {row}"),
        [&sound],
    )
    .unwrap();
    desk.run(&words).done();
}

#[test]
fn the_same_seed_gives_the_same_nights_with_any_number_of_threads_and_another_seed_others() {
    let desk = TempProject::new();
    let shown = |more: &[&str]| {
        let words = ["spread", "block-cooling", "--samples", "16", "--json"];
        let shown = desk.run(&[&words[..], more].concat()).done();
        // What was typed differs.
        let mut shown: serde_json::Value = serde_json::from_str(&shown).unwrap();
        shown.as_object_mut().unwrap().remove("command").unwrap();
        shown
    };
    assert_eq!(shown(&["--threads", "1"]), shown(&["--threads", "3"]));
    assert_ne!(shown(&[]), shown(&["--seed", "2"]));
}

#[test]
fn a_slip_among_the_unknowns_of_a_file_is_told_at_its_line() {
    let desk = TempProject::new();
    let night = |unknown: &str| {
        let text = format!(
            "(\n    title: \"mine\",\n    clock: (begin: \"19:00\", departure: \"20:00\"),\n    \
engine: \"flat-four-3l1\",\n    hangar: \"shut\",\n    weather: steady(outdoors: degC(-9)),\n    \
covers: (inlet_plug: 0.9),\n    uncertain: {{ {unknown}, distribution: uniform, basis: estimated, source: \"me\") }},\n)\n"
        );
        std::fs::write(desk.path().join("mine.ron"), text).unwrap();
        let ran = desk.run(&["spread", "mine.ron", "--samples", "8"]);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""));
        ran.err
    };
    let misspelt = night("\"covers.inlet_plugg\": (low: 0.5, high: 0.9");
    assert!(
        misspelt.contains("did you mean `covers.inlet_plug`"),
        "{misspelt}"
    );
    assert!(misspelt.contains("mine.ron, line 8"), "{misspelt}");
    let beyond = night("\"covers.inlet_plug\": (low: 0.5, high: 1.2");
    assert!(
        beyond.contains("high end of its plausible range"),
        "{beyond}"
    );
    // The range is what is wrong, not the number.
    assert!(beyond.contains("mine.ron, line 8"), "{beyond}");
}
