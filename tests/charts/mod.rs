//! Every chart of every built-in night, in both units: words stand apart and inside the sheet, and are large enough on
//! a quarter of a page; the heat balances; the numbers beside a chart are whole.

use coldsoak::files::library::{Kind, names};
use coldsoak::files::night::load_builtin;
use coldsoak::findings::HeatFlowSeries;
use coldsoak::night::{Night, run};
use coldsoak::picture::chart::{ChartView, Show, of_night};
use coldsoak::picture::draw::colour::{BACKGROUND, Theme};
use coldsoak::picture::draw::{Look, Size, svg};
use coldsoak::quantity::Units;
use std::sync::OnceLock;

fn nights() -> &'static [(String, Night)] {
    static NIGHTS: OnceLock<Vec<(String, Night)>> = OnceLock::new();
    NIGHTS.get_or_init(|| {
        let each = names(Kind::Night).into_iter();
        each.map(|name| {
            let loaded = load_builtin(name).unwrap_or_else(|e| panic!("{name}: {e}"));
            let night = run(&loaded.scenario).unwrap_or_else(|e| panic!("{name}: {e}"));
            (name.to_owned(), night)
        })
        .collect()
    })
}

fn view(night: &Night, units: Units, theme: Theme, size: Size) -> ChartView<'_> {
    let title = &night.scenario.scenario().title;
    ChartView {
        units,
        ..ChartView::of(night, title, "", Look { theme, size })
    }
}

/// A text of a picture: what it says, its box (left, top, right, bottom) and its size.
type Text = (String, [f64; 4], f64);

/// Each text of an SVG, set in the bundled font by another library's layout (ab_glyph's scaled fonts) than the program's
/// own. Fails at a letter that the font does not have.
fn texts(svg: &str) -> Vec<Text> {
    use ab_glyph::{Font, FontRef, ScaleFont};
    let assets = concat!(env!("CARGO_MANIFEST_DIR"), "/assets");
    let read = |face: &str| std::fs::read(format!("{assets}/{face}")).unwrap();
    let (plain, bold) = (
        read("DejaVuSans-subset.ttf"),
        read("DejaVuSans-Bold-subset.ttf"),
    );
    let faces = [&plain, &bold].map(|bytes| FontRef::try_from_slice(bytes).unwrap());
    let texts = svg.split("<text ").skip(1).map(|element| {
        let (head, rest) = element.split_once('>').unwrap();
        let text = rest.split("</text>").next().unwrap();
        let text = text
            .replace("&lt;", "<")
            .replace("&gt;", ">")
            .replace("&quot;", "\"");
        let text = text.replace("&amp;", "&");
        let (x, y, size) = (
            attribute(head, "x"),
            attribute(head, "y"),
            attribute(head, "font-size"),
        );
        let face = &faces[usize::from(head.contains("font-weight=\"bold\""))];
        let per_em = face.units_per_em().unwrap() / face.height_unscaled();
        let font = face.as_scaled(size as f32 / per_em);
        let width: f32 = text
            .chars()
            .map(|c| {
                let glyph = font.glyph_id(c);
                assert!(glyph.0 != 0, "the font has no '{c}' (\"{text}\")");
                font.h_advance(glyph)
            })
            .sum();
        let width = f64::from(width);
        let left = match head {
            _ if head.contains("text-anchor=\"middle\"") => x - width / 2.0,
            _ if head.contains("text-anchor=\"end\"") => x - width,
            _ => x,
        };
        let (top, foot) = (y - f64::from(font.ascent()), y - f64::from(font.descent()));
        (text, [left, top, left + width, foot], size)
    });
    texts.collect()
}

/// A number in the head of an element.
fn attribute(head: &str, name: &str) -> f64 {
    let head = format!(" {head}");
    let from = head.find(&format!(" {name}=\"")).unwrap() + name.len() + 3;
    head[from..].split('"').next().unwrap().parse().unwrap()
}

/// The width in pixels, the height where it is given, and the least height of text of each size.
const SIZES: [(Size, f64, Option<f64>, f64); 3] = [
    (Size::Page, 880.0, None, 13.0),
    (Size::Phone, 360.0, None, 12.0),
    (Size::Projector, 1920.0, Some(1080.0), 28.0),
];

