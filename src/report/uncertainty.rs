//! Choices over the same simulated nights: how often each is ready, and which survives the uncertainty.

use super::columns::{Show, Table};
use super::format::size;
use super::model::{Fact, Section};
use crate::quantity::Units;
use crate::study::paired::{Bands, By, PairResult, Paired, Verdict};
use crate::study::quantile::{Band, Share};
use serde_json::{Value, json};

/// A best choice that is ready in fewer nights than this is called uncertain.
const CERTAIN: f64 = 0.9;
/// How much larger a share of ready nights is worth a sentence.
const MANY_MORE: f64 = 0.05;

/// The section of a comparison.
pub fn section(paired: &Paired, units: Units) -> Section {
    Section::new("How certain is this?")
        .keyed("uncertainty")
        .facts([
            Fact::json("nights", paired.nights),
            Fact::json("seed", paired.seed),
        ])
        .block(table(paired, units))
        .say([reading(paired), pairs(paired, units)])
        .block(verdicts(paired))
}

/// Each choice, a row: of three figures, one night in ten lies below the first, half below the second, one in ten above
/// the last.
pub fn table(paired: &Paired, units: Units) -> Table {
    let ranked: Vec<(usize, &Bands)> = paired.bands.iter().enumerate().collect();
    let symbol = units.step_symbol();
    Table::of("choices", &ranked)
        .number("", "#", |r| (r.0 + 1).to_string())
        .words("name", "Choice", |r| r.1.name.as_str())
        .json("nights", |r| r.1.nights)
        .number("ready", "Ready in", |r| {
            (
                share(&r.1.ready),
                r.1.ready.map_or("-".to_owned(), |s| percent(&s)),
            )
        })
        .number("time_to_threshold_h", "Time to minimum, h", |r| {
            (band(r.1.warm_h), three(r.1.warm_h, hours))
        })
        .number("margin_k", format!("Margin, {symbol}"), |r| {
            let step = |k| format!("{:+.0}", units.step(k));
            (band(r.1.margin_k), three(r.1.margin_k, step))
        })
        .json("coldest_c", |r| band(r.1.coldest_c))
        .number("upper_g", "Water, g", |r| {
            (band(r.1.upper_g), three(r.1.upper_g, |g| format!("{g:.1}")))
        })
        .shown(Show::Wide)
        .number("oil_c", format!("Oil, {}", units.symbol()), |r| {
            let degrees = |c| format!("{:.0}", units.temperature(c));
            (band(r.1.oil_c), three(r.1.oil_c, degrees))
        })
        .shown(Show::Wide)
        .number("energy_kwh", "kWh", |r| {
            (band(r.1.kwh), three(r.1.kwh, |kwh| format!("{kwh:.1}")))
        })
        .shown(Show::Wide)
        .json("coldest", |r| coldest(r.1))
        .table()
}

/// The bands of one choice or night for programs: the name and the values of each number.
pub fn summary(bands: &Bands) -> Value {
    json!({
        "name": bands.name,
        "nights": bands.nights,
        "ready": share(&bands.ready),
        "time_to_threshold_h": band(bands.warm_h),
        "margin_k": band(bands.margin_k),
        "coldest_c": band(bands.coldest_c),
        "upper_g": band(bands.upper_g),
        "oil_c": band(bands.oil_c),
        "energy_kwh": band(bands.kwh),
        "coldest": coldest(bands),
    })
}

fn coldest(bands: &Bands) -> Value {
    let each = bands.coldest.iter();
    each.map(|(label, nights)| json!({"label": label, "nights": nights}))
        .collect()
}

/// A band; a null within it is a "never".
pub fn band(band: Option<Band>) -> Value {
    band.map_or(
        Value::Null,
        |b| json!({"p10": b.p10, "p50": b.p50, "p90": b.p90}),
    )
}

fn share(share: &Option<Share>) -> Value {
    share.map_or(Value::Null, |s| {
        json!({
            "count": s.count,
            "of": s.of,
            "fraction": s.share,
            "ci95_low": s.low,
            "ci95_high": s.high,
        })
    })
}

