//! Several nights at once, each with its own steps, in the lanes of a register.

use super::error_control::in_range;
use super::failure::SolveError;
use super::integrate::{integrate, round};
use super::integrator_state::IntegratorState;
use super::solution::Solution;
use super::step::Stepper;
use crate::balance::{Balance, same_structure};
use crate::network::Network;

/// A night to integrate through.
#[derive(Debug, Clone, Copy)]
pub struct LaneJob<'n> {
    /// Its network.
    pub net: &'n Network,
    /// Scales the error allowed in a step; see [`integrate`] for the range.
    pub tolerance: f64,
    /// Samples are at most so far apart, s; see [`integrate`] for the range.
    pub sample_s: f64,
}

impl<'n> LaneJob<'n> {
    fn alone(&self) -> Result<Solution, SolveError> {
        integrate(self.net, self.tolerance, self.sample_s)
    }
    fn walk(&self) -> IntegratorState<'n> {
        IntegratorState::new(self.net, self.tolerance, self.sample_s)
    }
}

/// Integrates several nights as [`integrate`] does through each, faster where the processor has registers for several
/// numbers (AVX2) and networks differ in sizes only. What comes out for a night is what [`integrate`] gives, to the last bit,
/// whatever the others are.
///
/// *Errors*: for each night as [`integrate`].
pub fn integrate_lanes(nights: &[LaneJob]) -> Vec<Result<Solution, SolveError>> {
    carried_in_lanes(nights)
        .into_iter()
        .zip(nights)
        // A night that failed in lanes may still succeed alone, where pivots can be chosen; if not, its error is that of the single night.
        .map(|(marched, night)| marched.map_or_else(|| night.alone(), Ok))
        .collect()
}

/// Those of the nights that could be carried beside others.
fn carried_in_lanes(nights: &[LaneJob]) -> Vec<Option<Solution>> {
    let mut marched: Vec<Option<Solution>> = nights.iter().map(|_| None).collect();
    if crate::physics::four::available() {
        for alike in groups(nights).into_iter().filter(|g| g.len() > 1) {
            in_fours(nights, &alike, &mut marched);
        }
    }
    marched
}

/// The numbers of the nights whose networks differ in sizes only.
fn groups(nights: &[LaneJob]) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (number, night) in nights.iter().enumerate() {
        if in_range(night.tolerance, night.sample_s).is_err() {
            // Alone it gives its error.
            continue;
        }
        let mut known = groups.iter_mut();
        match known.find(|group| same_structure(nights[group[0]].net, night.net)) {
            Some(group) => group.push(number),
            None => groups.push(vec![number]),
        }
    }
    groups
}

/// Four of these nights at a time; where one is over the next takes its lane. Those that cannot go on stay without.
fn in_fours(nights: &[LaneJob], numbers: &[usize], marched: &mut [Option<Solution>]) {
    use crate::physics::four::Four;
    // Lanes beyond the nights there are repeat the first.
    let mut stepper = Stepper::new(Balance::<Four>::of(std::array::from_fn(|lane| {
        nights[*numbers.get(lane).unwrap_or(&numbers[0])].net
    })));
    let mut waiting = numbers.iter();
    let mut lanes: [Option<(usize, IntegratorState)>; 4] = Default::default();
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::{fan, night};
    use crate::network::assemble;
    use crate::quantity::Temperature;
    use crate::scenario::check::check;

    /// An hour of a small engine with a fan, and five like it with other sizes.
    fn six() -> Vec<Network> {
        let mut scenario = night("flat-four-3l1", Temperature::degC(-9.0), 1);
        scenario.heaters = vec![fan(350.0, "top-blowing-right")];
        let net = assemble(&check(&scenario).unwrap());
        let like = |number: i32| {
            let mut net = net.clone();
            for capacity in &mut net.capacities {
                *capacity *= 1.0 + 0.1 * f64::from(number);
            }
            net
        };
        (0..6).map(like).collect()
    }

    fn wanted(nets: &[Network]) -> Vec<LaneJob<'_>> {
        let wanted = |net| LaneJob {
            net,
            tolerance: 16.0,
            sample_s: 300.0,
        };
        nets.iter().map(wanted).collect()
    }

    /// Whether each night was carried to its end beside others; none if this processor cannot.
    fn carried(nets: &[Network]) -> Option<Vec<bool>> {
        let nights = wanted(nets);
        assert_eq!(groups(&nights), [(0..nets.len()).collect::<Vec<_>>()]);
        if !crate::physics::four::available() {
            return None;
        }
        let marched = carried_in_lanes(&nights);
        for (marched, night) in marched.iter().zip(&nights) {
            if let Some(marched) = marched {
                let alone = night.alone().unwrap();
                assert_eq!(marched.trace.values, alone.trace.values);
                assert_eq!(marched.at_departure, alone.at_departure);
            }
        }
        Some(marched.iter().map(Option::is_some).collect())
    }

    #[test]
    fn sound_nights_are_carried_beside_each_other_to_the_last() {
        if let Some(carried) = carried(&six()) {
            assert_eq!(carried, [true; 6]);
        }
    }

    /// Its lane is taken by the fifth.
    #[test]
    fn a_broken_night_leaves_its_lane_to_the_next() {
        let mut nets = six();
        nets[0].capacities[0] = f64::NAN;
        if let Some(carried) = carried(&nets) {
            assert_eq!(carried, [false, true, true, true, true, true]);
        }
    }

    #[test]
    fn nights_of_other_shapes_or_without_sense_go_in_other_groups() {
        let mut nets = six();
        nets[1].pockets[0].pinned = !nets[1].pockets[0].pinned;
        nets[4].pockets[0].pinned = !nets[4].pockets[0].pinned;
        let mut nights = wanted(&nets);
        nights[2].sample_s = 0.0;
        assert_eq!(groups(&nights), [vec![0, 3, 5], vec![1, 4]]);
    }
}
