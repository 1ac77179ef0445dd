//! The engine in characters, for a terminal: the first views of the drawing, in colour or, where there is none, in shades.

use super::drawing::{Drawing, Kind, Point, Shape, View};
use super::moment::Moment;
use super::picture::Map;
use super::scale::{Rgb, ink_on};
use crate::report::format::{finely, sided, wrapped};

/// Characters of a view at the most and at the least.
const WIDEST: usize = 46;
const NARROWEST: usize = 34;
/// Between two views.
const GAP: usize = 3;
/// Lines of a view at the most.
const TALLEST: usize = 22;
/// How high a character is, over its width.
const TALL: f64 = 2.0;

/// What colours a terminal has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Colours {
    /// None: shades tell.
    None,
    /// 256: the nearest of a cube of 216.
    Cube,
    /// All.
    All,
}

/// What a character of a view shows.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Cell {
    /// The subject behind its upper and its lower half.
    behind: [Option<usize>; 2],
    /// A letter over it.
    letter: Option<char>,
}

/// The engine at a moment, as wide as it may be; empty where that is too narrow, and where nothing is known of where parts
/// stand, since unnamed squares tell nothing.
pub fn text(map: &Map, time_s: f64, width: u16, has: Colours) -> String {
    let moment = map.moment(time_s);
    let width = usize::from(width);
    let views: Vec<(usize, &View)> = map.drawing.views.iter().enumerate().collect();
    // The first two stand side by side if there is room for both.
    let side_by_side = views.len() > 1 && views[1].1.scenic && width >= 2 * NARROWEST + GAP;
    let count = if side_by_side { 2 } else { 1 };
    let columns = ((width + GAP) / count).saturating_sub(GAP).min(WIDEST);
    if columns < NARROWEST || !views.first().is_some_and(|v| v.1.scenic) {
        return String::new();
    }
    let drawn: Vec<Vec<String>> = views[..count]
        .iter()
        .map(|(k, view)| lines(map, &moment, (*k, view), columns, has))
        .collect();
    let mut told = String::new();
    let titles = views[..count].iter().map(|(_, view)| {
        let title: String = view.title.chars().take(columns).collect();
        format!("{title:columns$}")
    });
    told += titles.collect::<Vec<_>>().join(&" ".repeat(GAP)).trim_end();
    told.push('\n');
    let rows = drawn.iter().map(Vec::len).max().unwrap_or(0);
    for row in 0..rows {
        let blank = " ".repeat(columns);
        let each = drawn.iter().map(|d| d.get(row).unwrap_or(&blank).as_str());
        told += each.collect::<Vec<_>>().join(&" ".repeat(GAP)).trim_end();
        told.push('\n');
    }
    let shown = |shape: &Shape| shape.view < count;
    let marked = |shape: &Shape| is_coldest(&map.drawing, &moment, shape.subject);
    let marked = map.drawing.shapes.iter().any(|s| shown(s) && marked(s));
    told + &key(map, &moment, has, (marked, width))
}

/// One view in lines of so many characters.
fn lines(
    map: &Map,
    moment: &Moment,
    (number, view): (usize, &View),
    columns: usize,
    has: Colours,
) -> Vec<String> {
    let (wide, high) = (view.to.0 - view.from.0, view.to.1 - view.from.1);
    // What is too tall is drawn narrower.
    let across = (columns as f64).min(TALLEST as f64 * TALL * wide / high);
    let pixel = wide / across;
    let rows = (high / pixel / TALL).ceil() as usize;
    let shapes: Vec<&Shape> = map
        .drawing
        .shapes
        .iter()
        .filter(|s| s.view == number)
        .collect();
    // Air is left blank, so that metal stands out from it.
    let metal = |subject: usize| map.drawing.subjects[subject].kind != Kind::Air;
    let behind = |point: Point| {
        let there = shapes.iter().rev().find(|s| s.outline.holds(point));
        there.map(|s| s.subject).filter(|k| metal(*k))
    };
    let mut cells = vec![vec![Cell::default(); columns]; rows];
    for (row, line) in cells.iter_mut().enumerate() {
        for (column, cell) in line.iter_mut().enumerate() {
            let x = view.from.0 + (column as f64 + 0.5) * pixel;
            let y = |part: f64| view.from.1 + (row as f64 + part) * TALL * pixel;
            cell.behind = [behind((x, y(0.25))), behind((x, y(0.75)))];
        }
    }
    let place = |(x, y): Point| {
        let column = (x - view.from.0) / pixel;
        let row = (y - view.from.1) / pixel / TALL;
        (column, (row.max(0.0) as usize).min(rows.saturating_sub(1)))
    };
    for shape in &shapes {
        let subject = &map.drawing.subjects[shape.subject];
        if let Some(at) = shape.reading.filter(|_| subject.kind != Kind::Air) {
            let celsius = moment.celsius[shape.subject];
            let (column, row) = place(at);
            let number = sided(celsius, moment.threshold_c, map.units());
            put(&mut cells[row], column, &number);
        }
        if is_coldest(&map.drawing, moment, shape.subject) {
            let (column, row) = place(shape.outline.middle());
            // Beside its reading, if it has one.
            let aside = if shape.reading.is_some() { 3.0 } else { 0.0 };
            put(&mut cells[row], column - aside, "×");
        }
    }
    let colours = map.colours(moment);
    let told = cells.iter().map(|line| match has {
        Colours::None => shaded(line, map, moment),
        _ => painted(line, &colours, has),
    });
    told.collect()
}

