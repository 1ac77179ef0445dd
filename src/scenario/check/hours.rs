//! When a heater is plugged in: within the night, one span after the other.

use super::super::clock::NightClock;
use super::super::document::Scenario;
use super::super::heater::Heater;
use super::super::hours::Hours;
use super::super::initial::InitialTemperature;
use super::problem::Problems;
use super::simulated_time::end_s;

/// Whether the heater's hours lie within the night and come one after the other.
pub(super) fn hours(
    heater: &Heater,
    scenario: &Scenario,
    clock: &NightClock,
    path: &str,
    problems: &mut Problems,
) {
    let path = format!("{path}.hours");
    // A simulated_time before the departure is a problem of its own.
    let end = end_s(scenario, clock).max(clock.night_s());
    let delay = match &scenario.initial.temperature {
        InitialTemperature::after_flight { delay } => delay.si(),
        _ => 0.0,
    };
    let night = format!("from {} to {}", clock.to_text(0.0), clock.to_text(end));
    let before = problems.count();
    match &heater.hours {
        Hours::always | Hours::never => {}
        Hours::from(time) => {
            if clock.seconds_until(*time) >= end {
                problems
                    .tell(
                        &path,
                        format!("{time} is not within the night, which runs {night}"),
                    )
                    .word(&time.to_string())
                    .help(format!(
                        "the aeroplane leaves at {}: name an earlier time, or write before_departure(h(3)) for the last \
                         three hours before it, or `always` for a heater that is on from the beginning",
                        clock.to_text(clock.night_s())
                    ));
            }
        }
        Hours::between(pairs) => {
            if pairs.is_empty() {
                problems
                    .tell(&path, "`between` names no hours")
                    .help("write `never` for a heater that stays unplugged");
            }
            let mut free = 0.0;
            for (on, off) in pairs {
                let (on_s, off_s) = (clock.seconds_until(*on), clock.seconds_until(*off));
                let running = off_s < on_s && off_s > 0.0 && on_s >= end;
                let on_s = if running { 0.0 } else { on_s };
                let what = if on == off {
                    format!("the hours from {on} to {off} are empty")
                } else if on_s >= end {
                    format!("{on} is not within the night, which runs {night}")
                } else if off_s <= on_s {
                    format!("{off} does not come after {on} in this night")
                } else if on_s < free {
                    format!("the hours from {on} begin before the hours named before them are over")
                } else {
                    free = off_s;
                    continue;
                };
                problems
                    .tell(&path, what)
                    .word(&on.to_string())
                    .help("name the hours in their order, each as (on, off)");
            }
        }
        // Refused by its limits.
        Hours::before_departure(span) if span.si() <= 0.0 => return,
        Hours::before_departure(span) => {
            if span.si() > clock.night_s() {
                problems
                    .tell(
                        &path,
                        format!(
                            "{:.2} h before the departure lies before the beginning: the night is {:.2} h long",
                            span.si() / 3600.0,
                            clock.night_s() / 3600.0
                        ),
                    )
                    .word("before_departure")
                    .help("write `always` for a heater that is on from the beginning");
            }
        }
    }
    let empty = heater.hours.spans(clock, delay, end).is_empty();
    if problems.count() == before && empty && heater.hours != Hours::never && end > delay {
        problems.tell(
            &path,
            format!(
                "these hours are over before `{}` is plugged in, {:.2} h after shutdown",
                heater.name,
                delay / 3600.0
            ),
        );
    }
}
