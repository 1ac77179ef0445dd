//! Lines cut to the frame they are drawn in.
//!
//! The drawing library moves a point outside its axes to the edge, and draws a missing number there too. Both
//! would show a temperature that never was, so a line is cut at the frame and broken at gaps before it is drawn.

/// The frame of a plot, in the numbers of its axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// From left to right.
    pub x: (f64, f64),
    /// From bottom to top.
    pub y: (f64, f64),
}

impl Frame {
    /// The pieces of a line that lie in the frame: cut where it crosses the edge, broken at points that are no
    /// numbers. A piece has at least two points.
    pub fn pieces(&self, line: &[(f64, f64)]) -> Vec<Vec<(f64, f64)>> {
        let mut pieces: Vec<Vec<(f64, f64)>> = Vec::new();
        let mut open = false;
        for pair in line.windows(2) {
            let Some((from, to)) = self.segment(pair[0], pair[1]) else {
                open = false;
                continue;
            };
            match pieces.last_mut() {
                Some(piece) if open => piece.push(to),
                _ => pieces.push(vec![from, to]),
            }
            open = to == pair[1];
        }
        pieces
    }

    /// The part of a segment inside the frame, by Liang and Barsky's parametric clipping
    /// (*ACM Transactions on Graphics* 3(1), 1984, pp. 1-22).
    fn segment(&self, a: (f64, f64), b: (f64, f64)) -> Option<((f64, f64), (f64, f64))> {
        if ![a.0, a.1, b.0, b.1].iter().all(|v| v.is_finite()) {
            return None;
        }
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        for (along, room) in [
            (-dx, a.0 - self.x.0),
            (dx, self.x.1 - a.0),
            (-dy, a.1 - self.y.0),
            (dy, self.y.1 - a.1),
        ] {
            if along == 0.0 {
                if room < 0.0 {
                    return None;
                }
            } else if along < 0.0 {
                enter = enter.max(room / along);
            } else {
                leave = leave.min(room / along);
            }
        }
        if enter > leave {
            return None;
        }
        let point = |share: f64| match share {
            0.0 => a,
            1.0 => b,
            _ => (a.0 + share * dx, a.1 + share * dy),
        };
        Some((point(enter), point(leave)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FRAME: Frame = Frame {
        x: (0.0, 10.0),
        y: (0.0, 10.0),
    };

    #[test]
    fn a_line_that_leaves_and_returns_is_two_pieces_cut_at_the_edge() {
        let pieces = FRAME.pieces(&[(0.0, 5.0), (2.0, 15.0), (4.0, 15.0), (6.0, 5.0), (8.0, 5.0)]);
        assert_eq!(
            pieces,
            [
                vec![(0.0, 5.0), (1.0, 10.0)],
                vec![(5.0, 10.0), (6.0, 5.0), (8.0, 5.0)]
            ]
        );
    }

    #[test]
    fn a_missing_number_breaks_the_line() {
        let pieces = FRAME.pieces(&[
            (0.0, 1.0),
            (1.0, 1.0),
            (2.0, f64::NAN),
            (3.0, 2.0),
            (4.0, 2.0),
        ]);
        assert_eq!(
            pieces,
            [vec![(0.0, 1.0), (1.0, 1.0)], vec![(3.0, 2.0), (4.0, 2.0)]]
        );
    }

    #[test]
    fn a_line_wholly_outside_is_not_drawn() {
        assert!(
            FRAME
                .pieces(&[(0.0, 11.0), (5.0, 60.0), (9.0, 12.0)])
                .is_empty()
        );
        assert!(FRAME.pieces(&[(0.0, f64::INFINITY), (5.0, 1.0)]).is_empty());
        assert!(FRAME.pieces(&[(3.0, 3.0)]).is_empty());
    }
}