/// Three figures of a band.
pub fn three(band: Option<Band>, text: impl Fn(f64) -> String) -> String {
    band.map_or("-".to_owned(), |b| {
        [b.p10, b.p50, b.p90].map(|x| unsigned(text(x))).join(" / ")
    })
}

/// A figure without a sign if it is nothing.
pub fn unsigned(text: String) -> String {
    match text.as_str() {
        "-0" | "+0" => "0".to_owned(),
        "-0.0" | "+0.0" => "0.0".to_owned(),
        _ => text,
    }
}

/// Hours, or never.
pub fn hours(hours: f64) -> String {
    match hours.is_finite() {
        true => format!("{hours:.1}"),
        false => "never".to_owned(),
    }
}

/// A share of the nights with its interval: `84 % (74 to 91)`.
pub fn percent(share: &Share) -> String {
    let (low, high) = (100.0 * share.low, 100.0 * share.high);
    format!("{} ({low:.0} to {high:.0})", chance(share))
}

/// A share of the nights in percent, never rounded to none or all of them.
pub fn chance(share: &Share) -> String {
    match (share.count, share.of) {
        (0, of) => format!("< {:.0} %", (100.0 / of as f64).max(1.0).ceil()),
        (n, of) if n == of => format!("> {:.0} %", (100.0 - 100.0 / of as f64).min(99.0).floor()),
        _ => format!("{:.0} %", (100.0 * share.share).clamp(1.0, 99.0)),
    }
}

/// What the table means.
pub fn reading(paired: &Paired) -> String {
    let failed = paired.bands.iter();
    let failed = failed.filter(|b| b.nights < paired.nights as usize);
    let failed = failed.map(|b| format!(" Of \"{}\" only {} could be computed.", b.name, b.nights));
    let neither = match paired.verdicts.is_empty() {
        true => "",
        false => {
            " A night in which neither of two choices reaches the minimum counts for the one with the warmer coldest part."
        }
    };
    format!(
        "{} simulated nights of each choice, the same for all (seed {}): every uncertain input varies over its range. Of \
three figures, 10 % of the nights are below the first, 50 % below the second, 10 % above the last. Ready in: share of the \
nights with its 95 % interval.{neither}{}",
        paired.nights,
        paired.seed,
        failed.collect::<String>()
    )
}

/// The first choice against each other one, in sentences.
pub fn pairs(paired: &Paired, units: Units) -> String {
    let pair = |v: &Verdict| match v.result() {
        PairResult::First => wins(v, units),
        PairResult::Second => wins(&reversed(v), units),
        PairResult::Tied => tied(v),
    };
    let mut sentences: Vec<String> = paired.verdicts.iter().map(pair).collect();
    if let Some(best) = paired.bands.first() {
        sentences.extend(uncertain(best));
        sentences.extend(safer(best, &paired.bands[1..]));
    }
    sentences.join(" ")
}

/// The same for programs.
fn verdicts(paired: &Paired) -> Table {
    let median = |v: &Verdict, by| v.typically.filter(|_| v.by == by);
    Table::of("pairs", &paired.verdicts)
        .json("first", |v| v.first.as_str())
        .json("second", |v| v.second.as_str())
        .json("by", |v| match v.by {
            By::Hours => "time_to_threshold",
            By::Margin => "margin",
        })
        .json("wins", |v| v.ahead)
        .json("losses", |v| v.behind)
        .json("nights", |v| v.nights)
        .json("median_lead_h", |v| median(v, By::Hours))
        .json("median_lead_k", |v| median(v, By::Margin))
        .json("result", |v| match v.result() {
            PairResult::First => "first",
            PairResult::Second => "second",
            PairResult::Tied => "tied",
        })
        .table()
}

fn wins(v: &Verdict, units: Units) -> String {
    let how = match v.by {
        By::Hours => "is warm sooner than",
        By::Margin => "has a warmer coldest part than",
    };
    let by = match (v.by, v.typically) {
        (By::Hours, Some(lead)) if lead < 0.5 / 60.0 => " (median less than 1 min)".to_owned(),
        (By::Hours, Some(lead)) if lead < 1.5 => format!(" (median {:.0} min)", lead * 60.0),
        (By::Hours, Some(lead)) => format!(" (median {lead:.1} h)"),
        (By::Hours, None) => ", and the other mostly never is warm".to_owned(),
        (By::Margin, Some(lead)) => format!(" (median {})", size(lead, units)),
        (By::Margin, None) => String::new(),
    };
    format!(
        "\"{}\" {how} \"{}\" in {} of {} simulated nights{by}.",
        v.first, v.second, v.ahead, v.nights
    )
}

