//! What deserves care, with the numbers behind it.

use super::circuit::CircuitFinding;
use super::condensation::Condensation;
use super::oil::OilFinding;
use super::readings::row_at;
use super::unevenness::spread_k;
use crate::quantity::{Temperature, Units};
use crate::trace::{CellNote, Trace};
use serde::Serialize;
use std::fmt;

/// Carburettor and skins should stay below this, °C. *Source*: paint, glass-fibre resin and fabric begin to suffer
/// at 60 to 80 °C (from memory).
const HOT_C: f64 = 60.0;
/// Cylinders should not differ by more than this when the engine is ready, K. Common practice, no source.
const UNEVEN_K: f64 = 25.0;
/// Colder than this, what leaves by the breather may freeze in it, °C. Estimate.
const NEAR_FREEZING_C: f64 = 2.0;
/// Less water than this inside is not worth a word, g. Estimate.
const WATER_WORTH_A_WORD_G: f64 = 1.0;
/// A continuous load should stay within this share of the breaker. *Source*: NEC 210.20(A) (from memory).
const CONTINUOUS_SHARE: f64 = 0.8;
/// Slack for sums of currents.
const ROUNDING: f64 = 1e-9;

/// Something that deserves care. Its sentence is given in °C by `Display`, and in a reader's units by `told`.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Warning {
    /// The carburettor became hot.
    HotCarburettor {
        /// The part.
        part: String,
        /// What people call it.
        label: String,
        /// The highest it came to, °C.
        temp_c: f64,
        /// When, hours after the beginning.
        time_h: f64,
    },
    /// A cowl skin became hot.
    HotSkin {
        /// The part.
        part: String,
        /// What people call it.
        label: String,
        /// The highest it came to, °C.
        temp_c: f64,
        /// When, hours after the beginning.
        time_h: f64,
    },
    /// The cylinders differed widely when the engine was ready.
    Uneven {
        /// The spread, K.
        spread_k: f64,
        /// When, hours after the beginning.
        time_h: f64,
    },
    /// The air where the breather ends is near freezing and there is water inside that may leave by it.
    BreatherNearFreezing {
        /// What people call that pocket.
        pocket: String,
        /// Its temperature at the departure, °C.
        temp_c: f64,
        /// Water in or under the oil, g.
        oil_water_g: f64,
        /// Water on the inner walls, g.
        film_g: f64,
    },
    /// More than 80 percent of the breaker for three hours or more.
    ContinuousLoad {
        /// The current with the other load, A.
        current_a: f64,
        /// The breaker, A.
        breaker_a: f64,
    },
    /// More than the breaker holds.
    OverBreaker {
        /// The current with the other load, A.
        current_a: f64,
        /// The breaker, A.
        breaker_a: f64,
    },
    /// The oil is so near its pour point, or below it, that its viscosity is extrapolated.
    OilExtrapolated {
        /// The oil at the pick-up, °C.
        temp_c: f64,
        /// Its pour point, °C.
        pour_point_c: f64,
    },
}

/// What the warnings of a night are drawn from.
pub(super) struct Grounds<'a> {
    pub(super) trace: &'a Trace,
    /// All columns at the departure.
    pub(super) row: &'a [f64],
    pub(super) ready: bool,
    /// When every part was warm enough to stay, seconds after the beginning.
    pub(super) warm_s: Option<f64>,
    pub(super) condensation: Option<&'a Condensation>,
    pub(super) circuit: &'a CircuitFinding,
    pub(super) oil: Option<&'a OilFinding>,
}