/// A4 landscape quarter (ISO 216 A6) is 148 mm wide; 6 points of 25.4/72 mm are taken as the least that can be read
/// (common practice, no source).
#[test]
fn no_words_are_cut_or_touch_and_all_can_be_read() {
    let mut faults = Vec::new();
    for (name, night) in nights() {
        for (units, of_size) in [Units::Celsius, Units::Fahrenheit]
            .into_iter()
            .flat_map(|units| SIZES.map(|size| (units, size)))
        {
            let (size, given_width, given_height, least) = of_size;
            for show in Show::ALL {
                let view = view(night, units, Theme::Light, size);
                let svg = svg::file(&of_night(show, &night.trace, &view).picture, "");
                let head = svg.split('>').next().unwrap();
                let (width, height) = (attribute(head, "width"), attribute(head, "height"));
                assert_eq!(width, given_width, "{name} {show:?}");
                assert!(
                    given_height.is_none_or(|high| high == height),
                    "{name} {show:?}"
                );
                let words = texts(&svg);
                assert!(words.len() > 1, "{name} {show:?}: {} words", words.len());
                for (k, (text, b, em)) in words.iter().enumerate() {
                    let here = format!("{name} {show:?} {units:?} {size:?}: \"{text}\"");
                    if b[0] < 0.0 || b[1] < 0.0 || b[2] > width || b[3] > height {
                        faults.push(format!("{here} leaves the sheet: {b:?}"));
                    }
                    if text.ends_with('…') {
                        faults.push(format!("{here} is cut short"));
                    }
                    if *em < least - 0.06 {
                        faults.push(format!("{here} is {em} pixels high"));
                    }
                    let points = em / width * 148.0 / 25.4 * 72.0;
                    if size == Size::Page && points < 6.0 {
                        faults.push(format!("{here} is {points:.1} points high"));
                    }
                    for (other, o, _) in &words[..k] {
                        // Boxes go from ascender to descender; letters of two lines that meet there do not touch.
                        let across = b[0] < o[2] && o[0] < b[2];
                        let along = b[1] + 1.5 < o[3] - 1.5 && o[1] + 1.5 < b[3] - 1.5;
                        if across && along {
                            faults.push(format!("{here} lies on \"{other}\""));
                        }
                    }
                }
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// What is stored is found from temperatures, what comes and goes from the books: they meet in every span, and their
/// sums are those of the ledger.
#[test]
fn the_heat_of_every_span_balances_and_sums_to_the_ledger() {
    for (name, night) in nights() {
        let course = HeatFlowSeries::of(&night.trace);
        let sum = |watts: &[f64]| -> f64 {
            let spans = course.edges_s.windows(2).zip(watts);
            spans.map(|(s, w)| (s[1] - s[0]) * w).sum()
        };
        let spans = course.engine_w.len();
        assert!(spans > 100, "{name}: {spans} spans");
        let worst = (0..spans).map(|k| {
            let length_s = course.edges_s[k + 1] - course.edges_s[k];
            (course.gap_w(k) * length_s).abs()
        });
        let worst = worst.fold(0.0, f64::max);
        println!("{name}: at most {worst:.1e} J in a span");
        // Samples lie between steps on a curve of the states, books on another: joules, not rounding.
        assert!(worst < 50.0, "{name}: {worst} J do not meet in a span");
        let ledger = &night.ledger;
        let through = ledger.drawn_j.iter().sum::<f64>().max(1e4);
        let stored = sum(&course.engine_w) + sum(&course.others_w) + sum(&course.air_w);
        let kept = ledger.stored_after_j - ledger.stored_before_j;
        assert!(
            (stored - kept).abs() < 1e-6 * through,
            "{name}: {stored} {kept}"
        );
        let drawn = sum(&course.heaters_w) - ledger.drawn_j.iter().sum::<f64>();
        assert!(drawn.abs() < 1e-6 * through, "{name}: {drawn}");
        for (lost, (path, joules)) in course.losses_w.iter().zip(&ledger.lost_j) {
            assert_eq!(lost.0, *path);
            assert!(
                (sum(&lost.1) - joules).abs() < 1e-6 * through,
                "{name} {path:?}"
            );
        }
    }
}

#[test]
fn numbers_beside_a_chart_are_whole_and_name_their_units() {
    for (name, night) in nights() {
        for show in Show::ALL {
            let drawn = of_night(
                show,
                &night.trace,
                &view(night, Units::Fahrenheit, Theme::Dark, Size::Page),
            );
            let mut reader = csv::Reader::from_reader(drawn.csv.as_slice());
            let heads = reader.headers().unwrap().clone();
            for head in heads
                .iter()
                .filter(|h| !["time_h", "clock", "name"].contains(h))
            {
                let known = ["_degF", "_W", "_g", "_on", "condensing"];
                assert!(
                    known.iter().any(|u| head.ends_with(u)),
                    "{name} {show:?}: {head}"
                );
            }
            let rows = reader.records().map(Result::unwrap).count();
            let least = match show {
                Show::Water => 0,
                Show::Heat => 10,
                _ => 100,
            };
            let bare = show == Show::Dew && night.trace.legend.gas.is_none();
            assert!(rows >= least || bare, "{name} {show:?}: {rows} rows");
            let dark = Theme::Dark.shown(BACKGROUND);
            assert_eq!(drawn.picture.background, dark, "{name} {show:?}");
        }
    }
}
