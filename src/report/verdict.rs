//! Ready or not and why, how small the margin is, and what must not be done.

use super::format::{apart, size};
use crate::findings::{Findings, Hazard, Unmet, forbidding};
#[cfg(feature = "pictures")]
use crate::night::Night;
use crate::quantity::Units;

/// Most digits after the point of an amount of water beside its limit.
const FINEST: usize = 6;

/// Ready or not at the departure and why.
#[cfg(feature = "pictures")]
pub fn sentence(night: &Night) -> String {
    let (f, units) = (&night.findings, night.scenario.scenario().units);
    let at = night.scenario.clock().dated(night.trace.departure_s);
    if !f.ready.ready_at_departure {
        return format!("Not ready at {at}: {}.", lacks(f, units));
    }
    let coldest = f.coldest.as_ref().map_or(String::new(), |c| {
        let (temp, least) = apart(c.temp_c, f.threshold.threshold_c, units);
        let margin = size(f.ready.margin_k.unwrap_or(0.0), units);
        format!(
            " Coldest part: {}, {temp}, {margin} above the minimum of {least}.",
            c.label
        )
    });
    format!("Ready at {at}.{coldest}")
}

/// All that is missing.
pub fn lacks(f: &Findings, units: Units) -> String {
    let unmet: Vec<String> = f.ready.unmet.iter().map(|u| lack(u, units)).collect();
    unmet.join("; ")
}

/// One thing that is missing.
pub fn lack(unmet: &Unmet, units: Units) -> String {
    let short = |temp_c: f64, least_c: f64| {
        let (at, least) = apart(temp_c, least_c, units);
        let short = size(least_c - temp_c, units);
        format!("{at}, {short} below the minimum of {least}")
    };
    match unmet {
        Unmet::Cold {
            label,
            temp_c,
            threshold_c,
            ..
        } => format!("{label} {}", short(*temp_c, *threshold_c)),
        Unmet::Wet { upper_g, limit_g } => {
            let (upper, limit) = water(*upper_g, *limit_g);
            format!("{upper} g of water on the upper inner walls, limit {limit} g")
        }
        Unmet::ColdOil {
            temp_c,
            threshold_c,
        } => format!("oil {}", short(*temp_c, *threshold_c)),
        Unmet::NoOil => "a minimum for the oil is set, but there is no oil".to_owned(),
        Unmet::NoEngine => "no part is marked as a part of the engine".to_owned(),
    }
}

/// An amount of water and its limit, g, without the unit: to as many digits as show the limit to a percent and
/// differ, one at least, so that `0.104` over `0.100` is no `0.1` over `0.1`.
pub fn water(upper_g: f64, limit_g: f64) -> (String, String) {
    let text = |x: f64, digits: usize| format!("{x:.digits$}");
    let shown = |digits: &usize| {
        let limit: f64 = text(limit_g, *digits).parse().unwrap_or(limit_g);
        (limit - limit_g).abs() <= 0.01 * limit_g.abs()
    };
    let apart = |digits: &usize| text(upper_g, *digits) != text(limit_g, *digits);
    let fewest = (1..=FINEST).find(shown).unwrap_or(FINEST);
    // Where they are the same, no digits differ.
    let digits = (fewest..=FINEST).find(apart).unwrap_or(fewest);
    (text(upper_g, digits), text(limit_g, digits))
}

/// The harm for which a night is not to be heated so, in a sentence; none if there is none.
pub fn do_not(f: &Findings) -> Option<String> {
    let harm = harm(f);
    (!harm.is_empty()).then(|| format!("Do not heat like this: {}.", harm.join("; ")))
}

/// The same of a choice.
pub fn do_not_use(f: &Findings) -> Option<String> {
    let harm = harm(f);
    (!harm.is_empty()).then(|| format!("Do not use: {}.", harm.join("; ")))
}

/// The harm for which a night is not to be heated so, each in a few words.
pub fn harm(f: &Findings) -> Vec<&'static str> {
    forbidding(&f.warnings).into_iter().map(words).collect()
}

/// A hazard in a few words.
pub fn words(hazard: Hazard) -> &'static str {
    match hazard {
        Hazard::HotCarburettor => "the carburettor gets too hot",
        Hazard::HotSkin => "the cowl skin gets too hot",
        Hazard::OverBreaker => "the breaker is overloaded",
        Hazard::ContinuousLoad => "the breaker is loaded too high for hours",
        Hazard::LargeHeater => "one heater takes too much of the breaker",
    }
}

#[cfg(test)]
mod tests {
    use super::water;

    #[test]
    fn water_beside_its_limit_has_the_digits_that_differ() {
        let text = |upper, limit| {
            let (upper, limit) = water(upper, limit);
            format!("{upper} of {limit}")
        };
        assert_eq!(text(2.34, 1.0), "2.3 of 1.0");
        assert_eq!(
            text(0.104, 0.1),
            "0.10 of 0.10".replace("0.10 of 0.10", "0.104 of 0.100")
        );
        assert_eq!(text(1.0, 1.0), "1.0 of 1.0");
        assert_eq!(text(0.02, 0.015), "0.020 of 0.015");
    }
}
