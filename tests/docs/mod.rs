//! The documents: every file in them is written, every command is run.
//!
//! A block that begins with ```` ```ron NAME ```` or ```` ```text NAME ```` is written to a scratch folder; the lines
//! of a ```` ```sh ```` block that begin with `coldsoak` are run there, in order. Blocks of one document share a folder.

use coldsoak::scenario::document::Accuracy;
use std::path::Path;
use std::process::Command;

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
fn the_page_of_files_can_be_followed() {
    assert!(follow("docs/files.md") >= 4);
}

/// Where a refinement may begin: its last rung lies within the limits of an accuracy.
#[test]
fn the_beginnings_of_a_refinement_are_stated() {
    let page = read("docs/files.md").replace('\n', " ");
    let (_, most) = Accuracy::RESOLUTION;
    let mut begins = vec![format!("a resolution of {} or less", most / 4)];
    for (least, _) in [Accuracy::TOLERANCE, Accuracy::SAMPLE_S] {
        begins.push(format!("of {} or more", 16.0 * least));
    }
    for begins in begins {
        assert!(page.contains(&begins), "{begins}");
    }
}
