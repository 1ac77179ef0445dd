//! Parts by the air they meet, where nothing is known of where they stand: a band for each pocket, the highest
//! first, then what meets the hangar, then what meets no air; parts that touch stand beside each other.

use super::drawing::{Drawing, Room};
use super::ring::joined;
use crate::night::Night;
use crate::picture::draw::colour::MUTED;
use crate::picture::draw::{Anchor, Outline, Point, TextStyle, Words};
use crate::picture::text::{NAME, wrapped};
use crate::scenario::body::Body;
use std::collections::BTreeSet;

/// The least width of a part's box, its height at most, and the room between two.
const LEAST: f64 = 110.0;
const HIGH: f64 = 48.0;
const GAP: f64 = 5.0;
/// Room for the name of a band.
const BAND: f64 = 30.0;

/// A band: the pocket, if it is one, its words, and the parts in it.
type Band<'a> = (Option<&'a str>, String, Vec<&'a str>);

/// Draws all parts but those that are drawn elsewhere, each in a box, from a corner over a width and at most a height;
/// gives the lower edge.
pub fn draw(
    drawing: &mut Drawing,
    night: &Night,
    body: &Body,
    elsewhere: &BTreeSet<String>,
    ((left, top), (wide, most)): (Point, (f64, f64)),
) -> f64 {
    let legend = &night.trace.legend;
    let title = match elsewhere.is_empty() {
        true => "The parts by the air they meet",
        false => "The other parts by the air they meet",
    };
    let view = drawing.view(title, (left, top), (left + wide, top));
    let columns = ((wide / LEAST) as usize).max(1);
    let each = wide / columns as f64;
    let bands = bands(body, elsewhere);
    let rows: usize = bands.iter().map(|b| b.2.len().div_ceil(columns)).sum();
    let rest = most - (BAND + 8.0) * bands.len() as f64;
    let high = HIGH.min(rest / rows.max(1) as f64);
    let mut y = top;
    for (pocket, name, parts) in bands {
        let mut words_at = left;
        let air = pocket.and_then(|p| drawing.air(legend, p));
        if let Some(subject) = air {
            let outline = Outline::rectangle((left, y + 3.0), (left + 70.0, y + BAND - 5.0));
            let spot = outline.middle();
            let reading = Some(drawing.reading(subject, spot));
            drawing.put(subject, outline, reading, view);
            drawing.rooms.push(Room {
                subject,
                view,
                spot,
            });
            words_at += 78.0;
        }
        let style = TextStyle::plain(NAME, MUTED);
        let text = wrapped(&name, style, left + wide - words_at, 1).swap_remove(0);
        let at = (words_at, y + BAND / 2.0 - 1.0);
        let words = Words::new(text, at, Anchor::Start, style);
        drawing.words.push(words);
        let rows = parts.len().div_ceil(columns);
        for (k, part) in parts.iter().enumerate() {
            let Some(subject) = drawing.metal(legend, part, (0, 1)) else {
                continue;
            };
            let (column, row) = (k % columns, k / columns);
            let (x, y) = (left + each * column as f64, y + BAND + high * row as f64);
            let outline = Outline::rectangle((x, y), (x + each - GAP, y + high - GAP));
            let reading = Some(drawing.reading(subject, outline.middle()));
            drawing.put(subject, outline, reading, view);
        }
        y += BAND + high * rows as f64 + 8.0;
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
