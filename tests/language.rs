//! The words of this project held against its texts: plain words in prose, standard terms as names, keys and flags.
//!
//! Two kinds of lists, each searched for in its own area, whole words only: words that no prose may use (documents,
//! comments, strings, notes of model files), and names that were given up (in code, as key of a file, as flag). The
//! changelog and the table of old names are exempt. `tests/language/not_yet.txt` lists files that still use some; it
//! only shrinks. `LANGUAGE_LIST=1 cargo test --test language -- --nocapture` prints every place.

#[path = "house/pieces.rs"]
mod pieces;

use pieces::{Kind, pieces};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// Words that no prose uses.
const WORDS: &[&str] = &[
    "abreast",
    "anew",
    "asked",
    "doubt",
    "doubted",
    "doubtful",
    "doubts",
    "draught",
    "draughts",
    "draughty",
    "fellow",
    "fellows",
    "foreseen",
    "lumber",
    "march",
    "marched",
    "marches",
    "mend",
    "mended",
    "mending",
    "mends",
    "reckon",
    "reckoned",
    "reckoning",
    "reckons",
    "tell",
    "teller",
    "telling",
    "tells",
    "told",
    "untold",
];

/// Names of code that were given up for standard terms.
const NAMES: &[&str] = &[
    "abreast",
    "are_alike",
    "Anatomy",
    "Attempt",
    "audit",
    "Book",
    "BOLDER",
    "by_the_clock",
    "Care",
    "CellNote",
    "CLOSELY_KNIT",
    "CommonFault",
    "crowd",
    "Desk",
    "DewCourse",
    "Doubt",
    "Doubted",
    "DRIFT",
    "Effort",
    "energy_book",
    "error_on_the_way",
    "examine",
    "Fault",
    "filled",
    "Gathered",
    "Grounds",
    "handful",
    "Harvest",
    "HeatCourse",
    "Ink",
    "Kept",
    "Ladder",
    "LawsAbreast",
    "least_degree_order",
    "Ledger",
    "Legend",
    "Lettering",
    "march",
    "march_abreast",
    "Marched",
    "nowhere",
    "ON_THE_WAY",
    "OutsideDew",
    "Pace",
    "Paper",
    "ReachPair",
    "Refused",
    "Remedy",
    "set_out",
    "slopes_at",
    "Sought",
    "Standing",
    "Stops",
    "Sums",
    "Teller",
    "told",
    "Tried",
    "Trying",
    "Walk",
    "Wanted",
    "WAY_ORDER",
];

/// Keys of files, results and tables that were given up.
const KEYS: &[&str] = &[
    "adjusted_to_practice_readings",
    "ahead",
    "behind",
    "binding",
    "coldest_degF",
    "crank_fact",
    "dangers",
    "draught_share",
    "entrain",
    "entrain_from_intake",
    "error_in_all",
    "exchanges",
    "failed_mostly",
    "filler_draught_l_s",
    "fin_pen",
    "first_reach_h",
    "full_below",
    "gas_room",
    "hard_to_believe",
    "headlines",
    "influences",
    "into_engine_W",
    "ladders",
    "ledger",
    "lost_gaps_W",
    "never_because",
    "none_above",
    "oil_threshold",
    "pockets",
    "remedies",
    "rungs",
    "sights",
    "sump_degF",
    "swing",
    "taken_for",
    "told",
    "tried_in_vain",
    "turnover_g",
    "typically_h",
    "typically_k",
    "unknowns",
    "verdict_holds",
    "warmth",
    "water_settles_on",
    "whole_time",
];

/// Flags that were given up.
const FLAGS: &[&str] = &[
    "--brief",
    "--indices",
    "--nights",
    "--paper",
    "--unheated",
    "--verbose",
];

/// Files that must name what was given up.
const EXEMPT: &[&str] = &[
    "CHANGELOG.md",
    "tests/language.rs",
    "tests/language/not_yet.txt",
    ".ci/record",
    ".ci/record_keys.json",
    "src/document/names.rs",
    "tests/bad/inputs/keys-of-0.1.ron",
    "tests/bad/inputs/keys-of-0.1-groups.ron",
    "tests/bad/inputs/keys-of-0.1-groups.txt",
    "tests/bad/inputs/keys-of-0.1-hangar.ron",
    "tests/bad/inputs/keys-of-0.1.txt",
    "tests/bad/inputs/keys-of-0.1-hangar.txt",
];

/// Where prose, names and keys are.
const FOLDERS: &[&str] = &[
    "src", "tests", "benches", "examples", "docs", "models", "results", "schema", ".ci",
];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        if path.is_dir() && name != "target" {
            files(&path, found);
        } else if path.is_file() {
            found.push(path);
        }
    }
}

/// Every file with words of ours, by its path below the root.
fn texts() -> BTreeMap<String, String> {
    let mut found: Vec<PathBuf> = ["README.md", "DEVELOPERS.md", "Cargo.toml"]
        .map(|name| root().join(name))
        .to_vec();
    for folder in FOLDERS {
        files(&root().join(folder), &mut found);
    }
    let short = |path: &Path| {
        path.strip_prefix(root())
            .unwrap()
            .to_str()
            .unwrap()
            .replace('\\', "/")
    };
    let named = found.iter().map(|path| (short(path), path));
    named
        .filter(|(name, _)| !EXEMPT.contains(&name.as_str()))
        .filter_map(|(name, path)| Some((name, std::fs::read_to_string(path).ok()?)))
        .collect()
}

