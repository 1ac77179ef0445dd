//! The order of choices: those that reach the chance by energy, then the others by chance, then those not to be used.

use super::quantile::{Band, Share};
use super::simulate::{Outcome, succeeded};
use std::cmp::Ordering;

/// What choices are ranked by, to be printed beside every ranking.
pub const RANKED_BY: &str = "no hazard and the required chance, by energy at the own best start; no hazard and less than the \
required chance, by chance, then median margin; hazards last. Equal places: no difference from the first of the group that \
the simulated nights show with 95 % confidence";

/// z of a two-sided 95 percent interval.
const Z: f64 = 1.959_964;

/// Mean energies closer than this are the same, kWh: a watt-hour.
const SAME_KWH: f64 = 1e-3;

/// The group of a choice, the best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// No hazard, and the chance is what is required.
    Reached,
    /// No hazard, and a smaller chance.
    NotReached,
    /// Something becomes too hot, or the circuit is overloaded: not to be used.
    Hazard,
}

/// What a choice is ranked by.
#[derive(Debug, Clone, Copy)]
pub struct Contender<'c> {
    /// Its group.
    pub group: Group,
    /// Its chance.
    pub chance: Option<Share>,
    /// The margin, K.
    pub margin_k: Option<Band>,
    /// What its nights come to, at its best start if that is known.
    pub outcomes: &'c [Outcome],
}

/// The place of a choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// From 1; that of the first of its group if the nights show no difference from it.
    pub place: usize,
    /// Whether another has the same place.
    pub shared: bool,
}

impl Contender<'_> {
    fn mean_kwh(&self) -> f64 {
        mean(self.outcomes.iter().flatten().map(|o| o.kwh)).unwrap_or(f64::INFINITY)
    }

    fn compare(&self, other: &Self) -> Ordering {
        let share = |c: &Self| c.chance.map_or(-1.0, |chance| chance.share);
        let margin = |c: &Self| c.margin_k.map_or(f64::NEG_INFINITY, |band| band.p50);
        let steps = |c: &Self| (c.mean_kwh() / SAME_KWH).round();
        let by_energy = || steps(self).total_cmp(&steps(other));
        let by_chance = || {
            let chance = share(other).total_cmp(&share(self));
            chance.then(margin(other).total_cmp(&margin(self)))
        };
        self.group.cmp(&other.group).then_with(|| match self.group {
            Group::Reached => by_energy().then_with(by_chance),
            Group::NotReached | Group::Hazard => by_chance().then_with(by_energy),
        })
    }

    /// Whether the simulated nights show no difference from another of the same group.
    fn ties_with(&self, first: &Self) -> bool {
        let pairs = || {
            let pairs = self.outcomes.iter().zip(first.outcomes);
            pairs.filter(|(a, b)| a.is_ok() && b.is_ok())
        };
        match self.group {
            Group::Reached => {
                let kwh = |o: &Outcome| o.as_ref().map_or(f64::NAN, |r| r.kwh);
                let differences: Vec<f64> = pairs().map(|(a, b)| kwh(a) - kwh(b)).collect();
                mean_may_be_zero(&differences)
            }
            Group::NotReached | Group::Hazard => {
                let only = |which: &dyn Fn(&Outcome, &Outcome) -> bool| {
                    pairs().filter(|(a, b)| which(a, b)).count()
                };
                let gained = only(&|a, b| succeeded(a) && !succeeded(b));
                let lost = only(&|a, b| !succeeded(a) && succeeded(b));
                shares_may_be_equal(gained, lost, pairs().count())
            }
        }
    }
}

/// The order of the choices, the best first, with their places.
pub fn rank(contenders: &[Contender]) -> Vec<(usize, Place)> {
    let mut order: Vec<usize> = (0..contenders.len()).collect();
    order.sort_by(|&a, &b| contenders[a].compare(&contenders[b]));
    let mut places: Vec<usize> = Vec::new();
    let mut first = 0;
    for (k, &at) in order.iter().enumerate() {
        let (this, leader) = (&contenders[at], &contenders[order[first]]);
        if this.group != leader.group {
            first = k;
        }
        // Only those right behind the leader share its place, so that the column never falls.
        let ties = k > first && places[k - 1] == first + 1 && this.ties_with(leader);
        places.push(if ties { first + 1 } else { k + 1 });
    }
    let shared = |place: usize| places.iter().filter(|p| **p == place).count() > 1;
    let placed = places.iter().map(|&place| Place {
        place,
        shared: shared(place),
    });
    order.iter().copied().zip(placed).collect()
}

/// Whether the 95 percent interval of the mean of paired differences holds zero (normal approximation).
fn mean_may_be_zero(differences: &[f64]) -> bool {
    let n = differences.len() as f64;
    let Some(mean) = mean(differences.iter().copied()) else {
        return true;
    };
    if mean.abs() < SAME_KWH {
        return true;
    }
    let squares = differences.iter().map(|d| (d - mean).powi(2)).sum::<f64>();
    mean.abs() <= Z * (squares / (n - 1.0).max(1.0) / n).sqrt()
}

