//! A Layout expanded into the parts, joints and faces of an opposed engine.

use super::body::Body;
use super::engine::Layout;

/// The body of an opposed engine.
pub fn expand(layout: &Layout) -> Body {
    let _ = layout;
    Body::default()
}
