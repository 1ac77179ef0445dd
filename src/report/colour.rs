//! The colours of pictures, and the paper they are drawn on.
//!
//! A colour is named by what it looks like on light paper; [`Theme::shown`] gives its fellow on dark paper. Any other
//! colour (of a temperature scale, say) is the same on both.

/// A colour.
pub use plotters::style::RGBColor as Colour;

/// What a picture is drawn on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Theme {
    /// Dark on light.
    #[default]
    Light,
    /// Light on dark.
    Dark,
}

/// Light paper.
pub const BACKGROUND: Colour = Colour(0xff, 0xff, 0xff);
/// Words.
pub const TEXT: Colour = Colour(0x22, 0x26, 0x2b);
/// Lesser words, and the air outdoors.
pub const MUTED: Colour = Colour(0x5b, 0x63, 0x6c);
/// The frame.
pub const FRAME: Colour = Colour(0x8a, 0x92, 0x9b);
/// Grid lines, and strips while nothing is on.
pub const GRID: Colour = Colour(0xe3, 0xe6, 0xe9);
/// A heater at work.
pub const HEAT: Colour = Colour(0xad, 0x66, 0x00);
/// Water settling.
pub const WET: Colour = Colour(0x1d, 0x6f, 0xa8);
/// The threshold and the departure.
pub const MARK: Colour = Colour(0x8c, 0x1c, 0x2e);
/// Lines, one a series: told apart by lightness as well as by hue, so that they differ to eyes that do not
/// see red, green or blue (see the test `inks_differ_to_every_eye`).
pub const SERIES: [Colour; 8] = [
    Colour(0x08, 0x0c, 0x3c),
    Colour(0xb4, 0x00, 0x00),
    Colour(0x72, 0x92, 0x64),
    Colour(0x44, 0x1b, 0x9c),
    Colour(0xcc, 0x7f, 0x00),
    Colour(0x1a, 0x8e, 0xff),
    Colour(0x69, 0x3c, 0xff),
    Colour(0xcf, 0x30, 0x98),
];

/// Each colour's fellow on dark paper.
const ON_DARK: [(Colour, Colour); 8] = [
    (BACKGROUND, Colour(0x15, 0x19, 0x1e)),
    (TEXT, Colour(0xe8, 0xeb, 0xee)),
    (MUTED, Colour(0xa6, 0xaf, 0xb8)),
    (FRAME, Colour(0x78, 0x82, 0x8c)),
    (GRID, Colour(0x2b, 0x31, 0x38)),
    (HEAT, Colour(0xee, 0xa8, 0x42)),
    (WET, Colour(0x5f, 0xb4, 0xe8)),
    (MARK, Colour(0xff, 0x8f, 0x9a)),
];
/// The lines' fellows on dark paper.
const SERIES_ON_DARK: [Colour; 8] = [
    Colour(0xc0, 0xa8, 0xff),
    Colour(0xc3, 0x96, 0x00),
    Colour(0xb4, 0xff, 0xb4),
    Colour(0x8c, 0x5d, 0xe1),
    Colour(0xf0, 0xe1, 0x78),
    Colour(0x34, 0x76, 0xa4),
    Colour(0x7f, 0x77, 0x2a),
    Colour(0x96, 0x5a, 0x69),
];

impl Theme {
    /// The colour that stands for this one here.
    pub fn shown(self, ink: Colour) -> Colour {
        if self == Self::Light {
            return ink;
        }
        let series = SERIES.into_iter().zip(SERIES_ON_DARK);
        let fellow = ON_DARK.into_iter().chain(series).find(|pair| pair.0 == ink);
        fellow.map_or(ink, |pair| pair.1)
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

    /// Relative luminance and contrast ratio: *Web Content Accessibility Guidelines (WCAG) 2.2*, W3C Recommendation
    /// 2023, glossary.
    fn contrast(one: Colour, other: Colour) -> f64 {
        let luminance =
            |ink: Colour| 0.2126 * linear(ink.0) + 0.7152 * linear(ink.1) + 0.0722 * linear(ink.2);
        let (a, b) = (luminance(one), luminance(other));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }
    fn linear(byte: u8) -> f64 {
        let c = f64::from(byte) / 255.0;
        if c <= 0.04045 {
            c / 12.92
        } else {
            ((c + 0.055) / 1.055).powf(2.4)
        }
    }

    /// The extremes of the definition: black on white is 21 to 1.
    #[test]
    fn contrast_is_reckoned_as_defined() {
        assert!((contrast(Colour(0, 0, 0), BACKGROUND) - 21.0).abs() < 1e-12);
        assert_eq!(contrast(MARK, MARK), 1.0);
    }

    /// WCAG 2.2, success criteria 1.4.3 (text, 4.5 to 1) and 1.4.11 (graphical objects, 3 to 1).
    #[test]
    fn words_and_lines_stand_out_on_both_papers() {
        for paper in [Theme::Light, Theme::Dark] {
            let ground = paper.shown(BACKGROUND);
            for ink in [TEXT, MUTED, MARK] {
                let found = contrast(paper.shown(ink), ground);
                assert!(found >= 4.5, "{paper:?} {ink:?}: {found:.2}");
            }
            for ink in SERIES.into_iter().chain([FRAME, HEAT, WET]) {
                let found = contrast(paper.shown(ink), ground);
                assert!(found >= 3.0, "{paper:?} {ink:?}: {found:.2}");
            }
            for ink in [HEAT, WET] {
                let found = contrast(paper.shown(ink), paper.shown(GRID));
                assert!(found >= 3.0, "{paper:?} strip {ink:?}: {found:.2}");
            }
        }
    }

    #[test]
    fn every_named_ink_has_a_fellow_on_dark_paper_and_no_other_is_touched() {
        for ink in SERIES
            .into_iter()
            .chain([BACKGROUND, TEXT, MUTED, FRAME, GRID])
        {
            assert_ne!(Theme::Dark.shown(ink), ink);
            assert_eq!(Theme::Light.shown(ink), ink);
        }
        let scale = Colour(1, 2, 3);
        assert_eq!(Theme::Dark.shown(scale), scale);
    }

    /// Differences are CIE 1976 L*a*b*, D65; 2.3 is just noticeable.
    #[test]
    fn inks_differ_to_every_eye() {
        let dot = |row: &[f64; 3], v: &[f64; 3]| row[0] * v[0] + row[1] * v[1] + row[2] * v[2];
        let lab = |ink: Colour, eye: &[[f64; 3]; 3]| {
            let rgb = [linear(ink.0), linear(ink.1), linear(ink.2)];
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
        for paper in [Theme::Light, Theme::Dark] {
            // The threshold and the departure are drawn among the lines.
            let inks: Vec<Colour> = SERIES.into_iter().chain([MARK]).collect();
            let inks = inks.into_iter().map(|ink| paper.shown(ink));
            let inks: Vec<Colour> = inks.collect();
            for eye in &EYES {
                for (k, one) in inks.iter().enumerate() {
                    for other in &inks[..k] {
                        let (a, b) = (lab(*one, eye), lab(*other, eye));
                        let apart = (0..3).map(|c| (a[c] - b[c]).powi(2)).sum::<f64>().sqrt();
                        assert!(
                            apart > 19.0,
                            "{paper:?}: {one:?} and {other:?} are {apart:.1} apart"
                        );
                    }
                }
            }
        }
    }
}
