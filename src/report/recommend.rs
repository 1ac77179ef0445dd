//! Which choice to use, in sentences, from ranked nights.

use super::format::size;
use super::verdict::{harm, lacks, small_margin};
use crate::findings::{EventKind, Findings, Unmet, hazards};
use crate::night::Night;
use crate::quantity::Units;
use crate::study::recommend::recommended;

/// A heater that comes on within this is on from the beginning, h.
const FROM_THE_FIRST_H: f64 = 0.02;
/// Less water than this on the upper walls counts as dry, g.
const DRY_G: f64 = 0.05;
/// Energies closer than this are the same, kWh.
const SAME_KWH: f64 = 0.05;

/// A choice: its name and what its night answers.
type Ranked<'a> = (&'a str, &'a Findings);

/// The recommendation over ranked nights, the best first, sentence by sentence; the verdict is the first.
pub fn advice(nights: &[(String, Night)], units: Units) -> Vec<String> {
    let ranked: Vec<Ranked> = nights
        .iter()
        .map(|(name, night)| (name.as_str(), &night.findings))
        .collect();
    sentences(&ranked, units)
}

fn sentences(ranked: &[Ranked], units: Units) -> Vec<String> {
    let findings: Vec<&Findings> = ranked.iter().map(|r| r.1).collect();
    let Some(chosen) = recommended(&findings).and_then(|at| ranked.get(at)) else {
        return vec!["There are no choices.".to_owned()];
    };
    match chosen.1.ready.ready_at_departure {
        false => not_ready(chosen, units),
        true if is_safe(chosen.1) => ready(ranked, chosen, units),
        true => unsafe_all(ranked, chosen, units),
    }
}

/// Whether nothing gets too hot and the circuit carries it.
fn is_safe(f: &Findings) -> bool {
    hazards(&f.warnings).is_empty()
}

fn margin(f: &Findings, units: Units) -> String {
    size(f.ready.margin_k.unwrap_or(0.0), units)
}

/// What is wrong with one that is not to be used.
fn do_not_use((name, f): &Ranked) -> String {
    format!("Do not use \"{name}\": {}.", harm(f).join("; "))
}

/// How many are not ready.
fn late(ranked: &[Ranked]) -> Option<String> {
    let late = ranked.iter().filter(|r| !r.1.ready.ready_at_departure);
    match late.count() {
        0 => None,
        1 => Some("One choice is not ready in time.".to_owned()),
        n => Some(format!("{n} choices are not ready in time.")),
    }
}

/// Some are ready, and none of them is safe.
fn unsafe_all(ranked: &[Ranked], (name, f): &Ranked, units: Units) -> Vec<String> {
    let mut text = vec![format!(
        "Use none of these as they are. \"{name}\" is warm enough, {} above the minimum, but {}. Correct that first; see \
the warnings.",
        margin(f, units),
        harm(f).join(", and ")
    )];
    let others = ranked.iter().filter(|r| r.0 != *name);
    text.extend(
        others
            .filter(|r| r.1.ready.ready_at_departure)
            .map(do_not_use),
    );
    text.extend(late(ranked));
    text
}

/// The best that is safe; a better one that is not is named with what is wrong with it.
fn ready(ranked: &[Ranked], (name, best): &Ranked, units: Units) -> Vec<String> {
    let all = || ranked.iter().filter(|r| r.1.ready.ready_at_departure);
    let mut text = vec![format!("Use \"{name}\": every part is ready at departure.")];
    let warm = match best.ready.slack_h {
        Some(slack) if best.energy.kwh > 0.0 => {
            format!(" Every part is warm {slack:.1} h before departure.")
        }
        _ => String::new(),
    };
    let coldest = best.coldest.as_ref().map(|c| {
        let margin = margin(best, units);
        format!(
            "Coldest part: {}, {margin} above the minimum.{warm}",
            c.label
        )
    });
    text.extend(coldest);
    text.push(format!(
        "Energy {:.1} kWh{}.",
        best.energy.kwh,
        dryness(best)
    ));
    text.extend(small_margin(best, units));
    text.extend(all().take_while(|r| r.0 != *name).map(do_not_use));
    let mut after = all().skip_while(|r| r.0 != *name).skip(1);
    if let Some((second, f)) = after.find(|r| is_safe(r.1)) {
        let more = f.energy.kwh - best.energy.kwh;
        let energy = match more {
            more if more.abs() < SAME_KWH => "for the same energy".to_owned(),
            more if more > 0.0 => format!("for {more:.1} kWh more"),
            // It saves energy and was ranked lower all the same, so water was why.
            less => format!("for {:.1} kWh less, but with more water inside", -less),
        };
        let small = match f.ready.is_small() {
            true => ", a small margin too",
            false => "",
        };
        let margin = margin(f, units);
        text.push(format!(
            "\"{second}\" is ready as well, {margin} above the minimum{small}, {energy}."
        ));
    }
    text.extend(late(ranked));
    text
}