/// The words of a text, with the line of each.
fn words(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let lines = text.lines().enumerate();
    lines.flat_map(|(line, text)| {
        let words = text.split(|c: char| !(c.is_alphanumeric() || c == '_'));
        words
            .filter(|word| !word.is_empty())
            .map(move |word| (line + 1, word))
    })
}

/// A text of Rust with everything but pieces of these kinds made blank, its lines kept.
fn only(text: &str, kinds: &[Kind]) -> String {
    let blank = |c: char| if c == '\n' { '\n' } else { ' ' };
    pieces(text)
        .into_iter()
        .map(|(kind, piece)| {
            if kinds.contains(&kind) {
                piece.to_owned()
            } else {
                piece.chars().map(blank).collect()
            }
        })
        .collect()
}

/// What a file uses that was given up: `word (line)`.
fn given_up(name: &str, text: &str) -> BTreeSet<(usize, String)> {
    let mut found = BTreeSet::new();
    let mut search = |area: &str, list: &[&str], any_case: bool| {
        for (line, word) in words(area) {
            let lower = word.to_lowercase();
            if list.contains(&word) || any_case && word != "March" && list.contains(&lower.as_str())
            {
                found.insert((line, word.to_owned()));
            }
        }
    };
    let ending = name.rsplit('.').next().unwrap_or("");
    match ending {
        "rs" => {
            search(&only(text, &[Kind::Comment, Kind::Literal]), WORDS, true);
            search(&only(text, &[Kind::Code]), NAMES, false);
            search(&only(text, &[Kind::Literal]), KEYS, false);
        }
        "ron" | "json" => {
            search(text, WORDS, true);
            let keys = |line: &str| -> String {
                let before = line
                    .match_indices(':')
                    .map(|(at, _)| line[..at].trim_end_matches('"'));
                let key = |before: &str| {
                    before
                        .rsplit(|c: char| !(c.is_alphanumeric() || c == '_'))
                        .next()
                        .unwrap_or("")
                        .to_owned()
                };
                before.map(key).collect::<Vec<_>>().join(" ")
            };
            let keys: Vec<String> = text.lines().map(keys).collect();
            search(&keys.join("\n"), KEYS, false);
        }
        "csv" => search(text.lines().next().unwrap_or(""), KEYS, false),
        "regressions" | "lock" | "svg" | "tsv" => {}
        _ => search(text, WORDS, true),
    }
    if !name.starts_with("tests/bad/") {
        for (number, line) in text.lines().enumerate() {
            for flag in FLAGS {
                let whole = |(at, _): (usize, &str)| {
                    !line[at + flag.len()..].starts_with(|c: char| c.is_alphanumeric() || c == '-')
                };
                if line.match_indices(flag).any(whole) {
                    found.insert((number + 1, (*flag).to_owned()));
                }
            }
        }
    }
    found
}

#[test]
fn no_text_uses_what_was_given_up() {
    let list =
        std::fs::read_to_string(root().join("tests/language/not_yet.txt")).unwrap_or_default();
    let not_yet: BTreeSet<&str> = list.lines().collect();
    let print = std::env::var_os("LANGUAGE_LIST").is_some();
    let mut wrong = Vec::new();
    let mut needed = BTreeSet::new();
    for (name, text) in texts() {
        let found = given_up(&name, &text);
        if !found.is_empty() {
            needed.insert(name.clone());
        }
        for (line, word) in &found {
            if print {
                println!("{name}:{line}: {word}");
            }
            if !not_yet.contains(name.as_str()) {
                wrong.push(format!("{name}:{line}: {word}"));
            }
        }
    }
    assert!(
        wrong.is_empty(),
        "words that were given up:\n{}",
        wrong.join("\n")
    );
    let done: Vec<&str> = not_yet
        .iter()
        .copied()
        .filter(|name| !needed.contains(*name))
        .collect();
    assert!(done.is_empty(), "strike from the list: {done:?}");
}

#[test]
fn each_list_is_searched_in_its_own_area() {
    let found = |name: &str, text: &str| -> Vec<String> {
        given_up(name, text)
            .into_iter()
            .map(|(_, word)| word)
            .collect()
    };
    let code = "/// As Told.\nfn told() { say(\"a doubt, ledger\") } // mended";
    assert_eq!(
        found("a.rs", code),
        ["Told", "doubt", "ledger", "mended", "told"]
    );
    assert_eq!(
        found("a.rs", "fn untold_story() { \"retold\" }"),
        [] as [&str; 0]
    );
    assert_eq!(
        found(
            "a.md",
            "A Ledger, abreast; try --nights 8, not --nights-long."
        ),
        ["--nights", "abreast"]
    );
    assert_eq!(
        found("a.json", "{\"ledger\": \"ahead\", \"ahead\": 1}"),
        ["ahead", "ledger"]
    );
    assert_eq!(found("a.ron", "(warmth: even) // told"), ["told", "warmth"]);
    assert_eq!(found("a.csv", "time,sump_degF\ntold,1"), ["sump_degF"]);
}
