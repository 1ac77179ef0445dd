//! The simulated nights of a night: where each lies in the ranges of all uncertain inputs, and how it is computed.
//!
//! The place of an input in its range follows from the seed, the number of the night and the name of the input alone. So the
//! same seed and count give the same nights in every command, whatever else varies, and choices that share an input share
//! its values: what differs between them is the choice and not the hangar. Places are independent and uniform, so the
//! interval of a chance is that of plain counting.
//!
//! *Source*: the finaliser of SplitMix64 (Steele, Lea and Flood 2014) over a hash of the name, FNV-1a (Fowler, Noll and Vo;
//! offset and prime as in draft-eastlake-fnv).

use super::case::Case;
use super::uncertain_inputs::{UncertainInput, uncertain_inputs};
use crate::scenario::check::Problem;
use crate::scenario::document::Scenario;
use crate::scenario::engine::Engine;

/// Which uncertain inputs are set to what, in their units.
pub type Settings = Vec<(usize, f64)>;

/// The place of an input in its range, above 0 and below 1. The same arguments give the same number on every machine.
pub fn coordinate(seed: u32, night: u32, axis: u64) -> f64 {
    let number = (u64::from(seed) << 32) | u64::from(night);
    let mixed = mix(axis ^ mix(number.wrapping_mul(0x9E37_79B9_7F4A_7C15)));
    // 53 bits; half a step keeps the ends out.
    ((mixed >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
}

/// The axis of a name; `second` is another, independent one of the same name.
pub fn axis(name: &str, second: bool) -> u64 {
    let hash = name.bytes().fold(0xCBF2_9CE4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01B3)
    });
    hash ^ u64::from(second).wrapping_mul(0x9E37_79B9_7F4A_7C15)
}

