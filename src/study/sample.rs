//! Quasi-random points: the Sobol' sequence, scrambled by a seed.
//!
//! *Source*: Sobol' (1967) with the direction numbers of Joe and Kuo (2008), Owen's scrambling by hashing after
//! Burley (2020), as the crate `sobol_burley` gives them: 256 dimensions of 65 536 points. A study with more unknowns
//! pads with further sequences of other seeds, as Burley's paper does.

use super::case::Case;
use super::uncertain_inputs::UncertainInput;

/// Which uncertain inputs are set to what, in their units.
pub type Settings = Vec<(usize, f64)>;

/// The most points a sequence has.
pub const MOST_POINTS: u32 = 1 << 16;

/// The coordinate of a point, above 0 and below 1. The same arguments give the same number on every machine.
///
/// *Valid*: `index` below [`MOST_POINTS`].
pub fn coordinate(seed: u32, index: u32, dimension: u32) -> f64 {
    let set = dimension / sobol_burley::NUM_DIMENSIONS;
    let within = dimension % sobol_burley::NUM_DIMENSIONS;
    // An odd factor keeps the seeds of the sets apart (Knuth's multiplicative hash, 2^32 / golden ratio).
    let seed = seed.wrapping_add(set.wrapping_mul(0x9E37_79B1));
    // The crate gives single precision with 24 bits; half a step keeps the bounds out.
    f64::from(sobol_burley::sample(index, within, seed)) + 0.5 / f64::from(1 << 24)
}

/// All inputs at a point of the sequence, each on the axis that `axis` gives for it.
pub fn point(
    inputs: &[UncertainInput],
    seed: u32,
    number: u32,
    axis: impl Fn(usize) -> usize,
) -> Settings {
    let at = |i: usize| coordinate(seed, number, axis(i) as u32);
    let inputs = inputs.iter().enumerate();
    inputs
        .map(|(i, input)| (i, input.quantile(at(i))))
        .collect()
}

/// The case of a night with some of its inputs set.
pub fn sample(inputs: &[UncertainInput], settings: &Settings) -> Case {
    let set = |case: Case, &(i, value): &(usize, f64)| {
        let UncertainInput { path, unit, .. } = &inputs[i];
        case.number(path, value, unit.as_deref())
    };
    settings.iter().fold(Case::default(), set)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first 2^m points of a scrambled Sobol' sequence have exactly one point in each of 2^m equal slices of
    /// every axis (Owen 1995), which plain random numbers do not.
    #[test]
    fn every_axis_is_filled_evenly_and_the_seed_tells_sequences_apart() {
        for dimension in [0, 1, 17, 94, 255, 256, 300] {
            let mut slices = [0; 256];
            for index in 0..256 {
                let x = coordinate(7, index, dimension);
                assert!(x > 0.0 && x < 1.0);
                slices[(x * 256.0) as usize] += 1;
            }
            assert_eq!(slices, [1; 256], "dimension {dimension}");
        }
        assert_eq!(coordinate(1, 5, 3), coordinate(1, 5, 3));
        assert_ne!(coordinate(1, 5, 3), coordinate(2, 5, 3));
        assert_ne!(coordinate(1, 5, 0), coordinate(1, 5, 256));
    }

    /// The integral of a product over ten axes, whose value is 1: the error of a thousand quasi-random points is well
    /// under that of as many random ones (about 0.06 by the variance (1 + 1/12)^10 - 1).
    #[test]
    fn a_mean_over_ten_axes_converges_faster_than_by_chance() {
        let points = 1024;
        let product = |index| {
            (0..10)
                .map(|d| coordinate(3, index, d) + 0.5)
                .product::<f64>()
        };
        let mean = (0..points).map(product).sum::<f64>() / f64::from(points);
        assert!((mean - 1.0).abs() < 0.01, "{mean}");
    }
}
