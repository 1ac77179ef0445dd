//! The map of one night: a drawing, its colours, and any moment of it as a picture.

use super::drawing::Drawing;
use super::jets::{Jet, jets};
use super::labels::{Label, labels};
use super::moment::Moment;
use super::paint::{engine, marks, words};
use super::panel::{self, Panel};
use super::scale::Scale;
use super::sheet::{self, MARGIN, Room};
use crate::findings::Coldest;
use crate::night::Night;
use crate::picture::draw::colour::{BACKGROUND, Colour};
use crate::picture::draw::{Look, Picture, Point};
use crate::picture::text::{Heading, beside_minimum};
use crate::quantity::Units;

/// Samples of the night that the scale of colours looks at.
const LOOKS: usize = 48;
/// What is marked on a map.
const MARKS: &str = "; outlined: coldest engine part; drop: water or frost on the inner wall";
/// Left free round a piece that stands apart.
const ROUND: f64 = 8.0;

/// The map of a night.
pub struct Map<'a> {
    /// The night.
    pub night: &'a Night,
    /// Colours and size.
    pub look: Look,
    /// What is drawn.
    pub drawing: Drawing,
    /// Where heaters are drawn.
    pub jets: Vec<Jet>,
    /// The colours, the same through the night.
    pub scale: Scale,
    /// The size of the panel.
    panel: Point,
}