impl Grounds<'_> {
    /// Every warning of the night.
    pub(super) fn warnings(&self) -> Vec<Warning> {
        let hot = [
            self.hottest(|cell| cell.carburettor)
                .map(|(cell, temp_c, time_h)| {
                    let (part, label) = (cell.part.clone(), cell.label.clone());
                    Warning::HotCarburettor {
                        part,
                        label,
                        temp_c,
                        time_h,
                    }
                }),
            self.hottest(|cell| cell.skin)
                .map(|(cell, temp_c, time_h)| {
                    let (part, label) = (cell.part.clone(), cell.label.clone());
                    Warning::HotSkin {
                        part,
                        label,
                        temp_c,
                        time_h,
                    }
                }),
        ];
        let others = [
            self.uneven(),
            self.breather(),
            self.continuous(),
            self.breaker(),
            self.oil(),
        ];
        hot.into_iter().chain(others).flatten().collect()
    }

    /// The hottest of some cells over the whole time followed, if it was hot.
    fn hottest(&self, of: impl Fn(&CellNote) -> bool) -> Option<(&CellNote, f64, f64)> {
        let mut hottest = None;
        let mut limit_c = HOT_C;
        for cell in self.trace.legend.cells.iter().filter(|cell| of(cell)) {
            for (&t, temp_c) in self
                .trace
                .times_s
                .iter()
                .zip(self.trace.column(cell.column))
            {
                if temp_c > limit_c {
                    limit_c = temp_c;
                    hottest = Some((cell, temp_c, t / 3600.0));
                }
            }
        }
        hottest
    }

    /// The wider spread of two instants: when the engine became ready, and the departure if it was then.
    fn uneven(&self) -> Option<Warning> {
        let departure_s = self.trace.departure_s;
        let became_s = self.warm_s.filter(|&t| self.ready && t <= departure_s);
        let left_s = self.ready.then_some(departure_s);
        let instants = became_s.into_iter().chain(left_s);
        let spreads = instants
            .filter_map(|t| Some((spread_k(&self.trace.legend, &row_at(self.trace, t))?, t)));
        let (spread_k, t) = spreads.reduce(|a, b| if b.0 > a.0 { b } else { a })?;
        (spread_k > UNEVEN_K).then_some(Warning::Uneven {
            spread_k,
            time_h: t / 3600.0,
        })
    }

    fn breather(&self) -> Option<Warning> {
        let gas = self.trace.legend.gas.as_ref()?;
        let pocket = self.trace.legend.pockets.get(gas.breather_pocket)?;
        let water = self.condensation?;
        let temp_c = self.row[pocket.temperature];
        let oil_water_g = water.oil_water_g.unwrap_or(0.0);
        let film_g: f64 = water.walls.iter().map(|w| w.grams).sum();
        let wet = oil_water_g + film_g > WATER_WORTH_A_WORD_G;
        (wet && temp_c < NEAR_FREEZING_C).then(|| Warning::BreatherNearFreezing {
            pocket: pocket.label.clone(),
            temp_c,
            oil_water_g,
            film_g,
        })
    }

    fn continuous(&self) -> Option<Warning> {
        let circuit = self.circuit;
        let over = circuit.continuous_share > CONTINUOUS_SHARE + ROUNDING;
        (circuit.continuous && over).then_some(Warning::ContinuousLoad {
            current_a: circuit.continuous_current_a,
            breaker_a: circuit.breaker_a,
        })
    }

    fn breaker(&self) -> Option<Warning> {
        let circuit = self.circuit;
        let over = circuit.peak_current_a > 0.0 && circuit.load_share > 1.0 + ROUNDING;
        over.then_some(Warning::OverBreaker {
            current_a: circuit.peak_current_a + circuit.other_current_a,
            breaker_a: circuit.breaker_a,
        })
    }

    fn oil(&self) -> Option<Warning> {
        let oil = self.oil.filter(|oil| oil.flagged)?;
        Some(Warning::OilExtrapolated {
            temp_c: oil.pickup_temp_c,
            pour_point_c: oil.pour_point_c,
        })
    }
}

impl Warning {
    /// As a sentence, in a reader's units.
    pub fn told(&self, units: Units) -> String {
        let temp = |celsius: f64| Temperature::degC(celsius).told(units);
        match self {
            Self::HotCarburettor {
                label,
                temp_c,
                time_h,
                ..
            } => format!(
                "{label} came to {} after {time_h:.1} h: fuel and its parts should stay below {}; lower the power or \
                 aim the heat elsewhere.",
                temp(*temp_c),
                temp(HOT_C)
            ),
            Self::HotSkin {
                label,
                temp_c,
                time_h,
                ..
            } => format!(
                "{label} came to {} after {time_h:.1} h: paint, resin and fabric may suffer above {}.",
                temp(*temp_c),
                temp(HOT_C)
            ),
            Self::Uneven { spread_k, time_h } => format!(
                "the cylinders differed by {:.1} {} after {time_h:.1} h, when the engine was ready.",
                units.step(*spread_k),
                units.symbol()
            ),
            Self::BreatherNearFreezing {
                pocket,
                temp_c,
                oil_water_g,
                film_g,
            } => format!(
                "the air where the breather ends ({pocket}) is at {} at departure, with {oil_water_g:.1} g of water in \
                 the oil and {film_g:.1} g on the inner walls: check the breather for ice before starting.",
                temp(*temp_c)
            ),
            Self::ContinuousLoad {
                current_a,
                breaker_a,
            } => format!(
                "the circuit carries {current_a:.1} A for three hours or more: good practice keeps a continuous load \
                 to 80 percent of the {breaker_a:.0} A breaker; local codes decide."
            ),
            Self::OverBreaker {
                current_a,
                breaker_a,
            } => format!(
                "the circuit carries up to {current_a:.1} A, more than its {breaker_a:.0} A breaker holds: do not do \
                 this."
            ),
            Self::OilExtrapolated {
                temp_c,
                pour_point_c,
            } => format!(
                "the oil at the pick-up is at {}, and its pour point is {}: its viscosity is extrapolated, real oil may \
                 be thicker or not flow at all.",
                temp(*temp_c),
                temp(*pour_point_c)
            ),
        }
    }
}

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.told(Units::Celsius))
    }
}
