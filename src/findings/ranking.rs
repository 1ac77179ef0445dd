//! Which of several nights is the better one.

use super::answer::Findings;
use std::cmp::Ordering;

/// Water on the upper walls is ranked in steps of this, g.
const WATER_STEP_G: f64 = 0.5;

/// What choices are ranked by, to be printed beside every ranking.
pub const RANKING_KEY: &str = "ready before not ready; of those not ready, the coldest part nearer \
     to the threshold, to a tenth of a kelvin; then less water on the upper inner walls at departure, in steps of 0.5 g; \
     then less energy, to the watt-hour; then the larger margin";

/// What a night is ranked by: the smaller key is the better night.
#[derive(Debug, Clone, Copy)]
pub struct RankKey {
    not_ready: bool,
    lacking_tenths_k: f64,
    upper_steps: f64,
    energy_wh: f64,
    shortfall_k: f64,
}

/// The key of a night, by [`RANKING_KEY`]. A night without engine parts has the worst margin.
pub fn rank_key(findings: &Findings) -> RankKey {
    let upper_g = findings.condensation.as_ref().map_or(0.0, |c| c.upper_g);
    let not_ready = !findings.ready.ready_at_departure;
    let shortfall_k = findings.ready.margin_k.map_or(f64::INFINITY, |m| -m);
    RankKey {
        not_ready,
        lacking_tenths_k: if not_ready {
            (10.0 * shortfall_k.max(0.0)).round()
        } else {
            0.0
        },
        upper_steps: (upper_g / WATER_STEP_G).floor(),
        energy_wh: (1e3 * findings.energy.kwh).round(),
        shortfall_k,
    }
}

impl Ord for RankKey {
    fn cmp(&self, other: &Self) -> Ordering {
        self.not_ready
            .cmp(&other.not_ready)
            .then(self.lacking_tenths_k.total_cmp(&other.lacking_tenths_k))
            .then(self.upper_steps.total_cmp(&other.upper_steps))
            .then(self.energy_wh.total_cmp(&other.energy_wh))
            .then(self.shortfall_k.total_cmp(&other.shortfall_k))
    }
}
impl PartialOrd for RankKey {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl PartialEq for RankKey {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}
impl Eq for RankKey {}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_traces::Handmade;

    use crate::findings::answer::answer;
    use crate::quantity::Temperature;
    use crate::scenario::circuit::Circuit;
    use crate::scenario::criteria::Criteria;
    use crate::scenario::oil::Oil;
    use crate::trace::Conservation;

    /// The key of a night with this coldest part, water on the upper walls, and energy.
    fn key(temp_c: f64, upper_g: f64, kwh: f64) -> RankKey {
        let mut night = Handmade::hours(&[0.0, 9.0]);
        night.cell("sump", &[temp_c]);
        night.gas(&[10.0], &[0.0], &[0.0]);
        night.wall("top", "upper", &[10.0], &[upper_g]);
        night.heater("fan", 500.0, &[0.0, kwh * 3.6e6]);
        let criteria = Criteria {
            min_temperature: Temperature::degC(4.0),
            ..Criteria::default()
        };
        let oil = Oil::sae_50();
        let (trace, circuit) = (night.trace(), Circuit::default());
        rank_key(&answer(
            &trace,
            &Conservation::default(),
            &criteria,
            &oil,
            &circuit,
            None,
        ))
    }

    #[test]
    fn each_rank_decides_only_where_those_before_it_tie() {
        let in_order = [
            key(9.0, 0.49, 2.0), // ready, the driest step, least energy, larger margin
            key(5.0, 0.0, 2.0),  // smaller margin
            key(9.0, 0.0, 2.1),  // a little more energy
            key(30.0, 0.2, 3.0), // more energy
            key(30.0, 0.5, 1.0), // the next step of water
            key(30.0, 1.0, 1.0), // not ready: warm, but too wet
            key(3.9, 0.0, 9.0),  // not ready: a little too cold
            key(-9.0, 0.0, 0.0), // not ready: too cold by far, for no energy at all
        ];
        assert!(in_order.is_sorted());
        let mut shuffled = [4, 2, 6, 0, 5, 7, 1, 3].map(|i| in_order[i]);
        shuffled.sort();
        assert_eq!(shuffled, in_order);
        assert!(in_order.windows(2).all(|pair| pair[0] < pair[1]));
        assert!(
            in_order.windows(2).all(|pair| pair[0] != pair[1]),
            "none of them ties with another"
        );
    }

    #[test]
    fn equal_nights_rank_equal() {
        assert_eq!(key(9.0, 0.1, 2.0), key(9.0, 0.4, 2.0));
    }
}
