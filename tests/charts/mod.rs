//! Every chart of every built-in night, in both units: words stand apart and inside the sheet, and are large enough on
//! a quarter of a page; the heat balances; the numbers beside a chart are whole.

use coldsoak::files::library::{Kind, names};
use coldsoak::files::night::load_builtin;
use coldsoak::findings::HeatFlowSeries;
use coldsoak::night::{Night, run};
use coldsoak::quantity::Units;
use coldsoak::report::chart::{Breadth, ChartView, Show, of_night};
use coldsoak::report::colour::Theme;
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

fn view(night: &Night, units: Units, paper: Theme) -> ChartView<'_> {
    let scenario = night.scenario.scenario();
    ChartView {
        title: &scenario.title,
        subtitle: "",
        clock: night.scenario.clock(),
        units,
        threshold: scenario.question.threshold,
        paper,
        breadth: Breadth::Sheet,
    }
}

/// Each text of a picture with its box, as an independent renderer (usvg) lays it out.
#[cfg(feature = "png")]
fn words(svg: &str) -> Vec<(String, [f64; 4], f64)> {
    use resvg::usvg::{Node, Options, Tree};
    let mut options = Options {
        font_family: "DejaVu Sans".to_owned(),
        ..Options::default()
    };
    let assets = concat!(env!("CARGO_MANIFEST_DIR"), "/assets");
    for face in ["DejaVuSans-subset.ttf", "DejaVuSans-Bold-subset.ttf"] {
        let bytes = std::fs::read(format!("{assets}/{face}")).unwrap();
        options.fontdb_mut().load_font_data(bytes);
    }
    options.fontdb_mut().set_sans_serif_family("DejaVu Sans");
    let tree = Tree::from_str(svg, &options).unwrap();
    let (mut found, mut open) = (Vec::new(), vec![tree.root()]);
    while let Some(group) = open.pop() {
        for node in group.children() {
            match node {
                Node::Group(inner) => open.push(inner),
                Node::Text(text) => {
                    let b = text.abs_bounding_box();
                    let told: String = text.chunks().iter().map(|c| c.text()).collect();
                    let size = f64::from(text.chunks()[0].spans()[0].font_size().get())
                        * f64::from(text.abs_transform().sy);
                    let sides = [b.left(), b.top(), b.right(), b.bottom()].map(f64::from);
                    found.push((told.trim().to_owned(), sides, size));
                }
                _ => {}
            }
        }
    }
    found
}

/// The sheet in the pixels it is shown at.
fn size(svg: &str) -> (f64, f64) {
    let side = |name: &str| {
        let from = svg.find(name).unwrap() + name.len();
        svg[from..]
            .split('"')
            .next()
            .unwrap()
            .parse::<f64>()
            .unwrap()
    };
    (side("width=\""), side("height=\""))
}

/// A4 landscape quarter (ISO 216 A6) is 148 mm wide; 6 points of 25.4/72 mm are taken as the least that can be read
/// (common practice, no source).
#[cfg(feature = "png")]
#[test]
fn no_words_are_cut_or_touch_and_all_can_be_read_on_a_quarter_page() {
    let mut faults = Vec::new();
    for (name, night) in nights() {
        for units in [Units::Celsius, Units::Fahrenheit] {
            for show in Show::ALL {
                let drawn =
                    of_night(show, &night.trace, &view(night, units, Theme::Light)).unwrap();
                let (width, height) = size(&drawn.svg);
                let words = words(&drawn.svg);
                assert!(words.len() > 1, "{name} {show:?}: {} words", words.len());
                for (k, (text, b, em)) in words.iter().enumerate() {
                    let here = format!("{name} {show:?} {units:?}: \"{text}\"");
                    if b[0] < 0.0 || b[1] < 0.0 || b[2] > width || b[3] > height {
                        faults.push(format!("{here} leaves the sheet: {b:?}"));
                    }
                    if text.ends_with('…') {
                        faults.push(format!("{here} is cut short"));
                    }
                    let points = em / width * 148.0 / 25.4 * 72.0;
                    if points < 6.0 {
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
                &view(night, Units::Fahrenheit, Theme::Dark),
            );
            let drawn = drawn.unwrap();
            let mut reader = csv::Reader::from_reader(drawn.csv.as_slice());
            let heads = reader.headers().unwrap().clone();
            for head in heads
                .iter()
                .filter(|h| !["time_h", "clock", "name"].contains(h))
            {
                let known = ["_degF", "_W", "_g", "_on"];
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
            assert!(
                drawn.svg.contains("fill=\"#15191E\""),
                "{name} {show:?} is on dark paper"
            );
        }
    }
}
