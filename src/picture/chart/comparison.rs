//! Several nights in one chart: the coldest engine part of each choice, and the minimum.

use super::figure::Figure;
use super::line::{COLDEST, Line, PLAIN, THIN, air, coldest, degrees, look, median};
use super::numbers::slug;
use super::temperature::degrees_panel;
use super::view::{Chart, ChartView};
use crate::night::Night;
use crate::picture::draw::colour;
use crate::study::compare::Comparison;
use crate::study::quantile::Band;
use crate::study::rank::Group;
use crate::trace::Trace;

/// A choice as the chart shows it.
#[derive(Debug, Clone, Copy)]
pub struct Choice<'a> {
    /// Its name.
    pub name: &'a str,
    /// Its nominal night.
    pub trace: &'a Trace,
    /// Whether it is ready: drawn in colour, if it is among the first four that are.
    pub ready: bool,
    /// The coldest part in the simulated nights, °C, drawn as median and ribbon in place of the nominal night; empty
    /// without simulated nights.
    pub bands: &'a [Band],
}

impl<'a> Choice<'a> {
    /// A choice of which only the nominal night is known: ready if its coldest part reaches the minimum.
    pub fn nominal(name: &'a str, night: &'a Night) -> Self {
        let margin_k = night.findings.ready.margin_k;
        Self {
            name,
            trace: &night.trace,
            ready: margin_k.is_some_and(|k| k >= 0.0),
            bands: &[],
        }
    }
}

/// The choices of a comparison, with their simulated nights if it has them: ready if they may be used and are ready in half
/// of the nights or more.
pub fn choices(comparison: &Comparison) -> Vec<Choice<'_>> {
    let nights = comparison.nights.iter().enumerate();
    nights
        .map(|(k, (name, night))| {
            let chance = comparison.chances.as_ref().and_then(|c| c.choices.get(k));
            match chance {
                None => Choice::nominal(name, night),
                Some(chance) => Choice {
                    name,
                    trace: &night.trace,
                    ready: chance.group != Group::Hazard
                        && chance.bands.ready.is_some_and(|ready| ready.share >= 0.5),
                    bands: &chance.bands.coldest_over_time_c,
                },
            }
        })
        .collect()
}

/// The coldest engine part of each choice, in the order of their rank. All nights share the first one's clock and
/// hangar.
pub fn coldest_parts(choices: &[Choice], view: &ChartView) -> Chart {
    let empty = Trace::default();
    let first = choices.first().map_or(&empty, |c| c.trace);
    let hangar = first.legend.hangar;
    let mut lines = vec![air("hangar air", first, hangar, true, view.units)];
    let mut coloured = 0;
    for (k, choice) in choices.iter().enumerate() {
        let (key, name) = (
            format!("{}_{}_coldest", k + 1, slug(choice.name)),
            format!("{}: {}", k + 1, choice.name),
        );
        let nominal = Line {
            key: key.clone(),
            name: name.clone(),
            points: degrees(coldest(choice.trace), view.units),
            ribbon: None,
            colour: look(coloured).0,
            width: PLAIN,
            dashes: look(coloured).1,
        };
        let line = match choice.bands {
            [] => nominal,
            bands => median(&key, &name, bands, view.units, coloured),
        };
        let shown = choice.ready && coloured < colour::SERIES.len();
        coloured += usize::from(shown);
        lines.push(match (shown, k) {
            (true, 0) => Line {
                width: COLDEST,
                ..line
            },
            (true, _) => line,
            (false, _) => Line {
                ribbon: None,
                colour: colour::MUTED,
                width: THIN,
                dashes: &[],
                ..line
            },
        });
    }
    let found = choices.first().and_then(|c| {
        let (_, said) = view.coldest(c.trace)?;
        Some(format!("First, {}: coldest part {said}", c.name))
    });
    let drawn = match choices.iter().all(|c| c.bands.is_empty()) {
        true => "",
        false => " (median; ribbon: 10 to 90 % of simulated nights)",
    };
    let what = format!(
        "{}; the coldest engine part of each choice{drawn}, numbered by rank; grey: not ready in half of the nights, or not to be used",
        view.units.symbol()
    );
    let panels = vec![degrees_panel(view, lines)];
    let mut shown = Figure::of(
        first,
        view,
        (found.unwrap_or_default(), &what),
        panels,
        vec![],
    );
    let ends = choices.iter().filter_map(|c| c.trace.times_s.last());
    shown.end_s = ends.copied().fold(0.0, f64::max);
    shown.chart()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawn_night;
    use crate::picture::draw::Shape;

    fn choice<'a>(name: &'a str, trace: &'a Trace, ready: bool) -> Choice<'a> {
        Choice {
            name,
            trace,
            ready,
            bands: &[],
        }
    }

    #[test]
    fn every_choice_is_named() {
        let (one, clock) = (drawn_night::trace(), drawn_night::clock());
        let drawn = coldest_parts(
            &[
                choice("top", &one, true),
                choice("pad & plugs", &one, false),
            ],
            &drawn_night::view(&clock),
        );
        let words = |text: &str| {
            let mut shapes = drawn.picture.shapes.iter();
            shapes.any(|s| matches!(s, Shape::Words(w) if w.text == text))
        };
        assert!(words("1: top") && words("2: pad & plugs"));
        let head = String::from_utf8(drawn.csv).unwrap();
        assert!(head.starts_with(
            "time_h,clock,hangar_air_degF,1_top_coldest_degF,2_pad_plugs_coldest_degF\n"
        ));
    }

    /// The first four that are ready in the four colours, each with dashes of its own; the others grey and thin.
    #[test]
    fn only_what_is_ready_is_in_colour_and_no_more_than_four() {
        let (one, clock) = (drawn_night::trace(), drawn_night::clock());
        let ready = [true, false, true, true, true, true];
        let names = ["a", "b", "c", "d", "e", "f"];
        let choices: Vec<_> = (0..6).map(|k| choice(names[k], &one, ready[k])).collect();
        let drawn = coldest_parts(&choices, &drawn_night::view(&clock));
        let lines = drawn.picture.shapes.iter().filter_map(|s| match s {
            Shape::Line(points, stroke) if points.len() > 20 => Some(stroke),
            _ => None,
        });
        let lines: Vec<_> = lines.collect();
        let of = |colour| lines.iter().filter(move |s| s.colour == colour);
        let mut dashes: Vec<&Vec<f64>> = Vec::new();
        for series in colour::SERIES {
            assert_eq!(of(series).count(), 1);
            let stroke = of(series).next().unwrap();
            assert!(stroke.width > THIN && !dashes.contains(&&stroke.dashes));
            dashes.push(&stroke.dashes);
        }
        assert!(of(colour::SERIES[0]).all(|s| s.width == COLDEST));
        let grey = of(colour::MUTED).filter(|s| s.width == THIN);
        assert_eq!(grey.count(), 2);
    }
}
