//! More warmth never makes anything colder, where no air moves and nothing is wet: every flow between two
//! temperatures then grows with their difference, so a warmer neighbour can only warm (a comparison principle).

use super::any_body::{Dice, NIGHTS, element, name, night, solids};
use crate::kit::bench::{at, solved};
use proptest::prelude::*;

/// What two integrations at a tenth of the default tolerance may be apart by, K.
const MARCH_K: f64 = 1e-3;

proptest! {
    #![proptest_config(crate::kit::cases(NIGHTS))]

    #[test]
    fn neither_a_warmer_night_nor_more_watts_leaves_a_part_colder(
        numbers in prop::collection::vec(0.0..1.0f64, 97),
        hangar_c in -25.0..5.0f64, warmer_k in 0.1..10.0f64, watts in 10.0..300.0f64,
    ) {
        let body = solids(&mut Dice::new(&numbers));
        let count = body.parts.len();
        let heated = |hangar_c: f64, watts: f64| {
            let mut scenario = night(body.clone(), hangar_c, (20.0, 10.0));
            scenario.heaters = vec![element("part1", watts)];
            solved(&scenario)
        };
        let plain = heated(hangar_c, watts);
        for (what, other) in [
            ("a warmer night", heated(hangar_c + warmer_k, watts)),
            ("more watts", heated(hangar_c, 1.5 * watts)),
        ] {
            for hours in [0.5, 3.0, 12.0_f64] {
                for part in (0..count).map(name) {
                    let gain = at(&other, &part, hours * 3600.0) - at(&plain, &part, hours * 3600.0);
                    prop_assert!(gain > -MARCH_K, "{}: {} is {} K colder at {} h", what, part, -gain, hours);
                }
            }
        }
    }
}
