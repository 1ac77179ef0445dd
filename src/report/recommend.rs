//! Which choice to use, in sentences: the verdict with its chance is the first.

use super::chance::{coldest, interval, percent, percent_required};
use super::format::size;
use super::inputs::{clock, leave};
use super::verdict::{harm, lacks};
use crate::findings::{Findings, forbidding};
use crate::night::Night;
use crate::quantity::Units;
use crate::study::compare::{Chances, Comparison};
use crate::study::paired::Bands;
use crate::study::rank::{Group, nights_needed};

/// The most simulated nights that are worth a word.
const MOST_NIGHTS: u32 = 65_536;

/// The finding of a comparison in a few words, as the headline of its chart; none without chances.
pub fn headline(comparison: &Comparison) -> Option<String> {
    let chances = comparison.chances.as_ref()?;
    let (name, _) = comparison.recommended()?;
    // The chart shows the hours of the file.
    let share = chances.choices.first()?.bands.ready?;
    Some(format!(
        "{name} is best: ready in {} of nights",
        percent(&share, chances.target)
    ))
}

/// The answer of a comparison, sentence by sentence.
pub fn answer(comparison: &Comparison, units: Units) -> Vec<String> {
    match (comparison.nights.first(), &comparison.chances) {
        (None, _) => vec!["There are no choices.".to_owned()],
        (Some(first), Some(chances)) => simulated(first, chances, units),
        (Some(first), None) => nominal(comparison, first, units),
    }
}

fn simulated((name, night): &(String, Night), chances: &Chances, units: Units) -> Vec<String> {
    let choice = &chances.choices[0];
    let required = percent_required(chances.target);
    if choice.group == Group::Hazard {
        return vec![format!(
            "Use none of these choices. The first, \"{name}\": {}.",
            harm_or_often(&night.findings)
        )];
    }
    let start = choice.best.result();
    let Some(share) = start.map(|s| s.chance).or(choice.bands.ready) else {
        return vec![format!(
            "No simulated night of \"{name}\" could be computed."
        )];
    };
    let from = match start.map(|start| start.minutes) {
        Some(0) => ", without heat".to_owned(),
        Some(minutes) => format!(", on from {}", clock(night, minutes)),
        None if night.findings.energy.kwh > 0.0 => ", hours as in the file".to_owned(),
        None => String::new(),
    };
    let (leave, chance) = (leave(night), percent(&share, chances.target));
    let (of, interval) = (share.of, interval(&share));
    let ready = format!("at {leave} in {chance} of {of} simulated nights ({interval})");
    let missed = format!("No choice reaches the {required} target.");
    let mut text = vec![match choice.group {
        Group::Reached => format!("Use \"{name}\"{from}. Ready {ready}."),
        _ if share.share >= 0.5 => format!("Use \"{name}\"{from}. Ready {ready}. {missed}"),
        _ => format!("{missed} Nearest: \"{name}\"{from}, ready {ready}."),
    }];

    let at_start = start.map(|start| Bands::of(name, start.outcomes.iter().flatten()));
    text.extend(coldest(
        at_start.as_ref().unwrap_or(&choice.bands),
        night,
        units,
    ));
    // A start that is as late as the chance allows is always near what is required.
    let near = choice.group == Group::Reached && start.is_some();
    let more = nights_needed(&share, chances.target).filter(|_| !near);
    let more = more.filter(|more| *more > chances.count.nights);
    text.extend(more.filter(|more| *more <= MOST_NIGHTS).map(|more| {
        format!("Whether it reaches {required} is not certain: about {more} nights would show it (`--samples {more}`).")
    }));
    text
}

/// What is wrong with a choice that is not to be used.
fn harm_or_often(f: &Findings) -> String {
    let harm = harm(f);
    match harm.is_empty() {
        false => harm.join("; "),
        true => "something gets too hot or the circuit is overloaded in too many of the simulated nights".to_owned(),
    }
}

/// Without simulated nights: the nominal nights alone.
fn nominal(comparison: &Comparison, (name, night): &(String, Night), units: Units) -> Vec<String> {
    let f = &night.findings;
    let quick = "No chances were computed (--quick): these are nominal nights.".to_owned();
    if comparison.recommended().is_none() {
        return vec![
            quick,
            format!(
                "Use none of these choices. The first, \"{name}\": {}.",
                harm(f).join("; ")
            ),
        ];
    }
    let leave = leave(night);
    let answer = match f.ready.ready_at_departure {
        true => {
            let margin = size(f.ready.margin_k.unwrap_or(0.0), units);
            let part = f.coldest.as_ref().map_or("", |c| c.label.as_str());
            format!(
                "\"{name}\" is ready at {leave}. Coldest part: {part}, {margin} above the minimum."
            )
        }
        false => format!(
            "No choice is ready at {leave}. \"{name}\" comes nearest: {}. Do not start the engine on these.",
            lacks(f, units)
        ),
    };
    let others = comparison.nights.iter();
    let not_used = others.filter(|(_, night)| !forbidding(&night.findings.warnings).is_empty());
    let not_used = not_used.map(|(name, night)| {
        format!(
            "Do not use \"{name}\": {}.",
            harm(&night.findings).join("; ")
        )
    });
    [quick, answer].into_iter().chain(not_used).collect()
}
