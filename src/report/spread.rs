//! One night over all that is uncertain: how often it is ready, how far its numbers range, what to measure next.

use super::chance::{self, band, bands as of_bands, hours, unsigned};
use super::columns::{Cell, Table};
use super::inputs::setting;
use super::measure_next::{measure_next, where_to_write};
use super::model::{Fact, Report, Section};
use super::provenance::Provenance;
use super::{cautions, input_names, sobol};
use crate::night::Night;
use crate::quantity::Units;
use crate::study::quantile::Band;
use crate::study::summary::{CommonFailure, Summary, WarmNotReady};
use crate::study::uncertain_inputs::UncertainInput;
use serde_json::{Value, json};

/// Inputs that are listed for people.
const LISTED: usize = 5;
/// Coldest parts that are named.
const NAMED: usize = 4;

/// A spread of nights.
#[derive(Debug, Clone, Copy)]
pub struct Spread<'a> {
    /// The night as its files say it.
    pub nominal: &'a Night,
    /// The uncertain inputs.
    pub inputs: &'a [UncertainInput],
    /// What the nights came to.
    pub summary: &'a Summary,
    /// The seed of the nights.
    pub seed: u32,
    /// The chance that is required, 0 to 1.
    pub target: f64,
    /// Whether all nights were computed.
    pub finished: bool,
}

