//! Where the watts went, all through a night: the books and the stored heat, differenced from sample to sample.
//!
//! ```text
//! heaters + fed = into engine + into other parts + into air + sum of losses        (each in W, at every moment)
//! ```
//!
//! What is stored comes from temperatures and heat capacities, what enters and leaves from the books, so that the two
//! sides are found apart from each other and must meet.

use crate::physics::vapour::LATENT_HEAT_J_PER_G;
use crate::trace::{LossPath, Trace};

/// The course of a night's heat; each list has one value, in W, for each span between two edges.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HeatFlowSeries {
    /// The edges of the spans, seconds after the beginning.
    pub edges_s: Vec<f64>,
    /// Drawn by all heaters.
    pub heaters_w: Vec<f64>,
    /// Fed in at all times.
    pub fed_w: Vec<f64>,
    /// Into the parts of the engine and its oil.
    pub engine_w: Vec<f64>,
    /// Into cowl skin, firewall and whatever else is no engine part.
    pub others_w: Vec<f64>,
    /// Into the air of the bay and the moist air inside the engine.
    pub air_w: Vec<f64>,
    /// Lost by each path of the trace.
    pub losses_w: Vec<(LossPath, Vec<f64>)>,
}

impl HeatFlowSeries {
    /// The course of a trace.
    pub fn of(trace: &Trace) -> Self {
        let legend = &trace.legend;
        let mut course = Self {
            losses_w: legend.losses.iter().map(|l| (l.0, Vec::new())).collect(),
            edges_s: trace.times_s.first().copied().into_iter().collect(),
            ..Self::default()
        };
        for k in 1..trace.len() {
            let span_s = trace.times_s[k] - trace.times_s[k - 1];
            if span_s <= 0.0 {
                continue;
            }
            let (before, after) = (trace.sample(k - 1), trace.sample(k));
            let rate = |column: usize| (after[column] - before[column]) / span_s;
            let cells = |engine: bool| -> f64 {
                let cells = legend.cells.iter().filter(|c| c.engine == engine);
                cells
                    .map(|c| c.heat_capacity_j_per_k * rate(c.column))
                    .sum()
            };
            let pockets = legend.pockets.iter();
            let bay: f64 = pockets
                .map(|p| p.heat_capacity_j_per_k * rate(p.temperature))
                .sum();
            let inside = legend.gas.as_ref().map_or(0.0, |gas| {
                gas.heat_capacity_j_per_k * rate(gas.temperature)
                    + LATENT_HEAT_J_PER_G * gas.volume_m3 * rate(gas.vapour)
            });
            course.edges_s.push(trace.times_s[k]);
            course
                .heaters_w
                .push(legend.heaters.iter().map(|h| rate(h.energy)).sum());
            course.fed_w.push(legend.fed_w);
            course.engine_w.push(cells(true));
            course.others_w.push(cells(false));
            course.air_w.push(bay + inside);
            for (lost, (_, column)) in course.losses_w.iter_mut().zip(&legend.losses) {
                lost.1.push(rate(*column));
            }
        }
        course
    }

    /// What does not meet in a span: sources less all they went into, W.
    pub fn gap_w(&self, span: usize) -> f64 {
        let lost: f64 = self.losses_w.iter().map(|(_, w)| w[span]).sum();
        self.heaters_w[span] + self.fed_w[span]
            - self.engine_w[span]
            - self.others_w[span]
            - self.air_w[span]
            - lost
    }
}

