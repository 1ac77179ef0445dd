//! The results of all simulated nights of a spread, as quantiles, frequencies and indices.

use super::paired::Bands;
use super::quantile::Band;
use super::sample_result::SampleResult;
use super::simulate::Outcome;
use super::sobol::{Answers, Indices, indices};
use super::spread::{Influence, groups, influences};
use crate::scenario::criteria::Criteria;

/// What the nights of a spread answer together.
#[derive(Debug, Clone, PartialEq)]
pub struct Summary {
    /// Simulated nights that could not be computed.
    pub failed: usize,
    /// The commonest reason why; none if all could be computed.
    pub fault: Option<CommonFailure>,
    /// The headlines.
    pub bands: Bands,
    /// Nights with a warm engine that are not ready.
    pub warm_not_ready: WarmNotReady,
    /// Viscosity of the mean oil, mm²/s.
    pub oil_mm2_s: Option<Band>,
    /// Each group of parts, in the order of the legend.
    pub groups: Vec<GroupBand>,
    /// What each uncertain input does alone, the strongest first; empty if those nights were not computed.
    pub influences: Vec<Influence>,
    /// The groups of uncertain inputs with their indices; empty if those nights were not computed.
    pub indices: Vec<(Vec<usize>, Indices)>,
}

/// Nights in which every engine part is warm and the engine is not ready all the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct WarmNotReady {
    /// With as much water on the upper walls inside as is allowed, or more.
    pub wet: usize,
    /// With dry walls, for the oil.
    pub oil: usize,
}

impl WarmNotReady {
    /// Of the nights of a limit for the water, g.
    pub fn of<'h>(nights: impl Iterator<Item = &'h SampleResult>, limit_g: f64) -> Self {
        let warm = |h: &&SampleResult| !h.ready && h.margin_k.is_some_and(|m| m >= 0.0);
        nights.filter(warm).fold(Self::default(), |mut so_far, h| {
            // What is no number is not dry, as in the verdict.
            let wet = h.upper_g.is_some_and(|g| g.is_nan() || g >= limit_g);
            so_far.wet += usize::from(wet);
            so_far.oil += usize::from(!wet);
            so_far
        })
    }
}

/// Why simulated nights could not be computed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CommonFailure {
    /// The reason, on one line, with the numbers of the first of these nights.
    pub why: String,
    /// How many nights failed for it, whatever their numbers.
    pub nights: usize,
}

impl CommonFailure {
    /// The commonest reason, of several the one that came first.
    pub fn of(outcomes: &[Outcome]) -> Option<Self> {
        let mut found: Vec<(String, Self)> = Vec::new();
        for why in outcomes.iter().filter_map(|o| o.as_ref().err()) {
            // A gate that has several problems with a night tells a line of each.
            let why = why.lines().next().unwrap_or_default();
            let kind = without_numbers(why);
            match found.iter_mut().find(|(known, _)| *known == kind) {
                Some((_, fault)) => fault.nights += 1,
                None => found.push((
                    kind,
                    Self {
                        why: why.to_owned(),
                        nights: 1,
                    },
                )),
            }
        }
        let faults = found.into_iter().map(|(_, fault)| fault);
        faults.reduce(|most, next| {
            if next.nights > most.nights {
                next
            } else {
                most
            }
        })
    }
}

/// A reason without its numbers, which differ from night to night.
fn without_numbers(why: &str) -> String {
    let of_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ':' | '-' | '+');
    let words = why.split_whitespace();
    let bare = words.map(|w| {
        if w.contains(|c: char| c.is_ascii_digit()) {
            w.trim_matches(of_number)
        } else {
            w
        }
    });
    bare.collect::<Vec<_>>().join(" ")
}

/// A group of parts over the simulated nights.
#[derive(Debug, Clone, PartialEq)]
pub struct GroupBand {
    /// At departure, °C.
    pub at_departure_c: Option<Band>,
    /// At 0, 0.5, 1 ... hours, °C.
    pub over_time_c: Vec<Band>,
}

/// The mixed nights' outcomes with the groups they were made for.
#[derive(Debug, Clone, Copy)]
pub struct Mixed<'a> {
    /// The groups of uncertain inputs.
    pub groups: &'a [Vec<usize>],
    /// The outcomes, in the order of their numbers.
    pub outcomes: &'a [Outcome],
}

