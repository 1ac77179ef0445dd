//! Quantiles of what nights answered, and how sure a share of nights is.

use serde::Serialize;

/// The 10, 50 and 90 percent quantiles; an infinite one is a "never", none means that nothing was there to count.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Band {
    /// A tenth of the nights lie below.
    pub p10: f64,
    /// Half of the nights lie below.
    pub p50: f64,
    /// A tenth of the nights lie above.
    pub p90: f64,
}

impl Band {
    /// The band of some numbers, in which "never" is infinite; none without numbers.
    ///
    /// *Source*: linear interpolation between order statistics, Hyndman and Fan (1996), type 7.
    pub fn of(numbers: impl IntoIterator<Item = f64>) -> Option<Self> {
        let mut sorted: Vec<f64> = numbers.into_iter().filter(|x| !x.is_nan()).collect();
        sorted.sort_by(f64::total_cmp);
        (!sorted.is_empty()).then(|| Self {
            p10: quantile(&sorted, 0.1),
            p50: quantile(&sorted, 0.5),
            p90: quantile(&sorted, 0.9),
        })
    }
}

/// The quantile of sorted numbers at a share between 0 and 1.
pub fn quantile(sorted: &[f64], share: f64) -> f64 {
    let last = sorted.len().saturating_sub(1);
    let place = share * last as f64;
    let below = (place.floor() as usize).min(last);
    let (Some(&low), Some(&high)) = (sorted.get(below), sorted.get((below + 1).min(last))) else {
        return f64::NAN;
    };
    let part = place - below as f64;
    if part == 0.0 || low == high {
        low
    } else {
        low + part * (high - low)
    }
}

/// A share of nights with its 95 percent interval.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Share {
    /// Nights of which it is true.
    pub count: usize,
    /// All nights.
    pub of: usize,
    /// The share.
    pub share: f64,
    /// The lower end of its interval.
    pub low: f64,
    /// The upper end of its interval.
    pub high: f64,
}

impl Share {
    /// A share with Wilson's score interval; none of no nights.
    ///
    /// ```text
    /// (p + z^2/2n +- z sqrt(p(1-p)/n + z^2/4n^2)) / (1 + z^2/n),  z = 1.959964
    /// ```
    ///
    /// *Source*: Wilson (1927), for independent nights, as the simulated ones are.
    pub fn of(count: usize, of: usize) -> Option<Self> {
        const Z: f64 = 1.959_964;
        if of == 0 {
            return None;
        }
        let (n, p) = (of as f64, count as f64 / of as f64);
        let z2 = Z * Z / n;
        let half = Z * (p * (1.0 - p) / n + z2 / (4.0 * n)).sqrt();
        Some(Self {
            count,
            of,
            share: p,
            low: ((p + z2 / 2.0 - half) / (1.0 + z2)).max(0.0),
            high: ((p + z2 / 2.0 + half) / (1.0 + z2)).min(1.0),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_band_of_eleven_numbers_is_the_second_the_sixth_and_the_tenth() {
        let band = Band::of((0..11).map(f64::from)).unwrap();
        assert_eq!((band.p10, band.p50, band.p90), (1.0, 5.0, 9.0));
        assert_eq!(Band::of([]), None);
        assert_eq!(quantile(&[1.0, 2.0], 0.25), 1.25);
    }

    #[test]
    fn a_never_is_later_than_any_hour() {
        let band = Band::of([1.0, 2.0, f64::INFINITY, f64::INFINITY]).unwrap();
        assert!(band.p10.is_finite() && band.p50.is_infinite() && band.p90.is_infinite());
    }

    /// Against the closed form at p = 0: the upper end is z²/(n + z²); and the textbook case of 8 in 10,
    /// 0.490 to 0.943.
    #[test]
    fn the_interval_of_a_share_is_wilsons() {
        let none = Share::of(0, 10).unwrap();
        assert!(none.low == 0.0 && (none.high - 3.841_459 / 13.841_459).abs() < 1e-6);
        let most = Share::of(8, 10).unwrap();
        assert!((most.low - 0.490).abs() < 5e-4 && (most.high - 0.943).abs() < 5e-4);
    }
}
