//! What simulated nights come to: quantiles of every result, and two choices through the same nights.

use super::quantile::{Band, Share};
use super::sample_result::SampleResult;
use crate::findings::Hazard;

/// One choice is ahead of another if it is so in at least this share of the simulated nights.
pub const WIN_FRACTION: f64 = 0.9;

/// A choice over the simulated nights.
#[derive(Debug, Clone, PartialEq)]
pub struct Bands {
    /// The choice.
    pub name: String,
    /// Nights that could be computed.
    pub nights: usize,
    /// How often it was ready at departure; none if no night could be computed.
    pub ready: Option<Share>,
    /// Hours until warm everywhere; infinite for never.
    pub warm_h: Option<Band>,
    /// The margin at departure, K.
    pub margin_k: Option<Band>,
    /// The coldest part, °C.
    pub coldest_c: Option<Band>,
    /// Water on the upper inner walls, g.
    pub upper_g: Option<Band>,
    /// Hours in which some inner wall gathered water.
    pub condensation_h: Option<Band>,
    /// The mean oil, °C.
    pub oil_c: Option<Band>,
    /// Energy, kWh.
    pub kwh: Option<Band>,
    /// Which part was the coldest, and in how many nights, the most frequent first.
    pub coldest: Vec<(String, usize)>,
    /// What became too hot or was overloaded, and in how many nights.
    pub hazards: Vec<(Hazard, usize)>,
    /// The coldest part at 0, 0.5, 1 ... hours, °C.
    pub coldest_over_time_c: Vec<Band>,
}

/// What a verdict rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum By {
    /// The time of the night at which it is warm everywhere, whenever it was switched on; in nights in which neither gets warm, as [`By::Margin`].
    Hours,
    /// The temperature of the coldest part at departure, where neither gets warm in most nights.
    Margin,
}

/// One choice against another through the same nights.
#[derive(Debug, Clone, PartialEq)]
pub struct Verdict {
    /// The first choice.
    pub first: String,
    /// The second choice.
    pub second: String,
    /// What was compared.
    pub by: By,
    /// Nights in which the first is ahead.
    pub ahead: usize,
    /// Nights in which the second is ahead.
    pub behind: usize,
    /// Nights in which both could be computed.
    pub nights: usize,
    /// By how much the first is typically ahead (the median): hours, of the nights in which one of them gets warm, or
    /// K; none if that is not a number.
    pub typically: Option<f64>,
}

/// The same simulated nights of a choice: their results, or why they could not be computed.
type Nights<'n> = &'n [Result<SampleResult, String>];

/// Who is ahead.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PairResult {
    /// The first choice.
    First,
    /// The second choice.
    Second,
    /// Neither: neither wins in enough nights.
    Tied,
}

impl Verdict {
    /// Who is ahead in at least nine of ten nights.
    pub fn result(&self) -> PairResult {
        let enough = WIN_FRACTION * self.nights as f64;
        if self.nights > 0 && self.ahead as f64 >= enough {
            PairResult::First
        } else if self.nights > 0 && self.behind as f64 >= enough {
            PairResult::Second
        } else {
            PairResult::Tied
        }
    }