fn mix(mut z: u64) -> u64 {
    z = z.wrapping_add(0x9E37_79B9_7F4A_7C15);
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// The simulated nights of one night.
#[derive(Debug, Clone)]
pub struct Samples {
    /// What is uncertain.
    pub inputs: Vec<UncertainInput>,
    /// The seed of the nights.
    pub seed: u32,
    names: Vec<String>,
}

impl Samples {
    /// The simulated nights of a night.
    ///
    /// *Errors*: every problem of its ranges.
    pub fn of(night: &Scenario, seed: u32) -> Result<Self, Vec<Problem>> {
        let inputs = uncertain_inputs(night)?;
        let names = inputs.iter().map(|i| name(night, &i.path)).collect();
        Ok(Self {
            inputs,
            seed,
            names,
        })
    }

    /// All inputs of a simulated night; those of `second` at their second, independent place.
    pub fn settings(&self, night: u32, second: &[usize]) -> Settings {
        let inputs = self.inputs.iter().zip(&self.names).enumerate();
        let setting = |(i, (input, name)): (usize, (&UncertainInput, &String))| {
            let axis = axis(name, second.contains(&i));
            (i, input.quantile(coordinate(self.seed, night, axis)))
        };
        inputs.map(setting).collect()
    }

    /// The case of the night with some of its inputs set.
    pub fn case(&self, settings: &Settings) -> Case {
        let set = |case: Case, &(i, value): &(usize, f64)| {
            let UncertainInput { path, unit, .. } = &self.inputs[i];
            case.number(path, value, unit.as_deref())
        };
        settings.iter().fold(Case::default(), set)
    }
}

/// A night without what its files say of its ranges: all that a simulated night is made from, and less to read.
pub fn without_ranges(night: &Scenario) -> Scenario {
    let mut night = night.clone();
    match &mut night.engine {
        Engine::opposed(layout) => layout.uncertain.clear(),
        Engine::body(body) => body.uncertain.clear(),
    }
    night.oil.uncertain.clear();
    night.hangar.uncertain.clear();
    for heater in &mut night.heaters {
        heater.uncertain.clear();
    }
    night.uncertain.clear();
    night
}

/// What an input is called in every night: its path, with a heater by its name rather than by its place in a list; of two
/// of one name the second has a number.
fn name(night: &Scenario, path: &str) -> String {
    let within = path
        .strip_prefix("heaters[")
        .and_then(|rest| rest.split_once(']'));
    let heater = within.and_then(|(number, rest)| Some((number.parse::<usize>().ok()?, rest)));
    match heater {
        Some((number, rest)) if number < night.heaters.len() => {
            let name = &night.heaters[number].name;
            let before = &night.heaters[..number];
            let namesakes = before.iter().filter(|h| h.name == *name).count();
            format!("heater {name:?} {namesakes}{rest}")
        }
        _ => path.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::scenario;
    use super::*;

    /// Pearson's statistic of 64 cells has mean 63 and standard deviation 11.2; 120 is five of these above.
    #[test]
    fn places_are_uniform_and_independent_between_names_nights_and_seeds() {
        let names = [
            "covers.inlet_plug",
            "covers.outlet_plug",
            "hangar.air_speed",
        ];
        let at = |seed, night, name: &str, second| coordinate(seed, night, axis(name, second));
        let nights = 1 << 14;
        let statistic = |pair: &dyn Fn(u32) -> (f64, f64)| {
            let mut cells = [0.0; 64];
            for night in 0..nights {
                let (x, y) = pair(night);
                assert!(x > 0.0 && x < 1.0 && y > 0.0 && y < 1.0);
                cells[(8.0 * x) as usize * 8 + (8.0 * y) as usize] += 1.0;
            }
            let expected = f64::from(nights) / 64.0;
            let terms = cells
                .iter()
                .map(|count| (count - expected).powi(2) / expected);
            terms.sum::<f64>()
        };
        for name in names {
            for (what, found) in [
                (
                    "names",
                    statistic(&|n| (at(1, n, name, false), at(1, n, "oil.at_40", false))),
                ),
                (
                    "nights",
                    statistic(&|n| (at(1, n, name, false), at(1, n + 1, name, false))),
                ),
                (
                    "seeds",
                    statistic(&|n| (at(1, n, name, false), at(2, n, name, false))),
                ),
                (
                    "second",
                    statistic(&|n| (at(1, n, name, false), at(1, n, name, true))),
                ),
            ] {
                assert!(found < 120.0, "{name} {what}: {found}");
            }
        }
    }

    /// Published values of FNV-1a, 64 bits: the empty text, and "a" (test vectors of draft-eastlake-fnv).
    #[test]
    fn the_hash_of_a_name_is_the_published_one() {
        assert_eq!(axis("", false), 0xCBF2_9CE4_8422_2325);
        assert_eq!(axis("a", false), 0xAF63_DC4C_8601_EC8C);
    }

    /// The same fan takes the same numbers wherever it stands in the list; another one does not.
    #[test]
    fn a_heater_is_the_same_wherever_it_stands() {
        let mut night = scenario();
        let fan = night.heaters[0].clone();
        let lamp = crate::scenario::heater::Heater {
            name: "a lamp".to_owned(),
            ..fan.clone()
        };
        night.heaters = vec![lamp.clone(), fan.clone(), fan.clone()];
        let named = |number: usize| name(&night, &format!("heaters[{number}].power"));
        assert_ne!(named(0), named(1));
        assert_ne!(named(1), named(2));
        let mut other = night.clone();
        other.heaters = vec![fan, lamp];
        assert_eq!(name(&other, "heaters[0].power"), named(1));
        assert_eq!(name(&other, "heaters[1].power"), named(0));
        assert_eq!(name(&other, "covers.inlet_plug"), "covers.inlet_plug");
    }

    /// A second heater in front moves no other input, and what a heater varies by follows it.
    #[test]
    fn an_input_keeps_its_place_whatever_else_varies() {
        let night = scenario();
        let mut two = night.clone();
        let mut pad = night.heaters[0].clone();
        pad.name = "another".to_owned();
        two.heaters.insert(0, pad);
        let (one, two) = (
            Samples::of(&night, 3).unwrap(),
            Samples::of(&two, 3).unwrap(),
        );
        let values = |samples: &Samples| -> Vec<(String, f64)> {
            let settings = samples.settings(5, &[]).into_iter();
            settings
                .map(|(i, value)| (samples.names[i].clone(), value))
                .collect()
        };
        let (one, two) = (values(&one), values(&two));
        assert!(two.len() > one.len());
        for input in one {
            assert!(two.contains(&input), "{input:?}");
        }
    }

    /// The 95 percent interval of a chance covers the true one in 93 to 99 of 100 sets of 256 nights, at true chances of 50,
    /// 80, 95 and 99 percent: a night "succeeds" if the sum of twelve inputs is above a limit. Its distribution is
    /// Irwin-Hall's of twelve (Hall 1927), whose limits stand here as found by its closed form.
    #[test]
    fn the_interval_of_a_chance_covers_the_true_one() {
        let cumulative = |x: f64| -> f64 {
            let factorial = |n: i32| (1..=n).map(f64::from).product::<f64>();
            let term = |k: i32| {
                let sign = if k % 2 == 0 { 1.0 } else { -1.0 };
                let choose = factorial(12) / factorial(k) / factorial(12 - k);
                sign * choose * (x - f64::from(k)).max(0.0).powi(12)
            };
            (0..=x.floor() as i32).map(term).sum::<f64>() / factorial(12)
        };
        let limit = |chance: f64| {
            let (mut low, mut high) = (0.0, 6.0);
            // By symmetry the chance above 12 - x is that below x.
            while high - low > 1e-12 {
                let middle = 0.5 * (low + high);
                let below = 1.0 - cumulative(middle);
                (low, high) = if below > chance {
                    (middle, high)
                } else {
                    (low, middle)
                };
            }
            low
        };
        let names: Vec<u64> = (0..12)
            .map(|k| axis(&format!("input {k}"), false))
            .collect();
        let sets = 1000;
        let sum = |seed, night| {
            names
                .iter()
                .map(|&axis| coordinate(seed, night, axis))
                .sum::<f64>()
        };
        let sums: Vec<Vec<f64>> = (0..sets)
            .map(|seed| (0..256).map(|night| sum(seed, night)).collect())
            .collect();
        for chance in [0.5, 0.8, 0.95, 0.99] {
            let limit = limit(chance);
            let covers = |set: &&Vec<f64>| {
                let ready = set.iter().filter(|sum| **sum > limit).count();
                let share = crate::study::quantile::Share::of(ready, set.len()).unwrap();
                share.low <= chance && chance <= share.high
            };
            let covered = sums.iter().filter(covers).count() as f64 / f64::from(sets);
            println!("at {chance}: {covered}");
            assert!((0.93..=0.99).contains(&covered), "{chance}: {covered}");
        }
    }
}