/// Letters over a line, about a place.
fn put(line: &mut [Cell], about: f64, letters: &str) {
    let count = letters.chars().count();
    let first = (about - count as f64 / 2.0 + 0.5).floor().max(0.0) as usize;
    for (cell, letter) in line.iter_mut().skip(first).zip(letters.chars()) {
        cell.letter = Some(letter);
    }
}

fn is_coldest(drawing: &Drawing, moment: &Moment, subject: usize) -> bool {
    let coldest = moment.coldest.as_ref();
    coldest.is_some_and(|c| drawing.subjects[subject].cells.contains(&c.part))
}

/// A line in shades: what is colder than asked is light, what is warm enough dark.
fn shaded(line: &[Cell], map: &Map, moment: &Moment) -> String {
    let shade = |cell: &Cell| {
        let Some(subject) = cell.behind[0].or(cell.behind[1]) else {
            return ' ';
        };
        match map.drawing.subjects[subject].kind {
            Kind::Air | Kind::Structure => '·',
            Kind::Engine if moment.celsius[subject] < map.scale.threshold_c => '░',
            Kind::Engine => '▓',
        }
    };
    line.iter()
        .map(|cell| cell.letter.unwrap_or(shade(cell)))
        .collect()
}

/// A line in colours: two halves a character, or a letter on the upper one's.
fn painted(line: &[Cell], colours: &[Rgb], has: Colours) -> String {
    let mut told = String::new();
    let ground = |subject: Option<usize>| match subject {
        Some(k) => format!("\u{1b}[48;{}m", spelt(colours[k], has)),
        None => "\u{1b}[49m".to_owned(),
    };
    let ink = |colour: Rgb| format!("\u{1b}[38;{}m", spelt(colour, has));
    for cell in line {
        told += &match (cell.letter, cell.behind) {
            (Some(letter), [upper, lower]) => {
                let behind = upper.or(lower);
                // Over nothing, the terminal's own ink.
                let plain = "\u{1b}[39m".to_owned();
                let ink = behind.map_or(plain, |k| match ink_on(colours[k]) {
                    "#fff" => ink([255; 3]),
                    _ => ink([0; 3]),
                });
                format!("{}{ink}{letter}", ground(behind))
            }
            (None, [None, None]) => "\u{1b}[0m ".to_owned(),
            (None, [None, Some(lower)]) => format!("{}{}▄", ground(None), ink(colours[lower])),
            (None, [Some(upper), lower]) => format!("{}{}▀", ground(lower), ink(colours[upper])),
        };
    }
    told + "\u{1b}[0m"
}

/// A colour as a terminal is told it.
fn spelt(colour: Rgb, has: Colours) -> String {
    let [r, g, b] = colour;
    match has {
        Colours::All => format!("2;{r};{g};{b}"),
        _ => format!("5;{}", of_256(colour)),
    }
}