impl Spread<'_> {
    /// The report.
    pub fn report(&self, from: &Provenance) -> Report {
        let title = &self.nominal.scenario.scenario().title;
        let (inputs, summary, units) = (self.inputs, self.summary, self.units());
        let mut answer = vec![self.ready()];
        answer.extend(summary.fault.as_ref().map(|f| why(f, summary.failed)));
        answer.extend(though_warm(summary));
        let measured = !summary.influences.is_empty();
        answer.extend(measured.then(|| measure_next(inputs, summary, units)));
        let mut report = Report::of_scenario("spread", title, from)
            .with(Section::new("").say([answer.join(" ")]))
            .with(Section::json(self.facts()))
            .with(Section::wide("The night").facts(setting(title, self.nominal)))
            .with(
                Section::new("")
                    .block(self.headlines())
                    .say(coldest(summary)),
            )
            .with(
                Section::new("")
                    .block(self.influences())
                    .say(self.others())
                    .say(measured.then(|| where_to_write(inputs, summary))),
            );
        report = report.with(Section::wide("Groups of parts").block(self.groups()));
        if !summary.indices.is_empty() {
            report = report.with(sobol::section(inputs, summary));
        }
        report.with(cautions::section())
    }

    fn units(&self) -> Units {
        self.nominal.scenario.scenario().units
    }

    fn facts(&self) -> Vec<Fact> {
        let summary = self.summary;
        let path = |input: usize| self.inputs[input].path.as_str();
        let failure = summary.fault.as_ref();
        let failure = failure.map(|f| json!({"why": f.why, "nights": f.nights}));
        let groups = self.nominal.findings.groups_c.iter().zip(&summary.groups);
        let groups: Value = groups
            .map(|(group, bands)| {
                let over_time: Value = bands.over_time_c.iter().map(|b| band(Some(*b))).collect();
                json!({
                    "group": group.key,
                    "at_departure_c": band(bands.at_departure_c),
                    "over_time_c": over_time,
                })
            })
            .collect();
        let inputs = self.inputs.iter().map(|d| {
            json!({
                "path": d.path,
                "unit": d.unit,
                "value": d.value,
                "low": d.low,
                "high": d.high,
                "source": d.source,
                "default_range": d.usual,
            })
        });
        let influences = summary.influences.iter().map(|i| {
            json!({
                "path": path(i.doubt),
                "margin_at_low_k": i.at_low_k,
                "margin_at_high_k": i.at_high_k,
            })
        });
        vec![
            Fact::json("seed", self.seed),
            Fact::json("finished", self.finished),
            Fact::json("nights", summary.bands.nights + summary.failed),
            Fact::json("failed", summary.failed),
            Fact::json("most_common_failure", failure),
            Fact::json("summary", of_bands(&summary.bands)),
            Fact::json("oil_mm2_s", band(summary.oil_mm2_s)),
            Fact::json("groups", groups),
            Fact::json("uncertain", inputs.collect::<Value>()),
            Fact::json("one_at_a_time", influences.collect::<Value>()),
            Fact::json("sobol_indices", sobol::json(self.inputs, summary)),
        ]
    }

    /// How often it is ready, and how many nights failed.
    fn ready(&self) -> String {
        let summary = self.summary;
        let failed = match summary.failed {
            0 => String::new(),
            1 => " 1 night could not be computed and is left out.".to_owned(),
            n => format!(" {n} nights could not be computed and are left out."),
        };
        let at = self.nominal.scenario.clock();
        let at = at.dated(self.nominal.trace.departure_s);
        let ready = match &summary.bands.ready {
            Some(share) => chance::sentence(share, self.target, &at),
            None => "No night could be computed.".to_owned(),
        };
        format!("{ready}{failed}")
    }

    /// What the night comes to at departure, and where one night in ten, half, and nine in ten lie below.
    fn headlines(&self) -> Table {
        let (f, units) = (&self.nominal.findings, self.units());
        let (b, deg) = (&self.summary.bands, units.symbol());
        let degrees = |c: f64| format!("{:.0}", units.temperature(c));
        let step = |k: f64| format!("{:+.1}", units.step(k));
        let one = |x: f64| format!("{x:.1}");
        let whole = |x: f64| format!("{x:.0}");
        let hold_h = f.threshold.all_parts.hold.hours().unwrap_or(f64::INFINITY);
        let oil = f.oil.as_ref().map(|o| o.viscosity_mm2_s);
        let water = f.condensation.as_ref().map(|c| c.upper_g);
        let wet = f.condensation.as_ref().map(|c| c.hours);
        let coldest = f.coldest.as_ref().map(|c| c.temp_c);
        let margin = format!("Margin, {}", units.step_symbol());
        let mut rows = vec![
            row(margin, f.ready.margin_k, b.margin_k, &step),
            row(
                format!("Coldest part, {deg}"),
                coldest,
                b.coldest_c,
                &degrees,
            ),
            row(
                "Time to minimum, h".to_owned(),
                Some(hold_h),
                b.warm_h,
                &hours,
            ),
            row("Condensation, h".to_owned(), wet, b.condensation_h, &one),
            row("Water, upper walls, g".to_owned(), water, b.upper_g, &one),
            row("Oil, mm²/s".to_owned(), oil, self.summary.oil_mm2_s, &whole),
            row("Energy, kWh".to_owned(), Some(f.energy.kwh), b.kwh, &one),
        ];
        rows.retain(|row| row[1] != "-");
        figures(&rows)
    }

    /// Groups of parts, likewise.
    fn groups(&self) -> Table {
        let units = self.units();
        let degrees = |c: f64| format!("{:.0}", units.temperature(c));
        let groups = self
            .nominal
            .findings
            .groups_c
            .iter()
            .zip(&self.summary.groups);
        let rows = groups.map(|(group, bands)| {
            let label = format!("{}, {}", group.label, units.symbol());
            row(label, Some(group.temp_c), bands.at_departure_c, &degrees)
        });
        figures(&rows.collect::<Vec<_>>())
    }

    /// How many inputs are not listed, and how little they do.
    fn others(&self) -> Option<String> {
        let more = self.summary.influences.get(LISTED..)?;
        let most = self.units().size(more.first()?.swing_k());
        Some(format!(
            "{} more inputs: {most} or less each (`--json`).",
            self.inputs.len() - LISTED
        ))
    }

    /// The inputs that move the margin most, each alone.
    fn influences(&self) -> Table {
        let units = self.units();
        let strongest: Vec<_> = self.summary.influences.iter().take(LISTED).collect();
        let range = |d: &UncertainInput| format!("{} to {}", number(d, d.low), number(d, d.high));
        let step = |k: f64| unsigned(format!("{:+.0}", units.step(k)));
        let margins = |low: f64, high: f64| format!("{} to {}", step(low), step(high));
        let symbol = units.step_symbol();
        Table::of("", &strongest)
            .words("", "Uncertain input", |i| {
                Cell::from(input_names::words(&self.inputs[i.doubt].path))
            })
            .words("", "Range", |i| range(&self.inputs[i.doubt]))
            .words("", format!("Margin, {symbol}"), |i| {
                margins(i.at_low_k, i.at_high_k)
            })
            .number("", format!("Effect, {symbol}"), |i| {
                format!("{:.0}", units.step(i.swing_k()))
            })
            .words("", "Source", |i| self.inputs[i.doubt].source.clone())
            .shown(super::columns::Show::Wide)
            .table()
    }
}

