//! A drawing and a moment as SVG text.

use super::drawing::{Anchor, Drawing, Kind, Outline, Point, Stands, Stroke, Words};
use super::jets::{BADGE, Jet};
use super::moment::Moment;
use super::scale::{Rgb, edge_on, hex, ink_on};
use super::written::readings;
use crate::quantity::Units;
use std::fmt::Write;

/// How shapes get their colour.
pub enum Paint<'a> {
    /// Each subject's own.
    Direct(&'a [Rgb]),
    /// By variables of the style sheet, `--c0`, `--c1` ..., so that one drawing serves every moment.
    Variables,
}

/// The shapes and lines that do not move.
pub fn still(drawing: &Drawing, paint: &Paint) -> String {
    let mut svg = String::new();
    // Axes lie under the metal, so that no number is struck through.
    for line in drawing.lines.iter().filter(|l| l.stroke == Stroke::Axis) {
        let _ = write!(
            svg,
            "<polyline class=\"x\" points=\"{}\"/>",
            points(&line.points)
        );
    }
    for shape in &drawing.shapes {
        let class = match drawing.subjects[shape.subject].kind {
            _ if shape.bare => "a",
            Kind::Engine => "s",
            Kind::Structure => "o",
            Kind::Air => "a",
        };
        let k = shape.subject;
        let fill = match (paint, class) {
            (Paint::Direct(colours), "a") => format!("fill=\"{}\"", hex(colours[k])),
            (Paint::Direct(colours), _) => {
                let (fill, edge) = (hex(colours[k]), edge_on(colours[k]));
                format!("fill=\"{fill}\" stroke=\"{edge}\"")
            }
            (Paint::Variables, "a") => format!("style=\"fill:var(--c{k})\""),
            (Paint::Variables, _) => format!("style=\"fill:var(--c{k});stroke:var(--e{k})\""),
        };
        let label = &drawing.subjects[shape.subject].label;
        outline(
            &mut svg,
            &shape.outline,
            &format!("class=\"{class}\" {fill}"),
            label,
        );
    }
    for line in drawing.lines.iter().filter(|l| l.stroke == Stroke::Edge) {
        let _ = write!(
            svg,
            "<polyline class=\"e\" points=\"{}\"/>",
            points(&line.points)
        );
    }
    for w in &drawing.words {
        words(&mut svg, w, None);
    }
    svg
}

/// What is different at each moment: readings, wet walls, the coldest part, heaters.
pub fn moving(
    drawing: &Drawing,
    moment: &Moment,
    colours: &[Rgb],
    jets: &[Jet],
    units: Units,
) -> String {
    let mut svg = String::new();
    coldest(&mut svg, drawing, moment);
    for tag in &drawing.tags {
        if let Stands::Beside(at, over, to) = tag.stands {
            let ink = over.map(|k| ink_on(colours[k]));
            leader(&mut svg, at, to, ink);
        }
    }
    for jet in jets {
        heater(&mut svg, jet, moment.on.get(jet.heater) == Some(&true));
    }
    for at in wet(drawing, moment) {
        drop_at(&mut svg, at);
    }
    for (w, subject) in readings(drawing, moment, units) {
        // With an edge of the colour under it, where an arrow or an edge runs through.
        let ink = subject.map(|subject| {
            let edge = hex(colours[subject]);
            let ink = ink_on(colours[subject]);
            format!("{ink};stroke:{edge};stroke-width:3;paint-order:stroke")
        });
        words(&mut svg, &w, ink.as_deref());
    }
    svg
}

/// A line from a letter to what it names, in the ink of the letter.
fn leader(svg: &mut String, at: Point, to: Point, ink: Option<&str>) {
    let long = (to.0 - at.0).hypot(to.1 - at.1).max(1e-9);
    let begin = |p: f64, q: f64| p + (q - p) * (7.0 / long).min(1.0);
    let from = (begin(at.0, to.0), begin(at.1, to.1));
    let ink = ink.map_or(String::new(), |ink| format!(" style=\"stroke:{ink}\""));
    let _ = write!(
        svg,
        "<polyline class=\"e\"{ink} points=\"{}\"/>",
        points(&[from, to])
    );
}

/// Where drops are drawn: once a part in each view, beside its reading if it has one.
pub fn wet(drawing: &Drawing, moment: &Moment) -> Vec<Point> {
    let mut seen = Vec::new();
    let mut drops = Vec::new();
    for shape in &drawing.shapes {
        let key = (shape.view, shape.subject);
        if !moment.is_wet(drawing, shape.subject) || seen.contains(&key) {
            continue;
        }
        seen.push(key);
        let (from, to) = shape.outline.bounds();
        let (wide, high) = (to.0 - from.0, to.1 - from.1);
        let ring = matches!(&shape.outline, Outline::Polygon(corners) if corners.len() > 8);
        drops.push(match shape.reading {
            Some(at) if wide > 46.0 => (at.0 - 22.0, at.1),
            Some(_) => (from.0 + 6.0, from.1 + 8.0),
            None if ring => shape.outline.middle(),
            None if wide > high => (from.0 + 6.0, (from.1 + to.1) / 2.0),
            None => (from.0 + (wide / 2.0).min(7.0), from.1 + 8.0),
        });
    }
    drops
}

