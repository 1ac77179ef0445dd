//! Pictures one after the other as an animated GIF: one palette for all, and of each picture only what is new.
//!
//! The palette is that of a network that learns which colours the pictures have (NeuQuant: A. Dekker, "Kohonen neural
//! networks for optimal colour quantization", *Network: Computation in Neural Systems* 5, 1994), as its library has it.

use super::pixels::{DrawError, painted};
use super::shape::Picture;
use ::gif::{AnyExtension, DisposalMethod, Encoder, Extension, Frame, Repeat};
use color_quant::NeuQuant;
use std::collections::HashMap;
use tiny_skia::Pixmap;

/// Colours of the palette: as many as leave one of the 128 places of seven bits to what stays as it was. A map has some
/// twenty inks and a scale of temperatures, which an eye does not distinguish in a hundred steps; eight bits would make a
/// larger file.
const COLOURS: usize = 127;
/// The place of the palette that lets the picture before show through.
const THROUGH: u8 = 127;
/// Pictures that the palette is learnt from, spread over all, and every how many of their pixels: enough to meet each
/// colour of a shape many times, in less time than drawing them takes. Not tuned.
const LEARNT: usize = 6;
const SAMPLED: i32 = 7;
/// How long a picture stands, and how long the first and the last do, hundredths of a second: long enough to see what
/// changed, and to read the words. Not tuned.
const STANDS: u16 = 30;
const RESTS: u16 = 250;

/// The GIF of these pictures, all of one size, with a comment in it; it repeats without end.
///
/// *Errors*: there is no picture, or one has another size than the first, or one that no GIF can have.
pub fn gif(pictures: &[Picture], comment: &str) -> Result<Vec<u8>, DrawError> {
    // Painted again when their turn comes: held all at once they would take megabytes each.
    let pixels = |picture: &Picture| painted(picture, 1.0);
    let every = pictures.len().div_ceil(LEARNT).max(1);
    let learnt = pictures.iter().rev().step_by(every).map(pixels);
    let learnt: Vec<Pixmap> = learnt.collect::<Result<_, _>>()?;
    let Some(first) = learnt.first() else {
        return Err(DrawError::of("there is no picture"));
    };
    let (wide, high) = (first.width(), first.height());
    let side = |pixels: u32| u16::try_from(pixels).map_err(DrawError::of);
    let size = (side(wide)?, side(high)?);
    let mut palette = Palette::of(&learnt);
    drop(learnt);
    let mut bytes = Vec::new();
    {
        let mut encoder =
            Encoder::new(&mut bytes, size.0, size.1, &palette.colours()).map_err(DrawError::of)?;
        encoder
            .set_repeat(Repeat::Infinite)
            .map_err(DrawError::of)?;
        let said = [comment.as_bytes()];
        let blocks: Vec<&[u8]> = said.iter().flat_map(|s| s.chunks(255)).collect();
        encoder
            .write_raw_extension(AnyExtension(Extension::Comment as u8), &blocks)
            .map_err(DrawError::of)?;
        let mut before: Vec<u8> = Vec::new();
        for (k, picture) in pictures.iter().enumerate() {
            let picture = pixels(picture)?;
            if (picture.width(), picture.height()) != (wide, high) {
                return Err(DrawError::of("the pictures are not of one size"));
            }
            let now = palette.places(&picture);
            let mut frame = changed(&before, &now, size);
            frame.delay = match k == 0 || k + 1 == pictures.len() {
                true => RESTS,
                false => STANDS,
            };
            encoder.write_frame(&frame).map_err(DrawError::of)?;
            before = now;
        }
    }
    Ok(bytes)
}

/// The part of a picture that differs from the one before, as a frame over it.
fn changed(before: &[u8], now: &[u8], (wide, high): (u16, u16)) -> Frame<'static> {
    let line = usize::from(wide);
    let differs = |k: &usize| before.get(*k) != Some(&now[*k]);
    let (mut left, mut right, mut top, mut foot) = (line, 0, usize::from(high), 0);
    for k in (0..now.len()).filter(differs) {
        let (x, y) = (k % line, k / line);
        (left, right) = (left.min(x), right.max(x + 1));
        (top, foot) = (top.min(y), foot.max(y + 1));
    }
    if right == 0 {
        // Nothing is new: a frame of one pixel that shows through.
        (left, right, top, foot) = (0, 1, 0, 1);
    }
    let inside = (top..foot).flat_map(|y| (left..right).map(move |x| y * line + x));
    let told = |k: usize| if differs(&k) { now[k] } else { THROUGH };
    Frame {
        dispose: DisposalMethod::Keep,
        transparent: Some(THROUGH),
        left: left as u16,
        top: top as u16,
        width: (right - left) as u16,
        height: (foot - top) as u16,
        buffer: inside.map(told).collect(),
        ..Frame::default()
    }
}

