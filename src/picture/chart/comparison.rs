//! Several nights in one chart: the coldest engine part of each choice, and the threshold.

use super::line::{Line, air, coldest, degrees, look};
use super::numbers::slug;
use super::temperature::{degrees_panel, figure};
use super::view::{Breadth, Chart, ChartView};
use crate::trace::Trace;

/// The coldest engine part of each named night, by the clock. Inks follow the order given, so that the
/// first of a ranking is the first colour. All nights share the first one's clock and hangar.
pub fn coldest_parts(nights: &[(&str, &Trace)], view: &ChartView) -> Chart {
    let empty = Trace::default();
    let first = nights.first().map_or(&empty, |n| n.1);
    let hangar = first.legend.hangar;
    let mut lines = vec![air("hangar air", first, hangar, false, view.units)];
    for (k, (name, trace)) in nights.iter().enumerate() {
        lines.push(Line {
            key: format!("{}_{}_coldest", k + 1, slug(name)),
            name: match view.breadth {
                Breadth::Sheet => format!("{}: {name}", k + 1),
                // The table beside it has the names.
                Breadth::Phone => format!("{}", k + 1),
            },
            points: degrees(coldest(trace), view.units),
            colour: look(k).0,
            width: 2.4,
            dashes: look(k).1,
        });
    }
    let what = "the coldest engine part of each choice, numbered by rank";
    let mut shown = figure(first, view, what, vec![degrees_panel(view, lines)], vec![]);
    shown.end_s = nights
        .iter()
        .filter_map(|(_, trace)| trace.times_s.last().copied())
        .fold(0.0, f64::max);
    shown.chart()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawn_night;
    use crate::picture::draw::Shape;

    #[test]
    fn every_choice_is_named() {
        let (one, clock) = (drawn_night::trace(), drawn_night::clock());
        let drawn = coldest_parts(
            &[("top", &one), ("pad & plugs", &one)],
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
}
