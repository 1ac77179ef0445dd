//! A picture as SVG text.

use super::colour::Colour;
use super::shape::{Anchor, Area, HALO, Outline, Picture, Point, Shape, Stroke, Words};
use std::fmt::Write;

/// A picture in a file of its own; `comment` is kept as metadata, which viewers do not draw.
pub fn file(picture: &Picture, comment: &str) -> String {
    let (wide, high) = (number(picture.size.0), number(picture.size.1));
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide}\" height=\"{high}\" viewBox=\"0 0 {wide} {high}\" \
         role=\"img\" {ATTRIBUTES}>\n"
    );
    for (tag, text) in [
        ("metadata", comment),
        ("title", &picture.title),
        ("desc", &picture.description),
    ] {
        if !text.is_empty() {
            let _ = writeln!(svg, "<{tag}>{}</{tag}>", escaped(text));
        }
    }
    // A pixel over its edge, which may be a part of one.
    let (wide, high) = (picture.size.0.ceil() + 1.0, picture.size.1.ceil() + 1.0);
    let fill = picture.background.hex();
    let _ = writeln!(
        svg,
        "<rect width=\"{wide}\" height=\"{high}\" fill=\"{fill}\"/>"
    );
    svg + &shapes(&picture.shapes) + "</svg>\n"
}

/// What the element around [`shapes`] says of all of them.
pub const ATTRIBUTES: &str = "font-family=\"sans-serif\" stroke-linejoin=\"round\"";

/// Shapes without anything around them, a line each.
pub fn shapes(shapes: &[Shape]) -> String {
    let mut svg = String::new();
    for shape in shapes {
        match shape {
            Shape::Line(points, stroke) => {
                let points = list(points);
                let stroke = stroked(Some(stroke));
                let _ = writeln!(svg, "<polyline fill=\"none\"{stroke} points=\"{points}\"/>");
            }
            Shape::Area(shape) => area(&mut svg, shape),
            Shape::Words(shape) => words(&mut svg, shape),
        }
    }
    svg
}

fn area(svg: &mut String, area: &Area) {
    let fill = area.fill.map_or("none".to_owned(), Colour::hex);
    let opacity = match area.opacity {
        1.0 => String::new(),
        part => format!(" fill-opacity=\"{part}\""),
    };
    let look = format!("fill=\"{fill}\"{opacity}{}", stroked(area.edge.as_ref()));
    let (tag, place) = match &area.outline {
        Outline::Polygon(corners) => ("polygon", format!("points=\"{}\"", list(corners))),
        Outline::Disc((x, y), r) => {
            let (x, y, r) = (number(*x), number(*y), number(*r));
            ("circle", format!("cx=\"{x}\" cy=\"{y}\" r=\"{r}\""))
        }
    };
    let _ = match area.name.as_str() {
        "" => writeln!(svg, "<{tag} {look} {place}/>"),
        name => writeln!(
            svg,
            "<{tag} {look} {place}><title>{}</title></{tag}>",
            escaped(name)
        ),
    };
}

fn stroked(stroke: Option<&Stroke>) -> String {
    let Some(stroke) = stroke else {
        return String::new();
    };
    let mut text = format!(" stroke=\"{}\"", stroke.colour.hex());
    if stroke.width != 1.0 {
        let _ = write!(text, " stroke-width=\"{}\"", number(stroke.width));
    }
    if !stroke.dashes.is_empty() {
        let dashes: Vec<String> = stroke.dashes.iter().map(|d| number(*d)).collect();
        let _ = write!(text, " stroke-dasharray=\"{}\"", dashes.join(" "));
    }
    text
}

fn words(svg: &mut String, words: &Words) {
    let anchor = match words.anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    };
    let bold = if words.style.bold {
        " font-weight=\"bold\""
    } else {
        ""
    };
    let halo = words.halo.map_or(String::new(), |colour| {
        format!(
            " stroke=\"{}\" stroke-width=\"{HALO}\" paint-order=\"stroke\"",
            colour.hex()
        )
    });
    let _ = writeln!(
        svg,
        "<text x=\"{}\" y=\"{}\" font-size=\"{}\"{anchor}{bold} fill=\"{}\"{halo}>{}</text>",
        number(words.at.0),
        number(words.baseline_y()),
        number(words.style.size),
        words.style.colour.hex(),
        escaped(&words.text)
    );
}

fn list(points: &[Point]) -> String {
    let each: Vec<String> = points
        .iter()
        .map(|p| number(p.0) + "," + &number(p.1))
        .collect();
    each.join(" ")
}

/// A number to a tenth of a pixel, as short as it can be.
fn number(value: f64) -> String {
    let tenths = (value * 10.0).round() / 10.0;
    if tenths == 0.0 {
        "0".to_owned()
    } else {
        tenths.to_string()
    }
}

/// Text as XML holds it, without control characters, which it cannot hold.
pub fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
        .replace(|c: char| c.is_control() && c != '\n', "?")
}

#[cfg(test)]
mod tests {
    use super::super::colour::{BACKGROUND, TEXT};
    use super::super::font::TextStyle;
    use super::*;

    #[test]
    fn a_file_has_its_size_and_escapes_every_text() {
        let (text, style) = ("a < b & \"c\"", TextStyle::bold(10.0));
        let words = Words::new(text, (-1.0 / 3.0, 10.0), Anchor::Middle, style);
        let name = "one > two".to_owned();
        let disc = Area {
            name,
            ..Area::edged(Outline::Disc((5.0, 5.0), 2.0), TEXT, 1.0)
        };
        let picture = Picture {
            size: (200.0, 100.5),
            background: BACKGROUND,
            title: "R&D".to_owned(),
            description: String::new(),
            shapes: vec![Shape::Words(words), Shape::Area(disc)],
        };
        let svg = file(&picture, "night <\u{7}>.ron");
        for part in [
            "width=\"200\" height=\"100.5\" viewBox=\"0 0 200 100.5\"",
            "<metadata>night &lt;?&gt;.ron</metadata>\n<title>R&amp;D</title>\n<rect",
            "<text x=\"-0.3\" y=\"13.6\" font-size=\"10\" text-anchor=\"middle\" font-weight=\"bold\" \
             fill=\"#22262b\">a &lt; b &amp; &quot;c&quot;</text>",
            "<circle fill=\"none\" stroke=\"#22262b\" cx=\"5\" cy=\"5\" r=\"2\"><title>one &gt; two</title></circle>",
        ] {
            assert!(svg.contains(part), "{part} in {svg}");
        }
    }
}
