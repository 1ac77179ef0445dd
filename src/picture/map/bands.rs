//! Parts by the air they meet, where nothing is known of where they stand: a band for each pocket, the highest
//! first, then what meets the hangar, then what meets no air; parts that touch stand beside each other.

use super::drawing::{Drawing, Room, Shape};
use super::ring::joined;
use crate::night::Night;
use crate::picture::draw::colour::{MUTED, TEXT};
use crate::picture::draw::{Anchor, Outline, Point, TextStyle, Words};
use crate::scenario::body::Body;
use std::collections::BTreeSet;

/// A part's box: the least width, its height, and the side of the square that shows its temperature.
const LEAST: f64 = 172.0;
const HIGH: f64 = 42.0;
const SQUARE: f64 = 44.0;
/// Room for the name of a band.
const NAME: f64 = 30.0;
/// Height of the words of a box, and how wide a letter of them is at the most.
const SMALL: f64 = 12.0;
const LETTER: f64 = 0.6 * SMALL;

/// A band: the pocket, if it is one, its words, and the parts in it.
type Band<'a> = (Option<&'a str>, String, Vec<&'a str>);

/// Draws all parts but those that are drawn elsewhere, from a corner over a width; gives the lower edge.
pub fn draw(
    drawing: &mut Drawing,
    night: &Night,
    body: &Body,
    elsewhere: &BTreeSet<String>,
    ((left, top), wide): (Point, f64),
) -> f64 {
    let legend = &night.trace.legend;
    let title = match elsewhere.is_empty() {
        true => "The parts by the air they meet",
        false => "The other parts by the air they meet",
    };
    let view = drawing.view(title, (left, top), (left + wide, top));
    let columns = ((wide / LEAST) as usize).max(1);
    let each = wide / columns as f64;
    let letters = ((each - SQUARE - 16.0) / LETTER) as usize;
    let mut y = top;
    for (pocket, name, parts) in bands(body, elsewhere) {
        let rows = parts.len().div_ceil(columns);
        let foot = y + NAME + rows as f64 * HIGH;
        let mut words_at = left;
        let air = pocket.and_then(|p| drawing.air(legend, p));
        if let Some(subject) = air {
            let outline = Outline::rectangle((left, y + 3.0), (left + 70.0, y + NAME - 5.0));
            let spot = outline.middle();
            drawing.shapes.push(Shape {
                subject,
                outline,
                reading: Some(spot),
                view,
                bare: false,
            });
            drawing.rooms.push(Room {
                subject,
                view,
                spot,
            });
            words_at += 78.0;
        }
        let most = ((left + wide - words_at) / (0.6 * 13.0)) as usize;
        let (text, at) = (shortened(&name, most), (words_at, y + NAME / 2.0 - 1.0));
        let words = Words::new(text, at, Anchor::Start, TextStyle::plain(13.0, MUTED));
        drawing.words.push(words);
        for (k, part) in parts.iter().enumerate() {
            let Some(subject) = drawing.metal(legend, part, (0, 1)) else {
                continue;
            };
            let (column, row) = (k % columns, k / columns);
            let x = left + each * column as f64;
            let at = y + NAME + HIGH * row as f64;
            let outline = Outline::rectangle((x, at), (x + SQUARE, at + HIGH - 6.0));
            let reading = Some(outline.middle());
            let label = drawing.subjects[subject].label.clone();
            drawing.shapes.push(Shape {
                subject,
                outline,
                reading,
                view,
                bare: false,
            });
            let lines = folded(&label, letters);
            let first = at + (HIGH - 6.0) / 2.0 - 7.0 * (lines.len() - 1) as f64;
            for (k, line) in lines.into_iter().enumerate() {
                let at = (x + SQUARE + 6.0, first + 14.0 * k as f64);
                let style = TextStyle::plain(SMALL, TEXT);
                drawing
                    .words
                    .push(Words::new(line, at, Anchor::Start, style));
            }
        }
        y = foot + 8.0;
    }
    drawing.views[view].to.1 = y;
    drawing.views[view].scenic = false;
    y
}

fn bands<'a>(body: &'a Body, elsewhere: &BTreeSet<String>) -> Vec<Band<'a>> {
    let mut pockets: Vec<_> = body.air_volumes.iter().collect();
    pockets.sort_by(|a, b| b.mid_height.si().total_cmp(&a.mid_height.si()));
    let mut bands: Vec<Band> = pockets
        .into_iter()
        .map(|p| (Some(p.name.as_str()), p.label.clone(), Vec::new()))
        .collect();
    bands.push((None, "in the hangar air".to_owned(), Vec::new()));
    bands.push((
        None,
        "inside, without air from outside".to_owned(),
        Vec::new(),
    ));
    let (hangar, inner) = (bands.len() - 2, bands.len() - 1);
    for part in &body.parts {
        if elsewhere.contains(&part.name) {
            continue;
        }
        let faces = || body.surfaces.iter().filter(|f| f.part == part.name);
        let area = |band: &Band| -> f64 {
            let met = faces().filter(|f| Some(f.meets.as_str()) == band.0);
            met.map(|f| f.area.si()).sum()
        };
        let most = (0..hangar).max_by(|&a, &b| area(&bands[a]).total_cmp(&area(&bands[b])));
        let band = match most.filter(|&b| area(&bands[b]) > 0.0) {
            Some(band) => band,
            None if faces().next().is_some() => hangar,
            None => inner,
        };
        bands[band].2.push(&part.name);
    }
    // A pocket without parts has its air all the same, if that is not shown elsewhere.
    bands.retain(|b| !b.2.is_empty() || (b.0.is_some() && elsewhere.is_empty()));
    for band in &mut bands {
        chained(body, &mut band.2);
    }
    bands
}

/// Puts each part beside the one it is joined to the best of those that are left.
fn chained(body: &Body, parts: &mut [&str]) {
    for k in 1..parts.len() {
        let here = parts[k - 1];
        let best = (k..parts.len())
            .rev()
            .max_by(|&a, &b| joined(body, here, parts[a]).total_cmp(&joined(body, here, parts[b])));
        if let Some(best) = best {
            parts[k..=best].rotate_right(1);
        }
    }
}

/// A name on two lines at the most, each of so many letters; what is left over is replaced by dots.
fn folded(label: &str, letters: usize) -> Vec<String> {
    let mut lines: Vec<String> = textwrap::wrap(label, letters.max(4))
        .into_iter()
        .map(|l| l.into_owned())
        .collect();
    if lines.len() > 2 {
        lines.truncate(2);
        lines[1] = shortened(&(lines[1].clone() + "……"), letters);
    }
    lines
}

/// A text of so many letters at the most.
fn shortened(text: &str, letters: usize) -> String {
    match text.chars().count() > letters {
        true => {
            let kept: String = text.chars().take(letters.saturating_sub(1)).collect();
            format!("{}…", kept.trim_end_matches([' ', '…', ',']))
        }
        false => text.trim_end_matches("……").to_owned(),
    }
}
