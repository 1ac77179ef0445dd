//! Bars from one common zero, a row each: its name at the left, its figures at the right.

use super::axis::{amounts, round_range, tick_label};
use super::figure::MARGIN;
use super::numbers::{csv, told};
use super::view::{Chart, ChartView};
use crate::picture::draw::colour::{self, Colour};
use crate::picture::draw::{Anchor, Canvas, TextStyle, drawn};
use crate::picture::text::{Heading, LINE, NAME, wrapped};

const ROW: f64 = 22.0;
/// The highest row, on a picture whose height is given.
const HIGHEST_ROW: f64 = 60.0;
/// Between a name and its bar.
const GAP: f64 = 10.0;
const AXIS: f64 = 34.0;
const EDGE: f64 = 16.0;

/// A picture of bars.
#[derive(Debug, Clone)]
pub struct Bars<'a> {
    /// Titles and look.
    pub view: ChartView<'a>,
    /// What the chart finds, where the view has no headline.
    pub found: String,
    /// What is shown, after the titles.
    pub what: String,
    /// What its axis counts, with the unit.
    pub axis: String,
    /// The heads of its columns in machine output, after `name`.
    pub heads: Vec<String>,
    /// Its rows, from above.
    pub rows: Vec<Row>,
    /// How many of them are drawn; the rest is given in numbers only.
    pub drawn: usize,
}

/// A row.
#[derive(Debug, Clone)]
pub struct Row {
    /// Its name.
    pub name: String,
    /// Bars from one value to another, later ones over earlier ones.
    pub bars: Vec<(f64, f64, Colour)>,
    /// A value marked by a thin upright line.
    pub mark: Option<f64>,
    /// Its figures, as people read them.
    pub figures: String,
    /// Its numbers, in the order of the heads.
    pub numbers: Vec<f64>,
}

impl Bars<'_> {
    /// The picture, with its numbers.
    pub fn chart(self) -> Chart {
        let size = self.view.look.size;
        let note = self.view.note(&self.what);
        let headline = self.view.headline(self.found.clone());
        let heading = Heading::of(&headline, &note, size, size.width() - 2.0 * MARGIN);
        let rows = &self.rows[..self.drawn.min(self.rows.len()).min(size.most_names())];
        let (top, names) = (heading.high() + EDGE, self.names(rows));
        let lines = names.iter().map(Vec::len).max().unwrap_or(1);
        let row = ROW + LINE * (lines - 1) as f64;
        let count = rows.len().max(1) as f64;
        let row = size.height().map_or(row, |high| {
            ((high - top - AXIS - MARGIN) / count).min(HIGHEST_ROW)
        });
        let high = top + row * count + AXIS + MARGIN;
        let title = format!("{headline}. {note}");
        Chart {
            picture: drawn(self.view.look, high, title, |canvas| {
                for w in heading.words(MARGIN) {
                    canvas.words(&w.text, w.at, w.anchor, w.style);
                }
                self.paint(canvas, rows, &names, (top, row));
            }),
            csv: self.numbers(),
        }
    }

    /// The names of rows in lines.
    fn names(&self, rows: &[Row]) -> Vec<Vec<String>> {
        let (plain, most) = (
            TextStyle::plain(NAME, colour::TEXT),
            self.view.widest_name() * 1.3,
        );
        let names = rows.iter().map(|row| wrapped(&row.name, plain, most, 2));
        names.collect()
    }

    fn paint(&self, canvas: &Canvas, rows: &[Row], names: &[Vec<String>], (top, high): (f64, f64)) {
        let (plain, muted) = (
            TextStyle::plain(NAME, colour::TEXT),
            TextStyle::plain(NAME, colour::MUTED),
        );
        if rows.is_empty() {
            return;
        }
        let widest = |widths: &mut dyn Iterator<Item = f64>| widths.fold(0.0, f64::max);
        let name = widest(&mut names.iter().flatten().map(|line| plain.width(line)));
        let figures = widest(&mut rows.iter().map(|row| muted.width(&row.figures)));
        let left = MARGIN + name + GAP;
        let right = self.view.look.size.width() - MARGIN - figures - GAP;
        let floor = top + high * rows.len() as f64;
        let bars = rows.iter().flat_map(|r| r.bars.iter());
        let marks = rows.iter().filter_map(|r| r.mark);
        let values = bars.flat_map(|b| [b.0, b.1]).chain(marks).chain([0.0]);
        let values: Vec<f64> = values.collect();
        let most = ((right - left) / 60.0).clamp(2.0, 6.0);
        let ((low, up), ticks) = if values.iter().all(|v| *v >= 0.0) {
            amounts(values.into_iter(), most)
        } else {
            round_range(values.into_iter(), most)
        };
        let x = |value: f64| left + (value - low) / (up - low) * (right - left);
        for tick in &ticks {
            let line = [(x(*tick), top), (x(*tick), floor)];
            canvas.line(&line, colour::GRID, 1.0, &[]);
            let at = (x(*tick), floor + 13.0);
            canvas.words(&tick_label(*tick), at, Anchor::Middle, muted);
        }
        let middle = ((left + right) / 2.0, floor + 29.0);
        canvas.words(&self.axis, middle, Anchor::Middle, muted);
        let half = 0.3 * high;
        for (k, (row, lines)) in rows.iter().zip(names).enumerate() {
            let y = top + high * (k as f64 + 0.5);
            let first = y - LINE * (lines.len() - 1) as f64 / 2.0;
            for (k, line) in lines.iter().enumerate() {
                let at = (left - GAP, first + LINE * k as f64);
                canvas.words(line, at, Anchor::End, plain);
            }
            for (from, to, colour) in &row.bars {
                canvas.bar((x(*from), y - half), (x(*to), y + half), *colour);
            }
            if let Some(mark) = row.mark {
                let line = [(x(mark), y - half - 2.0), (x(mark), y + half + 2.0)];
                canvas.line(&line, colour::TEXT, self.view.look.size.line(2.0), &[]);
            }
            canvas.words(&row.figures, (right + GAP, y), Anchor::Start, muted);
        }
        canvas.line(&[(x(0.0), top), (x(0.0), floor)], colour::FRAME, 1.5, &[]);
    }

    fn numbers(&self) -> Vec<u8> {
        let heads = ["name"]
            .into_iter()
            .chain(self.heads.iter().map(String::as_str));
        let heads = heads.map(str::to_owned).collect();
        let rows = self.rows.iter().map(|row| {
            let numbers = row.numbers.iter().map(|n| told(*n));
            std::iter::once(row.name.clone()).chain(numbers).collect()
        });
        csv(std::iter::once(heads).chain(rows))
    }
}
