//! Several nights abreast, each at its own pace, in the lanes of a register.

use super::failure::SolveError;
use super::march::{march, round};
use super::marched::Marched;
use super::step::Stepper;
use super::walk::Walk;
use crate::balance::{Balance, are_alike};
use crate::network::Network;

/// A night to march through.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'n> {
    /// Its network.
    pub net: &'n Network,
    /// Scales the error allowed in a step.
    pub tolerance: f64,
    /// Samples are at most so far apart, s.
    pub sample_s: f64,
}

impl<'n> Wanted<'n> {
    fn alone(&self) -> Result<Marched, SolveError> {
        march(self.net, self.tolerance, self.sample_s)
    }
    fn walk(&self) -> Walk<'n> {
        Walk::new(self.net, self.tolerance, self.sample_s)
    }
}

/// Marches through several nights as [`march`] does through each, faster where the processor has registers for several
/// numbers (AVX2) and networks differ in sizes only. What comes out for a night is what [`march`] gives, to the last bit,
/// whatever the others are.
///
/// *Errors*: for each night as [`march`].
pub fn march_abreast(nights: &[Wanted]) -> Vec<Result<Marched, SolveError>> {
    let mut marched: Vec<Option<Marched>> = nights.iter().map(|_| None).collect();
    #[cfg(target_arch = "x86_64")]
    if crate::physics::four::available() {
        for alike in groups(nights).into_iter().filter(|g| g.len() > 1) {
            in_fours(nights, &alike, &mut marched);
        }
    }
    marched
        .into_iter()
        .zip(nights)
        // A night that failed abreast may still go alone, where pivots can be chosen; if not, it is told why as always.
        .map(|(marched, night)| marched.map_or_else(|| night.alone(), Ok))
        .collect()
}

/// The numbers of the nights whose networks differ in sizes only.
#[cfg(target_arch = "x86_64")]
fn groups(nights: &[Wanted]) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (number, night) in nights.iter().enumerate() {
        let mut known = groups.iter_mut();
        match known.find(|group| are_alike(nights[group[0]].net, night.net)) {
            Some(group) => group.push(number),
            None => groups.push(vec![number]),
        }
    }
    groups
}

/// Four of these nights at a time; where one is over the next takes its lane. Those that cannot go on stay without.
#[cfg(target_arch = "x86_64")]
fn in_fours(nights: &[Wanted], numbers: &[usize], marched: &mut [Option<Marched>]) {
    use crate::physics::four::Four;
    // Lanes beyond the nights there are repeat the first.
    let mut stepper = Stepper::new(Balance::<Four>::of(std::array::from_fn(|lane| {
        nights[*numbers.get(lane).unwrap_or(&numbers[0])].net
    })));
    let mut waiting = numbers.iter();
    let mut lanes: [Option<(usize, Walk)>; 4] = Default::default();
    loop {
        for (lane, place) in lanes.iter_mut().enumerate() {
            while place.as_ref().is_none_or(|(_, walk)| walk.is_over()) {
                if let Some((number, walk)) = place.take() {
                    marched[number] = Some(walk.end());
                }
                let Some(&number) = waiting.next() else { break };
                stepper.load(lane, nights[number].net);
                *place = Some((number, nights[number].walk()));
            }
        }
        if lanes.iter().all(Option::is_none) {
            return;
        }
        let mut walks = lanes
            .each_mut()
            .map(|place| place.as_mut().map(|(_, walk)| walk));
        for (lane, _) in round(&mut stepper, &mut walks) {
            lanes[lane] = None;
        }
    }
}
