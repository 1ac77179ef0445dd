//! What is only written otherwise: units, names, and how many threads compute it.

use super::any_body::{Dice, NIGHTS, name, night, whole};
use super::any_heat::furnished;
use crate::kit::bench::{at, solved};
use coldsoak::document::{Source, read as read_text};
use coldsoak::files::night::load_builtin;
use coldsoak::night::Precision;
use coldsoak::night::{Night, run};
use coldsoak::quantity::Mass;
use coldsoak::scenario::document::Scenario;
use coldsoak::study::case::Case;
use coldsoak::study::path::Tree;
use coldsoak::study::run::run_all;
use proptest::prelude::*;

/// Two computations of one night at a tenth of the default tolerance agree to this, K.
const SAME_K: f64 = 2e-3;
/// Hours at which nights are compared.
const HOURS: [f64; 3] = [1.0, 4.0, 12.0];

/// Another unit, and the factor and the offset that make its number.
type Other = (&'static str, f64, f64);

/// The units a night is written in, and others for each.
const SPELLINGS: [(&str, &[Other]); 9] = [
    ("degC", &[("degF", 1.8, 32.0), ("K", 1.0, 273.15)]),
    (
        "m",
        &[
            ("mm", 1e3, 0.0),
            ("inch", 1.0 / 0.0254, 0.0),
            ("ft", 1.0 / 0.3048, 0.0),
        ],
    ),
    ("m2", &[("cm2", 1e4, 0.0), ("ft2", 1.0 / 0.092_903_04, 0.0)]),
    (
        "m3",
        &[("L", 1e3, 0.0), ("gal", 1.0 / 3.785_411_784e-3, 0.0)],
    ),
    ("kg", &[("g", 1e3, 0.0), ("lb", 1.0 / 0.453_592_37, 0.0)]),
    ("s", &[("min", 1.0 / 60.0, 0.0), ("h", 1.0 / 3600.0, 0.0)]),
    ("m_s", &[("km_h", 3.6, 0.0), ("kt", 3600.0 / 1852.0, 0.0)]),
    ("kg_s", &[("g_s", 1e3, 0.0)]),
    ("W", &[("kW", 1e-3, 0.0)]),
];

/// A night's text with every quantity in another unit, the choices made by dice; and how many were changed.
fn respelt(text: &str, dice: &mut Dice) -> (String, usize) {
    let (mut out, mut changed, mut at) = (String::new(), 0, 0);
    while let Some(open) = text[at..].find('(').map(|i| at + i) {
        let head = text[..open]
            .trim_end_matches(|c: char| c.is_alphanumeric() || c == '_')
            .len();
        let word = &text[head..open];
        let close = text[open..].find(')').map(|i| open + i);
        let number = close.and_then(|close| text[open + 1..close].trim().parse::<f64>().ok());
        let unit = SPELLINGS.iter().find(|(unit, _)| *unit == word);
        if let (Some(number), Some((_, others)), Some(close)) = (number, unit, close) {
            let (other, factor, offset) = others[dice.one_of(others.len())];
            out.push_str(&text[at..head]);
            out.push_str(&format!("{other}({:?}", number * factor + offset));
            at = close;
            changed += 1;
        } else {
            out.push_str(&text[at..=open]);
            at = open + 1;
        }
    }
    out.push_str(&text[at..]);
    (out, changed)
}

/// How far the parts of two nights are apart at most, K; the parts of the other may be called otherwise.
fn apart(one: &Scenario, other: &Scenario, called: impl Fn(&str) -> String) -> f64 {
    let parts = |s: &Scenario| match &s.engine {
        coldsoak::scenario::engine::Engine::body(body) => body.parts.len(),
        _ => 0,
    };
    let count = parts(one);
    assert!(count > 0);
    let (one, other) = (solved(one), solved(other));
    let mut most: f64 = 0.0;
    for hours in HOURS {
        for part in (0..count).map(name) {
            let seconds = hours * 3600.0;
            most = most.max((at(&one, &part, seconds) - at(&other, &called(&part), seconds)).abs());
        }
    }
    most
}

fn any_night(numbers: &[f64]) -> Scenario {
    let mut dice = Dice::new(numbers);
    let body = whole(&mut dice);
    let parts = body.parts.len();
    furnished(night(body, -10.0, (40.0, 20.0)), &mut dice, parts)
}

/// Written as RON, as users write it.
fn written(scenario: &Scenario) -> String {
    ron::to_string(scenario).unwrap()
}

fn read(text: &str) -> Scenario {
    let reading = read_text::<Scenario>(&Source::new("night", text));
    assert_eq!(reading.errors.count(), 0, "{}: {text}", reading.errors);
    reading.value.unwrap()
}

proptest! {
    #![proptest_config(crate::kit::cases(NIGHTS))]

    /// Every length, area, volume, mass, time, speed, power and temperature of a night in another unit.
    #[test]
    fn the_unit_a_night_is_written_in_changes_nothing(numbers in prop::collection::vec(0.0..1.0f64, 97)) {
        let one = any_night(&numbers);
        let (text, changed) = respelt(&written(&one), &mut Dice::new(&numbers));
        prop_assert!(changed > 40, "{} quantities only", changed);
        let most = apart(&one, &read(&text), str::to_owned);
        prop_assert!(most < SAME_K, "{} K", most);
    }

    /// Every part and pocket called otherwise, in an order of names that is another.
    #[test]
    fn what_parts_are_called_changes_nothing(numbers in prop::collection::vec(0.0..1.0f64, 97)) {
        let one = any_night(&numbers);
        let renamed = |part: &str| {
            let number: u32 = part.trim_start_matches("part").parse().unwrap();
            format!("{}_{}", ["w", "d", "q", "b", "z", "a", "k", "f"][number as usize % 8], 7 - number)
        };
        let mut text = written(&one);
        for number in 0..8 {
            let part = name(number);
            text = text.replace(&format!("\"{part}\""), &format!("\"{}\"", renamed(&part)));
        }
        text = text.replace("\"low\"", "\"upstairs\"").replace("\"high\"", "\"attic\"");
        prop_assert!(!text.contains("\"part0\"") && !text.contains("\"low\""));
        let most = apart(&one, &read(&text), renamed);
        prop_assert!(most < SAME_K, "{} K", most);
    }
}

proptest! {
    #![proptest_config(crate::kit::cases(3))]

    /// Random nights and nights that share lanes, handed to one thread and to three, which groups them otherwise: the
    /// same to the last bit, and the same as one by one.
    #[test]
    fn how_many_threads_compute_changes_nothing(numbers in prop::collection::vec(0.0..1.0f64, 97)) {
        let mut nights: Vec<Scenario> = Vec::new();
        for turn in 0..10_usize {
            let mut turned = numbers.clone();
            turned.rotate_left(turn);
            nights.push(any_night(&turned));
            let mut alike = load_builtin("small-engine-top").unwrap().scenario;
            alike.initial.water_in_oil = Mass::g(5.0 + turn as f64);
            nights.push(alike);
        }
        let on = |threads: usize| -> Vec<Vec<f64>> {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            let base = Tree::of(&nights[0]).unwrap();
            let case = |number: usize| (&base, Case::whole("a night", &nights[number]));
            let values = |night: Result<Night, _>| night.unwrap().trace.values;
            pool.install(|| run_all(Precision::Full, nights.len(), case, values))
        };
        let (one, three) = (on(1), on(3));
        prop_assert!(one == three);
        for (night, values) in nights.iter().zip(&one) {
            prop_assert!(&run(night).unwrap().trace.values == values);
        }
    }
}
