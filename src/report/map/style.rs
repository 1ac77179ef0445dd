//! How lines and words of a map look, in a file and in a page alike.

use super::scale::hex;
use crate::report::colour::{self, Colour, Theme};

/// The style sheet. What marks an engine (heaters, drops, the coldest part) lies on its colours, which are the same on
/// both papers, and has an edge of its own; words and lines beside it are in the ink of the paper.
pub fn style(paper: Theme) -> String {
    let (text, quiet) = (shown(paper, colour::TEXT), shown(paper, colour::MUTED));
    format!(
        "\
.m text{{font-family:sans-serif;fill:{text};dominant-baseline:auto}}\
.m .q{{fill:{quiet}}}\
.m .s{{stroke-width:1;stroke-linejoin:round}}\
.m .o{{stroke-width:.5;stroke-linejoin:round}}\
.m .a{{stroke:none}}\
.m .x{{fill:none;stroke:{text};stroke-width:.8;stroke-dasharray:14 3 3 3}}\
.m .e{{fill:none;stroke:{text};stroke-width:1}}\
.m .c{{fill:none;stroke:#fff;stroke-width:6;stroke-linejoin:round}}\
.m .k{{fill:none;stroke:#b3005e;stroke-width:3;stroke-linejoin:round}}\
.m .w{{fill:#fff;stroke:#000;stroke-width:1}}\
.m .h{{fill:none;stroke:#fff;stroke-width:6}}\
.m .j{{fill:none;stroke:#5c1a66;stroke-width:2.6}}\
.m .z{{fill:none;stroke:#5c1a66;stroke-width:1.4;stroke-dasharray:3 4}}\
.m .p{{fill:#5c1a66;stroke:#fff;stroke-width:1}}\
.m .b{{fill:#5c1a66;stroke:#fff;stroke-width:1.5}}\
.m .n{{fill:#fff;stroke:#5c1a66;stroke-width:1.5}}"
    )
}

/// The ground that a map of its own is drawn on, a pixel over its edge, which may be a part of one.
pub fn ground(paper: Theme, (wide, high): (f64, f64)) -> String {
    let colour = shown(paper, colour::BACKGROUND);
    let (wide, high) = (wide.ceil() + 1.0, high.ceil() + 1.0);
    format!("<rect width=\"{wide}\" height=\"{high}\" fill=\"{colour}\"/>")
}

fn shown(paper: Theme, ink: Colour) -> String {
    let Colour(red, green, blue) = paper.shown(ink);
    hex([red, green, blue])
}
