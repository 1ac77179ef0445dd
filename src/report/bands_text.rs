//! Bands and paired verdicts in words: what survives the doubt.

use super::format::size;
use super::table::Cells;
use crate::quantity::Units;
use crate::study::paired::{Bands, By, Paired, Standing, Verdict};
use crate::study::quantile::{Band, Share};

/// Columns that stay together where the terminal is narrow.
const FIRST: usize = 4;
/// The narrowest terminal that holds the whole table.
const WHOLE: u16 = 108;

/// The small table: three figures a headline, one night in ten lies below the first and above the last.
pub fn table(paired: &Paired, units: Units, width: u16) -> String {
    cells(paired, units).folded(&[1], FIRST, WHOLE, width)
}

/// Its cells.
pub fn cells(paired: &Paired, units: Units) -> Cells {
    let head = [
        "",
        "choice",
        "warm after, h",
        &format!("margin, {}", step_symbol(units)),
        "water, g",
        &format!("oil, {}", units.symbol()),
        "kWh",
        "ready in",
    ];
    let rows = paired.bands.iter().enumerate().map(|(rank, b)| {
        vec![
            (rank + 1).to_string(),
            b.name.clone(),
            three(b.warm_h, hours),
            three(b.margin_k, |k| format!("{:+.0}", units.step(k))),
            three(b.upper_g, |g| format!("{g:.1}")),
            three(b.oil_c, |c| format!("{:.0}", units.temperature(c))),
            three(b.kwh, |kwh| format!("{kwh:.1}")),
            b.ready.map_or("-".to_owned(), |share| percent(&share)),
        ]
    });
    Cells {
        head: head.map(str::to_owned).to_vec(),
        rows: rows.collect(),
    }
}

/// What differences of temperature are counted in.
pub fn step_symbol(units: Units) -> &'static str {
    match units {
        Units::Celsius => "K",
        Units::Fahrenheit => "°F",
    }
}

/// Three figures of a band.
pub fn three(band: Option<Band>, told: impl Fn(f64) -> String) -> String {
    band.map_or("-".to_owned(), |b| {
        let figures = [b.p10, b.p50, b.p90].map(|x| match told(x).as_str() {
            "-0" | "+0" => "0".to_owned(),
            "-0.0" | "+0.0" => "0.0".to_owned(),
            told => told.to_owned(),
        });
        figures.join(" / ")
    })
}

/// Hours, or never.
pub fn hours(hours: f64) -> String {
    if hours.is_finite() {
        format!("{hours:.1}")
    } else {
        "never".to_owned()
    }
}

/// A share with its interval: `84 % (74-91)`.
pub fn percent(share: &Share) -> String {
    let percent = |x: f64| 100.0 * x;
    format!(
        "{:.0} % ({:.0}-{:.0})",
        percent(share.share),
        percent(share.low),
        percent(share.high)
    )
}

/// What the table means.
pub fn reading(paired: &Paired) -> String {
    let failed: Vec<String> = paired
        .bands
        .iter()
        .filter(|b| b.nights < paired.nights as usize)
        .map(|b| format!(" Of \"{}\" only {} could be computed.", b.name, b.nights))
        .collect();
    format!(
        "Over {} plausible nights a choice, the same for all (seed {}): every number that a file calls uncertain is \
varied over its range. Of three figures, one night in ten lies below the first, half below the second, one in ten \
above the last. Ready in: share of the nights, with its 95 percent interval.",
        paired.nights, paired.seed,
    ) + match paired.verdicts.len() {
        0 => "",
        _ => {
            " Where two choices are compared, a night in which neither gets warm everywhere counts for the one that is \
warmer at its coldest part."
        }
    } + &failed.concat()
}

/// The verdicts in plain words.
pub fn verdict(paired: &Paired, units: Units) -> String {
    let mut sentences: Vec<String> = Vec::new();
    for verdict in &paired.verdicts {
        sentences.push(match verdict.standing() {
            Standing::First => ahead(verdict, units),
            Standing::Second => ahead(&turned(verdict), units),
            Standing::Tied => tied(verdict),
        });
    }
    if let Some(best) = paired.bands.first() {
        sentences.extend(unsure(best));
        sentences.extend(safer(best, &paired.bands[1..]));
    }
    sentences.join(" ")
}

fn ahead(v: &Verdict, units: Units) -> String {
    let how = match v.by {
        By::Hours => "is warm sooner than",
        By::Margin => "is warmer at its coldest part than",
    };
    let by = match (v.by, v.typically) {
        (By::Hours, Some(lead)) if lead < 0.5 / 60.0 => {
            ", typically by less than a minute".to_owned()
        }
        (By::Hours, Some(lead)) if lead < 1.5 => {
            format!(", typically by {:.0} min", lead * 60.0)
        }
        (By::Hours, Some(lead)) => format!(", typically by {lead:.1} h"),
        (By::Hours, None) => ", and the other mostly never is warm".to_owned(),
        (By::Margin, Some(lead)) => format!(", typically by {}", size(lead, units)),
        (By::Margin, None) => String::new(),
    };
    format!(
        "\"{}\" {how} \"{}\" in {} of {} plausible nights{by}.",
        v.first, v.second, v.ahead, v.nights
    )
}

/// The same verdict seen from the second choice.
fn turned(v: &Verdict) -> Verdict {
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
        "\"{}\" and \"{}\" are tied within the doubt: the first is {what} in {} and the second in {} of {} plausible nights.",
        v.first, v.second, v.ahead, v.behind, v.nights
    )
}

/// How much larger a share of ready nights is worth a word.
const MANY_MORE: f64 = 0.05;

/// A best choice that is not ready in nine of ten nights is said to be unsure.
fn unsure(best: &Bands) -> Option<String> {
    let share = best.ready.filter(|share| share.share < 0.9)?;
    Some(format!(
        "Even \"{}\" is ready in only {} of {} of these nights: measure what matters most (`coldsoak spread`) or \
leave yourself more time.",
        best.name, share.count, share.of
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

    fn told(verdict_: Verdict) -> String {
        let paired = Paired {
            nights: 100,
            seed: 1,
            bands: vec![],
            verdicts: vec![verdict_],
        };
        verdict(&paired, Units::Fahrenheit)
    }

    #[test]
    fn verdicts_are_told_from_whoever_is_ahead() {
        assert_eq!(
            told(v(93, 7, By::Hours, Some(2.0 / 3.0))),
            "\"underneath\" is warm sooner than \"on top\" in 93 of 100 plausible nights, typically by 40 min."
        );
        assert_eq!(
            told(v(2, 98, By::Hours, Some(-2.0))),
            "\"on top\" is warm sooner than \"underneath\" in 98 of 100 plausible nights, typically by 2.0 h."
        );
        assert_eq!(
            told(v(100, 0, By::Margin, Some(5.0))),
            "\"underneath\" is warmer at its coldest part than \"on top\" in 100 of 100 plausible nights, typically by 9 °F."
        );
        assert!(told(v(55, 40, By::Hours, Some(0.1))).contains("tied within the doubt"));
    }

    #[test]
    fn a_never_stands_in_a_band_as_a_word() {
        let band = Band::of([1.0, 2.0, f64::INFINITY]).unwrap();
        assert_eq!(three(Some(band), hours), "1.2 / 2.0 / never");
        assert_eq!(three(None, hours), "-");
    }
}
