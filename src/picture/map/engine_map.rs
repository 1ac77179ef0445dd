//! The map of one night: a drawing, its colours, and any moment of it as a picture.

use super::drawing::Drawing;
use super::jets::{Jet, jets};
use super::moment::Moment;
use super::paint::{engine, marks, words};
use super::panel::Panel;
use super::scale::Scale;
use super::sheet::{self, PANEL, PANEL_HIGH};
use crate::night::Night;
use crate::picture::draw::colour::{BACKGROUND, Colour, Theme};
use crate::picture::draw::{Picture, Point};
use crate::quantity::{Temperature, Units};

/// Samples of the night that the scale of colours looks at.
const LOOKS: usize = 48;

/// The map of a night.
pub struct Map<'a> {
    /// The night.
    pub night: &'a Night,
    /// What is drawn.
    pub drawing: Drawing,
    /// Where heaters are drawn.
    pub jets: Vec<Jet>,
    /// The colours, the same through the night.
    pub scale: Scale,
}

impl<'a> Map<'a> {
    /// The map of a night.
    pub fn of(night: &'a Night) -> Self {
        let drawing = sheet::drawing(night);
        let end_s = night.trace.times_s.last().copied().unwrap_or(0.0);
        let looks = (0..=LOOKS).map(|k| end_s * k as f64 / LOOKS as f64);
        let seen: Vec<f64> = looks
            .flat_map(|t| {
                let row = night.trace.at(t);
                let each = drawing.subjects.iter().map(move |s| s.celsius(&row));
                each.collect::<Vec<_>>()
            })
            .collect();
        let threshold_c = night.scenario.scenario().criteria.min_temperature.celsius();
        Self {
            jets: jets(&drawing, night),
            scale: Scale::holding(seen.into_iter(), threshold_c),
            drawing,
            night,
        }
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
    /// The panel.
    pub fn panel(&self) -> Panel<'_> {
        Panel {
            drawing: &self.drawing,
            night: self.night,
            scale: self.scale,
            units: self.units(),
        }
    }
    /// What a reader hears in place of the picture.
    pub fn told(&self, moment: &Moment) -> String {
        let clock = self.night.scenario.clock().dated(moment.time_s);
        let coldest = moment.coldest.as_ref().map_or(String::new(), |c| {
            let at = Temperature::degC(c.temp_c).told(self.units());
            format!(" The coldest engine part is the {}, at {at}.", c.label)
        });
        let (under, of) = moment.under;
        let wet = moment.wet.len();
        format!(
            "The engine at {clock}.{coldest} Engine parts below the minimum: {under} of {of}. Inner walls that are wet: {wet}."
        )
    }
    /// The pieces of the sheet that can stand apart on a narrow page: the views, and the panel, which belongs to the
    /// view over it if there is one.
    pub fn boxes(&self) -> Vec<(String, (Point, Point))> {
        const ROUND: f64 = 8.0;
        let panel = self.drawing.panel;
        let panel_foot = panel.1 + PANEL_HIGH;
        let views = self.drawing.views.iter();
        let mut boxes: Vec<(String, (Point, Point))> = views
            .map(|v| {
                let from = (v.from.0 - ROUND, v.from.1 - 24.0);
                let to = (v.to.0 + ROUND, v.to.1 + v.key_high + ROUND);
                (v.title.clone(), (from, to))
            })
            .collect();
        let beneath = boxes.first().is_some_and(|b| panel.1 > b.1.1.1 - ROUND);
        if beneath {
            boxes[0].1.1.1 = panel_foot;
        } else {
            let from = (panel.0 - ROUND, panel.1 - ROUND);
            let to = (panel.0 + PANEL + ROUND, panel_foot);
            boxes.insert(1, ("Key".to_owned(), (from, to)));
        }
        boxes
    }
    /// A moment as a picture.
    pub fn picture(&self, time_s: f64, theme: Theme) -> Picture {
        let moment = self.moment(time_s);
        let colours = self.colours(&moment);
        let title = &self.night.scenario.scenario().title;
        // What is the same at every moment comes first, so that a page can hold it once.
        let mut shapes = vec![words(&sheet::heading(title), theme)];
        shapes.extend(self.drawing.words.iter().map(|w| words(w, theme)));
        shapes.extend(self.panel().still(theme));
        shapes.extend(engine(&self.drawing, &colours, theme));
        let how = (self.units(), theme);
        shapes.extend(marks(&self.drawing, &moment, &colours, &self.jets, how));
        shapes.extend(self.panel().moving(&moment, theme));
        Picture {
            size: self.drawing.size,
            background: theme.shown(BACKGROUND),
            title: title.clone(),
            description: self.told(&moment),
            shapes,
        }
    }
}
