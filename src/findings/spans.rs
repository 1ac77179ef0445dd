//! Spans of time during which something held, with their edges found by straight lines between samples.
//!
//! A flag sampled once a minute is wrong by up to a minute at each edge; the quantity behind the flag shows where
//! between two samples it flipped.

/// Spans of time in seconds, apart from each other and rising.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Spans(Vec<(f64, f64)>);

impl Spans {
    /// When a quantity sampled at these times was above zero, by straight lines between samples.
    pub(super) fn above_zero(times_s: &[f64], values: impl Iterator<Item = f64>) -> Self {
        let mut spans = Self::default();
        let mut before: Option<(f64, f64)> = None;
        for (&t, x) in times_s.iter().zip(values) {
            if let Some((t0, x0)) = before {
                let crossing = t0 - x0 / (x - x0) * (t - t0);
                match (x0 > 0.0, x > 0.0) {
                    (true, true) => spans.push(t0, t),
                    (true, false) => spans.push(t0, crossing),
                    (false, true) => spans.push(crossing, t),
                    (false, false) => {}
                }
            }
            before = Some((t, x));
        }
        spans
    }
    /// When both held.
    pub(super) fn and(&self, other: &Self) -> Self {
        let (mut i, mut j, mut both) = (0, 0, Self::default());
        while let (Some(a), Some(b)) = (self.0.get(i), other.0.get(j)) {
            both.push(a.0.max(b.0), a.1.min(b.1));
            if a.1 < b.1 {
                i += 1;
            } else {
                j += 1;
            }
        }
        both
    }
    /// When any of these held.
    pub(super) fn any<'a>(of: impl Iterator<Item = &'a Self>) -> Self {
        let mut all: Vec<(f64, f64)> = of.flat_map(|s| s.0.iter().copied()).collect();
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut union = Self::default();
        for (from, to) in all {
            union.push(from, to);
        }
        union
    }
    /// What of these lies no later than this.
    pub(super) fn until(&self, end_s: f64) -> Self {
        self.and(&Self(vec![(f64::NEG_INFINITY, end_s)]))
    }
    /// Their length together, hours.
    pub(super) fn hours(&self) -> f64 {
        self.0.iter().fold(0.0, |sum, (from, to)| sum + (to - from)) / 3600.0
    }
    /// Each of them, from and to, seconds.
    pub(super) fn listed(&self) -> Vec<(f64, f64)> {
        self.0.clone()
    }
    /// When the first of them begins, seconds.
    pub(super) fn begin_s(&self) -> Option<f64> {
        self.0.first().map(|s| s.0)
    }
    /// Adds a span that begins no earlier than those already there; empty ones and those that are no numbers are
    /// left out.
    fn push(&mut self, from: f64, to: f64) {
        if to <= from || from.is_nan() || to.is_nan() {
            return;
        }
        match self.0.last_mut() {
            Some(last) if from <= last.1 => last.1 = last.1.max(to),
            _ => self.0.push((from, to)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn above(points: &[(f64, f64)]) -> Spans {
        let times: Vec<f64> = points.iter().map(|p| p.0).collect();
        Spans::above_zero(&times, points.iter().map(|p| p.1))
    }

    #[test]
    fn an_edge_lies_where_the_straight_line_crosses() {
        let spans = above(&[(0.0, -1.0), (4.0, 3.0), (8.0, 1.0), (10.0, -1.0)]);
        assert_eq!(spans, Spans(vec![(1.0, 9.0)]));
        assert_eq!(spans.until(5.0), Spans(vec![(1.0, 5.0)]));
        assert_eq!(spans.begin_s(), Some(1.0));
        assert_eq!(spans.hours(), 8.0 / 3600.0);
    }

    #[test]
    fn both_is_where_they_overlap_and_any_counts_overlaps_once() {
        let a = Spans(vec![(0.0, 2.0), (5.0, 9.0)]);
        let b = Spans(vec![(1.0, 6.0), (8.0, 12.0)]);
        assert_eq!(a.and(&b), Spans(vec![(1.0, 2.0), (5.0, 6.0), (8.0, 9.0)]));
        assert_eq!(Spans::any([&a, &b].into_iter()), Spans(vec![(0.0, 12.0)]));
    }

    #[test]
    fn a_stretch_with_an_unknown_end_is_not_counted_and_leaves_the_hours_a_number() {
        let spans = above(&[
            (0.0, 1.0),
            (1.0, 1.0),
            (2.0, f64::NAN),
            (3.0, 1.0),
            (4.0, 1.0),
        ]);
        assert_eq!(spans, Spans(vec![(0.0, 1.0), (3.0, 4.0)]));
        assert_eq!(spans.hours(), 2.0 / 3600.0);
    }

    #[test]
    fn touching_zero_is_not_above_it() {
        let spans = above(&[(0.0, -1.0), (1.0, 0.0), (2.0, -1.0), (3.0, f64::NAN)]);
        assert_eq!(spans, Spans::default());
        assert_eq!(spans.begin_s(), None);
    }
}
