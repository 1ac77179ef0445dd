//! The vectors of one night, or of four nights in the lanes of a register, and where work on them is done.

use super::four::{self, Four};
use super::number::{Register, Work};

/// A register of one night, or of four nights.
///
/// Inside the crate only: a register of four may be a processor's own, and whoever makes one must have checked the processor.
///
/// ```
/// use coldsoak::physics::number::Register;
/// ```
/// ```compile_fail
/// use coldsoak::physics::lanes::Lanes;
/// ```
/// ```compile_fail
/// use coldsoak::physics::four::Four;
/// ```
pub(crate) trait Lanes: Register {
    /// Four numbers of a vector: of one night those at four places, of four nights those at the first place.
    fn gather(all: &[Self], places: [usize; 4]) -> Four;
    /// Adds to one place of a vector: of one night the number in this lane, of four nights all four.
    fn add_at(all: &mut [Self], place: usize, numbers: Four, lane: usize);
    /// Does some work compiled for the widest registers that this processor has.
    fn work<W: Work>(work: W) -> W::Done;
}

impl Lanes for f64 {
    #[inline(always)]
    fn gather(all: &[Self], [a, b, c, d]: [usize; 4]) -> Four {
        Four::of([all[a], all[b], all[c], all[d]])
    }
    #[inline(always)]
    fn add_at(all: &mut [Self], place: usize, numbers: Four, lane: usize) {
        all[place] += numbers.lane(lane);
    }
    #[inline(always)]
    fn work<W: Work>(work: W) -> W::Done {
        if four::available() {
            four::done(work)
        } else {
            work.done()
        }
    }
}

impl Lanes for Four {
    #[inline(always)]
    fn gather(all: &[Self], [place, ..]: [usize; 4]) -> Four {
        all[place]
    }
    #[inline(always)]
    fn add_at(all: &mut [Self], place: usize, numbers: Four, _: usize) {
        all[place] = all[place] + numbers;
    }
    #[inline(always)]
    fn work<W: Work>(work: W) -> W::Done {
        four::done(work)
    }
}
