//! A trace that was saved, read and evaluated again.

use super::any_body::{Dice, element, night, whole};
use crate::kit::bench::solved;
use coldsoak::findings::answer;
use coldsoak::trace::Trace;
use proptest::prelude::*;

proptest! {
    #![proptest_config(crate::kit::cases(4))]

    /// Written as RON (whose numbers are read back to the last digit) and read again, it gives the same findings.
    #[test]
    fn a_saved_trace_gives_the_same_findings(
        numbers in prop::collection::vec(0.0..1.0f64, 97), watts in 50.0..400.0f64,
    ) {
        let mut scenario = night(whole(&mut Dice::new(&numbers)), -10.0, (40.0, 20.0));
        scenario.heaters = vec![element("part1", watts)];
        let night = solved(&scenario);
        let saved = ron::to_string(&night.trace).unwrap();
        let read: Trace = ron::from_str(&saved).unwrap();
        prop_assert!(read == night.trace);
        let anew = answer(
            &read,
            &night.ledger,
            &scenario.criteria,
            &scenario.oil,
            &scenario.circuit,
            night.findings.steady.clone(),
        );
        prop_assert_eq!(
            serde_json::to_string(&anew).unwrap(),
            serde_json::to_string(&night.findings).unwrap()
        );
    }
}
