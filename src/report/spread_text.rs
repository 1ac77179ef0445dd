//! A spread of nights told in the terminal: how likely it is ready, bands, and what to measure next.

use super::bands_text::{hours, percent, step_symbol, three};
use super::cautions;
use super::comparison_text::setting;
use super::format::{difference, wrapped};
use super::spread_advice::advice;
use super::table::drawn;
use super::{shares_text, unknown_words};
use crate::night::Night;
use crate::quantity::Units;
use crate::study::summary::{CommonFailure, Summary, WarmNotReady};
use crate::study::uncertain_inputs::UncertainInput;
use std::fmt::Write;

/// Unknowns that are told by name.
const TOLD: usize = 6;

/// The whole text; `night` is the night as its file says it, `width` that of the terminal.
pub fn told(
    title: &str,
    night: &Night,
    doubts: &[UncertainInput],
    summary: &Summary,
    seed: u32,
    width: u16,
) -> String {
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = write(&mut text, title, night, doubts, summary, seed, width);
    text
}

fn write(
    text: &mut String,
    title: &str,
    night: &Night,
    doubts: &[UncertainInput],
    summary: &Summary,
    seed: u32,
    width: u16,
) -> std::fmt::Result {
    let units = night.scenario.scenario().units;
    writeln!(text, "{title}")?;
    writeln!(text, "{}\n", wrapped(&setting(night), width, ""))?;
    let likely = format!(
        "{} plausible nights over {} uncertain numbers (seed {seed}). {}{}{}",
        summary.bands.nights + summary.failed,
        doubts.len(),
        readiness(summary),
        though_warm(summary),
        coldest(summary),
    );
    writeln!(text, "{}\n", wrapped(&likely, width, ""))?;
    writeln!(text, "{}", headlines(night, summary, units, width))?;
    let reading = "As written: the night as its files say it. Of the other three, one night in ten lies below the \
first, half below the second, one in ten above the last.";
    writeln!(text, "{}\n", wrapped(reading, width, ""))?;
    if !summary.influences.is_empty() {
        writeln!(text, "{}", singles(doubts, summary, units, width))?;
        writeln!(
            text,
            "{}",
            wrapped(&advice(doubts, summary, units), width, "")
        )?;
        writeln!(text)?;
    }
    if !summary.indices.is_empty() {
        writeln!(text, "{}", shares_text::told(doubts, summary, width))?;
    }
    writeln!(text, "{}", cautions::told(width))
}

fn readiness(summary: &Summary) -> String {
    let failed = match summary.failed {
        0 => String::new(),
        1 => " 1 night could not be computed and is left out.".to_owned(),
        n => format!(" {n} nights could not be computed and are left out."),
    };
    let failed = failed
        + &summary
            .fault
            .as_ref()
            .map_or(String::new(), |f| why(f, summary.failed));
    match &summary.bands.ready {
        Some(share) => format!(
            "Ready at departure in {} of {} of them: {}, with its 95 percent interval.{failed}",
            share.count,
            share.of,
            percent(share)
        ),
        None => format!("No night could be computed.{failed}"),
    }
}

/// Why nights with a warm engine are not ready: the commonest reason.
fn though_warm(summary: &Summary) -> String {
    let WarmNotReady { wet, oil } = summary.warm_not_ready;
    let (nights, why) = if wet >= oil {
        (wet, "water on the upper walls inside")
    } else {
        (oil, "the oil, which is asked to be warm too")
    };
    match nights {
        0 => String::new(),
        n => format!(" Warm everywhere and yet NOT ready in {n}, for {why}."),
    }
}

/// The commonest reason why nights could not be computed.
fn why(fault: &CommonFailure, failed: usize) -> String {
    let which = match (failed, fault.nights) {
        (1, _) => "Why:".to_owned(),
        (_, 1) => "Each for a reason of its own, the first:".to_owned(),
        (all, n) if all == n => "All for one reason, such as:".to_owned(),
        (_, n) => format!("The commonest reason, in {n} of them, such as:"),
    };
    format!(" {which} {}.", fault.why.trim_end_matches('.'))
}

fn coldest(summary: &Summary) -> String {
    let told: Vec<String> = summary
        .bands
        .coldest
        .iter()
        .take(4)
        .map(|(label, nights)| format!("the {label} in {nights}"))
        .collect();
    if told.is_empty() {
        return String::new();
    }
    let more = if summary.bands.coldest.len() > told.len() {
        ", others in the rest"
    } else {
        ""
    };
    format!(" Coldest at departure: {}{more}.", told.join(", "))
}

