//! The colours of temperatures: lightness rises with warmth, and at the threshold blue turns to amber.
//!
//! Below the threshold the hue is blue, above it amber; lightness rises all the way, so the order holds for eyes that
//! do not see red or green, and on grey paper too. Each half is a straight line in degrees of its own.

use crate::picture::chart::tick_label;
use crate::picture::draw::colour::{BLACK, Colour, WHITE};
use crate::quantity::Units;

/// From the coldest to just under the threshold.
const COLD: [Colour; 3] = [
    Colour(0x16, 0x1d, 0x4f),
    Colour(0x2c, 0x5c, 0xa6),
    Colour(0x6c, 0xa4, 0xdb),
];
/// From the threshold to the warmest.
const WARM: [Colour; 3] = [
    Colour(0xe8, 0xac, 0x3c),
    Colour(0xf5, 0xcd, 0x72),
    Colour(0xff, 0xf1, 0xc2),
];

/// Temperatures and their colours.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// The coldest that is distinguished, °C.
    pub low_c: f64,
    /// Where blue turns to amber, °C.
    pub threshold_c: f64,
    /// The warmest that is distinguished, °C.
    pub high_c: f64,
}

impl Scale {
    /// A scale that holds these temperatures, with at least two kelvin on each side of the threshold.
    pub fn holding(values: impl Iterator<Item = f64>, threshold_c: f64) -> Self {
        let start = (threshold_c - 2.0, threshold_c + 2.0);
        let (low_c, high_c) = values
            .filter(|v| v.is_finite())
            .fold(start, |(low, high), v| (low.min(v), high.max(v)));
        Self {
            low_c,
            threshold_c,
            high_c,
        }
    }
    /// The colour of a temperature; the end of the scale beyond it.
    pub fn colour(&self, celsius: f64) -> Colour {
        let (ramp, share) = if celsius < self.threshold_c {
            (
                COLD,
                (celsius - self.low_c) / (self.threshold_c - self.low_c),
            )
        } else {
            let span = self.high_c - self.threshold_c;
            (WARM, (celsius - self.threshold_c) / span)
        };
        let along = share.clamp(0.0, 1.0) * (ramp.len() - 1) as f64;
        let k = (along as usize).min(ramp.len() - 2);
        let mix = along - k as f64;
        let channel = |a: u8, b: u8| {
            let (a, b) = (f64::from(a), f64::from(b));
            (a + mix * (b - a)).round() as u8
        };
        let (a, b) = (ramp[k], ramp[k + 1]);
        Colour(channel(a.0, b.0), channel(a.1, b.1), channel(a.2, b.2))
    }
    /// Where a temperature stands on the scale's bar, from 0 to 1; the threshold is in its middle.
    pub fn place(&self, celsius: f64) -> f64 {
        let half = if celsius < self.threshold_c {
            (celsius - self.low_c) / (self.threshold_c - self.low_c) - 1.0
        } else {
            (celsius - self.threshold_c) / (self.high_c - self.threshold_c)
        };
        0.5 + 0.5 * half.clamp(-1.0, 1.0)
    }
    /// Round numbers to write beside the bar: °C, and the words; none within `apart` of the bar's ends, of one another
    /// or of the threshold, whose own words stand elsewhere.
    pub fn ticks(&self, units: Units, apart: f64) -> Vec<(f64, String)> {
        let step = |span: f64| {
            let span = units.step(span);
            [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0]
                .into_iter()
                .find(|s| span / s <= 3.5)
                .unwrap_or(200.0)
        };
        let celsius = |told: f64| match units {
            Units::Celsius => told,
            Units::Fahrenheit => (told - 32.0) / 1.8,
        };
        let mut ticks: Vec<(f64, String)> = Vec::new();
        for (from, to) in [
            (self.low_c, self.threshold_c),
            (self.threshold_c, self.high_c),
        ] {
            let step = step(to - from);
            let mut told = (units.temperature(from) / step).ceil() * step;
            while celsius(told) <= to {
                let c = celsius(told);
                let clear = |other: f64| (self.place(c) - other).abs() >= apart;
                let free = ticks.iter().all(|(t, _)| clear(self.place(*t)));
                if free && clear(0.5) {
                    ticks.push((c, tick_label(told)));
                }
                told += step;
            }
        }
        ticks
    }
}

/// The colour of words that reads best on a colour: black or white, by the contrast of WCAG 2.2.
pub fn text_on(colour: Colour) -> Colour {
    let y = colour.luminance() + 0.05;
    if 1.05 / y > y / 0.05 { WHITE } else { BLACK }
}

/// The edge of a shape of this colour: dark on light ones, light on dark ones.
pub fn edge_on(colour: Colour) -> Colour {
    if text_on(colour) == WHITE {
        Colour(0xc3, 0xcd, 0xe0)
    } else {
        Colour(0x22, 0x26, 0x2b)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SCALE: Scale = Scale {
        low_c: -20.0,
        threshold_c: 4.4,
        high_c: 60.0,
    };

    /// Luminance as an eye without red (protanopia) or green (deuteranopia) cones has it: Machado, Oliveira and
    /// Fernandes, *IEEE TVCG* 15(6), 2009, table 1 (from memory), as in the test of the chart inks.
    #[test]
    fn warmer_is_lighter_to_every_eye() {
        const EYES: [[[f64; 3]; 3]; 3] = [
            [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
            [
                [0.152286, 1.052583, -0.204868],
                [0.114503, 0.786281, 0.099216],
                [-0.003882, -0.048116, 1.051998],
            ],
            [
                [0.367322, 0.860646, -0.227968],
                [0.280085, 0.672501, 0.047413],
                [-0.011820, 0.042940, 0.968881],
            ],
        ];
        for eye in &EYES {
            let lightness = |Colour(r, g, b): Colour| {
                let linear = [r, g, b].map(|b| (f64::from(b) / 255.0).powf(2.2));
                let seen = |k: usize| -> f64 {
                    let sum: f64 = (0..3).map(|j| eye[k][j] * linear[j]).sum();
                    sum.clamp(0.0, 1.0)
                };
                0.2126 * seen(0) + 0.7152 * seen(1) + 0.0722 * seen(2)
            };
            let mut before = -1.0;
            for k in 0..=80 {
                let now = lightness(SCALE.colour(-20.0 + f64::from(k)));
                assert!(now > before, "{k}: {now} {before}");
                before = now;
            }
        }
    }

    #[test]
    fn the_threshold_turns_blue_to_amber_and_words_read_on_both() {
        let (under, over) = (SCALE.colour(4.3), SCALE.colour(4.4));
        assert!(under.2 > under.0 && over.0 > over.2);
        for k in 0..=80 {
            let colour = SCALE.colour(-20.0 + f64::from(k));
            let y = colour.luminance();
            let contrast = match text_on(colour) {
                WHITE => 1.05 / (y + 0.05),
                _ => (y + 0.05) / 0.05,
            };
            assert!(contrast >= 4.5, "{colour:?} {contrast}");
        }
    }

    #[test]
    fn ticks_are_round_in_the_readers_degrees_and_apart() {
        for units in [Units::Celsius, Units::Fahrenheit] {
            let ticks = SCALE.ticks(units, 0.1);
            assert!(ticks.len() >= 3, "{ticks:?}");
            for (k, one) in ticks.iter().enumerate() {
                for other in &ticks[..k] {
                    assert!((SCALE.place(one.0) - SCALE.place(other.0)).abs() >= 0.1);
                }
            }
        }
    }
}
