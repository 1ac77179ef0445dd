//! How far a figure of a night moves when the night is computed more finely, and so how far it may be off.
//!
//! [`super::refine`] says how that is estimated. Where a thermostat acts, finer cells move the moments at which it
//! switches, and with them where on its oscillation a temperature is found at departure: such changes alternate and do not
//! shrink, and the oscillation is what they cannot exceed.

use crate::findings::Findings;
use crate::trace::{ReadingNote, SwitchCause, Trace};

/// How many ways a night is refined.
pub const AXES: usize = 3;
/// What the second and the third of three nights divide a size by.
pub const PROMISED: f64 = 4.0;
/// The factor on an extrapolated error, for three grids.
const SAFETY: f64 = 1.25;
/// The factor on a difference of two grids whose order is not known.
const SAFETY_UNKNOWN: f64 = 3.0;
/// So many cycles without acting, and a thermostat is at rest.
const LONGEST_REST: f64 = 1.5;

/// The unit of a figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// Hours.
    Hours,
    /// A temperature, °C.
    Temperature,
    /// A difference of temperatures, K.
    Difference,
    /// Grams.
    Grams,
    /// Kilowatt-hours.
    KilowattHours,
}

/// One figure of a night, on all levels.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// What it is.
    pub name: String,
    /// Its unit.
    pub quantity: Quantity,
    /// Its value at the night's own accuracy; none for "never" and the like.
    pub value: Option<f64>,
    /// Its values on the two finer levels of each axis, in the order of [`super::refine::RefinementAxis::ALL`].
    pub finer: [[Option<f64>; 2]; AXES],
    /// How far it oscillates with a thermostat that acts until departure, in its unit; none where none does.
    pub oscillation: Option<f64>,
}

impl Figure {
    /// How far the value may be off because one axis is not refined; none where a value is missing.
    pub fn error(&self, axis: usize) -> Option<f64> {
        let estimate = self.estimate(axis)?;
        Some(self.bound(axis).map_or(estimate, |b| estimate.min(b)))
    }

    fn estimate(&self, axis: usize) -> Option<f64> {
        let [second, third] = self.finer[axis];
        Some(error_estimate(self.value?, second?, third?))
    }

    /// What bounds an error where a thermostat acts and the changes alternate within the oscillation, since it is the phase of
    /// the thermostat that moves: the whole oscillation and the change that was seen; none elsewhere.
    fn bound(&self, axis: usize) -> Option<f64> {
        let (oscillation, value) = (self.oscillation?, self.value?);
        let [second, third] = self.finer[axis];
        let (a, b) = (second? - value, third? - second?);
        let within = a.abs().max(b.abs()) <= oscillation;
        (a * b < 0.0 && within).then_some(oscillation + (a + b).abs())
    }

    /// Whether some error of it is its oscillation, because it hangs on the phase of a thermostat.
    pub fn hangs_on_phase(&self) -> bool {
        (0..AXES).any(|l| match (self.estimate(l), self.bound(l)) {
            (Some(estimate), Some(bound)) => bound < estimate,
            _ => false,
        })
    }

    /// The same for all three together: their sum, as if they all went the same way.
    pub fn total_error(&self) -> Option<f64> {
        (0..AXES).map(|l| self.error(l)).sum()
    }

    /// Whether it has a value on some levels and is "never" on others.
    pub fn comes_and_goes(&self) -> bool {
        let all = self.finer.iter().flatten().chain([&self.value]);
        let count = all.filter(|v| v.is_some()).count();
        count != 0 && count != 1 + 2 * AXES
    }
}

/// How far the first of three values, each refined from the one before, may be off.
pub fn error_estimate(first: f64, second: f64, third: f64) -> f64 {
    let (a, b) = (second - first, third - second);
    let ratio = a / b;
    if b == 0.0 {
        a.abs()
    } else if ratio > 1.0 {
        // With r limited from above the rest of the series is not made smaller than the method promises.
        let r = ratio.min(PROMISED);
        let rest = SAFETY * a.abs() * r / (r - 1.0);
        // A ratio just above one says nothing about the rest.
        rest.min((a + b).abs() + SAFETY_UNKNOWN * a.abs())
    } else {
        (a + b).abs() + SAFETY_UNKNOWN * b.abs()
    }
}

/// A figure of one night.
#[derive(Debug, Clone, PartialEq)]
pub struct Watched {
    /// What it is.
    pub name: String,
    /// Its unit.
    pub quantity: Quantity,
    /// Its value; none for "never" and the like.
    pub value: Option<f64>,
}

/// The figures of a night that are watched while it is refined: its headlines, and every group of parts.
pub fn watched(f: &Findings) -> Vec<Watched> {
    let figure = |name: &str, quantity, value| Watched {
        name: name.to_owned(),
        quantity,
        value,
    };
    let warm = f.threshold.all_parts.hold.hours();
    let mut all = vec![
        figure("warm everywhere after", Quantity::Hours, warm),
        figure(
            "margin of the coldest part",
            Quantity::Difference,
            f.ready.margin_k,
        ),
    ];
    let groups = f.groups_c.iter();
    all.extend(groups.map(|g| figure(&g.label, Quantity::Temperature, Some(g.temp_c))));
    if let Some(c) = &f.condensation {
        all.push(figure(
            "water on upper walls",
            Quantity::Grams,
            Some(c.upper_g),
        ));
        all.push(figure("condensing for", Quantity::Hours, Some(c.hours)));
    }
    all.push(figure(
        "energy drawn",
        Quantity::KilowattHours,
        Some(f.energy.kwh),
    ));
    all
}

