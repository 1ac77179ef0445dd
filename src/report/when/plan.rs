//! A plan: the limiting part, what it takes, the thermometer check, what if.

use super::words::{Words, cost};
use crate::report::format::size;
use crate::report::model::{Fact, Section};
use crate::report::reading;
use crate::study::when::{Checkpoint, Planned, Probe, SCAN_MIN, grid_step};

/// Water on the walls that is worth a line although it is allowed, g.
const LEAST_WATER_G: f64 = 0.05;

/// The sections of a plan.
pub fn sections(words: &Words, planned: &Planned) -> Vec<Section> {
    let what_if = planned.what_if.iter().map(|what| {
        let required = match &what.needed {
            Some(starts) if *starts == planned.starts => String::new(),
            Some(starts) => format!("; it would require {}", words.starts(starts)),
            None if planned.starts.len() > 1 => {
                "; moving all of them earlier is not enough".to_owned()
            }
            None => "; no switch-on time works".to_owned(),
        };
        format!(
            "{}: {}{required}",
            words.change(&what.change),
            words.outcome(&what.probe)
        )
    });
    let check = planned.checkpoint.as_ref();
    vec![
        Section::new("").facts(facts(words, planned)),
        Section::new("Thermometer check").say(check.map(|c| checked(words, c))),
        Section::new("The same plan, if").list("", what_if),
        Section::new("").say([method(words) + &earlier_start(words, planned)]),
    ]
}

fn facts(words: &Words, planned: &Planned) -> Vec<Fact> {
    let f = &planned.night.findings;
    let mut facts = Vec::new();
    if let Some(limiting) = planned.binding.first() {
        let text = format!(
            "{}; coldest part {}",
            words.limit(limiting),
            words.above(f.ready.margin_k)
        );
        facts.push(Fact::text("Limiting", text));
    }
    if let Some(water) = f
        .condensation
        .as_ref()
        .filter(|c| c.upper_g >= LEAST_WATER_G)
    {
        let limit_g = 1e3 * words.scenario.criteria.water_limit.si();
        let text = format!(
            "{:.2} g on the upper inner walls, limit {limit_g:.2} g",
            water.upper_g
        );
        facts.push(Fact::text("Water", text));
    }
    let all_night = &words.when.whole_time;
    facts.push(Fact::text("Energy", cost(f)));
    let text = format!(
        "from {}: {}, {}",
        words.before(words.when.switches.most),
        cost(&all_night.findings),
        words.outcome(&Probe::of(all_night))
    );
    facts.push(Fact::text("All night", text));
    if !planned.worse_earlier.is_empty() {
        let spans = words.spans(&planned.worse_earlier);
        facts.push(Fact::text(
            "Earlier",
            format!("not always better: switched on {spans} it is not ready"),
        ));
    }
    facts
}

fn checked(words: &Words, c: &Checkpoint) -> String {
    let moves = if c.rate_k_h >= 0.0 {
        "rising"
    } else {
        "falling"
    };
    format!(
        "At {} put a thermometer on the {}, of the parts that a probe can reach the coldest at departure. Expect {}, {moves} \
{}/h. Below that, leave later, and only when the coldest part itself is warm.",
        words.clock.dated(c.time_s),
        c.label,
        reading::words(c.temp_c, words.units),
        size(c.rate_k_h, words.units)
    )
}

/// How the plan was found, and how exact it is.
fn method(words: &Words) -> String {
    let how = match words.when.switches.heaters.len() {
        2 => format!(
            "the least energy on a grid of {} minutes, refined",
            grid_step(words.when.switches.most)
        ),
        _ => format!("every {SCAN_MIN} minutes, then halved"),
    };
    format!(
        "The plan is the latest that is ready, to the minute ({how}), so it has no reserve. Finer cells moved such times by \
up to some twenty minutes: leave a margin."
    )
}

/// What to do without a thermometer.
fn earlier_start(words: &Words, planned: &Planned) -> String {
    let Some(reserve) = &planned.reserve else {
        return String::new();
    };
    let starts = words.starts(&reserve.starts);
    let (ready, of) = reserve.ready_in;
    match reserve.as_it_is.ready.ready_at_departure {
        true if reserve.holds() => format!(
            " If you cannot measure, switch on {starts}: ready in the nominal night and in each of the changed ones."
        ),
        true => format!(
            " If you cannot measure, switch on {starts}: ready in the nominal night and in {ready} of {of} changed ones."
        ),
        false => format!(
            " No earlier start covers all of them: the hardest requires {starts}, which in the nominal night is {}. So measure.",
            words.outcome(&reserve.as_it_is)
        ),
    }
}