fn headlines(night: &Night, summary: &Summary, units: Units, width: u16) -> String {
    let f = &night.findings;
    let (b, deg) = (&summary.bands, units.symbol());
    let warm = |c: f64| format!("{:.0}", units.temperature(c));
    let optional = |x: Option<f64>, told: &dyn Fn(f64) -> String| x.map_or("-".to_owned(), told);
    let step = |k: f64| format!("{:+.1}", units.step(k));
    let one = |x: f64| format!("{x:.1}");
    let whole = |x: f64| format!("{x:.0}");
    let as_written = f.threshold.all_parts.hold.hours();
    let mut rows = vec![
        (
            "warm after, h".to_owned(),
            as_written.map_or("never".to_owned(), hours),
            three(b.warm_h, hours),
        ),
        (
            format!("margin at departure, {}", step_symbol(units)),
            optional(f.ready.margin_k, &step),
            three(b.margin_k, step),
        ),
        (
            format!("coldest part, {deg}"),
            optional(f.coldest.as_ref().map(|c| c.temp_c), &warm),
            three(b.coldest_c, warm),
        ),
        (
            "water on the upper walls, g".to_owned(),
            optional(f.condensation.as_ref().map(|c| c.upper_g), &one),
            three(b.upper_g, one),
        ),
        (
            "oil, mm²/s".to_owned(),
            optional(f.oil.as_ref().map(|o| o.viscosity_mm2_s), &whole),
            three(summary.oil_mm2_s, whole),
        ),
        (
            "energy, kWh".to_owned(),
            one(f.energy.kwh),
            three(b.kwh, one),
        ),
    ];
    for (group, band) in f.groups_c.iter().zip(&summary.groups) {
        rows.push((
            format!("{}, {deg}", group.label),
            warm(group.temp_c),
            three(band.at_departure_c, warm),
        ));
    }
    let head = ["at departure", "as written", "10 % / 50 % / 90 %"];
    let rows = rows.into_iter().map(|(a, b, c)| vec![a, b, c]);
    drawn(head.map(str::to_owned).to_vec(), rows, &[0], width)
}

/// A unit of the files as people read it: `W_K` is W/K, `m2` is m².
fn as_read(unit: &str) -> String {
    unit.replace("m2", "m²")
        .replace("m3", "m³")
        .replace("mm2", "mm²")
        .replace('_', "/")
}

/// The name of an uncertain number and its value, as the files have it.
pub fn as_written(input: &UncertainInput) -> String {
    format!(
        "{}: {}",
        unknown_words::told(&input.path),
        number(input, input.value)
    )
}

/// A number of an unknown with its unit, to three figures.
pub(super) fn number(doubt: &UncertainInput, x: f64) -> String {
    let digits = if x == 0.0 {
        0
    } else {
        (2 - x.abs().log10().floor() as i32).clamp(0, 7) as usize
    };
    let told = format!("{x:.digits$}");
    let told = if digits > 0 {
        told.trim_end_matches('0').trim_end_matches('.')
    } else {
        &told
    };
    let unit = doubt
        .unit
        .as_deref()
        .map_or(String::new(), |unit| format!(" {}", as_read(unit)));
    format!("{told}{unit}")
}

fn singles(doubts: &[UncertainInput], summary: &Summary, units: Units, width: u16) -> String {
    let head = [
        "uncertain number",
        "from",
        "to",
        "margin from",
        "to",
        "what it is",
    ];
    let rows = summary.influences.iter().take(TOLD).map(|i| {
        let doubt = &doubts[i.doubt];
        vec![
            unknown_words::told(&doubt.path),
            number(doubt, doubt.low),
            number(doubt, doubt.high),
            difference(i.at_low_k, units),
            difference(i.at_high_k, units),
            doubt.source.clone(),
        ]
    });
    drawn(head.map(str::to_owned).to_vec(), rows, &[0, 5], width)
}

#[cfg(test)]
mod tests {
    use super::super::spread_advice::tests::{doubt, summary};
    use super::*;

    /// 160 nights are not ready, warm as they are: who reads only margins does not find out why.
    #[test]
    fn nights_that_are_warm_and_not_ready_are_told_with_the_commonest_reason() {
        let told = |wet, oil| {
            let mut summary = summary(vec![]);
            summary.warm_not_ready = WarmNotReady { wet, oil };
            though_warm(&summary)
        };
        assert_eq!(told(0, 0), "");
        assert!(told(97, 3).contains("NOT ready in 97, for water on"));
        assert!(told(3, 97).contains("NOT ready in 97, for the oil"));
    }

    #[test]
    fn numbers_of_unknowns_have_three_figures_and_their_unit() {
        let litres = doubt("oil", 3.8, 7.98, Some("L"));
        assert_eq!(number(&litres, 7.984), "7.98 L");
        assert_eq!(number(&litres, 0.0003), "0.0003 L");
        assert_eq!(number(&litres, 1350.4), "1350 L");
        assert_eq!(number(&doubt("p", 0.0, 1.0, None), 0.0), "0");
    }
}