impl Summary {
    /// Sums up the simulated nights, the single ones (all or none), and the mixed ones if there are any, of a criteria.
    pub fn of(
        title: &str,
        criteria: &Criteria,
        plausible: &[Outcome],
        singles: &[Outcome],
        mixed: Option<Mixed>,
        seed: u32,
    ) -> Self {
        let harvests: Vec<&SampleResult> = plausible.iter().flatten().collect();
        let count = harvests.first().map_or(0, |h| h.groups_c.len());
        let group = |g: usize| {
            let first = harvests.first().and_then(|h| h.over_time_c.get(g));
            let samples = first.map_or(0, Vec::len);
            // A row of a damaged study file may be short.
            let row = |h: &&SampleResult, k: usize| h.over_time_c.get(g)?.get(k).copied();
            let at = |k: usize| Band::of(harvests.iter().filter_map(|h| row(h, k)));
            GroupBand {
                at_departure_c: Band::of(
                    harvests.iter().filter_map(|h| h.groups_c.get(g).copied()),
                ),
                over_time_c: (0..samples).filter_map(at).collect(),
            }
        };
        Self {
            failed: plausible.len() - harvests.len(),
            fault: CommonFailure::of(plausible),
            bands: Bands::of(title, harvests.iter().copied()),
            warm_not_ready: WarmNotReady::of(
                harvests.iter().copied(),
                1e3 * criteria.water_limit.si(),
            ),
            oil_mm2_s: Band::of(harvests.iter().filter_map(|h| h.oil_mm2_s)),
            groups: (0..count).map(group).collect(),
            influences: influences(singles),
            indices: mixed.map_or_else(Vec::new, |mixed| {
                let found = indices(&answers(plausible, mixed), seed).unwrap_or_default();
                mixed.groups.iter().cloned().zip(found).collect()
            }),
        }
    }
}

/// The margins of each point at which all nights have one.
fn answers(plausible: &[Outcome], mixed: Mixed) -> Vec<Answers> {
    let margin = |outcome: &Outcome| outcome.as_ref().ok().and_then(|h| h.margin_k);
    let sets = mixed.outcomes.chunks_exact(mixed.groups.len() + 1);
    plausible
        .iter()
        .zip(sets)
        .filter_map(|(first, set)| {
            let mixed: Option<Vec<f64>> = set[1..].iter().map(margin).collect();
            Some(Answers {
                first: margin(first)?,
                second: margin(&set[0])?,
                mixed: mixed?,
            })
        })
        .collect()
}

/// The groups that get an index, from the outcomes of the single nights.
pub fn indexed(singles: &[Outcome], unknowns: usize) -> Vec<Vec<usize>> {
    groups(&influences(singles), unknowns)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::night::run;
    use crate::quantity::Mass;

    /// The verdict of `findings::ready`: water at its limit is too much, and cold engines are another matter.
    #[test]
    fn nights_that_are_warm_and_not_ready_are_counted_by_what_they_lack() {
        let mut like = SampleResult::of(&run(&super::super::tests::scenario()).unwrap());
        like.ready = false;
        let night = |margin_k: f64, upper_g: f64| {
            Ok(SampleResult {
                margin_k: Some(margin_k),
                upper_g: Some(upper_g),
                ..like.clone()
            })
        };
        let ready = SampleResult {
            ready: true,
            ..like.clone()
        };
        let nights = [
            night(5.0, 2.0),
            night(0.0, 0.5),
            night(5.0, 0.1),
            night(-1.0, 2.0),
            Ok(ready),
            Err("not computed".to_owned()),
        ];
        let criteria = Criteria {
            water_limit: Mass::g(0.5),
            ..Criteria::default()
        };
        let summary = Summary::of("a night", &criteria, &nights, &[], None, 1);
        assert_eq!(summary.warm_not_ready, WarmNotReady { wet: 2, oil: 1 });
    }

    #[test]
    fn the_commonest_reason_is_told_whatever_the_numbers_in_it() {
        let failed = |why: &str| -> Outcome { Err(why.to_owned()) };
        let outcomes = [
            failed("the solver stopped at 03:10: a step of 0.1 s"),
            failed("heaters[0].thermostat.on_at: on at 56.1 °C, off at 55.3 °C\nand more"),
            failed("heaters[0].thermostat.on_at: on at 57.0 °C, off at 54.9 °C"),
            failed("heaters[0].power: must not be negative"),
        ];
        let fault = CommonFailure::of(&outcomes).unwrap();
        assert_eq!(
            fault.why,
            "heaters[0].thermostat.on_at: on at 56.1 °C, off at 55.3 °C"
        );
        assert_eq!(fault.nights, 2);
        // Of two that are as common the first.
        let fault = CommonFailure::of(&outcomes[..2]).unwrap();
        assert!(fault.why.starts_with("the solver") && fault.nights == 1);
        assert_eq!(CommonFailure::of(&[]), None);
    }
}
