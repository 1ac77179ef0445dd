//! What to do, in plain words, from ranked nights.

use crate::findings::{EventKind, Findings, Hazard, SMALL_MARGIN_K, Unmet, hazards};
use crate::night::Night;
use crate::quantity::Units;

/// A heater that comes on within this is on from the beginning, h.
const FROM_THE_FIRST_H: f64 = 0.02;

/// A choice: its name and what its night answers.
type Ranked<'a> = (&'a str, &'a Findings);

/// The recommendation over ranked nights, the best first, in these degrees: the verdict, and what is to be said of it.
pub fn recommend(nights: &[(String, Night)], units: Units) -> Vec<String> {
    sentences(&ranked(nights), units)
}

/// The place in the ranking of the choice that is recommended or, if none is ready, comes closest.
pub fn recommended(nights: &[(String, Night)]) -> Option<usize> {
    named(&ranked(nights))
}

fn named(ranked: &[Ranked]) -> Option<usize> {
    let first = ranked.first()?;
    let named = match first.1.ready.ready_at_departure {
        true => best(ranked)?,
        false => closest(*first, &ranked[1..]),
    };
    ranked.iter().position(|r| r.0 == named.0)
}

fn ranked(nights: &[(String, Night)]) -> Vec<Ranked<'_>> {
    let each = nights.iter();
    each.map(|(name, night)| (name.as_str(), &night.findings))
        .collect()
}

fn sentences(ranked: &[Ranked], units: Units) -> Vec<String> {
    match ranked {
        [] => vec!["There was nothing to choose from.".to_owned()],
        [first, ..] if first.1.ready.ready_at_departure => ready(ranked, units),
        [first, rest @ ..] => not_ready(*first, rest, units),
    }
}

fn harm_words(f: &Findings) -> Vec<&'static str> {
    let words = |hazard| match hazard {
        Hazard::HotCarburettor => "the carburettor gets too hot",
        Hazard::HotSkin => "the cowl skin gets too hot",
        Hazard::OverBreaker => "the breaker is overloaded",
        Hazard::ContinuousLoad => "the breaker is loaded too high for hours",
        Hazard::LargeHeater => "one heater takes too much of the breaker",
    };
    hazards(&f.warnings).into_iter().map(words).collect()
}

/// Whether nothing gets too hot and the circuit carries it.
fn safe(ranked: &&Ranked) -> bool {
    hazards(&ranked.1.warnings).is_empty()
}

/// The best that is ready and safe; if none is safe, the best that is ready.
fn best<'a>(ranked: &[Ranked<'a>]) -> Option<Ranked<'a>> {
    let all = || ranked.iter().filter(|(_, f)| f.ready.ready_at_departure);
    all().find(safe).or(all().next()).copied()
}

/// What is wrong with one that is not to be used as it stands.
fn harm((name, findings): &Ranked) -> String {
    let wrong = harm_words(findings).join(", and ");
    format!("Do not use \"{name}\" as it stands: {wrong}.")
}