/// Whether the 95 percent interval of the difference of two paired shares holds zero.
///
/// *Source*: the adjusted Wald interval of Agresti and Min (2005), half a night added to each of the four cells.
fn shares_may_be_equal(gained: usize, lost: usize, pairs: usize) -> bool {
    let (b, c, n) = (gained as f64 + 0.5, lost as f64 + 0.5, pairs as f64 + 2.0);
    (b - c).abs() <= Z * (b + c - (b - c).powi(2) / n).sqrt()
}

/// How many nights would show on which side of what is required a chance lies, if it is as it was counted; none if the
/// nights show it already.
pub fn nights_needed(chance: &Share, target: f64) -> Option<u32> {
    if target < chance.low || target > chance.high {
        return None;
    }
    let p = chance
        .share
        .clamp(0.5 / chance.of as f64, 1.0 - 0.5 / chance.of as f64);
    let needed = Z * Z * p * (1.0 - p) / (p - target).powi(2);
    Some(needed.ceil().min(f64::from(u32::MAX)) as u32)
}

fn mean(numbers: impl Iterator<Item = f64>) -> Option<f64> {
    let (sum, count) = numbers.fold((0.0, 0.0), |(sum, n), x| (sum + x, n + 1.0));
    (count > 0.0).then(|| sum / count)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::sample_result::SampleResult;

    /// Nights of which so many are ready, from number `from` on.
    fn nights(from: usize, ready: usize, kwh: f64) -> Vec<Outcome> {
        let night = |n: usize| {
            Ok(SampleResult {
                ready: n >= from && n < from + ready,
                first_on_h: 0.0,
                warm_h: None,
                margin_k: Some(1.0),
                coldest: None,
                coldest_c: None,
                upper_g: None,
                condensation_h: None,
                hazards: vec![],
                oil_c: None,
                oil_mm2_s: None,
                kwh,
                groups_c: vec![],
                over_time_c: vec![],
                coldest_over_time_c: vec![],
            })
        };
        (0..100).map(night).collect()
    }

    fn contender(group: Group, outcomes: &[Outcome]) -> Contender<'_> {
        Contender {
            group,
            chance: super::super::simulate::chance(outcomes),
            margin_k: None,
            outcomes,
        }
    }

    /// 1.96 times the root of 0.93 x 0.07 / n is 0.02 at n = 625.2 (the interval of a share, normal approximation).
    #[test]
    fn too_few_nights_say_how_many_would_do() {
        let share = |count, of| Share::of(count, of).unwrap();
        assert_eq!(nights_needed(&share(93, 100), 0.95), Some(626));
        assert_eq!(nights_needed(&share(70, 100), 0.95), None);
        assert_eq!(nights_needed(&share(1000, 1000), 0.95), None);
    }

    #[test]
    fn those_that_reach_come_by_energy_then_the_others_by_chance_and_hazards_last() {
        let (dear, cheap) = (nights(0, 99, 4.0), nights(0, 96, 2.0));
        let (poor, fair, hot) = (nights(0, 20, 1.0), nights(0, 70, 5.0), nights(0, 100, 1.0));
        let all = [
            contender(Group::Hazard, &hot),
            contender(Group::NotReached, &poor),
            contender(Group::Reached, &dear),
            contender(Group::NotReached, &fair),
            contender(Group::Reached, &cheap),
        ];
        let order: Vec<usize> = rank(&all).into_iter().map(|(at, _)| at).collect();
        assert_eq!(order, [4, 2, 3, 1, 0]);
        let places: Vec<usize> = rank(&all).into_iter().map(|(_, p)| p.place).collect();
        assert_eq!(places, [1, 2, 3, 4, 5]);
    }

    /// 5 nights gained and none lost are a difference, 4 are not: |b - c| = 4 against z times the root of 5 - 16/102 (4.31).
    #[test]
    fn a_place_is_shared_where_the_nights_show_no_difference() {
        let place = |ready| {
            let (first, second) = (nights(0, 50, 1.0), nights(0, ready, 1.0));
            let all = [
                contender(Group::NotReached, &first),
                contender(Group::NotReached, &second),
            ];
            rank(&all)[1].1
        };
        assert_eq!(
            place(46),
            Place {
                place: 1,
                shared: true
            }
        );
        assert_eq!(
            place(45),
            Place {
                place: 2,
                shared: false
            }
        );
    }

    /// Of equal energies the place is shared; of energies that differ in every night it is not.
    #[test]
    fn energies_that_differ_in_every_night_are_not_shared() {
        let (a, b, c) = (nights(0, 99, 4.0), nights(0, 98, 4.0), nights(0, 99, 4.1));
        let all = [&a, &b, &c].map(|o| contender(Group::Reached, o));
        let places: Vec<usize> = rank(&all).into_iter().map(|(_, p)| p.place).collect();
        assert_eq!(places, [1, 1, 3]);
    }
}