/// How far each group of parts oscillates, K, in the order of the legend, while a thermostat acts until departure: over its
/// last whole cycle and what follows. None where no thermostat does.
pub fn oscillations(trace: &Trace) -> Option<Vec<f64>> {
    let from_s = cycle_before_departure(trace)?;
    let samples = trace.index_at(from_s)..=trace.index_at(trace.departure_s);
    let oscillation = |reading: &ReadingNote| {
        let felt = samples.clone().map(|k| {
            let sample = trace.sample(k);
            let columns = reading.columns.iter();
            columns.map(|&(c, weight)| weight * sample[c]).sum::<f64>()
        });
        let (least, most) = felt.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), t| {
            (least.min(t), most.max(t))
        });
        most - least
    };
    Some(trace.legend.readings.iter().map(oscillation).collect())
}

/// When the last whole cycle of a thermostat began, if it still acts at departure; the earliest of several.
fn cycle_before_departure(trace: &Trace) -> Option<f64> {
    let heaters = 0..trace.legend.heaters.len();
    heaters
        .filter_map(|heater| {
            let acted = trace.switchings.iter().filter(|s| {
                s.heater == heater
                    && s.cause == SwitchCause::Thermostat
                    && s.time_s <= trace.departure_s
            });
            let times: Vec<f64> = acted.map(|s| s.time_s).collect();
            let [.., first, _, last] = times[..] else {
                return None;
            };
            // Much longer than a cycle without acting: it is unplugged, or has come to rest.
            let rests = trace.departure_s - last > LONGEST_REST * (last - first);
            (!rests).then_some(first)
        })
        .min_by(f64::total_cmp)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::night::load_builtin;
    use crate::night::run;

    /// A value with an error of a known order: the estimate covers it, and is no more than the factor 1.25 larger.
    ///
    /// Source: the definition of an order of convergence; Roache 1994, cited above.
    #[test]
    fn an_error_of_the_promised_order_is_found_from_three_values() {
        for (order, error) in [(2.0, 10.0), (1.0, -3.0), (0.5, 0.2)] {
            let value = |refined: f64| 5.0 + error / f64::powf(refined, order);
            let found = error_estimate(value(1.0), value(2.0), value(4.0));
            assert!(
                (found / f64::abs(error) - 1.25).abs() < 1e-9,
                "{order}: {found}"
            );
        }
        // Faster than promised: no smaller than with the promised order.
        let fast = |refined: f64| 5.0 + 1.0 / f64::powi(refined, 4);
        let found = error_estimate(fast(1.0), fast(2.0), fast(4.0));
        assert!((1.0..1.6).contains(&found), "{found}");
    }

    #[test]
    fn values_that_swing_or_run_away_get_a_wide_error_and_equal_ones_none() {
        assert_eq!(error_estimate(1.0, 1.0, 1.0), 0.0);
        assert!((error_estimate(1.0, 1.2, 1.1) - 0.4).abs() < 1e-12);
        assert!(error_estimate(1.0, 1.1, 1.4) > 0.4 + 0.89);
        // Hardly falling off: bounded all the same.
        assert!(error_estimate(1.0, 2.0, 2.999_999) < 5.1);
    }

    fn figure(finer: [Option<f64>; 2], oscillation: Option<f64>) -> Figure {
        Figure {
            name: "sump".to_owned(),
            quantity: Quantity::Temperature,
            value: Some(50.0),
            finer: [finer, [Some(50.0); 2], [Some(50.0); 2]],
            oscillation,
        }
    }

    /// A thermostat holds it within 8 K, so its phase cannot put it off by more; a change that shrinks has another cause.
    #[test]
    fn what_hangs_on_the_phase_of_a_thermostat_is_off_by_little_more_than_its_swing() {
        let alternating = [Some(47.4), Some(52.2)];
        let free = figure(alternating, None);
        assert!((free.error(0).unwrap() - 16.6).abs() < 1e-9 && !free.hangs_on_phase());
        let held = figure(alternating, Some(8.0));
        assert!((held.total_error().unwrap() - 10.2).abs() < 1e-9);
        assert!(held.hangs_on_phase());
        // What moves by more than its oscillation does not move by the phase alone.
        let hardly = figure(alternating, Some(1.0));
        assert_eq!(hardly.error(0), free.error(0));
        assert!(!hardly.hangs_on_phase());
        let shrinks = [Some(46.0), Some(45.0)];
        let held = figure(shrinks, Some(0.5));
        assert_eq!(held.error(0), figure(shrinks, None).error(0));
        assert!(!held.hangs_on_phase());
    }

    /// A pad that holds the sump between 50 and 60 °C: the sump oscillates by less than those 10 K and by much of them; the
    /// cylinders, far from it, by far less. A night without a thermostat oscillates in nothing.
    #[test]
    fn a_sump_on_a_thermostat_swings_within_its_span() {
        let trace = |name| run(&load_builtin(name).unwrap().scenario).unwrap().trace;
        let pad = trace("thermostat-pad");
        let oscillations = super::oscillations(&pad).unwrap();
        let of = |label: &str| {
            let at = pad.legend.readings.iter().position(|r| r.label == label);
            oscillations[at.unwrap()]
        };
        assert!((3.0..12.0).contains(&of("sump")), "{oscillations:?}");
        assert!(of("left cylinders") < 0.2 * of("sump"), "{oscillations:?}");
        assert_eq!(super::oscillations(&trace("demo")), None);
    }
}