fn coldest(svg: &mut String, drawing: &Drawing, moment: &Moment) {
    let Some(coldest) = &moment.coldest else {
        return;
    };
    for class in ["c", "k"] {
        for shape in &drawing.shapes {
            let subject = &drawing.subjects[shape.subject];
            // The whole of the oil, not the layer: its edge would run through the number.
            let is = subject.cells.contains(&coldest.part) && !shape.bare;
            if is {
                outline(svg, &shape.outline, &format!("class=\"{class}\""), "");
            }
        }
    }
}

fn heater(svg: &mut String, jet: &Jet, on: bool) {
    if let Some(to) = jet.arrow {
        let line = points(&[jet.badge, to]);
        if on {
            let _ = write!(svg, "<polyline class=\"h\" points=\"{line}\"/>");
            let _ = write!(svg, "<polyline class=\"j\" points=\"{line}\"/>");
            let way = (to.0 - jet.badge.0, to.1 - jet.badge.1);
            let long = way.0.hypot(way.1).max(1e-9);
            let (x, y) = (way.0 / long, way.1 / long);
            let head = [
                (to.0 + 9.0 * x, to.1 + 9.0 * y),
                (to.0 - 6.0 * y - 3.0 * x, to.1 + 6.0 * x - 3.0 * y),
                (to.0 + 6.0 * y - 3.0 * x, to.1 - 6.0 * x - 3.0 * y),
            ];
            let _ = write!(svg, "<polygon class=\"p\" points=\"{}\"/>", points(&head));
        } else {
            let _ = write!(svg, "<polyline class=\"z\" points=\"{line}\"/>");
        }
    }
    badge(svg, jet.badge, jet.heater, on);
}

/// A heater's number: white on dark while it is on, dark on white while it is off.
pub fn badge(svg: &mut String, at: Point, heater: usize, on: bool) {
    let class = if on { "b" } else { "n" };
    let (x, y) = (short(at.0), short(at.1));
    let _ = write!(
        svg,
        "<circle class=\"{class}\" cx=\"{x}\" cy=\"{y}\" r=\"{BADGE}\"/>"
    );
    let w = Words {
        text: (heater + 1).to_string(),
        at,
        anchor: Anchor::Middle,
        size: 12.0,
        bold: true,
        quiet: false,
    };
    words(svg, &w, Some(if on { "#fff" } else { "#5c1a66" }));
}

/// A drop of water.
pub fn drop_at(svg: &mut String, (x, y): Point) {
    let _ = write!(
        svg,
        "<path class=\"w\" d=\"M{} {}c2.4 3.4 3.8 5.2 3.8 7.2a3.8 3.8 0 0 1-7.6 0c0-2 1.4-3.8 3.8-7.2z\"/>",
        short(x),
        short(y - 6.0)
    );
}

/// Words, in an ink of their own if one is given.
pub fn words(svg: &mut String, w: &Words, ink: Option<&str>) {
    let anchor = match w.anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    };
    let bold = if w.bold { " font-weight=\"bold\"" } else { "" };
    let class = if w.quiet { " class=\"q\"" } else { "" };
    let ink = ink.map_or(String::new(), |ink| format!(" style=\"fill:{ink}\""));
    // Figures are about 0.73 of the height of a line; their middle goes where the point is.
    let (x, y) = (short(w.at.0), short(w.at.1 + 0.36 * w.size));
    let _ = write!(
        svg,
        "<text x=\"{x}\" y=\"{y}\" font-size=\"{}\"{anchor}{bold}{class}{ink}>{}</text>",
        w.size,
        escaped(&w.text)
    );
}

/// An outline, with a name that a pointer over it shows.
fn outline(svg: &mut String, outline: &Outline, attributes: &str, label: &str) {
    let name = match label {
        "" => String::new(),
        label => format!("<title>{}</title>", escaped(label)),
    };
    let _ = match outline {
        Outline::Polygon(corners) => {
            write!(
                svg,
                "<polygon {attributes} points=\"{}\">{name}</polygon>",
                points(corners)
            )
        }
        Outline::Disc((x, y), r) => {
            let (x, y, r) = (short(*x), short(*y), short(*r));
            write!(
                svg,
                "<circle {attributes} cx=\"{x}\" cy=\"{y}\" r=\"{r}\">{name}</circle>"
            )
        }
    };
}

fn points(points: &[Point]) -> String {
    let each: Vec<String> = points
        .iter()
        .map(|p| format!("{},{}", short(p.0), short(p.1)))
        .collect();
    each.join(" ")
}

/// A number to a tenth of a pixel, as short as it can be.
pub fn short(value: f64) -> String {
    let tenths = (value * 10.0).round() / 10.0;
    if tenths == 0.0 {
        "0".to_owned()
    } else {
        tenths.to_string()
    }
}

/// Text as XML holds it.
pub fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}