/// The nearest of the 216 colours (six steps of each channel) that follow the first 16 in terminals of 256.
fn of_256(colour: Rgb) -> u8 {
    const STEPS: [u8; 6] = [0, 95, 135, 175, 215, 255];
    let nearest = |byte: u8| (0..6u8).min_by_key(|k| STEPS[usize::from(*k)].abs_diff(byte));
    let [r, g, b] = colour.map(|byte| nearest(byte).unwrap_or(0));
    16 + 36 * r + 6 * g + b
}

/// What the marks mean; whether the coldest part is marked, and how wide a line may be.
fn key(map: &Map, moment: &Moment, has: Colours, (marked, width): (bool, usize)) -> String {
    let units = map.units();
    let threshold = finely(map.scale.threshold_c, units);
    let sample = |gap: f64| {
        let colour = map.scale.colour(map.scale.threshold_c + gap);
        format!("\u{1b}[38;{}m██\u{1b}[0m", spelt(colour, has))
    };
    let (cold, warm) = match has {
        Colours::None => ("░".to_owned(), "▓".to_owned()),
        _ => (sample(-1.0), sample(1.0)),
    };
    let mut told = format!("{cold} colder than {threshold}  {warm} as warm or warmer\n");
    let mut line = |text: String| {
        told += &wrapped(&text, width as u16, "  ");
        told.push('\n');
    };
    let others = "cowl, firewall and propeller, which need not be warm";
    line(match has {
        Colours::None => format!("· {others}"),
        _ => format!("In the same colours: {others}."),
    });
    if let Some(c) = &moment.coldest {
        let at = finely(c.temp_c, units);
        line(match marked {
            true => format!("× coldest: {}, {at}", c.label),
            false => format!("Coldest, which these views do not show: {}, {at}", c.label),
        });
    }
    line(format!("Numbers are {}.", units.symbol()));
    told
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::night::load_named_from;
    use crate::files::sources::Outside;
    use crate::night::run;

    #[test]
    fn an_engine_in_text_is_as_narrow_as_asked_and_plain_where_no_colour_is() {
        for name in ["small-engine-top", "block-cooling", "radial-underneath"] {
            let night = run(&load_named_from(name, Outside::Refused).unwrap().scenario).unwrap();
            let map = Map::of(&night);
            let leave_s = night.trace.departure_s;
            for width in [60, 80, 118, 200] {
                let plain = text(&map, leave_s, width, Colours::None);
                if name == "block-cooling" {
                    // Nothing is known of where its parts stand.
                    assert_eq!(plain, "");
                    continue;
                }
                assert!(!plain.contains('\u{1b}'));
                // A mark of the key stands in the picture too.
                let marks = plain.matches('×').count();
                assert!(marks == 0 || marks >= 2, "{name} {width}: {plain}");
                assert!(plain.to_lowercase().contains("coldest"), "{name} {width}");
                for line in plain.lines() {
                    let count = line.chars().count();
                    assert!(count <= usize::from(width), "{name} {width}: {line}");
                }
            }
            if name == "block-cooling" {
                continue;
            }
            // The same letters in colour: what is written does not hang on it.
            let letters = |told: &str| -> Vec<char> {
                let mut pieces = told.split('\u{1b}');
                let first = pieces.next().unwrap_or("").to_owned();
                let rest = pieces.filter_map(|p| p.split_once('m'));
                let bare = rest.fold(first, |all, (_, after)| all + after);
                bare.chars()
                    .filter(|c| c.is_ascii_digit() || *c == '×')
                    .collect()
            };
            let plain = text(&map, 0.0, 100, Colours::None);
            for (has, told) in [
                (Colours::Cube, "\u{1b}[48;5;"),
                (Colours::All, "\u{1b}[48;2;"),
            ] {
                let colour = text(&map, 0.0, 100, has);
                assert_eq!(letters(&plain), letters(&colour), "{name}");
                assert!(colour.contains(told));
            }
            assert_eq!(text(&map, 0.0, 30, Colours::All), "");
        }
    }

    /// The corners of the cube: 16 is black, 231 white (xterm's 256 colours).
    #[test]
    fn a_colour_becomes_its_neighbour_in_the_cube() {
        assert_eq!((of_256([0; 3]), of_256([255; 3])), (16, 231));
        assert_eq!(of_256([0xd0, 0x60, 0x88]), 16 + 36 * 4 + 6 + 2);
    }
}
