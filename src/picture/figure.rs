//! A picture of a result as a report holds it: a chart in two breadths, or the engine at moments of its night.

use super::chart::{Chart, ChartView};
use super::draw::colour::Theme;
use super::draw::{Look, Picture, Point, Size};
use super::map::{Map, moments};
use crate::night::Night;

/// What a report shows beside its words.
#[derive(Debug, Clone)]
pub enum Figure {
    /// A chart, for a sheet and for a telephone.
    Chart {
        /// For a sheet.
        sheet: Picture,
        /// For a telephone.
        phone: Picture,
    },
    /// The engine through the night.
    Map {
        /// The pieces of each picture that can stand apart.
        views: Vec<View>,
        /// The moments in order.
        moments: Vec<Moment>,
    },
}

/// A piece of a picture that can stand apart.
#[derive(Debug, Clone)]
pub struct View {
    /// What it shows.
    pub title: String,
    /// Its upper left corner.
    pub from: Point,
    /// Its lower right corner.
    pub to: Point,
}

/// A moment of a night.
#[derive(Debug, Clone)]
pub struct Moment {
    /// By the clock.
    pub clock: String,
    /// What happens then.
    pub name: String,
    /// Whether it is the departure.
    pub departure: bool,
    /// The engine then.
    pub picture: Picture,
}

impl Figure {
    /// What `draw` draws of this night, in the light theme: a chart says what its lines are, and a page is printed.
    pub fn chart(night: &Night, title: &str, draw: impl Fn(&ChartView) -> Chart) -> Self {
        let drawn = |size| {
            let theme = Theme::Light;
            draw(&ChartView::of(night, title, "", Look { theme, size })).picture
        };
        Self::Chart {
            sheet: drawn(Size::Page),
            phone: drawn(Size::Phone),
        }
    }

    /// The engine at the moments of a night that matter.
    pub fn map(night: &Night) -> Self {
        // The size of a telephone, so that each piece can be read on one.
        let size = Size::Phone;
        let theme = Theme::Light;
        let map = Map::of(night, Look { theme, size });
        let clock = night.scenario.clock();
        let moments = moments(night).into_iter().map(|(time_s, name)| Moment {
            clock: clock.dated(time_s),
            name,
            departure: time_s == night.trace.departure_s,
            picture: map.picture(time_s),
        });
        let views = map.boxes().into_iter();
        let views = views.map(|(title, (from, to))| View { title, from, to });
        Self::Map {
            views: views.collect(),
            moments: moments.collect(),
        }
    }
}
