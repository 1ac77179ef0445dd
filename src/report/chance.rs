//! Chances in words and for programs: the share of the simulated nights in which the engine is ready.

use super::verdict;
use crate::findings::Hazard;
use crate::night::Night;
use crate::quantity::Units;
use crate::study::paired::Bands;
use crate::study::quantile::{Band, Share};
use serde_json::{Value, json};

/// A chance in percent. Neither 0 nor 100 is printed but the end of the interval, and none is rounded up to what is required.
pub fn percent(share: &Share, target: f64) -> String {
    match (share.count, share.of) {
        (0, _) => format!("< {:.0} %", (100.0 * share.high).ceil().max(1.0)),
        (n, of) if n == of => format!("> {:.0} %", (100.0 * share.low).floor().min(99.0)),
        _ => {
            let exact = 100.0 * share.share;
            let required = (100.0 * target).round();
            let rounded = match share.share < target && exact.round() >= required {
                true => exact.floor(),
                false => exact.round(),
            };
            format!("{:.0} %", rounded.clamp(1.0, 99.0))
        }
    }
}

/// A required chance: `95 %`.
pub fn percent_required(target: f64) -> String {
    // What a product of binary numbers leaves in the last digits is no digit of the percentage.
    format!("{} %", (1e8 * target).round() / 1e6)
}

/// The 95 percent interval of a chance, in words.
pub fn interval(share: &Share) -> String {
    let (low, high) = (100.0 * share.low, 100.0 * share.high);
    format!("95 % interval {low:.0} to {high:.0} %")
}

/// Ready at departure in so many of the nights.
pub fn sentence(share: &Share, target: f64, leave: &str) -> String {
    format!(
        "Ready at {leave} in {} of {} simulated nights ({}).",
        percent(share, target),
        share.of,
        interval(share)
    )
}

/// What becomes too hot or is overloaded in some of the simulated nights, a sentence each.
pub fn hazards(bands: &Bands) -> Vec<String> {
    let each = bands.hazards.iter();
    let sentence = |(hazard, nights): &(Hazard, usize)| {
        let all = bands.nights;
        format!(
            "In {nights} of {all} simulated nights {}.",
            verdict::words(*hazard)
        )
    };
    each.map(sentence).collect()
}

/// How many nights could not be computed, if any.
pub fn failed(bands: &Bands, wanted: u32) -> Option<String> {
    let failed = (wanted as usize).saturating_sub(bands.nights);
    (failed > 0).then(|| {
        format!("{failed} of {wanted} simulated nights could not be computed and are not counted.")
    })
}

/// A chance for programs.
pub fn json(share: Option<&Share>) -> Value {
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

/// What the nights of a case come to, for programs: the name and the quantiles of each number.
pub fn bands(bands: &Bands) -> Value {
    let coldest = bands.coldest.iter();
    let hazards = bands.hazards.iter();
    let hazards: Value = hazards
        .map(|(hazard, nights)| json!({"hazard": hazard, "nights": nights}))
        .collect();
    let coldest: Value = coldest
        .map(|(label, nights)| json!({"label": label, "nights": nights}))
        .collect();
    json!({
        "name": bands.name,
        "nights": bands.nights,
        "ready": json(bands.ready.as_ref()),
        "time_to_threshold_h": band(bands.warm_h),
        "margin_k": band(bands.margin_k),
        "coldest_c": band(bands.coldest_c),
        "upper_g": band(bands.upper_g),
        "condensation_h": band(bands.condensation_h),
        "oil_c": band(bands.oil_c),
        "energy_kwh": band(bands.kwh),
        "coldest": coldest,
        "hazards": hazards,
    })
}

/// A band for programs; a null within it is a "never".
pub fn band(band: Option<Band>) -> Value {
    band.map_or(
        Value::Null,
        |b| json!({"p10": b.p10, "p50": b.p50, "p90": b.p90}),
    )
}

/// The coldest part of the simulated nights, with its margin: `Coldest part: crankshaft nose, 3 °F above the 40 °F minimum
/// (-2 to +11 °F).`
pub fn coldest(bands: &Bands, night: &Night, units: Units) -> Option<String> {
    let (label, _) = bands.coldest.first()?;
    let margin = bands.margin_k?;
    let minimum = units.temperature_text(night.findings.threshold.threshold_c);
    let side = match margin.p50 < 0.0 {
        true => "below",
        false => "above",
    };
    let step = |k: f64| unsigned(format!("{:+.0}", units.step(k)));
    Some(format!(
        "Coldest part: {label}, {} {side} the {minimum} minimum ({} to {} {}).",
        units.size(margin.p50),
        step(margin.p10),
        step(margin.p90),
        units.step_symbol()
    ))
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chance_is_never_none_or_all_and_never_rounded_up_to_what_is_required() {
        let chance = |count| percent(&Share::of(count, 256).unwrap(), 0.95);
        assert_eq!(chance(0), "< 2 %");
        assert_eq!(chance(256), "> 98 %");
        assert_eq!(chance(255), "99 %");
        assert_eq!(chance(200), "78 %");
        // 243 of 256 are 94.9 %, 244 are 95.3 %.
        assert_eq!(chance(243), "94 %");
        assert_eq!(chance(244), "95 %");
        // 240 of 256 are 93.75 %.
        assert_eq!(chance(240), "94 %");
    }

    #[test]
    fn nothing_has_no_sign_and_never_is_a_word() {
        assert_eq!(unsigned("-0.0".to_owned()), "0.0");
        assert_eq!(hours(f64::INFINITY), "never");
    }

    #[test]
    fn a_required_chance_keeps_its_digits() {
        for percent in 50..100 {
            assert_eq!(
                percent_required(f64::from(percent) / 100.0),
                format!("{percent} %")
            );
        }
        assert_eq!(percent_required(0.995), "99.5 %");
    }
}