/// The colours of all pictures.
struct Palette {
    learnt: NeuQuant,
    known: HashMap<[u8; 4], u8>,
}

impl Palette {
    fn of(pictures: &[Pixmap]) -> Self {
        let seen = pictures.iter().flat_map(|p| p.data().iter().copied());
        let seen: Vec<u8> = seen.collect();
        Self {
            learnt: NeuQuant::new(SAMPLED, COLOURS, &seen),
            known: HashMap::new(),
        }
    }
    /// Red, green and blue of each place, and of the last one, which is never shown.
    fn colours(&self) -> Vec<u8> {
        let mut colours = self.learnt.color_map_rgb();
        colours.resize(3 * (COLOURS + 1), 0);
        colours
    }
    /// The place of each pixel.
    fn places(&mut self, picture: &Pixmap) -> Vec<u8> {
        let mut last = ([0; 4], 0);
        let mut places = Vec::with_capacity(picture.data().len() / 4);
        for pixel in picture.data().as_chunks::<4>().0 {
            // Most pixels are as their neighbour.
            if places.is_empty() || *pixel != last.0 {
                let place = self.known.entry(*pixel);
                let place = place.or_insert_with(|| self.learnt.index_of(pixel) as u8);
                last = (*pixel, *place);
            }
            places.push(last.1);
        }
        places
    }
}

#[cfg(test)]
mod tests {
    use super::super::colour::{BACKGROUND, Colour};
    use super::super::shape::{Area, Outline, Shape};
    use super::*;

    fn square(x: f64, size: (f64, f64)) -> Picture {
        let outline = Outline::rectangle((x, 10.0), (x + 10.0, 20.0));
        Picture {
            size,
            background: BACKGROUND,
            title: String::new(),
            description: String::new(),
            shapes: vec![Shape::Area(Area::filled(outline, Colour(0xa0, 0x20, 0x10)))],
        }
    }

    /// Read back by the decoder of the library: as many frames, and each picture as it was drawn, to the palette.
    #[test]
    fn every_picture_comes_back_and_only_what_is_new_is_kept() {
        let drawn = [5.0, 30.0, 30.0].map(|x| square(x, (60.0, 40.0)));
        let bytes = gif(&drawn, "where it comes from").unwrap();
        assert!(bytes.windows(19).any(|w| w == b"where it comes from"));
        let mut options = ::gif::DecodeOptions::new();
        options.set_color_output(::gif::ColorOutput::RGBA);
        let mut decoder = options.read_info(bytes.as_slice()).unwrap();
        let mut sheet = vec![[0u8; 4]; 60 * 40];
        let mut sizes = Vec::new();
        while let Some(frame) = decoder.read_next_frame().unwrap() {
            let (left, top) = (usize::from(frame.left), usize::from(frame.top));
            let wide = usize::from(frame.width);
            for (k, pixel) in frame.buffer.as_chunks::<4>().0.iter().enumerate() {
                if pixel[3] > 0 {
                    sheet[(top + k / wide) * 60 + left + k % wide] = *pixel;
                }
            }
            let whole = painted(&drawn[sizes.len()], 1.0).unwrap();
            let meant = whole.data().as_chunks::<4>().0;
            for (is, should) in sheet.iter().zip(meant) {
                let off = (0..3).map(|c| is[c].abs_diff(should[c])).max();
                assert!(off <= Some(3), "{is:?} {should:?}");
            }
            sizes.push((frame.width, frame.height));
        }
        assert_eq!(sizes, [(60, 40), (35, 10), (1, 1)]);
    }

    #[test]
    fn no_picture_and_pictures_of_two_sizes_are_refused() {
        assert!(gif(&[], "").is_err());
        let two = [(60.0, 40.0), (50.0, 40.0)].map(|size| square(5.0, size));
        assert!(gif(&two, "").is_err());
    }
}
