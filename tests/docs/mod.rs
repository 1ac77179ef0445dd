//! The documents: every file in them is written, every command is run, every key is told.
//!
//! A block that begins with ```` ```ron NAME ```` or ```` ```text NAME ```` is written to a scratch folder; the lines
//! of a ```` ```sh ```` block that begin with `coldsoak` are run there, in order. Blocks of one document share a folder.

use coldsoak::scenario::document::Accuracy;
use std::path::Path;
use std::process::Command;

/// Folders and files that hold keys of model files.
const KEYS: [&str; 2] = ["src/scenario", "src/files"];
/// The files of `src/files` that do.
const FILES: [&str; 3] = ["night.rs", "comparison.rs", "entry.rs"];
/// Structures of a scenario that no file holds: what code makes of files.
const NOT_IN_FILES: [&str; 6] = [
    "Scenario",
    "Problem",
    "NightClock",
    "Moment",
    "Record",
    "Observation",
];

struct Block {
    language: String,
    name: Option<String>,
    text: String,
}

fn read(path: &str) -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(path))
        .unwrap_or_else(|e| panic!("{path}: {e}"))
}

fn blocks(text: &str) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    let mut open = false;
    for line in text.lines() {
        match line.strip_prefix("```") {
            Some(_) if open => open = false,
            Some(head) => {
                let mut words = head.split_whitespace().map(str::to_owned);
                open = true;
                blocks.push(Block {
                    language: words.next().unwrap_or_default(),
                    name: words.next(),
                    text: String::new(),
                });
            }
            None if open => {
                if let Some(block) = blocks.last_mut() {
                    block.text += line;
                    block.text.push('\n');
                }
            }
            None => {}
        }
    }
    blocks
}

/// Runs one line of a shell block; `> FILE` at its end keeps what it prints.
fn run(line: &str, folder: &Path) {
    let line = line.split(" #").next().unwrap_or(line).trim();
    let (line, kept) = match line.split_once(" > ") {
        Some((line, file)) => (line, Some(file.trim())),
        None => (line, None),
    };
    let done = Command::new(env!("CARGO_BIN_EXE_coldsoak"))
        .args(line.split_whitespace().skip(1))
        .current_dir(folder)
        .output()
        .expect("the program runs");
    assert!(
        done.status.success(),
        "{line}\n{}",
        String::from_utf8_lossy(&done.stderr)
    );
    assert!(
        !done.stdout.is_empty() || line.contains("--out"),
        "{line} says nothing"
    );
    if let Some(file) = kept {
        std::fs::write(folder.join(file), done.stdout).expect("a scratch file");
    }
}

/// Runs a document, and gives how many commands it held.
fn follow(document: &str) -> usize {
    let folder = tempfile::tempdir().expect("a scratch folder");
    let mut commands = 0;
    for block in blocks(&read(document)) {
        match (block.language.as_str(), &block.name) {
            ("sh", _) => {
                for line in block.text.lines().filter(|l| l.starts_with("coldsoak ")) {
                    run(line, folder.path());
                    commands += 1;
                }
            }
            (_, Some(name)) => {
                std::fs::write(folder.path().join(name), block.text).expect("a scratch file");
            }
            _ => {}
        }
    }
    commands
}

#[test]
fn the_readme_can_be_followed() {
    assert!(follow("README.md") >= 3);
}

/// The example of the README is the one that `cargo test` runs as a documentation test of the library.
#[test]
fn the_readmes_example_is_the_documentation_test() {
    let shown = |line: &str| !line.starts_with('#');
    let library = read("src/lib.rs");
    let doc = library.lines().map_while(|line| line.strip_prefix("//!"));
    let doc: Vec<&str> = doc.map(|line| line.trim_start()).collect();
    let block = doc.split(|line| line.starts_with("```")).nth(1);
    let tested: Vec<&str> = block
        .unwrap()
        .iter()
        .copied()
        .filter(|l| shown(l))
        .collect();
    let readme = blocks(&read("README.md"));
    let rust = readme.iter().find(|b| b.language == "rust").unwrap();
    assert_eq!(rust.text.lines().collect::<Vec<_>>(), tested);
}

#[test]
fn the_owners_walk_can_be_followed() {
    assert!(follow("docs/owner.md") >= 8);
}

#[test]
fn the_page_of_the_model_can_be_followed() {
    assert!(follow("docs/model.md") >= 6);
}

#[test]
fn the_page_of_commands_can_be_followed() {
    assert!(follow("docs/commands.md") >= 2);
}

#[test]
fn the_instructors_page_can_be_followed() {
    assert!(follow("docs/instructor.md") >= 4);
}

