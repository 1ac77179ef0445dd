//! A chart as a picture: the SVG drawn with the bundled font, so that it is the same on every machine.

use super::canvas::{BOLD, DrawError, REGULAR};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};

/// The family of the bundled font, which stands in for `sans-serif`.
const FAMILY: &str = "DejaVu Sans";

/// The PNG of an SVG chart, `scale` times its size.
///
/// *Errors*: the SVG is none, or the picture would have no or too many pixels.
pub fn from_svg(svg: &str, scale: f32) -> Result<Vec<u8>, DrawError> {
    let picture = pixels(svg, scale, &lettered())?;
    picture.encode_png().map_err(DrawError::of)
}

/// How SVGs are read: with the bundled font.
pub fn lettered() -> Options<'static> {
    let mut options = Options {
        font_family: FAMILY.to_owned(),
        ..Options::default()
    };
    let fonts = options.fontdb_mut();
    fonts.load_font_data(REGULAR.to_vec());
    fonts.load_font_data(BOLD.to_vec());
    fonts.set_sans_serif_family(FAMILY);
    options
}

/// The pixels of an SVG, `scale` times its size.
///
/// *Errors*: the SVG is none, or the picture would have no or too many pixels.
pub fn pixels(svg: &str, scale: f32, options: &Options) -> Result<Pixmap, DrawError> {
    let tree = Tree::from_str(svg, options).map_err(DrawError::of)?;
    let size = tree.size();
    let side = |length: f32| (length * scale).round() as u32;
    let mut picture = Pixmap::new(side(size.width()), side(size.height()))
        .ok_or_else(|| DrawError::of("a picture of that size cannot be held"))?;
    let zoom = Transform::from_scale(scale, scale);
    resvg::render(&tree, zoom, &mut picture.as_mut());
    Ok(picture)
}

#[cfg(test)]
mod tests {
    use super::super::canvas::{Lettering, Stand, colour, sheet};
    use super::super::colour::Theme;
    use super::*;

    fn dark_pixels(png: &[u8]) -> usize {
        let picture = Pixmap::decode_png(png).unwrap();
        let dark = |p: &&resvg::tiny_skia::PremultipliedColorU8| p.red() < 128;
        picture.pixels().iter().filter(dark).count()
    }

    #[test]
    fn a_picture_is_as_large_as_asked_and_its_words_are_drawn() {
        let words = |text: &str| {
            sheet(Theme::Light, (100, 50), "", |c| {
                c.words(
                    text,
                    (10.0, 25.0),
                    Stand::Right,
                    Lettering::plain(12.0, colour::TEXT),
                )
            })
            .unwrap()
        };
        let png = from_svg(&words("oil −5 °C"), 2.0).unwrap();
        let picture = Pixmap::decode_png(&png).unwrap();
        assert_eq!((picture.width(), picture.height()), (200, 100));
        assert!(dark_pixels(&png) > 100);
        assert_eq!(dark_pixels(&from_svg(&words(" "), 2.0).unwrap()), 0);
    }

    /// The renderer sets the same words as wide as the canvas reckons, to a pixel and a half in a hundred.
    #[test]
    fn words_are_as_wide_as_reckoned() {
        let mut reckoned = 0.0;
        let svg = sheet(Theme::Light, (400, 50), "", |c| {
            let lettering = Lettering::plain(12.0, colour::TEXT);
            reckoned = c.width_of("accessory case and magnetos", lettering)?;
            c.words(
                "accessory case and magnetos",
                (0.0, 25.0),
                Stand::Right,
                lettering,
            )
        })
        .unwrap();
        let picture = Pixmap::decode_png(&from_svg(&svg, 4.0).unwrap()).unwrap();
        let width = picture.width() as usize;
        let columns = picture.pixels().iter().enumerate();
        let last = columns
            .filter(|(_, p)| p.red() < 128)
            .map(|(k, _)| k % width)
            .max();
        let drawn = last.unwrap() as f64 / 4.0;
        assert!((drawn / reckoned - 1.0).abs() < 0.015, "{drawn} {reckoned}");
    }

    #[test]
    fn what_is_no_svg_is_refused() {
        assert!(from_svg("no picture", 1.0).is_err());
    }
}
