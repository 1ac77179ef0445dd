//! Ready or not at the departure, by how much, and what stood in the way.

use super::coldest::Coldest;
use super::condensation::Condensation;
use super::oil::OilFinding;
use super::threshold::ThresholdFinding;
use crate::scenario::criteria::Criteria;
use serde::Serialize;

/// Whether the engine was ready at the departure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ready {
    /// Warm enough everywhere, dry enough on the upper walls, and the oil warm enough if that is required.
    pub ready_at_departure: bool,
    /// The coldest engine part over the threshold, K (negative: too cold); none if there are no engine parts.
    pub margin_k: Option<f64>,
    /// Hours between the time it was warm everywhere (to stay) and the departure; negative if that came after
    /// the departure, none if it never came.
    pub slack_h: Option<f64>,
    /// What was not met; empty if ready.
    pub unmet: Vec<Unmet>,
}

/// A condition that was not met.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Unmet {
    /// Some engine part was too cold.
    Cold {
        /// The coldest part.
        part: String,
        /// What people call it.
        label: String,
        /// Its temperature, °C.
        temp_c: f64,
        /// The threshold, °C.
        threshold_c: f64,
    },
    /// There was too much water on the upper walls.
    Wet {
        /// Water on the upper inner walls, g.
        upper_g: f64,
        /// What is allowed, g.
        limit_g: f64,
    },
    /// The mean oil was too cold.
    ColdOil {
        /// Its temperature, °C.
        temp_c: f64,
        /// Its threshold, °C.
        threshold_c: f64,
    },
    /// A minimum for the oil is set and there is no oil.
    NoOil,
    /// No part is marked as an engine part, so nothing can be said to be warm.
    NoEngine,
}

/// A margin under this is smaller than the uncertainty of how well the cowl is closed, K (estimate: from parked to
/// plugged openings the coldest part of the built-in nights with a fan moves by 2.9 to 3.4 K).
pub const SMALL_MARGIN_K: f64 = 3.0;

impl Ready {
    /// Whether it is ready, but by less than the uncertainty of how well the cowl is closed.
    pub fn is_small(&self) -> bool {
        self.ready_at_departure && self.margin_k.is_some_and(|m| m < SMALL_MARGIN_K)
    }
    /// Whether what was found at the departure is what the criteria asks.
    ///
    /// The threshold itself is warm enough; the water must be less than its limit.
    pub fn of(
        criteria: &Criteria,
        threshold: &ThresholdFinding,
        coldest: Option<&Coldest>,
        condensation: Option<&Condensation>,
        oil: Option<&OilFinding>,
        departure_after_on_h: f64,
    ) -> Self {
        let threshold_c = threshold.threshold_c;
        let margin_k = coldest.map(|c| c.temp_c - threshold_c);
        let mut unmet = Vec::new();
        match coldest {
            None => unmet.push(Unmet::NoEngine),
            Some(c) if c.temp_c >= threshold_c => {}
            Some(c) => unmet.push(Unmet::Cold {
                part: c.part.clone(),
                label: c.label.clone(),
                temp_c: c.temp_c,
                threshold_c,
            }),
        }
        let upper_g = condensation.map_or(0.0, |c| c.upper_g);
        let limit_g = criteria.water_limit.si() * 1e3;
        if upper_g.is_nan() || upper_g >= limit_g {
            unmet.push(Unmet::Wet { upper_g, limit_g });
        }
        if let Some(asked_c) = threshold.oil_threshold_c {
            match oil {
                None => unmet.push(Unmet::NoOil),
                Some(oil) if oil.temp_c >= asked_c => {}
                Some(oil) => unmet.push(Unmet::ColdOil {
                    temp_c: oil.temp_c,
                    threshold_c: asked_c,
                }),
            }
        }
        let warm_h = threshold.all_parts.hold.hours();
        Self {
            ready_at_departure: unmet.is_empty(),
            margin_k,
            slack_h: warm_h.map(|h| departure_after_on_h - h),
            unmet,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A cowl closed better or worse is worth 3 K (source at `SMALL_MARGIN_K`): 2.9 K may be lost to it, 3 K may not, and
    /// what is not ready has nothing to lose.
    #[test]
    fn a_margin_is_small_if_the_doubt_about_the_cowl_may_eat_it() {
        let small = |ready_at_departure: bool, margin_k: Option<f64>| {
            let ready = Ready {
                ready_at_departure,
                margin_k,
                slack_h: None,
                unmet: Vec::new(),
            };
            ready.is_small()
        };
        assert!(small(true, Some(0.0)) && small(true, Some(2.9)));
        assert!(!small(true, Some(3.0)) && !small(true, Some(20.0)));
        assert!(!small(false, Some(-1.0)), "too cold");
        assert!(!small(false, Some(2.0)), "warm, but wet");
        assert!(!small(false, None), "no engine");
    }
}
