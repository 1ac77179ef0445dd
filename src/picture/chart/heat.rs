//! The heat of a night by the hours: above zero where it went, below zero what cooling parts gave back, and the power
//! of the heaters as a line. Above less below is that power at every moment, so the pile balances by itself.

use super::figure::Figure;
use super::panel::Panel;
use super::stack::{Layer, Stack};
use super::temperature::heaters;
use super::view::{Chart, ChartView, Unit};
use crate::findings::{HeatFlowSeries, mean_over};
use crate::picture::draw::colour::{self, Colour};
use crate::trace::{LossPath, SwitchCause, Trace};

/// Spans that values may be averaged over, s.
const SPANS_S: [f64; 8] = [60.0, 120.0, 300.0, 600.0, 900.0, 1800.0, 3600.0, 7200.0];
/// The most spans in a picture: two pixels each.
const MOST_SPANS: f64 = 280.0;
/// The fewest spans that three turns of a thermostat may leave.
const FEWEST_SPANS: f64 = 12.0;
/// How high the panel is, in pixels.
const HIGH: f64 = 400.0;
/// A thermostat that came on no more often than this is shown turn by turn.
const FEW_TURNS: usize = 8;
const J_PER_KWH: f64 = 3.6e6;
/// The opacity of the second layer of a colour.
const PALE: f64 = 0.45;
/// A path that never takes this much, W, is left out of the picture, not of the numbers.
const LEAST_W: f64 = 0.05;

/// The chart.
pub fn heat(trace: &Trace, view: &ChartView) -> Chart {
    let course = HeatFlowSeries::of(trace);
    let end_s = trace.times_s.last().copied().unwrap_or(0.0);
    let span_s = span_s(trace, end_s);
    let mut edges: Vec<f64> = (0..)
        .map(|k| f64::from(k) * span_s)
        .take_while(|t| *t < end_s)
        .collect();
    edges.push(end_s);
    let coarse = |watts: &[f64]| mean_over(&course.edges_s, watts, &edges);
    let until_departure = |watts: &[f64]| {
        let spans = course.edges_s.windows(2).zip(watts);
        let joules = spans.map(|(s, w)| w * (s[1].min(trace.departure_s) - s[0]).max(0.0));
        joules.sum::<f64>() / J_PER_KWH
    };
    let layer = |key: &str, name: &str, (colour, opacity): (Colour, f64), watts: &[f64]| Layer {
        key: key.to_owned(),
        name: format!("{name} {}", kwh(until_departure(watts))),
        colour,
        opacity,
        values: coarse(watts),
    };
    let mut layers = vec![
        layer(
            "into_engine",
            "into the engine",
            (colour::SERIES[1], 1.0),
            &course.engine_w,
        ),
        layer(
            "into_other_parts",
            "into cowl and firewall",
            (colour::SERIES[1], PALE),
            &course.others_w,
        ),
        layer(
            "into_air",
            "into the bay's air",
            (colour::MUTED, PALE),
            &course.air_w,
        ),
    ];
    for (path, watts) in &course.losses_w {
        let key = format!("lost_{}", format!("{path:?}").to_lowercase());
        layers.push(layer(&key, words(*path), of_path(*path), watts));
    }
    layers.retain(|l| l.values.iter().any(|w| w.abs() >= LEAST_W));
    let given: Vec<f64> = course
        .heaters_w
        .iter()
        .zip(&course.fed_w)
        .map(|(h, f)| h + f)
        .collect();
    let panel = Panel {
        unit: Unit::WATTS,
        heading: String::new(),
        high: HIGH,
        range: None,
        lines: vec![],
        stack: Stack {
            over: Some(layer(
                "heaters",
                "heaters draw",
                (colour::TEXT, 1.0),
                &given,
            )),
            edges_s: edges.clone(),
            layers,
        },
        limits: vec![],
    };
    let what = format!(
        "W; above zero where heat goes, below zero what gives it back; means over {:.0} min; names: kWh until departure",
        span_s / 60.0
    );
    let kept = until_departure(&course.engine_w);
    let found = format!(
        "The heaters drew {} kWh; the engine {} {} kWh",
        kwh(until_departure(&given)),
        if kept < 0.0 { "lost" } else { "kept" },
        kwh(kept.abs()),
    );
    Figure::of(trace, view, (found, &what), vec![panel], heaters(trace)).chart()
}

/// What values are averaged over: wide enough for the picture, and for three turns of a thermostat, whose teeth would
/// hide where the heat goes; for one turn if three were a large part of the night.
fn span_s(trace: &Trace, end_s: f64) -> f64 {
    let turns = trace.switchings.iter();
    let turns: Vec<f64> = turns
        .filter(|s| s.on && s.cause == SwitchCause::Thermostat)
        .map(|s| s.time_s)
        .collect();
    let turn_s = match turns[..] {
        [first, .., last] if turns.len() > FEW_TURNS => (last - first) / (turns.len() - 1) as f64,
        _ => 0.0,
    };
    let over = if 3.0 * turn_s > end_s / FEWEST_SPANS {
        turn_s
    } else {
        3.0 * turn_s
    };
    let least = (end_s / MOST_SPANS).max(over);
    let wide = SPANS_S.into_iter().find(|s| *s >= least);
    wide.unwrap_or(least)
}

fn kwh(kwh: f64) -> String {
    let told = format!("{kwh:.2}").replace('-', "\u{2212}");
    match told.as_str() {
        "\u{2212}0.00" => "0.00".to_owned(),
        _ => told,
    }
}

/// Shorter words for a way that heat leaves by than those of a sentence.
fn words(path: LossPath) -> &'static str {
    match path {
        LossPath::Skins => "through the cowl skin",
        LossPath::Gaps => "with air through gaps",
        LossPath::Duct => "in the duct",
        LossPath::Propeller => "from the propeller",
        LossPath::Firewall => "through the firewall",
        LossPath::Breather => "out of the breather",
        LossPath::Surroundings => "to the surroundings",
    }
}

fn of_path(path: LossPath) -> (Colour, f64) {
    match path {
        LossPath::Skins => (colour::SERIES[0], 1.0),
        LossPath::Gaps => (colour::SERIES[0], PALE),
        LossPath::Duct => (colour::SERIES[2], PALE),
        LossPath::Propeller => (colour::SERIES[3], 1.0),
        LossPath::Firewall => (colour::SERIES[2], 1.0),
        LossPath::Breather => (colour::SERIES[3], PALE),
        LossPath::Surroundings => (colour::MUTED, 1.0),
    }
}
