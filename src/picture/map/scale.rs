//! The colours of temperatures: lightness rises in equal steps with warmth, and at the minimum the hue changes.
//!
//! Below the minimum the hue is blue, above it amber. Lightness rises all the way, with a step at the minimum, so the
//! order holds for eyes that do not see red or green, and on grey paper too.

use crate::picture::chart::tick_label;
use crate::picture::draw::colour::{BLACK, Colour, WHITE};
use crate::quantity::Units;

/// Colours of rising lightness below the minimum.
const COLD: [Colour; 4] = [
    Colour(0x0a, 0x10, 0x38),
    Colour(0x2c, 0x5c, 0xa6),
    Colour(0x8f, 0xbc, 0xea),
    Colour(0xf4, 0xf9, 0xff),
];
/// Colours of rising lightness from the minimum.
const WARM: [Colour; 4] = [
    Colour(0x2a, 0x18, 0x00),
    Colour(0x9c, 0x5a, 0x00),
    Colour(0xee, 0xb4, 0x48),
    Colour(0xff, 0xf8, 0xe4),
];
/// Lightness (CIE L*) of the coldest below the minimum, and of the coldest above it.
const DARKEST: (f64, f64) = (14.0, 26.0);
/// Lightness from one end of the scale to the other.
const RISE: f64 = 70.0;
/// From one tick to the next, in degrees.
const TICK: f64 = 10.0;

/// Temperatures and their colours.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// The lowest temperature of it, °C.
    pub low_c: f64,
    /// Where blue turns to amber, °C.
    pub min_c: f64,
    /// The highest temperature of it, °C.
    pub high_c: f64,
}

impl Scale {
    /// The scale that holds these temperatures and the minimum, in whole tens of the reader's degrees.
    pub fn holding(values: impl Iterator<Item = f64>, min_c: f64, units: Units) -> Self {
        let (low_c, high_c) = values
            .filter(|v| v.is_finite())
            .fold((min_c, min_c), |(low, high), v| (low.min(v), high.max(v)));
        let tens = |celsius: f64| units.temperature(celsius) / TICK;
        Self {
            low_c: celsius((tens(low_c) - 0.01).floor() * TICK, units),
            min_c,
            high_c: celsius((tens(high_c) + 0.01).ceil() * TICK, units),
        }
    }
    /// The colour of a temperature; that of the nearer end beyond the scale.
    pub fn colour(&self, celsius: f64) -> Colour {
        let (ramp, darkest) = match celsius < self.min_c {
            true => (COLD, DARKEST.0),
            false => (WARM, DARKEST.1),
        };
        let lightness = darkest + RISE * self.place(celsius);
        let wanted = ((lightness + 16.0) / 116.0).powi(3);
        let upper = ramp.iter().position(|c| c.luminance() >= wanted);
        let k = upper.unwrap_or(ramp.len() - 1).max(1);
        mixed(ramp[k - 1], ramp[k], wanted)
    }
    /// Where a temperature stands on the scale, from 0 to 1 in equal steps.
    pub fn place(&self, celsius: f64) -> f64 {
        ((celsius - self.low_c) / (self.high_c - self.low_c)).clamp(0.0, 1.0)
    }
    /// Every tenth degree: °C, and the words.
    pub fn ticks(&self, units: Units) -> Vec<(f64, String)> {
        let low = (units.temperature(self.low_c) / TICK).round();
        let high = (units.temperature(self.high_c) / TICK).round();
        let tens = (0..=(high - low) as usize).map(|k| TICK * (low + k as f64));
        tens.map(|told| (celsius(told, units), tick_label(told)))
            .collect()
    }
}

/// A temperature in the reader's degrees in °C.
fn celsius(told: f64, units: Units) -> f64 {
    match units {
        Units::Celsius => told,
        Units::Fahrenheit => (told - 32.0) / 1.8,
    }
}

/// The mixture of two colours, the darker one first, that is nearest to this luminance.
fn mixed(a: Colour, b: Colour, luminance: f64) -> Colour {
    let channel = |share: f64, a: u8, b: u8| {
        let (a, b) = (f64::from(a), f64::from(b));
        (a + share * (b - a)).round() as u8
    };
    let at = |k: u32| {
        let share = f64::from(k) / 128.0;
        Colour(
            channel(share, a.0, b.0),
            channel(share, a.1, b.1),
            channel(share, a.2, b.2),
        )
    };
    let first = (0..128).find(|k| at(*k).luminance() >= luminance);
    at(first.unwrap_or(128))
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
        min_c: 4.4,
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
    fn the_minimum_turns_blue_to_amber_and_words_read_on_both() {
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

    /// Equal steps of temperature are equal steps of place and of lightness, on both sides of the minimum.
    #[test]
    fn the_scale_is_linear_from_end_to_end_with_a_tick_every_ten_degrees() {
        let lightness = |celsius: f64| 116.0 * SCALE.colour(celsius).luminance().cbrt() - 16.0;
        for (from, to) in [(-20.0, -10.0), (-10.0, 0.0), (10.0, 20.0), (45.0, 55.0)] {
            assert!((SCALE.place(to) - SCALE.place(from) - 0.125).abs() < 1e-12);
            let step = lightness(to) - lightness(from);
            assert!((step - RISE / 8.0).abs() < 1.0, "{from}: {step}");
        }
        let told = |units| -> Vec<String> {
            let scale = Scale::holding([-12.0, 27.0].into_iter(), 4.4, units);
            scale.ticks(units).into_iter().map(|tick| tick.1).collect()
        };
        let minus = |number: &str| format!("\u{2212}{number}");
        assert_eq!(
            told(Units::Celsius),
            [&minus("20"), &minus("10"), "0", "10", "20", "30"]
        );
        assert_eq!(
            told(Units::Fahrenheit),
            ["10", "20", "30", "40", "50", "60", "70", "80", "90"]
        );
    }
}
