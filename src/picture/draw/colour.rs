//! The colours of pictures, and the themes they are drawn in.
//!
//! A colour is named by what it looks like in the light theme; [`Theme::shown`] gives its counterpart in the dark one. Any
//! other colour (of a temperature scale, say) is the same in both.

/// A colour: red, green and blue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Colour(pub u8, pub u8, pub u8);

impl Colour {
    /// As `#rrggbb`.
    pub fn hex(self) -> String {
        let Self(r, g, b) = self;
        format!("#{r:02x}{g:02x}{b:02x}")
    }
    /// Relative luminance: *Web Content Accessibility Guidelines (WCAG) 2.2*, W3C Recommendation 2023, glossary.
    pub fn luminance(self) -> f64 {
        0.2126 * linear(self.0) + 0.7152 * linear(self.1) + 0.0722 * linear(self.2)
    }
}

/// A channel of sRGB as light.
fn linear(byte: u8) -> f64 {
    let c = f64::from(byte) / 255.0;
    if c <= 0.04045 {
        c / 12.92
    } else {
        ((c + 0.055) / 1.055).powf(2.4)
    }
}

/// Dark shapes on a light background, or the other way round.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Theme {
    /// Dark on light.
    #[default]
    Light,
    /// Light on dark.
    Dark,
}

/// The background.
pub const BACKGROUND: Colour = Colour(0xff, 0xff, 0xff);
/// Words.
pub const TEXT: Colour = Colour(0x22, 0x26, 0x2b);
/// Lesser words, the air around, and choices that are not ready.
pub const MUTED: Colour = Colour(0x6b, 0x73, 0x7b);
/// The frame.
pub const FRAME: Colour = Colour(0x8a, 0x92, 0x9b);
/// Grid lines, and strips while nothing is on.
pub const GRID: Colour = Colour(0xe3, 0xe6, 0xe9);
/// A heater at work.
pub const HEAT: Colour = Colour(0xad, 0x66, 0x00);
/// Water settling.
pub const WET: Colour = Colour(0x1d, 0x6f, 0xa8);
/// The minimum and the departure.
pub const MARK: Colour = Colour(0x8c, 0x1c, 0x2e);
/// Lines, one a series: 5 to 9 to 1 on white. They differ to eyes that do not see red, green or blue (see the test
/// `colours_differ_to_every_eye`), and by their dashes.
pub const SERIES: [Colour; 4] = [
    Colour(0x1f, 0x4e, 0x8c),
    Colour(0xa8, 0x5a, 0x00),
    Colour(0x00, 0x73, 0x6b),
    Colour(0x7a, 0x2f, 0x6b),
];

/// What lies on the colours of a map, which are the same in both themes.
pub const WHITE: Colour = Colour(0xff, 0xff, 0xff);
/// The other end.
pub const BLACK: Colour = Colour(0, 0, 0);
/// A heater on a map: its number and its jet.
pub const HEATER: Colour = Colour(0x5c, 0x1a, 0x66);
/// The edge of the coldest part on a map.
pub const COLDEST: Colour = Colour(0xb3, 0x00, 0x5e);

/// Each colour's counterpart in the dark theme.
const ON_DARK: [(Colour, Colour); 8] = [
    (BACKGROUND, Colour(0x15, 0x19, 0x1e)),
    (TEXT, Colour(0xe8, 0xeb, 0xee)),
    (MUTED, Colour(0x9a, 0xa2, 0x96)),
    (FRAME, Colour(0x78, 0x82, 0x8c)),
    (GRID, Colour(0x2b, 0x31, 0x38)),
    (HEAT, Colour(0xee, 0xa8, 0x42)),
    (WET, Colour(0x5f, 0xb4, 0xe8)),
    (MARK, Colour(0xf4, 0x85, 0x52)),
];
/// The lines' counterparts in the dark theme.
const SERIES_ON_DARK: [Colour; 4] = [
    Colour(0xa8, 0xbe, 0xff),
    Colour(0xff, 0xd5, 0x3d),
    Colour(0x31, 0xf7, 0xb2),
    Colour(0xb2, 0x6e, 0xa6),
];