/// Some are ready, and none of them is safe: none is to be used.
fn unsafe_all(ranked: &[Ranked], (name, best): Ranked, units: Units) -> Vec<String> {
    let margin = units.size(best.ready.margin_k.unwrap_or(0.0));
    let mut told = vec![format!(
        "Use none of these as they stand. \"{name}\" is warm enough, with {margin} to spare, but {}: mend that first, the \
warnings say how.",
        harm_words(best).join(", and "),
    )];
    let others = ranked.iter().filter(|r| r.0 != name);
    told.extend(others.filter(|r| r.1.ready.ready_at_departure).map(harm));
    told.extend(late(ranked));
    told
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

/// A better one that is not safe is named with what is wrong with it.
fn ready(ranked: &[Ranked], units: Units) -> Vec<String> {
    let all = || ranked.iter().filter(|(_, f)| f.ready.ready_at_departure);
    let Some((name, best)) = best(ranked) else {
        return Vec::new();
    };
    if !safe(&&(name, best)) {
        return unsafe_all(ranked, (name, best), units);
    }
    let margin = units.size(best.ready.margin_k.unwrap_or(0.0));
    let last = best
        .coldest
        .as_ref()
        .map_or(String::new(), |c| format!(" (the {} is last)", c.label));
    let warm = match best.ready.slack_h {
        Some(slack) if best.energy.kwh > 0.0 => {
            format!(", warm everywhere {slack:.1} h before you leave")
        }
        _ => String::new(),
    };
    let mut told = vec![format!(
        "Use \"{name}\": every part is ready at departure with {margin} to spare{last}{warm}, for {:.1} kWh{}.",
        best.energy.kwh,
        dryness(best),
    )];
    if best.ready.is_small() {
        told.push(
            "That is a thin margin: how well the cowl is closed can undo it, so plug and cover it better, or put a \
thermometer on that part before you trust it."
                .to_owned(),
        );
    }
    told.extend(all().take_while(|(other, _)| *other != name).map(harm));
    let mut after = all().skip_while(|(other, _)| *other != name).skip(1);
    if let Some((second, findings)) = after.find(safe) {
        let more = findings.energy.kwh - best.energy.kwh;
        let margin_k = findings.ready.margin_k.unwrap_or(0.0);
        let margin = units.size(margin_k);
        let thin = if margin_k < SMALL_MARGIN_K {
            ", thin as well"
        } else {
            ""
        };
        let energy = if more.abs() < 0.05 {
            "for the same energy".to_owned()
        } else if more > 0.0 {
            format!("for {more:.1} kWh more")
        } else {
            // It saves energy and was ranked lower all the same, so water was why.
            format!("for {:.1} kWh less, but with more water inside", -more)
        };
        told.push(format!(
            "\"{second}\" would also do, with {margin} to spare{thin}, {energy}."
        ));
    }
    told.extend(late(ranked));
    told
}

fn dryness(best: &Findings) -> &'static str {
    match &best.condensation {
        Some(c) if c.upper_g < 0.05 => ", and the upper walls inside stay dry",
        Some(_) => ", with little water on the upper walls inside",
        None => "",
    }
}

