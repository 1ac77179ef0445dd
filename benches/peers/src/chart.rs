//! The chart: a panel a night, cost against error, both by powers of ten.

use crate::bench::Point;
use crate::methods::Method;
use plotters::prelude::*;
use plotters::style::register_font;
use std::error::Error;
use std::path::Path;

const SIZE: (u32, u32) = (1120, 2000);
/// The font of coldsoak's own charts.
const REGULAR: &[u8] = include_bytes!("../../../assets/DejaVuSans-subset.ttf");
/// Okabe and Ito's colours first, told apart by colour-blind eyes too; then greys and a pale green, and diffsol's dark red.
const COLOURS: [RGBColor; 10] = [
    RGBColor(213, 94, 0),
    RGBColor(0, 0, 0),
    RGBColor(0, 114, 178),
    RGBColor(86, 180, 233),
    RGBColor(90, 90, 90),
    RGBColor(0, 158, 115),
    RGBColor(140, 200, 120),
    RGBColor(204, 121, 167),
    RGBColor(230, 159, 0),
    RGBColor(130, 20, 60),
];

/// Draws it.
pub fn draw(points: &[Point], path: &Path) -> Result<(), Box<dyn Error>> {
    register_font("sans-serif", FontStyle::Normal, REGULAR)
        .map_err(|_| "the bundled font cannot be read")?;
    let root = SVGBackend::new(path, SIZE).into_drawing_area();
    root.fill(&WHITE)?;
    let mut nights: Vec<(&str, usize)> = points.iter().map(|p| (&*p.night, p.states)).collect();
    nights.dedup();
    let mut methods: Vec<Method> = Vec::new();
    for p in points {
        if !methods.contains(&p.method) {
            methods.push(p.method);
        }
    }
    for (&(night, states), area) in nights.iter().zip(root.split_evenly((5, 2))) {
        let of: Vec<&Point> = points
            .iter()
            .filter(|p| p.night == night && p.states == states)
            .collect();
        let most = of.iter().map(|p| p.cpu_ms[0]).fold(0.0, f64::max) * 1.5;
        let least = of.iter().map(|p| p.cpu_ms[0]).fold(f64::MAX, f64::min) / 1.5;
        let errors = || of.iter().map(|p| p.error_k[0]).filter(|&e| e > 0.0);
        let (best, worst) = (
            errors().fold(f64::MAX, f64::min),
            errors().fold(0.0, f64::max),
        );
        let mut chart = ChartBuilder::on(&area)
            .caption(format!("{night}, {states} states"), ("sans-serif", 17))
            .margin(10)
            .x_label_area_size(40)
            .y_label_area_size(60)
            .build_cartesian_2d(
                (best / 1.5..worst * 1.5).log_scale(),
                (least..most).log_scale(),
            )?;
        chart
            .configure_mesh()
            .x_desc("largest error of an engine cell, K")
            .y_desc("CPU, ms (median)")
            .x_label_formatter(&|x| format!("{x}"))
            .y_label_formatter(&|y| format!("{y}"))
            .light_line_style(RGBColor(240, 240, 240))
            .draw()?;
        for (number, &method) in methods.iter().enumerate() {
            let colour = COLOURS[number % COLOURS.len()];
            let width = if method.is_ours() { 3 } else { 1 };
            let line: Vec<(f64, f64)> = of
                .iter()
                .filter(|p| p.method == method && p.error_k[0] > 0.0)
                .map(|p| (p.error_k[0], p.cpu_ms[0]))
                .collect();
            if line.is_empty() {
                continue;
            }
            // In the order of the settings, so that an error that does not fall is seen.
            chart
                .draw_series(LineSeries::new(line.clone(), colour.stroke_width(width)))?
                .label(method.name())
                .legend(move |(x, y)| {
                    PathElement::new([(x, y), (x + 18, y)], colour.stroke_width(width))
                });
            chart.draw_series(
                line.into_iter()
                    .map(|p| Circle::new(p, 2 + width, colour.filled())),
            )?;
        }
        chart
            .configure_series_labels()
            .position(SeriesLabelPosition::UpperRight)
            .background_style(WHITE.mix(0.85))
            .border_style(RGBColor(200, 200, 200))
            .label_font(("sans-serif", 12))
            .draw()?;
    }
    root.present()?;
    Ok(())
}
