//! When to switch on, told on one screen: the answer in the first line.

mod never;
mod planned;

use super::comparison_text::setting;
use super::format::wrapped;
use super::readiness::{outcome, spare};
use super::warning::sentence;
use super::{cautions, change_text, circuit_text};
use crate::findings::Findings;
use crate::quantity::Units;
use crate::scenario::clock::NightClock;
use crate::scenario::document::Scenario;
use crate::study::when::{Planned, Probe, SCAN_MIN, Verdict, When, grid_step};
use std::fmt::{Result, Write};

/// The answer with what stands around it.
struct Tale<'a> {
    when: &'a When,
    scenario: &'a Scenario,
    clock: &'a NightClock,
    units: Units,
    width: u16,
}

/// The whole text of an answer for a scenario; `width` is that of the terminal.
pub fn told(when: &When, scenario: &Scenario, width: u16) -> String {
    let tale = Tale {
        when,
        scenario,
        clock: when.whole_time.scenario.clock(),
        units: scenario.units,
        width,
    };
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = tale.write(&mut text);
    text
}

impl Tale<'_> {
    fn write(&self, text: &mut String) -> Result {
        let night = self.when.night();
        match &self.when.verdict {
            Verdict::Planned(planned) => self.line(text, "", &self.plan(planned))?,
            Verdict::Never(_) => {
                let from = self.before(self.when.switches.most);
                let tried = match self.when.switches.heaters.len() {
                    2 => format!(
                        "No pair of switching-on times of those tried, every {} minutes for both,",
                        grid_step(self.when.switches.most)
                    ),
                    _ => format!("No switching-on time, tried every {SCAN_MIN} minutes,"),
                };
                let whole = format!(
                    "{tried} makes the engine ready at {}: not even heating the whole time, from {from}.",
                    self.departure()
                );
                self.line(text, "", &whole)?;
            }
        }
        writeln!(text)?;
        self.line(text, "", &self.scenario.title)?;
        self.line(text, "", &setting(night))?;
        writeln!(text)?;
        match &self.when.verdict {
            Verdict::Planned(planned) => self.planned(text, planned)?,
            Verdict::Never(never) => self.never(text, never)?,
        }
        for failed in &self.when.unsolved {
            let change = change_text::told(&failed.change, self.scenario, self.clock, self.units);
            let note = format!(
                "Note: nothing is known of \"{change}\", as that night could not be computed: {}.",
                failed.why
            );
            self.line(text, "", &note)?;
        }
        self.alone(text)?;
        let circuit = circuit_text::told(&night.findings.circuit, self.width);
        write!(text, "\nThe circuit\n{circuit}")?;
        if !night.findings.warnings.is_empty() {
            writeln!(text, "\nWarnings")?;
            for warning in &night.findings.warnings {
                self.line(text, "- ", &sentence(warning, self.units))?;
            }
        }
        writeln!(text, "\n{}", cautions::told(self.width))
    }

    /// The first line: what is to be done at which hour.
    fn plan(&self, planned: &Planned) -> String {
        let leave = self.departure();
        if planned.needs_no_heat() {
            return format!(
                "No heating is needed: the engine is ready at {leave} without it, with {} to spare.",
                self.spare(&planned.night.findings)
            );
        }
        let (mut on, mut off) = (Vec::new(), Vec::new());
        for (&heater, &minutes) in self.when.switches.heaters.iter().zip(&planned.starts) {
            let name = &self.scenario.heaters[heater].name;
            match minutes {
                0 => off.push(format!(" \"{name}\" is not needed.")),
                m => on.push(format!(
                    "\"{name}\" at {} ({:.1} h before)",
                    self.before(m),
                    m as f64 / 60.0
                )),
            }
        }
        format!(
            "Switch on {} at the latest, to be ready at {leave}.{}",
            on.join(" and "),
            off.concat()
        )
    }

    /// Each heater's latest start while the others keep the hours of the file.
    fn alone(&self, text: &mut String) -> Result {
        if self.when.alone.is_empty() {
            return Ok(());
        }
        writeln!(
            text,
            "\nEach heater's latest start, the others at the hours of the file"
        )?;
        for alone in &self.when.alone {
            let name = &self.scenario.heaters[alone.heater].name;
            let when = match alone.sought.found {
                Some(0) => "not needed".to_owned(),
                Some(minutes) => self.before(minutes),
                None => "no start is ready".to_owned(),
            };
            self.line(text, "  ", &format!("{name}: {when}"))?;
        }
        Ok(())
    }

    /// Times of the scan, rising in minutes before the departure, as spans of the clock: `from 19:00 to 21:30`.
    fn spans(&self, minutes: &[usize]) -> String {
        let together = |a: &usize, b: &usize| b - a <= SCAN_MIN;
        let spans: Vec<String> = minutes
            .chunk_by(together)
            .rev()
            .map(|span| match span {
                [one] => format!("at {}", self.before(*one)),
                [last, .., first] => {
                    format!("from {} to {}", self.before(*first), self.before(*last))
                }
                [] => String::new(),
            })
            .collect();
        spans.join(" or ")
    }

    fn starts(&self, starts: &[usize]) -> String {
        let heaters = &self.when.switches.heaters;
        let on: Vec<String> = heaters
            .iter()
            .zip(starts)
            .filter(|(_, minutes)| **minutes > 0)
            .map(|(&heater, &minutes)| {
                let at = self.before(minutes);
                match heaters.len() {
                    1 => at,
                    _ => format!("{} at {at}", self.scenario.heaters[heater].name),
                }
            })
            .collect();
        on.join(", ")
    }

    fn outcome(&self, probe: &Probe) -> String {
        outcome(probe, self.units)
    }

    fn spare(&self, f: &Findings) -> String {
        spare(f.ready.margin_k.unwrap_or(0.0), self.units)
    }

    fn before(&self, minutes: usize) -> String {
        self.clock
            .dated(self.clock.night_s() - 60.0 * minutes as f64)
    }

    fn departure(&self) -> String {
        self.clock.dated(self.clock.night_s())
    }

    fn line(&self, text: &mut String, lead: &str, line: &str) -> Result {
        let indent = " ".repeat(lead.len().max(2) + 2 * usize::from(lead == "  "));
        let indent = if lead.is_empty() { "" } else { &indent };
        writeln!(
            text,
            "{}",
            wrapped(&format!("{lead}{line}"), self.width, indent)
        )
    }
}