fn dryness(best: &Findings) -> &'static str {
    match &best.condensation {
        Some(c) if c.upper_g < DRY_G => "; the upper inner walls stay dry",
        Some(_) => "; a little water on the upper inner walls",
        None => "",
    }
}

/// None is ready: the one that comes closest, and all that it lacks.
fn not_ready((name, f): &Ranked, units: Units) -> Vec<String> {
    let unmet = &f.ready.unmet;
    let cold = |u: &Unmet| matches!(u, Unmet::Cold { .. } | Unmet::ColdOil { .. });
    let cold = unmet.iter().any(cold);
    let wet = unmet.iter().any(|u| matches!(u, Unmet::Wet { .. }));
    let but = if cold { "" } else { "it is warm enough, but " };
    let mut text = vec![format!(
        "No choice is ready at departure. \"{name}\" comes closest: {but}{}.",
        lacks(f, units)
    )];
    text.extend((!is_safe(f)).then(|| do_not_use(&(*name, *f))));
    text.extend(cold.then(|| warmer(f)));
    text.extend(wet.then(|| "Warm the upper parts along with the oil.".to_owned()));
    text.push("Do not start the engine on these.".to_owned());
    text
}

/// What would make it warmer: an earlier start, unless a heater is on from the beginning; more watts, unless the circuit
/// is loaded too high already.
fn warmer(f: &Findings) -> String {
    let on = f.events.iter().filter_map(|event| match event.what {
        EventKind::HeaterOn { .. } => Some(event.time_h),
        _ => None,
    });
    let mut ways = Vec::new();
    if on
        .reduce(f64::min)
        .is_some_and(|hours| hours > FROM_THE_FIRST_H)
    {
        ways.push("start earlier");
    }
    ways.push("close the cowl better");
    if !f.circuit.overloaded() {
        ways.push("use more watts");
    }
    let ways = match &ways[..] {
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{}, or {last}", first.join(", ")),
        [] => String::new(),
    };
    let (initial, rest) = ways.split_at(1);
    format!("{}{rest}.", initial.to_uppercase())
}