/// The mean of spans with these edges over coarser spans: what is under the curve stays the same.
///
/// Both lists of edges rise and begin and end together; a coarse span without length gives zero.
pub fn mean_over(edges: &[f64], values: &[f64], coarse: &[f64]) -> Vec<f64> {
    let mut sums = vec![0.0; coarse.len().saturating_sub(1)];
    let mut at = 0;
    for (span, value) in edges.windows(2).zip(values) {
        while at + 1 < sums.len() && coarse[at + 1] <= span[0] {
            at += 1;
        }
        let mut within = at;
        while within < sums.len() && coarse[within] < span[1] {
            let shared = span[1].min(coarse[within + 1]) - span[0].max(coarse[within]);
            sums[within] += value * shared.max(0.0);
            within += 1;
        }
    }
    let lengths = coarse.windows(2).map(|c| c[1] - c[0]);
    sums.iter()
        .zip(lengths)
        .map(|(sum, length)| if length > 0.0 { sum / length } else { 0.0 })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_traces::Handmade;

    #[test]
    fn watts_are_differences_over_time_and_the_sides_meet() {
        // 1 MJ an hour from the heater: 0.4 into 50 kJ/K of case (8 K), 0.2 into skin, 0.4 out through gaps.
        let mut night = Handmade::hours(&[0.0, 1.0, 1.5]);
        night.heater("fan", 300.0, &[0.0, 1.0e6, 1.5e6]);
        night
            .cell("case", &[-10.0, -2.0, 2.0])
            .heat_capacity_j_per_k = 50e3;
        let skin = night.cell("skin", &[-10.0, 10.0, 20.0]);
        (skin.engine, skin.heat_capacity_j_per_k) = (false, 10e3);
        night.loss(LossPath::Gaps, &[0.0, 0.4e6, 0.6e6]);
        let course = HeatFlowSeries::of(&night.trace());
        assert_eq!(course.edges_s, [0.0, 3600.0, 5400.0]);
        for span in 0..2 {
            assert!((course.heaters_w[span] - 1e6 / 3600.0).abs() < 1e-9);
            assert!((course.engine_w[span] - 0.4e6 / 3600.0).abs() < 1e-9);
            assert!(course.gap_w(span).abs() < 1e-9, "{}", course.gap_w(span));
        }
    }

    /// 36 K an hour: 1 W into 100 J/K of bay air, 0.1 W into 10 J/K of gas, and the latent heat of 0.009 g of vapour.
    #[test]
    fn air_and_its_vapour_take_their_share_and_what_is_always_fed_in_is_a_source() {
        let mut night = Handmade::hours(&[0.0, 1.0, 1.0, 2.0]);
        night.pocket("rear", &[0.0, 36.0, 36.0, 36.0], &[0.0]);
        night.gas(&[0.0, 36.0, 36.0, 36.0], &[1.0, 2.0, 2.0, 2.0], &[0.0]);
        let mut trace = night.trace();
        trace.legend.fed_w = 1.5;
        let course = HeatFlowSeries::of(&trace);
        // Two samples at one moment, as where a heater is switched, are no span.
        assert_eq!(course.edges_s, [0.0, 3600.0, 7200.0]);
        let into_air = 1.0 + 0.1 + LATENT_HEAT_J_PER_G * 0.009 / 3600.0;
        assert!((course.air_w[0] - into_air).abs() < 1e-12, "{course:?}");
        assert_eq!((course.air_w[1], course.fed_w[1]), (0.0, 1.5));
        assert!((course.gap_w(0) - (1.5 - into_air)).abs() < 1e-12);
        assert_eq!(course.gap_w(1), 1.5);
    }

    #[test]
    fn coarser_spans_keep_what_is_under_the_curve() {
        let edges = [0.0, 1.0, 2.0, 4.0, 5.0];
        let coarse = [0.0, 2.5, 5.0];
        let means = mean_over(&edges, &[4.0, 0.0, 2.0, 6.0], &coarse);
        assert_eq!(means, [(4.0 + 0.0 + 1.0) / 2.5, (3.0 + 6.0) / 2.5]);
        assert_eq!(mean_over(&edges, &[1.0; 4], &edges), [1.0; 4]);
    }

    #[test]
    fn a_coarse_span_without_length_is_zero_watts_and_no_gap_in_the_picture() {
        let means = mean_over(&[0.0, 2.0, 4.0], &[6.0, 2.0], &[0.0, 2.5, 2.5, 4.0]);
        assert_eq!(means, [(12.0 + 1.0) / 2.5, 0.0, 2.0]);
    }

    #[test]
    fn no_coarse_span_asked_for_is_none_given() {
        assert!(mean_over(&[0.0, 2.0, 4.0], &[6.0, 2.0], &[]).is_empty());
    }
}
