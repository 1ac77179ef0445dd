//! Bars from one common zero, a row each: its name at the left, its figures at the right.

use super::axis::{amounts, round_range, tick_label};
use super::figure::MARGIN;
use super::heading;
use super::names::{NAME, fitted};
use super::numbers::{csv, told};
use super::view::{Chart, ChartView};
use crate::picture::draw::colour::{self, Colour};
use crate::picture::draw::{Anchor, Canvas, TextStyle, drawn};

const ROW: f64 = 22.0;
const AXIS: f64 = 34.0;
const EDGE: f64 = 16.0;
/// Room for the figures at the right.
const FIGURES: f64 = 132.0;
/// Room for a row's mark at the left.
const MARK: f64 = 4.0;

/// A picture of bars.
#[derive(Debug, Clone)]
pub struct Bars<'a> {
    /// Headings and theme.
    pub view: ChartView<'a>,
    /// What is shown, after the subtitle.
    pub what: String,
    /// What its axis counts, with the unit.
    pub axis: String,
    /// The heads of its columns in machine output, after `name`.
    pub heads: Vec<String>,
    /// Its rows, from above.
    pub rows: Vec<Row>,
    /// How many of them are drawn; the rest is given in numbers only.
    pub drawn: usize,
    /// Said in place of rows, if there are none.
    pub empty: String,
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
    pub fn chart(&self) -> Chart {
        let rows = self.drawn.max(1) as f64;
        let high = heading::HIGH + EDGE + ROW * rows + AXIS + MARGIN;
        let told = format!("{}. {}", self.view.title, self.view.saying(&self.what));
        let size = (self.view.breadth.width(), high);
        Chart {
            picture: drawn(self.view.theme, size, told, |canvas| self.paint(canvas)),
            csv: self.numbers(),
        }
    }

    fn paint(&self, canvas: &Canvas) {
        let saying = self.view.saying(&self.what);
        heading::written(
            canvas,
            self.view.title,
            &saying,
            MARGIN + MARK,
            self.view.breadth.width() - MARGIN,
        );
        let (plain, muted) = (
            TextStyle::plain(NAME, colour::TEXT),
            TextStyle::plain(NAME, colour::MUTED),
        );
        let top = heading::HIGH + EDGE;
        let rows = &self.rows[..self.drawn.min(self.rows.len())];
        if rows.is_empty() {
            let at = (MARGIN + MARK, top + ROW / 2.0);
            return canvas.words(&self.empty, at, Anchor::Start, plain);
        }
        let mut widest: f64 = 0.0;
        for row in rows {
            widest = widest.max(plain.width(&row.name));
        }
        let left = MARGIN + MARK + widest.min(self.view.breadth.name_widest() * 1.3) + 12.0;
        let right = self.view.breadth.width() - MARGIN - FIGURES;
        let floor = top + ROW * rows.len() as f64;
        let bars = rows.iter().flat_map(|r| r.bars.iter());
        let marks = rows.iter().filter_map(|r| r.mark);
        let values = bars.flat_map(|b| [b.0, b.1]).chain(marks).chain([0.0]);
        let values: Vec<f64> = values.collect();
        let ((low, high), ticks) = if values.iter().all(|v| *v >= 0.0) {
            amounts(values.into_iter(), 6.0)
        } else {
            round_range(values.into_iter(), 6.0)
        };
        let x = |value: f64| left + (value - low) / (high - low) * (right - left);
        for tick in &ticks {
            canvas.line(
                &[(x(*tick), top), (x(*tick), floor)],
                colour::GRID,
                1.0,
                None,
            );
            let at = (x(*tick), floor + 13.0);
            canvas.words(&tick_label(*tick), at, Anchor::Middle, muted);
        }
        let middle = ((left + right) / 2.0, floor + 29.0);
        canvas.words(&self.axis, middle, Anchor::Middle, muted);
        for (k, row) in rows.iter().enumerate() {
            let y = top + ROW * (k as f64 + 0.5);
            let name = fitted(&row.name, plain, left - MARGIN - MARK - 10.0);
            canvas.words(&name, (left - 10.0, y), Anchor::End, plain);
            for (from, to, colour) in &row.bars {
                canvas.bar((x(*from), y - 6.5), (x(*to), y + 6.5), *colour);
            }
            if let Some(mark) = row.mark {
                let line = [(x(mark), y - 8.5), (x(mark), y + 8.5)];
                canvas.line(&line, colour::TEXT, 2.0, None);
            }
            let figures = fitted(&row.figures, muted, FIGURES - 10.0);
            canvas.words(&figures, (right + 10.0, y), Anchor::Start, muted);
        }
        canvas.line(&[(x(0.0), top), (x(0.0), floor)], colour::FRAME, 1.5, None);
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
