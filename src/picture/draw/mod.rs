//! Drawing: a picture as plain data, and what is made of it: SVG, PNG, GIF. It knows no engine.

mod canvas;
pub mod colour;
mod font;
mod gif;
mod look;
mod pixels;
mod shape;
pub mod svg;

pub use canvas::{Canvas, drawn};
pub use font::TextStyle;
pub use gif::gif;
pub use look::{Look, Size};
pub use pixels::{DrawError, png};
pub use shape::{Anchor, Area, Outline, Picture, Point, Shape, Stroke, Words};