/// The one with the least lack of warmth.
fn closest<'a>(first: Ranked<'a>, rest: &[Ranked<'a>]) -> Ranked<'a> {
    let margin = |ranked: Ranked| ranked.1.ready.margin_k.unwrap_or(f64::NEG_INFINITY);
    rest.iter().fold(first, |best, other| {
        if margin(*other) > margin(best) {
            *other
        } else {
            best
        }
    })
}

/// None is ready: the one that comes closest, and all that it lacks.
fn not_ready(first: Ranked, rest: &[Ranked], units: Units) -> Vec<String> {
    let closest = closest(first, rest);
    let unmet = &closest.1.ready.unmet;
    let lacks: Vec<String> = unmet.iter().map(|u| lack(u, units)).collect();
    let cold = unmet
        .iter()
        .any(|u| matches!(u, Unmet::Cold { .. } | Unmet::ColdOil { .. }));
    let wet = unmet.iter().any(|u| matches!(u, Unmet::Wet { .. }));
    let mut advice = Vec::new();
    if cold {
        advice.push(warmer(closest.1));
    }
    if wet {
        advice.push("warm the upper parts along with the oil".to_owned());
    }
    advice.push("do not start the engine on these".to_owned());
    let advice = advice.join("; ");
    let (initial, rest) = advice.split_at(1);
    let verdict = format!(
        "None of these is ready at departure. \"{}\" comes closest: {}{}.",
        closest.0,
        if cold { "" } else { "it is warm enough, but " },
        lacks.join(", and "),
    );
    let mut told = vec![verdict];
    told.extend((!safe(&&closest)).then(|| harm(&closest)));
    told.push(format!("{}{rest}.", initial.to_uppercase()));
    told
}

/// What would make it warmer: an earlier start, unless a heater is on from the beginning; more watts, unless the circuit
/// is loaded too high already.
fn warmer(f: &Findings) -> String {
    let on = f.events.iter().filter_map(|event| match event.what {
        EventKind::HeaterOn { .. } => Some(event.time_h),
        _ => None,
    });
    let first_on_h = on.reduce(f64::min);
    let mut ways = Vec::new();
    if first_on_h.is_some_and(|hours| hours > FROM_THE_FIRST_H) {
        ways.push("start earlier");
    }
    ways.push("close the cowl better");
    if !f.circuit.overloaded() {
        ways.push("use more watts");
    }
    match &ways[..] {
        [one] => (*one).to_owned(),
        [one, other] => format!("{one} or {other}"),
        [first @ .., last] => format!("{}, or {last}", first.join(", ")),
        [] => String::new(),
    }
}

fn lack(unmet: &Unmet, units: Units) -> String {
    match unmet {
        Unmet::Cold {
            label,
            temp_c,
            threshold_c,
            ..
        } => format!(
            "the {label} is {} short of the threshold",
            units.size(threshold_c - temp_c)
        ),
        Unmet::Wet { upper_g, limit_g } => {
            let (upper, limit) = (upper_g, limit_g);
            format!(
                "{upper:.1} g of water stand on the upper walls inside, where less than {limit:.1} g is asked"
            )
        }
        Unmet::ColdOil {
            temp_c,
            threshold_c,
        } => format!(
            "the oil is {} short of what is asked",
            units.size(threshold_c - temp_c)
        ),
        Unmet::NoOil => "an oil temperature is asked, but there is no oil".to_owned(),
        Unmet::NoEngine => "no part is marked as part of the engine".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::answer;
    use crate::quantity::Temperature;
    use crate::scenario::circuit::Circuit;
    use crate::scenario::oil::Oil;
    use crate::scenario::question::Question;
    use crate::trace::{
        CellInfo, Column, ColumnInfo, ColumnKind, Conservation, HeaterNote, OilNote, SwitchCause,
        Switching, Trace,
    };

    /// A night of nine hours with a sump and oil at these temperatures, and a heater that drew so much.
    fn night(sump_c: f64, oil_c: f64, kwh: f64) -> Findings {
        let column = |key: &str, kind| Column {
            key: key.to_owned(),
            label: key.to_owned(),
            kind,
        };
        let cell = |column, part: &str| CellInfo {
            column,
            part: part.to_owned(),
            label: part.to_owned(),
            engine: part == "sump",
            carburettor: false,
            skin: false,
            heat_capacity_j_per_k: 1000.0,
            pockets: vec![],
        };
        let legend = ColumnInfo {
            columns: vec![
                column("sump_c", ColumnKind::CellTemperature),
                column("oil_c", ColumnKind::CellTemperature),
                column("heater_j", ColumnKind::HeaterEnergy),
                column("hangar_c", ColumnKind::HangarTemperature),
                column("outdoors_c", ColumnKind::OutdoorTemperature),
                column("lost_g", ColumnKind::LostVapour),
            ],
            cells: vec![cell(0, "sump"), cell(1, "oil")],
            hangar: 3,
            outdoors: 4,
            lost_vapour: 5,
            oil: Some(OilNote { layers: vec![1] }),
            heaters: vec![HeaterNote {
                name: "fan".to_owned(),
                rated_w: 250.0,
                energy: 2,
            }],
            ..ColumnInfo::default()
        };
        let row = |sump: f64, oil: f64, joules: f64| [sump, oil, joules, -20.0, -20.0, 0.0];
        let trace = Trace {
            legend,
            times_s: vec![0.0, 3600.0, 9.0 * 3600.0],
            values: [
                row(-20.0, -20.0, 0.0),
                row(sump_c, oil_c, kwh * 1.8e6),
                row(sump_c, oil_c, kwh * 3.6e6),
            ]
            .concat(),
            switchings: vec![Switching {
                time_s: 0.0,
                heater: 0,
                on: true,
                cause: SwitchCause::Hours,
            }],
            departure_s: 9.0 * 3600.0,
        };
        let question = Question {
            threshold: Temperature::degC(4.0),
            oil_threshold: Some(Temperature::degC(0.0)),
            ..Question::default()
        };
        let oil = Oil::sae_50();
        let (books, circuit) = (Conservation::default(), Circuit::default());
        answer(&trace, &books, &question, &oil, &circuit, None)
    }

    fn told(nights: &[(&str, Findings)], units: Units) -> String {
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
        let told = told(&nights, Units::Celsius);
        assert!(
            told.starts_with("Use \"top\": every part is ready at departure with 10.0 K to spare (the sump is last)"),
            "{told}"
        );
        assert!(told.contains("for 2.0 kWh"), "{told}");
        assert!(
            told.ends_with(
                "\"both\" would also do, with 20.0 K to spare, for 1.5 kWh more. One choice is not ready in time."
            ),
            "{told}"
        );
        assert!(!told.contains("thin margin"), "{told}");
    }

    #[test]
    fn what_is_dangerous_is_not_recommended_while_another_is_ready() {
        let mut hot = night(24.0, 9.0, 1.0);
        hot.warnings = vec![crate::findings::Warning::OverBreaker {
            current_a: 44.6,
            breaker_a: 15.0,
        }];
        let alone = told(&[("big", hot.clone())], Units::Celsius);
        assert_eq!(
            alone,
            "Use none of these as they stand. \"big\" is warm enough, with 20.0 K to spare, but the breaker is \
             overloaded: mend that first, the warnings say how."
        );
        let both = told(
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
            assert_eq!(named(&ranked), place);
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
    fn a_thin_margin_is_said_to_be_one() {
        let told = told(&[("top", night(4.5, 5.0, 2.0))], Units::Fahrenheit);
        assert!(told.contains("with 0.9 °F to spare"), "{told}");
        assert!(told.contains("thin margin"), "{told}");
    }

    #[test]
    fn where_none_is_ready_the_closest_is_named_with_all_that_it_lacks() {
        let nights = [
            ("nothing", night(-20.0, -20.0, 0.0)),
            ("pad", night(1.0, -2.0, 2.0)),
        ];
        assert_eq!(
            told(&nights, Units::Celsius),
            "None of these is ready at departure. \"pad\" comes closest: the sump is 3.0 K short of the threshold, \
             and the oil is 2.0 K short of what is asked. Close the cowl better or use more watts; do not start the \
             engine on these."
        );
    }

    /// On from the first there is no earlier, and a circuit that carries too much carries no more.
    #[test]
    fn no_more_is_advised_than_can_be_had() {
        let mut late = night(1.0, 5.0, 2.0);
        for event in &mut late.events {
            event.time_h += 1.0;
        }
        let early = told(&[("pad", late.clone())], Units::Celsius);
        assert!(
            early.contains("Start earlier, close the cowl better, or use more watts;"),
            "{early}"
        );
        late.circuit.needed_breaker_a = late.circuit.breaker_a + 1.0;
        late.circuit.peak_current_a = 1.0;
        late.warnings = vec![crate::findings::Warning::OverBreaker {
            current_a: 16.0,
            breaker_a: 15.0,
        }];
        let loaded = told(&[("pad", late)], Units::Celsius);
        assert!(
            loaded.contains(
                "Do not use \"pad\" as it stands: the breaker is overloaded. Start earlier or close the cowl better;"
            ),
            "{loaded}"
        );
    }

    #[test]
    fn water_alone_is_not_told_as_cold() {
        let mut wet = night(14.0, 5.0, 2.0);
        wet.ready.ready_at_departure = false;
        wet.ready.unmet = vec![Unmet::Wet {
            upper_g: 12.0,
            limit_g: 1.0,
        }];
        let told = told(&[("pad", wet)], Units::Celsius);
        assert!(
            told.contains("it is warm enough, but 12.0 g of water stand"),
            "{told}"
        );
        assert!(
            told.contains("Warm the upper parts along with the oil"),
            "{told}"
        );
        assert!(!told.contains("more watts"), "{told}");
    }
}