    /// One choice against another; outcomes of the same number are the same night.
    pub fn of(first: (&str, Nights), second: (&str, Nights)) -> Self {
        let pairs: Vec<(&SampleResult, &SampleResult)> = first
            .1
            .iter()
            .zip(second.1)
            .filter_map(|(a, b)| a.as_ref().ok().zip(b.as_ref().ok()))
            .collect();
        let warm =
            |p: &&(&SampleResult, &SampleResult)| p.0.warm_h.is_some() || p.1.warm_h.is_some();
        let by = if 2 * pairs.iter().filter(warm).count() >= pairs.len() {
            By::Hours
        } else {
            By::Margin
        };
        let warmer = |(a, b): &(&SampleResult, &SampleResult)| {
            a.margin_k.unwrap_or(f64::NAN) - b.margin_k.unwrap_or(f64::NAN)
        };
        // How far the first is ahead in hours; none of two nevers.
        let sooner = |(a, b): &(&SampleResult, &SampleResult)| {
            (a.warm_h.is_some() || b.warm_h.is_some()).then(|| b.warm_at_h() - a.warm_at_h())
        };
        // Where neither gets warm the warmer is ahead, whatever the others are compared by.
        let lead = |pair: &(&SampleResult, &SampleResult)| match by {
            By::Hours => sooner(pair).unwrap_or_else(|| warmer(pair)),
            By::Margin => warmer(pair),
        };
        let leads: Vec<f64> = pairs.iter().map(lead).collect();
        let typically = match by {
            By::Hours => Band::of(pairs.iter().filter_map(sooner)),
            By::Margin => Band::of(leads.iter().copied()),
        };
        Self {
            first: first.0.to_owned(),
            second: second.0.to_owned(),
            by,
            ahead: leads.iter().filter(|lead| **lead > 0.0).count(),
            behind: leads.iter().filter(|lead| **lead < 0.0).count(),
            nights: pairs.len(),
            typically: typically
                .map(|band| band.p50)
                .filter(|lead| lead.is_finite()),
        }
    }
}

impl Bands {
    /// The bands of a choice, of its nights that could be computed.
    pub fn of<'h>(name: &str, computed: impl IntoIterator<Item = &'h SampleResult>) -> Self {
        let computed: Vec<&SampleResult> = computed.into_iter().collect();
        let band = |of: &dyn Fn(&SampleResult) -> Option<f64>| {
            Band::of(computed.iter().filter_map(|h| of(h)))
        };
        Self {
            name: name.to_owned(),
            nights: computed.len(),
            ready: Share::of(computed.iter().filter(|h| h.ready).count(), computed.len()),
            warm_h: band(&|h| Some(h.hours())),
            margin_k: band(&|h| h.margin_k),
            coldest_c: band(&|h| h.coldest_c),
            upper_g: band(&|h| h.upper_g),
            condensation_h: band(&|h| h.condensation_h),
            oil_c: band(&|h| h.oil_c),
            kwh: band(&|h| Some(h.kwh)),
            coldest: tally(computed.iter().filter_map(|h| h.coldest.as_deref())),
            hazards: hazards(&computed),
            coldest_over_time_c: (0..)
                .map_while(|k| {
                    let at = |h: &&SampleResult| h.coldest_over_time_c.get(k).copied();
                    Band::of(computed.iter().filter_map(at))
                })
                .collect(),
        }
    }
}

/// A night is not to be heated so if a hazard comes in more than this share of its simulated nights, whatever chance is
/// required (a choice: a cautious one).
const HAZARDOUS: f64 = 0.05;

impl Bands {
    /// Whether something becomes too hot, or the circuit is overloaded, in more of the nights than may be.
    pub fn hazardous(&self) -> bool {
        let most = HAZARDOUS * self.nights as f64;
        self.hazards.iter().any(|(_, nights)| *nights as f64 > most)
    }
}

/// In how many nights each hazard comes, in the order in which they are found first.
fn hazards(computed: &[&SampleResult]) -> Vec<(Hazard, usize)> {
    let mut found: Vec<(Hazard, usize)> = Vec::new();
    for hazard in computed.iter().flat_map(|night| &night.hazards) {
        match found.iter_mut().find(|(known, _)| known == hazard) {
            Some((_, nights)) => *nights += 1,
            None => found.push((*hazard, 1)),
        }
    }
    found
}

/// How often each name comes, the most frequent first, ties by name.
pub fn tally<'a>(names: impl Iterator<Item = &'a str>) -> Vec<(String, usize)> {
    let mut counts = std::collections::BTreeMap::new();
    for name in names {
        *counts.entry(name.to_owned()).or_insert(0) += 1;
    }
    let mut counts: Vec<(String, usize)> = counts.into_iter().collect();
    counts.sort_by_key(|count| std::cmp::Reverse(count.1));
    counts
}

