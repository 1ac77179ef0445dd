//! The chart of a page, for a sheet and for a telephone: a page shows the one that fits.

use super::data::Chart;
use crate::night::Night;
use crate::report::canvas::DrawError;
use crate::report::chart::{Breadth, ChartView, Picture};
use crate::report::colour::Theme;

/// Both pictures of what `draw` draws of this night.
///
/// *Errors*: the drawing failed, which is a fault of the program.
pub fn both(
    night: &Night,
    title: &str,
    draw: impl Fn(&ChartView) -> Result<Picture, DrawError>,
) -> Result<Chart, DrawError> {
    // The chart says what its lines are, and a page is printed.
    let sheet = ChartView::of(night, title, "", Theme::Light);
    let drawn = |breadth| {
        let view = ChartView { breadth, ..sheet };
        Ok(draw(&view)?.svg)
    };
    Ok(Chart {
        sheet: drawn(Breadth::Sheet)?,
        phone: drawn(Breadth::Phone)?,
    })
}
