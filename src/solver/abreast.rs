//! Several nights abreast, each at its own pace, in the lanes of a register.

use super::failure::SolveError;
use super::march::{march, round};
use super::marched::Marched;
use super::step::Stepper;
use super::walk::Walk;
use crate::balance::{Balance, are_alike};
use crate::network::Network;

/// Marches through several nights as [`march`] does through each, faster where the processor has registers for several
/// numbers (AVX2) and the networks differ in sizes only. What comes out for a night does not depend on the others.
///
/// *Errors*: for each night as [`march`].
pub fn march_abreast(
    nets: &[Network],
    tolerance: f64,
    sample_s: f64,
) -> Vec<Result<Marched, SolveError>> {
    let alone = |net: &Network| march(net, tolerance, sample_s);
    #[cfg(target_arch = "x86_64")]
    if nets.len() > 1
        && crate::physics::four::available()
        && nets[1..].iter().all(|net| are_alike(&nets[0], net))
    {
        return in_fours(nets, tolerance, sample_s)
            .into_iter()
            .zip(nets)
            // A night that fails here may still go alone, where pivots are chosen; if not, it is told why as always.
            .map(|(marched, net)| marched.map_or_else(|| alone(net), Ok))
            .collect();
    }
    nets.iter().map(alone).collect()
}

/// Four nights at a time; where one is over the next takes its lane. `None` for a night that could not go on.
#[cfg(target_arch = "x86_64")]
fn in_fours(nets: &[Network], tolerance: f64, sample_s: f64) -> Vec<Option<Marched>> {
    use crate::physics::four::Four;
    let mut marched: Vec<Option<Marched>> = nets.iter().map(|_| None).collect();
    // Lanes beyond the nights there are repeat the first.
    let mut stepper = Stepper::new(Balance::<Four>::of(std::array::from_fn(|lane| {
        nets.get(lane).unwrap_or(&nets[0])
    })));
    let mut next = 0;
    let mut lanes: [Option<(usize, Walk)>; 4] = Default::default();
    loop {
        for (lane, place) in lanes.iter_mut().enumerate() {
            while place.as_ref().is_none_or(|(_, walk)| walk.is_over()) {
                if let Some((number, walk)) = place.take() {
                    marched[number] = Some(walk.end());
                }
                let Some(net) = nets.get(next) else { break };
                stepper.load(lane, net);
                *place = Some((next, Walk::new(net, tolerance, sample_s)));
                next += 1;
            }
        }
        if lanes.iter().all(Option::is_none) {
            return marched;
        }
        let mut walks = lanes
            .each_mut()
            .map(|place| place.as_mut().map(|(_, walk)| walk));
        for (lane, _) in round(&mut stepper, &mut walks) {
            lanes[lane] = None;
        }
    }
}
