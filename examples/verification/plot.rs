//! Points and lines on two logarithmic axes.

use plotters::prelude::*;
use plotters::style::register_font;
use std::error::Error;
use std::path::Path;

/// The font that comes with the project, so that no other is needed.
const FONT: &[u8] = include_bytes!("../../assets/DejaVuSans-subset.ttf");
/// Inks of the lines, in turn: distinguished by lightness as well as by hue.
const INKS: [RGBColor; 6] = [
    RGBColor(0x10, 0x22, 0x59),
    RGBColor(0xd3, 0x5a, 0x08),
    RGBColor(0x00, 0x6e, 0x55),
    RGBColor(0x7c, 0x2f, 0x96),
    RGBColor(0xb0, 0x80, 0x30),
    RGBColor(0x3a, 0x9b, 0xdc),
];

/// A line through points, drawn with a name in the legend if it has one.
pub struct Curve {
    /// What it is called.
    pub name: String,
    /// Which ink, counted from zero.
    pub ink: usize,
    /// Its points; all above zero.
    pub points: Vec<(f64, f64)>,
    /// Whether it is only for comparison: dashed, without marks.
    pub guide: bool,
}

/// What is written around it.
pub struct Words<'a> {
    /// Above.
    pub title: &'a str,
    /// Along the horizontal axis.
    pub across: &'a str,
    /// Along the vertical axis.
    pub up: &'a str,
}

/// Draws curves into an SVG file.
pub fn draw(path: &Path, words: &Words, curves: &[Curve]) -> Result<(), Box<dyn Error>> {
    register_font("sans-serif", FontStyle::Normal, FONT).map_err(|_| "the font cannot be read")?;
    let points = || curves.iter().flat_map(|c| &c.points);
    let ends = |of: &dyn Fn(&(f64, f64)) -> f64| {
        points()
            .map(of)
            .fold((f64::INFINITY, 0.0_f64), |(l, h), v| (l.min(v), h.max(v)))
    };
    let (left, right) = ends(&|p| p.0);
    let (low, high) = ends(&|p| p.1);
    let root = SVGBackend::new(path, (900, 560)).into_drawing_area();
    root.fill(&WHITE)?;
    let mut chart = ChartBuilder::on(&root)
        .caption(words.title, ("sans-serif", 20))
        .margin(14)
        .margin_right(30)
        .x_label_area_size(44)
        .y_label_area_size(80)
        .build_cartesian_2d(
            (left / 1.15..right * 1.15).log_scale().base(2.0),
            (low / 2.0..high * 2.0).log_scale(),
        )?;
    chart
        .configure_mesh()
        .x_desc(words.across)
        .y_desc(words.up)
        .x_label_formatter(&|x| format!("{x:.0}"))
        .y_label_formatter(&|y| format!("{y:.0e}"))
        .axis_desc_style(("sans-serif", 15))
        .label_style(("sans-serif", 13))
        .light_line_style(WHITE)
        .draw()?;
    for curve in curves {
        let ink = INKS[curve.ink % INKS.len()];
        let points = curve.points.iter().copied();
        if curve.guide {
            let dashed = DashedLineSeries::new(points, 5, 5, ink.mix(0.8).stroke_width(1));
            chart.draw_series(dashed)?;
            continue;
        }
        let line = chart.draw_series(LineSeries::new(points.clone(), ink.stroke_width(2)))?;
        if !curve.name.is_empty() {
            line.label(&curve.name).legend(move |(x, y)| {
                PathElement::new(vec![(x, y), (x + 18, y)], ink.stroke_width(2))
            });
        }
        chart.draw_series(points.map(|p| Circle::new(p, 3, ink.filled())))?;
    }
    chart
        .configure_series_labels()
        .position(SeriesLabelPosition::LowerLeft)
        .margin(12)
        .background_style(WHITE.mix(0.9))
        .border_style(RGBColor(0x8a, 0x92, 0x9b))
        .label_font(("sans-serif", 13))
        .draw()?;
    root.present()?;
    Ok(())
}
