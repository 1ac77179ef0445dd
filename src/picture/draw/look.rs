//! How a picture is shown: its colours and its size.

use super::colour::Theme;

/// The colours and the size of a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Look {
    /// Its colours.
    pub theme: Theme,
    /// Its size.
    pub size: Size,
}

/// What a picture is made for. Lengths are in units of which text on a page and its copies is 13 high.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Size {
    /// A screen or a quarter of a page: 880 pixels wide, text 13. On a landscape A6 sheet (148 mm) it is 2.2 mm high.
    #[default]
    Page,
    /// A telephone: 360 pixels wide, text 12.
    Phone,
    /// A projector: 1920 by 1080 pixels, text 28, lines at least 4 thick, at most five names.
    Projector,
}

impl Size {
    /// Pixels of a unit.
    pub fn zoom(self) -> f64 {
        match self {
            Self::Page => 1.0,
            Self::Phone => 12.0 / 13.0,
            Self::Projector => 28.0 / 13.0,
        }
    }
    /// The width of a picture, in units.
    pub fn width(self) -> f64 {
        match self {
            Self::Page => 880.0,
            Self::Phone => 360.0 / self.zoom(),
            Self::Projector => 1920.0 / self.zoom(),
        }
    }
    /// Its height, in units; none where it is as high as what it shows.
    pub fn height(self) -> Option<f64> {
        (self == Self::Projector).then(|| 1080.0 / self.zoom())
    }
    /// The most names on a picture.
    pub fn most_names(self) -> usize {
        match self {
            Self::Projector => 5,
            _ => usize::MAX,
        }
    }
    /// The width of a line that shows data, in units.
    pub fn line(self, width: f64) -> f64 {
        match self {
            Self::Projector => width.max(4.0 / self.zoom()),
            _ => width,
        }
    }
}