/// The same verdict seen from the second choice.
fn reversed(v: &Verdict) -> Verdict {
    Verdict {
        first: v.second.clone(),
        second: v.first.clone(),
        ahead: v.behind,
        behind: v.ahead,
        typically: v.typically.map(|lead| -lead),
        ..v.clone()
    }
}

fn tied(v: &Verdict) -> String {
    let what = match v.by {
        By::Hours => "sooner",
        By::Margin => "warmer",
    };
    format!(
        "\"{}\" and \"{}\" are equal within the uncertainty: the first is {what} in {} and the second in {} of {} \
simulated nights.",
        v.first, v.second, v.ahead, v.behind, v.nights
    )
}

fn uncertain(best: &Bands) -> Option<String> {
    let ready = best.ready.filter(|ready| ready.share < CERTAIN)?;
    Some(format!(
        "Even \"{}\" is ready in only {} of {} of these nights: measure what matters most (`coldsoak spread`), or leave \
more time.",
        best.name, ready.count, ready.of
    ))
}

/// Another choice that is ready in many more of the nights is named, with what it takes.
fn safer(best: &Bands, others: &[Bands]) -> Option<String> {
    let share = |b: &Bands| b.ready.map_or(0.0, |share| share.share);
    let more = others
        .iter()
        .filter(|b| share(b) >= share(best) + MANY_MORE);
    let other = more.reduce(|a, b| if share(b) > share(a) { b } else { a })?;
    let (ready, energy) = (other.ready?, other.kwh?);
    Some(format!(
        "\"{}\" is ready in {} of {}, for {:.1} kWh.",
        other.name, ready.count, ready.of, energy.p50
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn v(ahead: usize, behind: usize, by: By, typically: Option<f64>) -> Verdict {
        Verdict {
            first: "underneath".to_owned(),
            second: "on top".to_owned(),
            by,
            ahead,
            behind,
            nights: 100,
            typically,
        }
    }

    fn text(verdict: Verdict) -> String {
        let paired = Paired {
            nights: 100,
            seed: 1,
            bands: vec![],
            verdicts: vec![verdict],
        };
        pairs(&paired, Units::Fahrenheit)
    }

    #[test]
    fn a_pair_is_written_from_whichever_wins() {
        assert_eq!(
            text(v(93, 7, By::Hours, Some(2.0 / 3.0))),
            "\"underneath\" is warm sooner than \"on top\" in 93 of 100 simulated nights (median 40 min)."
        );
        assert_eq!(
            text(v(2, 98, By::Hours, Some(-2.0))),
            "\"on top\" is warm sooner than \"underneath\" in 98 of 100 simulated nights (median 2.0 h)."
        );
        assert_eq!(
            text(v(100, 0, By::Margin, Some(5.0))),
            "\"underneath\" has a warmer coldest part than \"on top\" in 100 of 100 simulated nights (median 9 °F)."
        );
        assert!(text(v(55, 40, By::Hours, Some(0.1))).contains("equal within the uncertainty"));
    }

    #[test]
    fn a_never_is_a_word_in_a_band_and_nothing_has_no_sign() {
        let band = Band::of([1.0, 2.0, f64::INFINITY]).unwrap();
        assert_eq!(three(Some(band), hours), "1.2 / 2.0 / never");
        assert_eq!(three(None, hours), "-");
        assert_eq!(unsigned("-0.0".to_owned()), "0.0");
    }

    #[test]
    fn a_chance_is_never_none_or_all() {
        let chance = |count| percent(&Share::of(count, 256).unwrap());
        assert!(chance(0).starts_with("< 1 % (0 to "), "{}", chance(0));
        assert!(chance(256).starts_with("> 99 % ("), "{}", chance(256));
        assert!(chance(255).starts_with("99 % ("), "{}", chance(255));
        assert!(chance(200).starts_with("78 % ("), "{}", chance(200));
    }
}