#[test]
fn the_page_of_keys_can_be_followed() {
    assert!(follow("docs/files.md") >= 4);
}

/// Whether a heading of the page of keys is that of a structure: its name, or its name in brackets.
fn heads(heading: &str, structure: &str) -> bool {
    let plain = match structure {
        "NightFile" => "A night",
        "ComparisonFile" => "A comparison",
        other => other,
    };
    heading == plain || heading.ends_with(&format!("({plain})"))
}

/// Whether a key has a row under the heading of its structure; a word elsewhere on the page tells nothing of it.
fn told(page: &str, structure: &str, key: &str) -> bool {
    page.split("\n### ").any(|section| {
        let (heading, rows) = section.split_once('\n').unwrap_or_default();
        heads(heading, structure) && rows.contains(&format!("\n| `{key}` |"))
    })
}

#[test]
fn a_key_that_stands_under_another_heading_only_is_not_told() {
    let page = "# Keys\n\n### One\n\n| `area` | Area | Its area. |\n\n### Another (Two)\n\n| `tall` | Length | `area` |\n";
    assert!(told(page, "One", "area") && told(page, "Two", "tall"));
    assert!(!told(page, "Two", "area") && !told(page, "One", "tall"));
    assert!(!told(page, "Three", "area"));
}

/// Every key of every structure that a file holds stands on the page of keys, under the heading of its structure.
#[test]
fn every_key_is_told() {
    let page = read("docs/files.md");
    let mut missing = Vec::new();
    let mut seen = 0;
    for folder in KEYS {
        each_file(
            &Path::new(env!("CARGO_MANIFEST_DIR")).join(folder),
            &mut |path| {
                let name = path
                    .file_name()
                    .and_then(|n| n.to_str())
                    .unwrap_or_default();
                // Below the folder of keys only: the checkout itself may lie
                // in a folder of any name.
                let within_sources = path.strip_prefix(env!("CARGO_MANIFEST_DIR"));
                let checks = within_sources
                    .expect("below the root")
                    .components()
                    .any(|c| {
                        c.as_os_str() == "check"
                            || c.as_os_str() == "plausibility"
                            || c.as_os_str() == "opposed"
                    });
                if checks || folder == "src/files" && !FILES.contains(&name) {
                    return;
                }
                let text = std::fs::read_to_string(path).expect("a source");
                let mut within = String::new();
                for line in text.lines() {
                    if let Some(rest) = line.strip_prefix("pub struct ") {
                        within = rest
                            .split([' ', '<', '(', ';'])
                            .next()
                            .unwrap_or_default()
                            .to_owned();
                    }
                    let Some((key, _)) = line
                        .strip_prefix("    pub ")
                        .and_then(|l| l.split_once(':'))
                    else {
                        continue;
                    };
                    if key.contains(['(', ' '])
                        || NOT_IN_FILES.contains(&within.as_str())
                        || within.starts_with("Loaded")
                    {
                        continue;
                    }
                    seen += 1;
                    if !told(&page, &within, key) {
                        missing.push(format!("{name}: {within}.{key}"));
                    }
                }
            },
        );
    }
    assert!(missing.is_empty(), "not on docs/files.md: {missing:#?}");
    assert!(seen > 150, "only {seen} keys were found");
}

/// The ranges that the gate holds an accuracy to, and where a refinement may begin: its last rung within them.
#[test]
fn the_ranges_of_an_accuracy_are_told() {
    let page = read("docs/files.md");
    let row = |key: &str| {
        let begins = format!("| `{key}` |");
        let row = page.lines().find(|l| l.starts_with(&begins));
        row.unwrap_or_else(|| panic!("no row of {key}")).to_owned()
    };
    let (fewest, most) = Accuracy::RESOLUTION;
    let mut begins = vec![format!("a resolution of {} or less", most / 4)];
    assert!(row("resolution").contains(&format!("; {fewest} to {most}")));
    for (key, (least, most)) in [
        ("tolerance", Accuracy::TOLERANCE),
        ("sample_s", Accuracy::SAMPLE_S),
    ] {
        assert!(row(key).contains(&format!("; {least} to {most}")), "{key}");
        begins.push(format!("of {} or more", 16.0 * least));
    }
    let flowing = page.replace('\n', " ");
    for begins in begins {
        assert!(flowing.contains(&begins), "{begins}");
    }
}

fn each_file(folder: &Path, act: &mut dyn FnMut(&Path)) {
    for entry in std::fs::read_dir(folder).expect("a source folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            each_file(&path, act);
        } else {
            act(&path);
        }
    }
}