/// Why the first of two comes before one with the larger margin, where both are ready.
pub fn near_tie(pair: &[(String, Night)]) -> Option<String> {
    let [(name, night), (other, after)] = pair else {
        return None;
    };
    let (f, next) = (&night.findings, &after.findings);
    let (least, most) = (f.ready.margin_k?, next.ready.margin_k?);
    if !(f.ready.ready_at_departure && next.ready.ready_at_departure && least < most) {
        return None;
    }
    let water = |f: &Findings| f.condensation.as_ref().map_or(0.0, |c| c.upper_g);
    let why = match next.energy.kwh - f.energy.kwh {
        more if more > 0.0 && water(next) - water(f) < 0.5 => format!(
            "takes less energy ({:.0} against {:.0} Wh)",
            1e3 * f.energy.kwh,
            1e3 * next.energy.kwh
        ),
        _ => format!(
            "leaves less water inside ({:.1} against {:.1} g)",
            water(f),
            water(next)
        ),
    };
    Some(format!(
        "\"{name}\" comes before \"{other}\", whose margin is larger, because it {why}."
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::answer;
    use crate::quantity::Temperature;
    use crate::scenario::circuit::Circuit;
    use crate::scenario::criteria::Criteria;
    use crate::scenario::oil::Oil;
    use crate::test_traces::Handmade;
    use crate::trace::{Conservation, SwitchCause};

    /// A night of nine hours with a sump and oil at these temperatures, and a heater that drew so much.
    fn night(sump_c: f64, oil_c: f64, kwh: f64) -> Findings {
        let mut night = Handmade::hours(&[0.0, 1.0, 9.0]);
        night.cell("sump", &[-20.0, sump_c, sump_c]).label = "sump".to_owned();
        night.oil(&[&[-20.0, oil_c, oil_c]]);
        night.heater("fan", 250.0, &[0.0, kwh * 1.8e6, kwh * 3.6e6]);
        night.switch(0.0, 0, true, SwitchCause::Hours);
        let criteria = Criteria {
            min_temperature: Temperature::degC(4.0),
            min_oil_temperature: Some(Temperature::degC(0.0)),
            ..Criteria::default()
        };
        let oil = Oil::sae_50();
        let (balance, circuit) = (Conservation::default(), Circuit::default());
        answer(&night.trace(), &balance, &criteria, &oil, &circuit, None)
    }

    fn text(nights: &[(&str, Findings)], units: Units) -> String {
        let ranked: Vec<Ranked> = nights.iter().map(|(name, f)| (*name, f)).collect();
        sentences(&ranked, units).join(" ")
    }

    #[test]
    fn the_best_is_recommended_with_its_reasons_and_the_next_beside_it() {
        let nights = [
            ("top", night(14.0, 5.0, 2.0)),
            ("both", night(24.0, 9.0, 3.5)),
            ("nothing", night(-20.0, -20.0, 0.0)),
        ];
        let told = text(&nights, Units::Celsius);
        assert!(
            told.starts_with(
                "Use \"top\": every part is ready at departure. Coldest part: sump, 10.0 K above the minimum."
            ),
            "{told}"
        );
        assert!(told.contains("Energy 2.0 kWh"), "{told}");
        assert!(
            told.ends_with(
                "\"both\" is ready as well, 20.0 K above the minimum, for 1.5 kWh more. One choice is not ready in time."
            ),
            "{told}"
        );
        assert!(!told.contains("margin is small"), "{told}");
    }

    #[test]
    fn what_is_dangerous_is_not_recommended_while_another_is_ready() {
        let mut hot = night(24.0, 9.0, 1.0);
        hot.warnings = vec![crate::findings::Warning::OverBreaker {
            current_a: 44.6,
            breaker_a: 15.0,
        }];
        let alone = text(&[("big", hot.clone())], Units::Celsius);
        assert_eq!(
            alone,
            "Use none of these as they are. \"big\" is warm enough, 20.0 K above the minimum, but the breaker is \
             overloaded. Correct that first; see the warnings."
        );
        let both = text(
            &[("big", hot), ("small", night(14.0, 5.0, 2.0))],
            Units::Celsius,
        );
        assert!(both.starts_with("Use \"small\""), "{both}");
        assert!(both.contains("Do not use \"big\""), "{both}");
    }

    /// The choice whose card is written is the one that the sentence names.
    #[test]
    fn what_is_recommended_is_what_the_sentence_names() {
        let mut hot = night(24.0, 9.0, 1.0);
        hot.warnings = vec![crate::findings::Warning::OverBreaker {
            current_a: 44.6,
            breaker_a: 15.0,
        }];
        let small = || ("small", night(14.0, 5.0, 2.0));
        let (cold, colder) = (
            ("cold", night(1.0, -2.0, 2.0)),
            ("none", night(-20.0, -20.0, 0.0)),
        );
        for (nights, place) in [
            (vec![("big", hot.clone()), small()], Some(1)),
            (vec![("big", hot)], Some(0)),
            (vec![colder, cold], Some(1)),
            (vec![], None),
        ] {
            let ranked: Vec<Ranked> = nights.iter().map(|(name, f)| (*name, f)).collect();
            let findings: Vec<&Findings> = ranked.iter().map(|r| r.1).collect();
            assert_eq!(recommended(&findings), place);
            let verdict = sentences(&ranked, Units::Celsius).remove(0);
            if let Some(place) = place {
                assert!(
                    verdict.contains(&format!("\"{}\"", ranked[place].0)),
                    "{verdict}"
                );
            }
        }
    }

    #[test]
    fn a_small_margin_is_called_small() {
        let told = text(&[("top", night(4.5, 5.0, 2.0))], Units::Fahrenheit);
        assert!(told.contains("sump, 0.9 °F above the minimum"), "{told}");
        assert!(told.contains("margin is small"), "{told}");
    }

    #[test]
    fn where_none_is_ready_the_closest_is_named_with_all_that_it_lacks() {
        let nights = [
            ("nothing", night(-20.0, -20.0, 0.0)),
            ("pad", night(1.0, -2.0, 2.0)),
        ];
        assert_eq!(
            text(&nights, Units::Celsius),
            "No choice is ready at departure. \"pad\" comes closest: sump 1.0 °C, 3.0 K below the minimum of 4.0 °C; \
             oil -2.0 °C, 2.0 K below the minimum of 0.0 °C. Close the cowl better, or use more watts. Do not start \
             the engine on these."
        );
    }

    /// On from the first there is no earlier, and a circuit that carries too much carries no more.
    #[test]
    fn no_more_is_advised_than_can_be_had() {
        let mut late = night(1.0, 5.0, 2.0);
        for event in &mut late.events {
            event.time_h += 1.0;
        }
        let early = text(&[("pad", late.clone())], Units::Celsius);
        assert!(
            early.contains("Start earlier, close the cowl better, or use more watts."),
            "{early}"
        );
        late.circuit.needed_breaker_a = late.circuit.breaker_a + 1.0;
        late.circuit.peak_current_a = 1.0;
        late.warnings = vec![crate::findings::Warning::OverBreaker {
            current_a: 16.0,
            breaker_a: 15.0,
        }];
        let loaded = text(&[("pad", late)], Units::Celsius);
        assert!(
            loaded.contains(
                "Do not use \"pad\": the breaker is overloaded. Start earlier, or close the cowl better."
            ),
            "{loaded}"
        );
    }

    #[test]
    fn water_alone_is_not_called_cold() {
        let mut wet = night(14.0, 5.0, 2.0);
        wet.ready.ready_at_departure = false;
        wet.ready.unmet = vec![Unmet::Wet {
            upper_g: 12.0,
            limit_g: 1.0,
        }];
        let told = text(&[("pad", wet)], Units::Celsius);
        assert!(
            told.contains("it is warm enough, but 12.0 g of water on the upper inner walls"),
            "{told}"
        );
        assert!(
            told.contains("Warm the upper parts along with the oil"),
            "{told}"
        );
        assert!(!told.contains("more watts"), "{told}");
    }
}
