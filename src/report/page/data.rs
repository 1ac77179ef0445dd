//! What the template of a page is filled with: words that are already told, and pictures.

use serde::Serialize;

/// Everything the page of a night says.
#[derive(Debug, Clone, Serialize)]
pub struct Page {
    /// The night's title.
    pub title: String,
    /// Whether the engine is ready.
    pub ready: bool,
    /// Ready or not, and why.
    pub verdict: String,
    /// What is to be said of it.
    pub more: Vec<String>,
    /// What is dangerous about it.
    pub dangers: Vec<String>,
    /// Warnings.
    pub warnings: Vec<String>,
    /// The night in a line.
    pub setting: String,
    /// Engine, coverings, heaters.
    pub asked: Vec<String>,
    /// The threshold.
    pub threshold: String,
    /// What "lost" means among the times, if it stands there.
    pub lost: Option<&'static str>,
    /// Groups of parts: name, at departure, warm after.
    pub groups: Vec<Row>,
    /// Other headline numbers: name and value.
    pub numbers: Vec<Row>,
    /// Every part: name, at departure, warm after, margin.
    pub parts: Vec<Row>,
    /// The chart.
    pub chart: Chart,
    /// The pieces of the engine map that stand apart.
    pub boxes: Vec<Frame>,
    /// What the map shows at every moment, as SVG.
    pub still: String,
    /// The moments of the map.
    pub steps: Vec<Step>,
    /// Where the heat went.
    pub budget: Budget,
    /// The card for the hangar wall.
    pub card: Card,
    /// What it rests on.
    pub rests: Rests,
}

/// Everything the page of a comparison says.
#[derive(Debug, Clone, Serialize)]
pub struct ChoicesPage {
    /// The comparison's title.
    pub title: String,
    /// Whether any choice is ready.
    pub ready: bool,
    /// What to do.
    pub verdict: String,
    /// What is to be said of it.
    pub more: Vec<String>,
    /// What is dangerous about the choice that is recommended.
    pub dangers: Vec<String>,
    /// The night in a line.
    pub setting: String,
    /// The choice that is recommended or comes closest.
    pub chosen: String,
    /// Its engine, coverings, heaters.
    pub asked: Vec<String>,
    /// Its warnings.
    pub warnings: Vec<String>,
    /// The warnings of the others, each after its name.
    pub other_warnings: Vec<String>,
    /// The heads of the table of choices, after that of their names.
    pub heads: Vec<String>,
    /// The choices by rank.
    pub choices: Vec<Row>,
    /// How the table is to be read, in sentences.
    pub reading: Vec<String>,
    /// The chart.
    pub chart: Chart,
    /// The choices over plausible nights, if that was asked.
    pub bands: Option<BandsTable>,
    /// Where the heat of the chosen one went.
    pub budget: Budget,
    /// The card for the hangar wall.
    pub card: Card,
    /// What it rests on.
    pub rests: Rests,
}

/// Choices over plausible nights.
#[derive(Debug, Clone, Serialize)]
pub struct BandsTable {
    /// Its heads, after that of the names.
    pub heads: Vec<String>,
    /// A row a choice.
    pub rows: Vec<Row>,
    /// How it is to be read.
    pub reading: String,
    /// What survives the doubt.
    pub verdict: String,
}

/// A chart, as SVG.
#[derive(Debug, Clone, Serialize)]
pub struct Chart {
    /// For a screen and for paper.
    pub sheet: String,
    /// For a telephone.
    pub phone: String,
}

/// What a page rests on, and where it comes from.
#[derive(Debug, Clone, Serialize)]
pub struct Rests {
    /// How far to trust it.
    pub trust: String,
    /// What is uncertain and what was noted on the files, in a line each.
    pub told: Vec<String>,
    /// Cautions.
    pub cautions: Vec<String>,
    /// The version.
    pub version: String,
    /// The command as typed.
    pub command: String,
    /// Files and their hashes.
    pub inputs: Vec<Row>,
}

/// Where the heat went.
#[derive(Debug, Clone, Serialize)]
pub struct Budget {
    /// Whose heat it was, if that is not plain.
    pub whose: Option<String>,
    /// A name, kWh, W.
    pub rows: Vec<Row>,
    /// What "lost" means.
    pub lost: &'static str,
}

/// A row of a table.
#[derive(Debug, Clone, Serialize)]
pub struct Row {
    /// Its head.
    pub name: String,
    /// Its other cells.
    pub cells: Vec<String>,
    /// Whether it stands out.
    pub strong: bool,
}

impl Row {
    /// One that does not stand out.
    pub fn of<const N: usize>(name: &str, cells: [String; N]) -> Self {
        Self {
            name: name.to_owned(),
            cells: cells.to_vec(),
            strong: false,
        }
    }
}

/// A piece of the sheet.
#[derive(Debug, Clone, Serialize)]
pub struct Frame {
    /// As an SVG view box.
    pub view: String,
    /// Its width and its height, so that it keeps its shape where it is made smaller.
    pub size: (i32, i32),
    /// Its title.
    pub title: String,
}

/// A moment of the map.
#[derive(Debug, Clone, Serialize)]
pub struct Step {
    /// Its number.
    pub index: usize,
    /// By the clock.
    pub clock: String,
    /// What happens then.
    pub name: String,
    /// Whether it is the departure, which is shown first.
    pub departure: bool,
    /// The engine, as SVG.
    pub shapes: String,
    /// What is told in place of the picture.
    pub told: String,
}

/// The card for the hangar wall.
#[derive(Debug, Clone, Serialize)]
pub struct Card {
    /// What is dangerous about the plan.
    pub dangers: Vec<String>,
    /// Said first of a plan that does not make the engine ready: what it lacks.
    pub short: Option<String>,
    /// When to leave if a reading falls short.
    pub only_when: &'static str,
    /// What to do and to read, in order.
    pub entries: Vec<Entry>,
    /// What to check by hand.
    pub by_hand: Vec<String>,
}

/// A line of the card.
#[derive(Debug, Clone, Serialize)]
pub struct Entry {
    /// When.
    pub clock: String,
    /// What.
    pub what: String,
}
