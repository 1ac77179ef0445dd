//! A plan: what decides, what it takes, what to read on the way, what if.

use super::Tale;
use crate::report::format::size;
use crate::report::readiness::{cost, decides};
use crate::report::{change_text, reading};
use crate::study::when::{Planned, Probe, SCAN_MIN, grid_step};
use std::fmt::{Result, Write};

/// Water on the walls that is told although it is allowed, g.
const WATER_WORTH_A_WORD_G: f64 = 0.05;

impl Tale<'_> {
    pub(super) fn planned(&self, text: &mut String, planned: &Planned) -> Result {
        let f = &planned.night.findings;
        if let Some(binding) = planned.binding.first() {
            let binds = format!(
                "What decides: {}. The coldest part then has {} to spare.",
                decides(binding, self.units),
                self.spare(f)
            );
            self.line(text, "", &binds)?;
        }
        if let Some(water) = f
            .condensation
            .as_ref()
            .filter(|c| c.upper_g >= WATER_WORTH_A_WORD_G)
        {
            let told = format!(
                "Water on the upper walls inside then: {:.2} g, under the {:.2} g that are allowed.",
                water.upper_g,
                1e3 * self.scenario.question.water_limit.si()
            );
            self.line(text, "", &told)?;
        }
        let whole = &self.when.whole_time.findings;
        let energy = format!(
            "Energy: {}. Heating the whole time, from {}, takes {}: {}.",
            cost(f),
            self.before(self.when.switches.most),
            cost(whole),
            self.outcome(&Probe::of(&self.when.whole_time))
        );
        self.line(text, "", &energy)?;
        if !planned.worse_earlier.is_empty() {
            let worse = format!(
                "Earlier is not always better here: switched on {} it is NOT ready.",
                self.spans(&planned.worse_earlier)
            );
            self.line(text, "", &worse)?;
        }
        if let Some(c) = &planned.checkpoint {
            let at = self.clock.dated(c.time_s);
            let moves = if c.rate_k_h >= 0.0 {
                "rising"
            } else {
                "falling"
            };
            let check = format!(
                "On the way: put a thermometer on the {}, the coldest at departure of the parts that a probe can reach. At \
{at} it should read {}, {moves} {} an hour. If it reads less than that, the night is not the computed one: leave later, and \
only when the coldest part itself is warm.",
                c.label,
                reading::told(c.temp_c, self.units),
                size(c.rate_k_h, self.units)
            );
            self.line(text, "", &check)?;
        }
        writeln!(text, "\nThe same plan, if")?;
        for what in &planned.what_if {
            let change = change_text::told(&what.change, self.scenario, self.clock, self.units);
            let needed = match &what.needed {
                Some(starts) if *starts == planned.starts => String::new(),
                Some(starts) => format!("; it would need {}", self.starts(starts)),
                None if planned.starts.len() > 1 => {
                    "; moving all of them earlier would not do".to_owned()
                }
                None => "; no start would do".to_owned(),
            };
            let line = format!("{change}: {}{needed}", self.outcome(&what.probe));
            self.line(text, "  ", &line)?;
        }
        let known = format!(
            "The plan is the latest that just does, found to the minute by real nights ({}), so it has no reserve: how \
sure you are is what the lines above differ by. Finer cells moved such times by up to some twenty minutes in nights tried; leave \
a margin.{}",
            match self.when.switches.heaters.len() {
                2 => format!(
                    "the least energy on a grid of {} minutes, refined",
                    grid_step(self.when.switches.most)
                ),
                _ => format!("scanned every {SCAN_MIN} minutes, then divided"),
            },
            self.reserve(planned)
        );
        self.line(text, "", &known)
    }

    /// What to do without a thermometer.
    fn reserve(&self, planned: &Planned) -> String {
        let Some(reserve) = &planned.reserve else {
            return String::new();
        };
        let starts = self.starts(&reserve.starts);
        let (ready, of) = reserve.ready_in;
        match reserve.as_it_is.ready.ready_at_departure {
            true if reserve.holds() => format!(
                " If you cannot measure, switch on {starts}: that is ready in the night as it is and in each of them."
            ),
            true => format!(
                " If you cannot measure, switch on {starts}: that is ready in the night as it is and in {ready} of these {of}."
            ),
            false => format!(
                " No earlier start covers them: {starts}, which the hardest of them needs, is {} in the night as it is. So \
measure.",
                self.outcome(&reserve.as_it_is)
            ),
        }
    }
}
