//! A night as a strip of small pictures, one after the other: what warms first, and what last.

use super::drawing::{Anchor, Drawing, Shape, Words};
use super::picture::Map;
use super::sheet::{self, MARGIN, PANEL, WIDTH};
use super::style::{ground, style};
use super::svg::{self, Paint, escaped, short};
use crate::report::colour::Theme;
use crate::report::format::finely;

/// Most pictures of a strip.
pub const MOST: usize = 96;
/// Pictures side by side, and the white between them.
const COLUMNS: usize = 6;
const GAP: f64 = 14.0;
/// Room for the words over each.
const WORDS: f64 = 40.0;
/// Height of the heading, and of the scale at the foot.
const HEAD: f64 = 44.0;
const FOOT: f64 = 74.0;

/// The strip of these seconds after the beginning.
pub fn strip(map: &Map, times_s: &[f64], paper: Theme) -> String {
    let title = &map.night.scenario.scenario().title;
    let clock = map.night.scenario.clock();
    let drawing = few(&map.drawing);
    let first = &map.drawing.views[0];
    let last = &map.drawing.views[drawing.views.len() - 1];
    let (from, to) = (first.from, (first.to.0.max(last.to.0), last.to.1));
    let wide = (WIDTH - 2.0 * MARGIN - GAP * (COLUMNS - 1) as f64) / COLUMNS as f64;
    let zoom = wide / (to.0 - from.0);
    let high = WORDS + zoom * (to.1 - from.1) + GAP;
    let rows = times_s.len().div_ceil(COLUMNS);
    let size = (WIDTH, HEAD + rows as f64 * high + FOOT);
    let mut text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}\" height=\"{1}\" viewBox=\"0 0 {0} {1}\" role=\"img\" \
         class=\"m\">\n<title>{2}</title><desc>{3} pictures of the engine through the night.</desc><style>{4}</style>{5}",
        short(size.0),
        short(size.1),
        escaped(title),
        times_s.len(),
        style(paper),
        ground(paper, size),
    );
    svg::words(&mut text, &sheet::heading(title), None);
    for (k, time_s) in times_s.iter().enumerate() {
        let moment = map.moment(*time_s);
        let colours = map.colours(&moment);
        let x = MARGIN + (wide + GAP) * (k % COLUMNS) as f64;
        let y = HEAD + high * (k / COLUMNS) as f64;
        let words = |text: String, down: f64, bold: bool| Words {
            text,
            at: (x, y + down),
            anchor: Anchor::Start,
            size: 12.0,
            bold,
            quiet: !bold,
        };
        svg::words(&mut text, &words(clock.dated(*time_s), 8.0, true), None);
        if let Some(coldest) = &moment.coldest {
            let told = format!("coldest {}", finely(coldest.temp_c, map.units()));
            let told = told.replace(" -", " \u{2212}");
            svg::words(&mut text, &words(told, 24.0, false), None);
        }
        text += &format!(
            "<g transform=\"translate({} {}) scale({zoom:.4})\">",
            short(x - zoom * from.0),
            short(y + WORDS - zoom * from.1)
        );
        text += &svg::still(&drawing, &Paint::Direct(&colours));
        text += "</g>";
    }
    let (left, top) = ((WIDTH - PANEL) / 2.0, size.1 - FOOT + 10.0);
    text += &map.panel().bar_at((left, top));
    text + "</svg>\n"
}

/// The first view, and the second under it where places in both are places in the engine; no words.
fn few(drawing: &Drawing) -> Drawing {
    let views: Vec<_> = drawing
        .views
        .iter()
        .take(2)
        .filter(|v| v.scenic)
        .cloned()
        .collect();
    let kept = views.len().max(1);
    let shapes: Vec<Shape> = drawing
        .shapes
        .iter()
        .filter(|s| s.view < kept)
        .cloned()
        .collect();
    Drawing {
        size: drawing.size,
        subjects: drawing.subjects.clone(),
        views: drawing.views[..kept].to_vec(),
        shapes,
        ..Drawing::default()
    }
}
