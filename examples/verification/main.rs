//! The document of verification and its pictures, from what the tests recorded.
//!
//! `cargo run --example verification -- RECORDED FOLDER` reads `checks.tsv` and `orders.tsv`, which the tests
//! write into the folder that `COLDSOAK_VERIFICATION` names, and writes `README.md`, `orders.svg` and `orders.csv` into
//! FOLDER. `... -- indices FOLDER` computes and draws how fast the indices of `spread` come to those of two functions
//! that are known. `.ci/verification` does all of it.

mod document;
mod indices;
mod orders;
mod plot;

use std::error::Error;
use std::path::Path;

fn main() -> Result<(), Box<dyn Error>> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match words.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["indices", folder] => indices::write(Path::new(folder)),
        [recorded, folder] => {
            let (recorded, folder) = (Path::new(recorded), Path::new(folder));
            std::fs::create_dir_all(folder)?;
            let orders = orders::read(&recorded.join("orders.tsv"))?;
            orders::write(&orders, folder)?;
            document::write(&recorded.join("checks.tsv"), &orders, folder)
        }
        _ => Err("say where the tests recorded, and into which folder to write".into()),
    }
}

/// The lines of a table with tabs, without its head.
fn lines(path: &Path) -> Result<Vec<Vec<String>>, Box<dyn Error>> {
    let text = std::fs::read_to_string(path).map_err(|e| format!("{}: {e}", path.display()))?;
    let cells = |line: &str| line.split('\t').map(str::to_owned).collect();
    Ok(text.lines().skip(1).map(cells).collect())
}

/// A cell of a table.
fn cell(line: &[String], column: usize) -> Result<&str, String> {
    line.get(column)
        .map(String::as_str)
        .ok_or_else(|| format!("a line without column {column}: {line:?}"))
}
