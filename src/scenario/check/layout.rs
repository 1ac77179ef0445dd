//! What no single number of a Layout can say, before it is expanded.

use super::super::engine::Layout;
use super::problem::Problems;
use super::surroundings::uncertain;

/// Checks a Layout.
pub(super) fn check(layout: &Layout, problems: &mut Problems) {
    if layout.case_wall.si() >= layout.case_half_h.si() {
        problems.tell(
            "engine.case_wall",
            "`case_wall` must be less than `case_half_h`: a crankcase is hollow",
        );
    }
    uncertain(&layout.uncertain, "engine.uncertain", problems);
}