impl Theme {
    /// The colour that stands for this one here.
    pub fn shown(self, colour: Colour) -> Colour {
        if self == Self::Light {
            return colour;
        }
        let series = SERIES.into_iter().zip(SERIES_ON_DARK);
        let counterpart = ON_DARK
            .into_iter()
            .chain(series)
            .find(|pair| pair.0 == colour);
        counterpart.map_or(colour, |pair| pair.1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Colour vision in linear sRGB, at full severity: trichromacy, protanopia, deuteranopia, tritanopia. Machado,
    /// Oliveira and Fernandes, "A physiologically-based model for simulation of color vision deficiency", *IEEE TVCG*
    /// 15(6), 2009, table 1 (coefficients from memory).
    const EYES: [[[f64; 3]; 3]; 4] = [
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
        [
            [1.255528, -0.076749, -0.178779],
            [-0.078411, 0.930809, 0.147602],
            [0.004733, 0.691367, 0.303900],
        ],
    ];

    /// Contrast ratio: WCAG 2.2, glossary.
    fn contrast(one: Colour, other: Colour) -> f64 {
        let (a, b) = (one.luminance(), other.luminance());
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    /// Black on white is 21 to 1; #767676 is the lightest grey that reaches 4.5 to 1 on white, at 4.54 (from memory).
    #[test]
    fn contrast_is_reckoned_as_defined() {
        assert!((contrast(Colour(0, 0, 0), BACKGROUND) - 21.0).abs() < 1e-12);
        let grey = Colour(0x76, 0x76, 0x76);
        assert!((contrast(grey, BACKGROUND) - 4.54).abs() < 0.005);
    }

    /// WCAG 2.2, success criteria 1.4.3 (text, 4.5 to 1) and 1.4.11 (graphical objects, 3 to 1).
    #[test]
    fn words_and_lines_stand_out_in_both_themes() {
        for theme in [Theme::Light, Theme::Dark] {
            let ground = theme.shown(BACKGROUND);
            for colour in [TEXT, MUTED, MARK] {
                let found = contrast(theme.shown(colour), ground);
                assert!(found >= 4.5, "{theme:?} {colour:?}: {found:.2}");
            }
            for colour in SERIES.into_iter().chain([FRAME, HEAT, WET]) {
                let found = contrast(theme.shown(colour), ground);
                assert!(found >= 3.0, "{theme:?} {colour:?}: {found:.2}");
            }
            for colour in [HEAT, WET] {
                let found = contrast(theme.shown(colour), theme.shown(GRID));
                assert!(found >= 3.0, "{theme:?} strip {colour:?}: {found:.2}");
            }
        }
    }

    #[test]
    fn every_named_colour_has_a_counterpart_in_the_dark_theme_and_no_other_is_touched() {
        for colour in SERIES
            .into_iter()
            .chain([BACKGROUND, TEXT, MUTED, FRAME, GRID])
        {
            assert_ne!(Theme::Dark.shown(colour), colour);
            assert_eq!(Theme::Light.shown(colour), colour);
        }
        let scale = Colour(1, 2, 3);
        assert_eq!(Theme::Dark.shown(scale), scale);
    }

    /// Differences are CIE 1976 L*a*b*, D65; 2.3 is just noticeable.
    #[test]
    fn colours_differ_to_every_eye() {
        let dot = |row: &[f64; 3], v: &[f64; 3]| row[0] * v[0] + row[1] * v[1] + row[2] * v[2];
        let lab = |colour: Colour, eye: &[[f64; 3]; 3]| {
            let rgb = [linear(colour.0), linear(colour.1), linear(colour.2)];
            let seen = [0, 1, 2].map(|k| dot(&eye[k], &rgb).clamp(0.0, 1.0));
            let f = |t: f64| {
                if t > 0.008856 {
                    t.cbrt()
                } else {
                    7.787 * t + 16.0 / 116.0
                }
            };
            let x = f(dot(&[0.4124, 0.3576, 0.1805], &seen) / 0.9505);
            let y = f(dot(&[0.2126, 0.7152, 0.0722], &seen));
            let z = f(dot(&[0.0193, 0.1192, 0.9505], &seen) / 1.089);
            [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
        };
        for theme in [Theme::Light, Theme::Dark] {
            // The minimum and the departure are drawn among the lines.
            let colours: Vec<Colour> = SERIES.into_iter().chain([MARK]).collect();
            let colours = colours.into_iter().map(|colour| theme.shown(colour));
            let colours: Vec<Colour> = colours.collect();
            for eye in &EYES {
                for (k, one) in colours.iter().enumerate() {
                    for other in &colours[..k] {
                        let (a, b) = (lab(*one, eye), lab(*other, eye));
                        let apart = (0..3).map(|c| (a[c] - b[c]).powi(2)).sum::<f64>().sqrt();
                        assert!(
                            apart > 12.0,
                            "{theme:?}: {one:?} and {other:?} are {apart:.1} apart"
                        );
                    }
                }
            }
        }
    }
}
