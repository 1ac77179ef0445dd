//! Given inputs over time: straight lines between points.

/// A quantity over time: straight lines between points, level before the first and after the last.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Curve {
    /// Seconds after the beginning, rising.
    times_s: Vec<f64>,
    /// The value at each.
    values: Vec<f64>,
}

impl Curve {
    /// The same at all times.
    pub fn steady(value: f64) -> Self {
        Self {
            times_s: vec![0.0],
            values: vec![value],
        }
    }
    /// Straight lines between these points, which must be in rising order of time and not be empty.
    pub fn through(points: impl IntoIterator<Item = (f64, f64)>) -> Self {
        let (times_s, values) = points.into_iter().unzip();
        Self { times_s, values }
    }
    /// The value, and its rate of change a second, at a time; at a point, the rate just after it.
    pub fn at(&self, time_s: f64) -> (f64, f64) {
        let after = self.times_s.partition_point(|&t| t <= time_s);
        if after == 0 {
            return (self.values.first().copied().unwrap_or(0.0), 0.0);
        }
        let before = after - 1;
        if after == self.times_s.len() {
            return (self.values[before], 0.0);
        }
        let rate = (self.values[after] - self.values[before])
            / (self.times_s[after] - self.times_s[before]);
        (
            self.values[before] + rate * (time_s - self.times_s[before]),
            rate,
        )
    }
    /// The times at which its rate changes.
    pub fn kinks(&self) -> &[f64] {
        &self.times_s
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_curve_is_level_outside_and_straight_between() {
        let c = Curve::through([(0.0, 2.0), (10.0, 4.0), (20.0, 4.0)]);
        assert_eq!(c.at(-5.0), (2.0, 0.0));
        assert_eq!(c.at(0.0), (2.0, 0.2));
        assert_eq!(c.at(5.0), (3.0, 0.2));
        assert_eq!(c.at(10.0), (4.0, 0.0));
        assert_eq!(c.at(99.0), (4.0, 0.0));
    }
}