#[cfg(test)]
mod tests {
    use super::*;

    fn harvest(warm_h: Option<f64>, margin_k: f64) -> Result<SampleResult, String> {
        Ok(SampleResult {
            ready: margin_k >= 0.0,
            first_on_h: 0.0,
            warm_h,
            margin_k: Some(margin_k),
            coldest: Some("sump".to_owned()),
            coldest_c: Some(4.0 + margin_k),
            upper_g: None,
            condensation_h: None,
            hazards: vec![],
            oil_c: None,
            oil_mm2_s: None,
            kwh: 1.0,
            groups_c: vec![],
            over_time_c: vec![],
            coldest_over_time_c: vec![],
        })
    }

    #[test]
    fn one_is_ahead_in_nine_of_ten_nights_or_they_are_tied() {
        let early: Vec<_> = (0..10).map(|_| harvest(Some(2.0), 3.0)).collect();
        let mut late: Vec<_> = (0..10).map(|_| harvest(Some(2.5), 2.0)).collect();
        late[0] = harvest(None, -1.0);
        late[1] = harvest(Some(1.0), 5.0);
        let verdict = Verdict::of(("early", &early), ("late", &late));
        assert_eq!(
            (verdict.by, verdict.ahead, verdict.behind),
            (By::Hours, 9, 1)
        );
        assert_eq!(verdict.typically, Some(0.5));
        assert_eq!(verdict.result(), PairResult::First);
        late[2] = harvest(Some(1.0), 5.0);
        let verdict = Verdict::of(("early", &early), ("late", &late));
        assert_eq!(verdict.result(), PairResult::Tied);
        let verdict = Verdict::of(("early", &early), ("early too", &early));
        assert_eq!((verdict.ahead, verdict.result()), (0, PairResult::Tied));
    }

    /// A heater that gets the engine warm in most nights and is warmer in the rest is ahead of none in all of them.
    #[test]
    fn nights_in_which_neither_gets_warm_are_no_ties() {
        let some = |night| match night {
            0..6 => harvest(Some(4.0), 2.0),
            _ => harvest(None, -2.0),
        };
        let heated: Vec<_> = (0..8).map(some).collect();
        let cold: Vec<_> = (0..8).map(|_| harvest(None, -18.0)).collect();
        let verdict = Verdict::of(("heated", &heated), ("cold", &cold));
        assert_eq!(
            (verdict.by, verdict.ahead, verdict.behind),
            (By::Hours, 8, 0)
        );
        assert_eq!(verdict.result(), PairResult::First);
        assert_eq!(verdict.typically, None, "the other never is warm");
    }

    /// What takes longer but was begun earlier is warm sooner.
    #[test]
    fn sooner_is_by_the_clock_and_not_by_the_hours_of_heating() {
        let begun = |first_on_h: f64, warm_h: f64| {
            let one = harvest(Some(warm_h), 1.0).map(|h| SampleResult { first_on_h, ..h });
            vec![one; 4]
        };
        let (early, late) = (begun(1.0, 3.0), begun(9.5, 2.0));
        let verdict = Verdict::of(("early", &early), ("late", &late));
        assert_eq!((verdict.ahead, verdict.typically), (4, Some(7.5)));
    }

    #[test]
    fn where_neither_gets_warm_the_warmer_is_ahead() {
        let (a, b): (Vec<_>, Vec<_>) = (0..8)
            .map(|_| (harvest(None, -5.0), harvest(None, -2.0)))
            .unzip();
        let verdict = Verdict::of(("a", &a), ("b", &b));
        assert_eq!(verdict.by, By::Margin);
        assert_eq!(verdict.result(), PairResult::Second);
        assert_eq!(verdict.typically, Some(-3.0));
    }
}
