//! The bundled font: how words look, how wide they are, and the outlines of their letters.

use super::colour::{Colour, TEXT};
use ab_glyph::{Font, FontRef, OutlineCurve};
use std::sync::LazyLock;

static REGULAR: LazyLock<FontRef> =
    LazyLock::new(|| face(include_bytes!("../../../assets/DejaVuSans-subset.ttf")));
static BOLD: LazyLock<FontRef> =
    LazyLock::new(|| face(include_bytes!("../../../assets/DejaVuSans-Bold-subset.ttf")));

fn face(bytes: &'static [u8]) -> FontRef<'static> {
    FontRef::try_from_slice(bytes).expect("the bundled font is a font")
}

fn of(style: TextStyle) -> &'static FontRef<'static> {
    if style.bold { &BOLD } else { &REGULAR }
}

/// Pixels of a unit of the font.
fn scale(font: &FontRef, style: TextStyle) -> f64 {
    style.size / f64::from(font.units_per_em().unwrap_or(1.0))
}

/// How words look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TextStyle {
    /// Height of a line (the em of the font).
    pub size: f64,
    /// Whether bold.
    pub bold: bool,
    /// Their colour.
    pub colour: Colour,
}

impl TextStyle {
    /// Regular words.
    pub const fn plain(size: f64, colour: Colour) -> Self {
        Self {
            size,
            bold: false,
            colour,
        }
    }
    /// How wide words are, in pixels.
    pub fn width(self, text: &str) -> f64 {
        let font = of(self);
        let advances = text
            .chars()
            .map(|c| font.h_advance_unscaled(font.glyph_id(c)));
        advances.map(f64::from).sum::<f64>() * scale(font, self)
    }
    /// Bold words.
    pub const fn bold(size: f64) -> Self {
        Self {
            size,
            bold: true,
            colour: TEXT,
        }
    }
}

/// The curves of a letter and where its own units lie in the picture.
pub struct Letter {
    /// Its curves, upward, in units of the font.
    pub curves: Vec<OutlineCurve>,
    /// Where its baseline begins.
    pub left: f64,
    /// Pixels of a unit.
    pub scale: f64,
}

/// The letters of words that have an outline, from here to the right.
pub fn letters(text: &str, mut left: f64, style: TextStyle) -> Vec<Letter> {
    let font = of(style);
    let scale = scale(font, style);
    let mut letters = Vec::new();
    for c in text.chars() {
        let glyph = font.glyph_id(c);
        if let Some(outline) = font.outline(glyph) {
            let curves = outline.curves;
            letters.push(Letter {
                curves,
                left,
                scale,
            });
        }
        left += f64::from(font.h_advance_unscaled(glyph)) * scale;
    }
    letters
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Advance widths of the `hmtx` table of DejaVu Sans 2.37, units of 2048 to the em: zero 1303, bold 1425.
    #[test]
    fn a_width_is_the_sum_of_the_advances() {
        let plain = TextStyle::plain(20.0, TEXT).width("00");
        assert!(
            (plain - 2.0 * 1303.0 / 2048.0 * 20.0).abs() < 1e-9,
            "{plain}"
        );
        let bold = TextStyle::bold(20.0).width("0");
        assert!((bold - 1425.0 / 2048.0 * 20.0).abs() < 1e-9, "{bold}");
    }
}
