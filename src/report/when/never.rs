//! No start is ready: the best that was found, and the smallest changes that make it ready.

use super::words::{Words, cost};
use crate::report::model::{Fact, Section};
use crate::study::when::{Never, Probe, REMEDY_RANKING, SufficientChange};

/// The sections of an answer without a plan.
pub fn sections(words: &Words, never: &Never) -> Vec<Section> {
    let changes = never.remedies.iter().enumerate();
    let changes = changes.map(|(k, change)| numbered(words, k + 1, change));
    let ranked = match never.remedies.is_empty() {
        true => "No single change of those tried makes it ready.".to_owned(),
        false => format!("Ranked by: {REMEDY_RANKING}."),
    };
    let insufficient = never.in_vain.iter().map(|tried| {
        let outcome = match &tried.probe {
            Some(probe) => words.outcome(probe),
            None => "not possible with this engine, weather or cover".to_owned(),
        };
        format!("{}: {outcome}", words.change(&tried.change))
    });
    vec![
        Section::new("").facts(best(words, never)),
        Section::new("Smallest single changes that make it ready, heating all night")
            .list("", changes),
        Section::new("").say([ranked]),
        Section::new("Not enough").list("", insufficient),
    ]
}

/// The best that was found, and heating all night if that is another.
fn best(words: &Words, never: &Never) -> Vec<Fact> {
    let whole = &words.when.whole_time;
    let all_night = format!(
        "{}, {}",
        words.outcome(&Probe::of(whole)),
        cost(&whole.findings)
    );
    let all_night = Fact::text("All night", all_night);
    let (starts, probe) = &never.nearest;
    if *starts == words.when.switches.together(words.when.switches.most) {
        return vec![all_night];
    }
    let on = match words.starts(starts) {
        none if none.is_empty() => "without heat".to_owned(),
        on => format!("switched on {on}"),
    };
    let text = format!("{on}: {}, {:.1} kWh", words.outcome(probe), probe.kwh);
    vec![Fact::text("Best", text), all_night]
}

fn numbered(words: &Words, number: usize, change: &SufficientChange) -> String {
    let over = match change.overloads {
        true => "; more than the circuit may carry",
        false => "",
    };
    format!(
        "{number}. {}: {}, {:.1} kWh{over}",
        words.change(&change.change),
        words.outcome(&change.probe),
        change.probe.kwh
    )
}
