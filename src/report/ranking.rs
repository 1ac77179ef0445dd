//! The choices of a comparison as a table, the best first, and how it is to be read.

use super::chance::{hours, percent, unsigned};
use super::columns::{Show, Table};
use super::format::{LOST_MEANS, difference, reach, temperature};
use super::inputs::leave;
use crate::findings::{Findings, RANKING_KEY, forbidding};
use crate::night::Night;
use crate::quantity::Units;
use crate::study::compare::{Chances, ChoiceChance, Comparison};
use crate::study::quantile::Band;
use crate::study::rank::{Group, RANKED_BY};

/// The head of the column that holds names of parts.
pub const COLDEST: &str = "Coldest part";

/// A choice as it is listed.
pub struct Listed<'c> {
    /// Its number in the table, from 1.
    pub number: usize,
    /// Its name.
    pub name: &'c str,
    /// Its nominal night.
    pub night: &'c Night,
    /// What its simulated nights come to.
    pub chance: Option<&'c ChoiceChance>,
}

impl Listed<'_> {
    /// The findings of its nominal night.
    pub fn findings(&self) -> &Findings {
        &self.night.findings
    }

    /// Its place: `2=` if it shares it.
    pub fn place(&self) -> String {
        match self.chance {
            Some(choice) if choice.place.shared => format!("{}=", choice.place.place),
            Some(choice) => choice.place.place.to_string(),
            None => self.number.to_string(),
        }
    }

    /// Whether another choice has the same place.
    pub fn is_shared(&self) -> bool {
        self.chance.is_some_and(|choice| choice.place.shared)
    }

    /// What it is called in a line about some of the choices: its place or, if others have it too, its name.
    pub fn whose(&self) -> String {
        match self.is_shared() {
            true => format!("\"{}\"", self.name),
            false => self.place(),
        }
    }
}

/// The choices as they are listed.
pub fn listed(comparison: &Comparison) -> Vec<Listed<'_>> {
    let chances = comparison.chances.as_ref();
    let nights = comparison.nights.iter().enumerate();
    nights
        .map(|(k, (name, night))| Listed {
            number: k + 1,
            name,
            night,
            chance: chances.and_then(|c| c.choices.get(k)),
        })
        .collect()
}

/// The units of a night.
pub fn units(night: &Night) -> Units {
    night.scenario.scenario().units
}

