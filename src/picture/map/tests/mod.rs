//! What must hold of every drawing: all parts, all cylinders, mirror images, words apart and on the sheet.

use super::Map;
use super::drawing::Kind;
use super::jets::BADGE;
use super::labels::bounds;
use crate::files::night::load_named_from;
use crate::files::sources::Outside;
use crate::night::{Night, run};
use crate::picture::draw::colour::{COLDEST, Theme};
use crate::picture::draw::{Area, Look, Outline, Picture, Point, Shape, Size};
use crate::quantity::Units;

const NIGHTS: [&str; 6] = [
    "demo",
    "small-engine-top",
    "six-after-flight",
    "block-cooling",
    "radial-underneath",
    "thermostat-pad",
];

fn night(name: &str, units: Units) -> Night {
    let mut scenario = load_named_from(name, Outside::Refused).unwrap().scenario;
    scenario.units = units;
    run(&scenario).unwrap()
}

fn times(night: &Night) -> Vec<f64> {
    let leave = night.trace.departure_s;
    vec![0.0, 0.1 * leave, 0.5 * leave, leave - 3600.0, leave]
}

const SIZES: [Size; 3] = [Size::Page, Size::Phone, Size::Projector];

fn map(night: &Night, size: Size) -> Map<'_> {
    let theme = Theme::Light;
    Map::of(night, Look { theme, size })
}

type Bounds = (Point, Point);

fn apart(a: &Bounds, b: &Bounds) -> bool {
    a.1.0 <= b.0.0 || b.1.0 <= a.0.0 || a.1.1 <= b.0.1 || b.1.1 <= a.0.1
}

/// Each word with where it stands, and the numbers of heaters as large as their discs.
fn standing(picture: &Picture) -> Vec<(String, Bounds)> {
    let mut all: Vec<(String, Bounds)> = Vec::new();
    let mut shapes = picture.shapes.iter();
    while let Some(shape) = shapes.next() {
        match shape {
            Shape::Words(w) => all.push((w.text.clone(), bounds(w))),
            Shape::Area(Area {
                outline: disc @ Outline::Disc(_, r),
                edge: Some(edge),
                ..
            }) if edge.width == 1.5 * r / BADGE => {
                let number = shapes.next();
                assert!(matches!(number, Some(Shape::Words(_))), "{number:?}");
                all.push(("a heater".to_owned(), disc.bounds()));
            }
            _ => {}
        }
    }
    all
}