impl<'a> Map<'a> {
    /// The map of a night.
    pub fn of(night: &'a Night, look: Look) -> Self {
        let scenario = night.scenario.scenario();
        let min_c = scenario.criteria.min_temperature.celsius();
        let panel = panel::size(night, look.size);
        let mut map = Self {
            night,
            look,
            drawing: Drawing::default(),
            jets: Vec::new(),
            scale: Scale::holding([].into_iter(), min_c, scenario.units),
            panel,
        };
        map.drawing = sheet::drawing(
            night,
            &Room {
                size: look.size,
                top: map.highest_heading() + 4.0,
                panel,
            },
        );
        let end_s = night.trace.times_s.last().copied().unwrap_or(0.0);
        let looks = (0..=LOOKS).map(|k| end_s * k as f64 / LOOKS as f64);
        let seen: Vec<f64> = looks
            .flat_map(|t| {
                let row = night.trace.at(t);
                let each = map.drawing.subjects.iter().map(move |s| s.celsius(&row));
                each.collect::<Vec<_>>()
            })
            .collect();
        map.scale = Scale::holding(seen.into_iter(), min_c, scenario.units);
        let times = [0.0, night.trace.departure_s].into_iter();
        let labels = times.flat_map(|time_s| map.labels(&map.moment(time_s)));
        let taken: Vec<_> = labels.map(|label| label.bounds()).collect();
        map.jets = jets(&map.drawing, night, &taken);
        map
    }
    /// The reader's degrees.
    pub fn units(&self) -> Units {
        self.night.scenario.scenario().units
    }
    /// A moment of the night.
    pub fn moment(&self, time_s: f64) -> Moment {
        Moment::of(&self.drawing, self.night, time_s)
    }
    /// The colours of all subjects at a moment.
    pub fn colours(&self, moment: &Moment) -> Vec<Colour> {
        let celsius = moment.celsius.iter();
        celsius.map(|c| self.scale.colour(*c)).collect()
    }
    /// What is written on the drawing at a moment.
    pub fn labels(&self, moment: &Moment) -> Vec<Label> {
        let most = self.look.size.most_names();
        labels(&self.drawing, moment, self.units(), most)
    }
    /// The panel.
    pub fn panel(&self) -> Panel<'_> {
        Panel {
            at: self.drawing.panel,
            wide: self.panel.0,
            night: self.night,
            scale: self.scale,
            units: self.units(),
        }
    }
    /// The finding of a moment, the night, the unit, and what else is drawn.
    pub fn heading(&self, moment: &Moment, what: &str) -> Heading {
        self.heading_of(moment.coldest.as_ref(), moment.time_s, what)
    }
    fn heading_of(&self, coldest: Option<&Coldest>, time_s: f64, what: &str) -> Heading {
        let headline = self.headline(coldest, time_s);
        let note = format!(
            "{} · {}{what}",
            self.night.scenario.scenario().title,
            self.units().symbol()
        );
        let width = self.look.size.width() - 2.0 * MARGIN;
        Heading::of(&headline, &note, self.look.size, width)
    }
    /// The height of the highest heading that any part and any time make.
    fn highest_heading(&self) -> f64 {
        let cells = self.night.trace.legend.cells.iter().filter(|c| c.engine);
        let heights = cells.map(|cell| {
            let coldest = Coldest {
                part: cell.part.clone(),
                label: cell.label.clone(),
                temp_c: self.scale.min_c - 100.0,
            };
            let end_s = self.night.trace.departure_s;
            self.heading_of(Some(&coldest), end_s, MARKS).high()
        });
        heights.fold(self.heading_of(None, 0.0, MARKS).high(), f64::max)
    }
    fn headline(&self, coldest: Option<&Coldest>, time_s: f64) -> String {
        let at = self.night.scenario.clock().dated(time_s);
        coldest.map_or(format!("The engine at {at}"), |c| {
            let said = beside_minimum(c.temp_c, self.scale.min_c, self.units(), &at);
            format!("Coldest part: {}, {said}", c.label)
        })
    }
    /// What a reader hears in place of the picture.
    pub fn description(&self, moment: &Moment) -> String {
        let headline = self.headline(moment.coldest.as_ref(), moment.time_s);
        let ((under, of), wet) = (moment.under, moment.wet.len());
        format!(
            "{headline}. Engine parts below the minimum: {under} of {of}. Inner walls that are wet: {wet}."
        )
    }
    /// The pieces of the sheet that can stand apart: the panel and the views, in pixels.
    pub fn boxes(&self) -> Vec<(String, (Point, Point))> {
        let (at, size) = (self.drawing.panel, self.panel);
        let panel = (at, (at.0 + size.0, at.1 + size.1));
        let views = self.drawing.views.iter().map(|v| {
            let from = (v.from.0, v.from.1 - 16.0);
            (v.title.clone(), (from, v.to))
        });
        let pieces = [("Time and scale".to_owned(), panel)]
            .into_iter()
            .chain(views);
        let zoom = self.look.size.zoom();
        let round = |(name, (from, to)): (String, (Point, Point))| {
            let from = (zoom * (from.0 - ROUND), zoom * (from.1 - ROUND));
            (name, (from, (zoom * (to.0 + ROUND), zoom * (to.1 + ROUND))))
        };
        pieces.map(round).collect()
    }
    /// A moment as a picture.
    pub fn picture(&self, time_s: f64) -> Picture {
        let theme = self.look.theme;
        let moment = self.moment(time_s);
        let colours = self.colours(&moment);
        // What is the same at every moment comes first, so that a page can hold it once.
        let mut shapes: Vec<_> = self.drawing.words.iter().map(|w| words(w, theme)).collect();
        shapes.extend(self.panel().still(theme));
        shapes.extend(engine(&self.drawing, &colours, theme));
        let labels = self.labels(&moment);
        shapes.extend(marks(
            &self.drawing,
            &moment,
            &colours,
            (&self.jets, &labels),
            theme,
        ));
        shapes.extend(self.panel().moving(&moment, theme));
        let heading = self.heading(&moment, MARKS).words(MARGIN);
        shapes.extend(heading.iter().map(|w| words(w, theme)));
        let picture = Picture {
            size: self.drawing.size,
            background: theme.shown(BACKGROUND),
            title: self.night.scenario.scenario().title.clone(),
            description: self.description(&moment),
            shapes,
        };
        picture.sized(self.look.size)
    }
}