/// Rows with the figures of a band.
fn figures(rows: &[[String; 5]]) -> Table {
    Table::of("", rows)
        .words("", "At departure", |r| r[0].clone())
        .number("", "10 %", |r| r[1].clone())
        .number("", "median", |r| r[2].clone())
        .number("", "90 %", |r| r[3].clone())
        .number("", "nominal", |r| r[4].clone())
        .table()
}

/// A row: its label, the figures of the band, the nominal value.
fn row(
    label: String,
    nominal: Option<f64>,
    band: Option<Band>,
    text: &dyn Fn(f64) -> String,
) -> [String; 5] {
    let figure = |x: f64| unsigned(text(x));
    let [low, median, high] = band.map_or(["-"; 3].map(str::to_owned), |b| {
        [b.p10, b.p50, b.p90].map(figure)
    });
    let nominal = nominal.map_or("-".to_owned(), figure);
    [label, low, median, high, nominal]
}

/// Why nights with a warm engine are not ready: the most common reason.
fn though_warm(summary: &Summary) -> Option<String> {
    let WarmNotReady { wet, oil } = summary.warm_not_ready;
    let (nights, why) = if wet >= oil {
        (wet, "water on the upper inner walls")
    } else {
        (oil, "the oil, which has a minimum too")
    };
    (nights > 0).then(|| format!("Warm everywhere but not ready in {nights}, because of {why}."))
}

/// The most common reason why nights could not be computed.
fn why(fault: &CommonFailure, failed: usize) -> String {
    let which = match (failed, fault.nights) {
        (1, _) => "Reason:".to_owned(),
        (_, 1) => "Each has its own reason, the first:".to_owned(),
        (all, n) if all == n => "All have one reason, such as:".to_owned(),
        (_, n) => format!("The most common reason, in {n} of them, such as:"),
    };
    format!("{which} {}.", fault.why.trim_end_matches('.'))
}

fn coldest(summary: &Summary) -> Option<String> {
    let coldest = &summary.bands.coldest;
    let named = coldest.iter().take(NAMED);
    let named: Vec<String> = named
        .map(|(label, nights)| format!("{label} in {nights}"))
        .collect();
    let more = match coldest.len() > named.len() {
        true => ", others in the rest",
        false => "",
    };
    (!named.is_empty()).then(|| {
        format!(
            "Coldest part, in nights of {}: {}{more}.",
            summary.bands.nights,
            named.join(", ")
        )
    })
}

/// A unit of the files as people read it: `W_K` is W/K, `m2` is m².
fn as_read(unit: &str) -> String {
    unit.replace("m2", "m²")
        .replace("m3", "m³")
        .replace("mm2", "mm²")
        .replace('_', "/")
}

/// The name of an input and its value, as the files have it.
pub fn as_written(input: &UncertainInput) -> String {
    let name = input_names::words(&input.path);
    format!("{name}: {}", number(input, input.value))
}

/// A number of an input with its unit, to three figures.
fn number(input: &UncertainInput, x: f64) -> String {
    let digits = match x == 0.0 {
        true => 0,
        false => (2 - x.abs().log10().floor() as i32).clamp(0, 7) as usize,
    };
    let text = format!("{x:.digits$}");
    let text = match digits {
        0 => &text,
        _ => text.trim_end_matches('0').trim_end_matches('.'),
    };
    let unit = input.unit.as_deref();
    let unit = unit.map_or(String::new(), |unit| format!(" {}", as_read(unit)));
    format!("{text}{unit}")
}

#[cfg(test)]
mod tests {
    use super::super::measure_next::tests::{input, summary};
    use super::*;

    /// 160 nights are not ready, warm as they are: who reads only margins does not find out why.
    #[test]
    fn nights_that_are_warm_and_not_ready_have_the_most_common_reason() {
        let text = |wet, oil| {
            let mut summary = summary(vec![]);
            summary.warm_not_ready = WarmNotReady { wet, oil };
            though_warm(&summary).unwrap_or_default()
        };
        assert_eq!(text(0, 0), "");
        assert!(text(97, 3).contains("not ready in 97, because of water on"));
        assert!(text(3, 97).contains("not ready in 97, because of the oil"));
    }

    #[test]
    fn numbers_of_inputs_have_three_figures_and_their_unit() {
        let litres = input("oil", 3.8, 7.98, Some("L"));
        assert_eq!(number(&litres, 7.984), "7.98 L");
        assert_eq!(number(&litres, 0.0003), "0.0003 L");
        assert_eq!(number(&litres, 1350.4), "1350 L");
        assert_eq!(number(&input("p", 0.0, 1.0, None), 0.0), "0");
    }
}