#[test]
fn words_keep_apart_and_on_the_sheet_on_every_built_in_night() {
    let mut faults = Vec::new();
    for name in NIGHTS {
        for units in [Units::Celsius, Units::Fahrenheit] {
            let night = night(name, units);
            let cases = SIZES
                .iter()
                .flat_map(|size| times(&night).into_iter().map(move |t| (*size, t)));
            for (size, time_s) in cases {
                let picture = map(&night, size).picture(time_s);
                let (wide, high) = picture.size;
                let name = format!("{name} {size:?}");
                let words = standing(&picture);
                for (k, (one, here)) in words.iter().enumerate() {
                    let inside =
                        here.0.0 >= 0.0 && here.0.1 >= 0.0 && here.1.0 <= wide && here.1.1 <= high;
                    if !inside {
                        faults.push(format!(
                            "{name} at {time_s}: \"{one}\" leaves the sheet: {here:?}"
                        ));
                    }
                    for (other, there) in &words[..k] {
                        if !apart(here, there) {
                            faults.push(format!(
                                "{name} at {time_s}: \"{one}\" {here:?} over \"{other}\" {there:?}"
                            ));
                        }
                    }
                }
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// All but the lower right quarters of the case away from the front cylinders, which stand behind others in all
/// three views.
#[test]
fn every_cell_of_an_engine_is_drawn_unless_it_stands_behind_others() {
    for name in NIGHTS {
        let night = night(name, Units::Celsius);
        let map = map(&night, Size::Page);
        let shown = |part: &str| {
            let shapes = map.drawing.shapes.iter();
            let mut subjects = shapes.map(|s| &map.drawing.subjects[s.subject]);
            subjects.any(|s| s.cells.iter().any(|c| c == part))
        };
        let behind = |part: &str| part.starts_with("case") && part.ends_with("lr");
        for cell in &night.trace.legend.cells {
            assert!(
                shown(&cell.part) || behind(&cell.part),
                "{name}: {} is not drawn",
                cell.part
            );
        }
        for pocket in &night.trace.legend.pockets {
            let mut air = map.drawing.subjects.iter().filter(|s| s.kind == Kind::Air);
            assert!(
                air.any(|s| s.name == pocket.name),
                "{name}: {}",
                pocket.name
            );
        }
    }
}

/// Shapes of the first view whose part has a name of this kind.
fn of_first_view<'a>(map: &'a Map, is: &dyn Fn(&str) -> bool) -> Vec<&'a Outline> {
    let shapes = map.drawing.shapes.iter().filter(|s| s.view == 0);
    let named = shapes.filter(|s| is(&map.drawing.subjects[s.subject].name));
    named.map(|s| &s.outline).collect()
}

#[test]
fn six_cylinders_show_six_and_four_show_four() {
    for (name, heads) in [("six-after-flight", 6), ("demo", 4)] {
        let night = night(name, Units::Celsius);
        let map = map(&night, Size::Page);
        let is_head = |n: &str| n.starts_with("cyl") && n.ends_with("head");
        assert_eq!(of_first_view(&map, &is_head).len(), heads, "{name}");
    }
}

#[test]
fn nine_cylinders_stand_in_a_ring_the_first_on_top() {
    let night = night("radial-underneath", Units::Celsius);
    let map = map(&night, Size::Page);
    let heads = of_first_view(&map, &|n: &str| n.starts_with("head"));
    assert_eq!(heads.len(), 9);
    let middle = map.drawing.shapes.iter().find_map(|s| match s.outline {
        Outline::Disc(centre, _) => Some(centre),
        _ => None,
    });
    let (x, y) = middle.expect("a crankshaft in the middle");
    let centroid = |outline: &Outline| match outline {
        Outline::Polygon(p) => {
            let n = p.len() as f64;
            let sum = p.iter().fold((0.0, 0.0), |s, p| (s.0 + p.0, s.1 + p.1));
            (sum.0 / n, sum.1 / n)
        }
        Outline::Disc(centre, _) => *centre,
    };
    for (i, head) in heads.iter().enumerate() {
        let (hx, hy) = centroid(head);
        let turn = (hx - x).atan2(y - hy).to_degrees().rem_euclid(360.0);
        let expected = 40.0 * i as f64;
        let off = (turn - expected + 180.0).rem_euclid(360.0) - 180.0;
        assert!(off.abs() < 0.5, "head {} at {turn}", i + 1);
    }
}

/// What is on the left of an opposed engine is on its right, mirrored.
#[test]
fn an_opposed_engine_is_its_own_mirror_image() {
    let night = night("six-after-flight", Units::Celsius);
    let map = map(&night, Size::Page);
    let bounds = |name: &str| {
        let named = of_first_view(&map, &|n: &str| n == name);
        named[0].bounds()
    };
    let axis = {
        let (left, right) = (bounds("cylL1head"), bounds("cylR1head"));
        (left.0.1 + right.1.1) / 2.0
    };
    for (left, right) in [
        ("cylL1head", "cylR1head"),
        ("cylL3b1", "cylR3b1"),
        ("pistonL2", "pistonR2"),
        ("case2ul", "case2ur"),
        ("cowlUL", "cowlUR"),
    ] {
        let ((x0, y0), (x1, y1)) = bounds(left);
        let there = bounds(right);
        let mirrored = ((x0, 2.0 * axis - y1), (x1, 2.0 * axis - y0));
        for (a, b) in [(mirrored.0, there.0), (mirrored.1, there.1)] {
            assert!(
                (a.0 - b.0).abs() < 1e-6 && (a.1 - b.1).abs() < 1e-6,
                "{left} {a:?} {b:?}"
            );
        }
    }
}

#[test]
fn the_picture_changes_with_the_hour_and_marks_what_it_should() {
    let night = night("demo", Units::Fahrenheit);
    let map = map(&night, Size::Page);
    let leave = night.trace.departure_s;
    let (early, late) = (map.picture(0.0), map.picture(leave));
    assert_ne!(early, late);
    for picture in [&early, &late] {
        let shapes = picture.shapes.iter();
        let coldest = shapes.filter(|shape| match shape {
            Shape::Area(area) => area.edge.as_ref().is_some_and(|e| e.colour == COLDEST),
            _ => false,
        });
        assert!(coldest.count() >= 1);
    }
    let moment = map.moment(leave);
    let heater_on = moment.on == [true];
    assert!(heater_on, "the fan is on until departure");
    assert!(map.description(&moment).contains("crankshaft nose"));
}

/// Every part with room for it has its name on it, `head 52`, and no shape has a letter that a key explains.
#[test]
fn names_stand_on_the_shapes() {
    let night = night("demo", Units::Fahrenheit);
    let map = map(&night, Size::Page);
    let moment = map.moment(night.trace.departure_s);
    let labels = map.labels(&moment);
    let texts: Vec<String> = labels
        .iter()
        .map(|label| {
            let lines: Vec<&str> = label.words.iter().map(|w| w.text.as_str()).collect();
            lines.join(" ")
        })
        .collect();
    for name in [
        "head", "case", "crank", "oil", "sump", "carb.", "firewall", "cowl",
    ] {
        let named = |text: &&String| {
            let rest = text
                .strip_prefix(name)
                .and_then(|rest| rest.strip_prefix(' '));
            rest.is_some_and(|number| number.parse::<f64>().is_ok())
        };
        assert!(texts.iter().any(|t| named(&t)), "{name}: {texts:?}");
    }
    let bare = texts.iter().filter(|text| !text.contains(' '));
    assert_eq!(bare.count(), 0, "{texts:?}");
}

#[test]
fn a_projector_shows_five_names_and_each_size_has_its_pixels() {
    let night = night("demo", Units::Fahrenheit);
    let leave = night.trace.departure_s;
    for (size, wide, high) in [
        (Size::Page, 880.0, None),
        (Size::Phone, 360.0, None),
        (Size::Projector, 1920.0, Some(1080.0)),
    ] {
        let map = map(&night, size);
        for picture in [map.picture(leave), super::strip(&map, &[0.0, leave])] {
            assert_eq!(picture.size.0, wide);
            assert!(high.is_none_or(|high| picture.size.1 == high));
            let texts = picture.shapes.iter().filter_map(|shape| match shape {
                Shape::Words(words) => Some(words.style.size),
                _ => None,
            });
            let least = texts.fold(f64::MAX, f64::min);
            assert!(
                (least - 13.0 * size.zoom()).abs() < 1e-9,
                "{size:?}: {least}"
            );
        }
        let labels = map.labels(&map.moment(leave)).len();
        assert_eq!(labels <= 5, size == Size::Projector, "{labels}");
    }
}
