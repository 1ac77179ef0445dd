//! The chart of a page, for a sheet and for a telephone: a page shows the one that fits.

use super::data::Chart;
use crate::night::Night;
use crate::picture::chart::{self, Breadth, ChartView};
use crate::picture::draw::colour::Theme;
use crate::picture::draw::svg::file;

/// Both pictures of what `draw` draws of this night.
pub fn both(night: &Night, title: &str, draw: impl Fn(&ChartView) -> chart::Chart) -> Chart {
    // The chart says what its lines are, and a page is printed.
    let sheet = ChartView::of(night, title, "", Theme::Light);
    let drawn = |breadth| file(&draw(&ChartView { breadth, ..sheet }).picture, "");
    Chart {
        sheet: drawn(Breadth::Sheet),
        phone: drawn(Breadth::Phone),
    }
}