/// The choices, a row each, the best first. With simulated nights the figures are medians.
pub fn ranking(listed: &[Listed], chances: Option<&Chances>, units: Units) -> Table {
    let minimum = listed.first().map_or(String::new(), |c| {
        temperature(c.findings().threshold.threshold_c, units)
    });
    let target = chances.map_or(1.0, |c| c.target);
    let f = |c: &Listed| c.findings().clone();
    let median = |c: &Listed, band: &dyn Fn(&ChoiceChance) -> Option<Band>| {
        c.chance.and_then(band).map(|band| band.p50)
    };
    let in_hours = |hours: String| match hours.parse::<f64>() {
        Ok(_) => format!("{hours} h"),
        Err(_) => hours,
    };
    let range = |band: Option<Band>, text: &dyn Fn(f64) -> String| {
        band.map_or(String::new(), |b| {
            format!("{} to {}", text(b.p10), text(b.p90))
        })
    };
    let step = |k: f64| unsigned(format!("{:+.0}", units.step(k)));
    let table = Table::of("", listed)
        .number("", "#", Listed::place)
        .words("", "Choice", |c| c.name)
        .words("", "Ready", |c| {
            match (c.chance, forbidding(&c.findings().warnings)) {
                (Some(choice), _) if choice.group == Group::Hazard => "do not use".to_owned(),
                (Some(choice), _) => match &choice.bands.ready {
                    Some(share) => percent(share, target),
                    None => "-".to_owned(),
                },
                (None, harm) if !harm.is_empty() => "do not use".to_owned(),
                (None, _) => match c.findings().ready.ready_at_departure {
                    true => "yes".to_owned(),
                    false => "no".to_owned(),
                },
            }
        })
        .number("", "Margin", |c| {
            match (c.chance, c.findings().ready.margin_k) {
                (Some(choice), _) => choice
                    .bands
                    .margin_k
                    .map_or("-".to_owned(), |b| step(b.p50)),
                (None, margin) => margin.map_or("-".to_owned(), |m| difference(m, units)),
            }
        })
        .number("", format!("To {minimum}"), |c| match c.chance {
            Some(choice) => {
                let median = choice.bands.warm_h.map(|b| hours(b.p50));
                median.map_or("-".to_owned(), in_hours)
            }
            None => reach(&c.findings().threshold.all_parts),
        })
        .number("", "Wet", |c| {
            let nominal = || f(c).condensation.map(|water| water.hours);
            let wet = match c.chance {
                Some(_) => median(c, &|choice| choice.bands.condensation_h),
                None => nominal(),
            };
            wet.map_or("-".to_owned(), |h| format!("{h:.0} h"))
        })
        .words("", COLDEST, |c| match c.chance {
            Some(choice) => choice
                .bands
                .coldest
                .first()
                .map_or("-".to_owned(), |c| c.0.clone()),
            None => f(c).coldest.map_or("-".to_owned(), |c| c.label),
        })
        .number("", "kWh", |c| {
            let kwh = median(c, &|choice| choice.bands.kwh);
            format!("{:.1}", kwh.unwrap_or(c.findings().energy.kwh))
        })
        .words("", "Margin, 10 to 90 %", |c| {
            range(c.chance.and_then(|c| c.bands.margin_k), &step)
        })
        .shown(Show::Wide)
        .number("", "Nominal", |c| {
            c.findings()
                .ready
                .margin_k
                .map_or("-".to_owned(), |m| difference(m, units))
        })
        .shown(Show::Wide)
        .number("", "Oil, mm²/s", |c| {
            let oil = f(c).oil;
            oil.map_or("-".to_owned(), |o| format!("{:.0}", o.viscosity_mm2_s))
        })
        .shown(Show::Wide)
        .number("", "Peak A", |c| {
            format!("{:.1}", c.findings().circuit.peak_current_a)
        })
        .shown(Show::Wide);
    let currency = listed.iter().find(|c| c.findings().energy.cost.is_some());
    match currency.map(|c| c.findings().energy.currency.clone()) {
        None => table.table(),
        Some(currency) => table
            .number("", currency, |c| {
                let cost = c.findings().energy.cost;
                cost.map_or("-".to_owned(), |c| format!("{c:.2}"))
            })
            .shown(Show::Wide)
            .table(),
    }
}

/// What the choices are ranked by.
pub fn ranked_by(chances: Option<&Chances>) -> String {
    match chances {
        Some(_) => RANKED_BY.to_owned(),
        None => format!("no hazard before a hazard; {RANKING_KEY}"),
    }
}

/// How the table of choices is to be read.
pub fn reading(night: &Night, chances: Option<&Chances>) -> Vec<String> {
    let scenario = night.scenario.scenario();
    let minimum = temperature(scenario.criteria.min_temperature.celsius(), scenario.units);
    let leave = leave(night);
    let mut text = format!(
        "Margin: coldest part minus {minimum} at {leave}. Wet: hours in which some inner wall gathers water."
    );
    let Some(chances) = chances else {
        return vec![format!("{text} Ranked by: {}.", ranked_by(None))];
    };
    text += " Medians at the hours of the file; ranges with --wide.";
    let failed = chances.choices.iter().map(|c| &c.bands);
    let failed = failed.filter(|b| b.nights < chances.count.nights as usize);
    let failed = failed.map(|b| format!(" Of \"{}\" only {} could be computed.", b.name, b.nights));
    text += &failed.collect::<String>();
    let least = chances.pairs.iter().map(|pair| pair.ahead).min();
    let most = |least: &usize| 2 * least > chances.count.nights as usize;
    let against = least.filter(most).map(|least| {
        format!(
            "Against each other choice, number 1 is warm first in at least {least} of {} nights.",
            chances.count.nights
        )
    });
    std::iter::once(text).chain(against).collect()
}

/// What the marks in the table mean, those that are in it.
pub fn marks(listed: &[Listed]) -> Vec<String> {
    let any = |mark: &dyn Fn(&Listed) -> bool| listed.iter().any(mark);
    let shared = any(&|c| c.is_shared());
    let lost = any(&|c| c.chance.is_none() && c.findings().threshold.all_parts.lost());
    let marks = [
        (
            shared,
            "=: no difference from the first with that place that the nights show.",
        ),
        (lost, LOST_MEANS),
    ];
    let marks = marks.into_iter().filter(|(any, _)| *any);
    marks.map(|(_, mark)| mark.to_owned()).collect()
}
