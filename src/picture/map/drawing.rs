//! A drawing of an engine as plain data: what is shown, where on the sheet, before anything is coloured.
//!
//! Lengths are units of its size on the sheet, from its upper left corner. A shape shows one subject (some metal, or a
//! pocket of air), whose temperature is a weighted sum of columns of the trace.

use crate::picture::draw::{Anchor, Outline, Point, TextStyle, Words};
use crate::trace::ColumnInfo;

/// Something with a temperature.
#[derive(Debug, Clone, PartialEq)]
pub struct Subject {
    /// The part or the pocket.
    pub name: String,
    /// What people call it.
    pub label: String,
    /// Columns of the trace and their weights, which sum to one.
    pub columns: Vec<(usize, f64)>,
    /// The names of its cells as the findings have them; none of air.
    pub cells: Vec<String>,
    /// What it is.
    pub kind: Kind,
}

/// What a subject is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A part that must be warm.
    Engine,
    /// A part that need not be.
    Structure,
    /// Air.
    Air,
}

/// A filled outline.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// What it shows, as an index into [`Drawing::subjects`].
    pub subject: usize,
    /// Its outline.
    pub outline: Outline,
    /// Its name and its temperature, if they are written on it.
    pub reading: Option<Reading>,
    /// The view it is of, as an index into [`Drawing::views`].
    pub view: usize,
    /// Whether it has no edge of its own, as a layer of oil.
    pub bare: bool,
}

/// What is written on a shape.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// What people call it, in short.
    pub name: String,
    /// Its middle.
    pub at: Point,
}

/// A name and a temperature beside a shape, with a line to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Callout {
    /// What people call it, in short.
    pub name: String,
    /// The subject it is of.
    pub subject: usize,
    /// Where the words begin or end.
    pub at: Point,
    /// How they stand there.
    pub anchor: Anchor,
    /// The subject under the words.
    pub over: Option<usize>,
    /// From the words to the shape.
    pub line: [Point; 2],
}

/// What a line means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineKind {
    /// An axis: long and short dashes.
    Axis,
    /// An edge of something without a temperature of its own.
    Edge,
}

/// A line.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its points.
    pub points: Vec<Point>,
    /// What it means.
    pub kind: LineKind,
}

/// One view: its title, and the box it lies in.
#[derive(Debug, Clone, PartialEq)]
pub struct View {
    /// What it shows: `from above`.
    pub title: String,
    /// Upper left corner.
    pub from: Point,
    /// Lower right corner.
    pub to: Point,
    /// Whether places in it are places in the engine, so that jets can be drawn.
    pub scenic: bool,
}

/// The spot a pocket has in a view, for its name and for jets.
#[derive(Debug, Clone, PartialEq)]
pub struct Room {
    /// The pocket's subject.
    pub subject: usize,
    /// The view.
    pub view: usize,
    /// A spot in it where nothing else is drawn.
    pub spot: Point,
}

/// Everything that does not change through the night.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawing {
    /// Size of the sheet.
    pub size: Point,
    /// What is shown.
    pub subjects: Vec<Subject>,
    /// The views.
    pub views: Vec<View>,
    /// Filled outlines, the hindmost first.
    pub shapes: Vec<Shape>,
    /// Lines over them.
    pub lines: Vec<Line>,
    /// Words that stay: titles of views, names of pockets.
    pub words: Vec<Words>,
    /// Names beside shapes.
    pub callouts: Vec<Callout>,
    /// Pockets and where they are.
    pub rooms: Vec<Room>,
    /// Upper left corner of the panel that shows the moment, the scale and the heaters.
    pub panel: Point,
}

impl Drawing {
    /// The subject of a part, or of the `k`-th of `of` slices of its cells (the first one is the lowest or innermost);
    /// none if the trace has no such part.
    pub fn metal(
        &mut self,
        legend: &ColumnInfo,
        part: &str,
        (k, of): (usize, usize),
    ) -> Option<usize> {
        let named = |of: &dyn Fn(&str) -> bool| -> Vec<_> {
            legend.cells.iter().filter(|c| of(&c.part)).collect()
        };
        let mut cells = named(&|cell| cell == part);
        if cells.is_empty() {
            cells = named(&|cell| is_piece(cell, part));
        }
        let slice = match cells.len() {
            0 => return None,
            n if n < of => &cells[..],
            n => &cells[k * n / of..(k + 1) * n / of],
        };
        let capacity: f64 = slice.iter().map(|c| c.heat_capacity_j_per_k).sum();
        let weigh = |own: f64| match capacity > 0.0 {
            true => own / capacity,
            false => 1.0 / slice.len() as f64,
        };
        let columns = slice
            .iter()
            .map(|c| (c.column, weigh(c.heat_capacity_j_per_k)));
        let subject = Subject {
            name: part.to_owned(),
            label: match slice.len() {
                1 => slice[0].label.clone(),
                _ => slice[0].label.split(',').next().unwrap_or(part).to_owned(),
            },
            columns: columns.collect(),
            cells: slice.iter().map(|c| c.part.clone()).collect(),
            kind: match slice[0].engine {
                true => Kind::Engine,
                false => Kind::Structure,
            },
        };
        Some(self.subject(subject))
    }
    /// The subject of a pocket; none if the trace has no such pocket.
    pub fn air(&mut self, legend: &ColumnInfo, pocket: &str) -> Option<usize> {
        let note = legend.pockets.iter().find(|p| p.name == pocket)?;
        Some(self.subject(Subject {
            name: pocket.to_owned(),
            label: note.label.clone(),
            columns: vec![(note.temperature, 1.0)],
            cells: Vec::new(),
            kind: Kind::Air,
        }))
    }
    /// Adds a shape of a subject to a view.
    pub fn put(&mut self, subject: usize, outline: Outline, reading: Option<Reading>, view: usize) {
        self.shapes.push(Shape {
            subject,
            outline,
            reading,
            view,
            bare: false,
        });
    }
    /// What is written on a shape of a subject: its own name, `air` of a pocket.
    pub fn reading(&self, subject: usize, at: Point) -> Reading {
        let name = match self.subjects[subject].kind {
            Kind::Air => "air",
            _ => self.subjects[subject].label.as_str(),
        };
        let name = name.to_owned();
        Reading { name, at }
    }
    fn subject(&mut self, subject: Subject) -> usize {
        match self.subjects.iter().position(|s| *s == subject) {
            Some(known) => known,
            None => {
                self.subjects.push(subject);
                self.subjects.len() - 1
            }
        }
    }
    /// Adds a view.
    pub fn view(&mut self, title: &str, from: Point, to: Point) -> usize {
        let at = (from.0, from.1 - 12.0);
        let words = Words::new(title, at, Anchor::Start, TextStyle::bold(14.0));
        self.words.push(words);
        self.views.push(View {
            title: title.to_owned(),
            from,
            to,
            scenic: true,
        });
        self.views.len() - 1
    }
}

/// Whether a cell is a piece of a part that was cut: `oil2` of `oil`, `barrel1.0` of `barrel1`.
fn is_piece(cell: &str, part: &str) -> bool {
    let rest = cell.strip_prefix(part).unwrap_or("");
    let number = rest.strip_prefix('.').unwrap_or(rest);
    !number.is_empty() && number.chars().all(|c| c.is_ascii_digit())
}

impl Subject {
    /// Its temperature, °C, in a sample of the trace.
    pub fn celsius(&self, row: &[f64]) -> f64 {
        let weighted = self.columns.iter().map(|&(c, weight)| weight * row[c]);
        weighted.sum()
    }
}
