//! Many pieces of work on all threads, handed over in their order, and stopped between two of them.

use rayon::prelude::*;
use std::sync::atomic::{AtomicBool, Ordering};

/// Pieces that are handed over together. It does not depend on the number of threads, nor does any result.
const TOGETHER: usize = 32;

/// Works on all pieces and hands the results over in the order of the pieces, some at a time. Once `stop` is set no
/// further piece is begun; what was done is handed over. Gives whether all were done.
///
/// *Errors*: the first of whoever takes the results; the rest is not begun then.
pub fn side_by_side<T: Sync, R: Send, E>(
    pieces: &[T],
    work: impl Fn(&T) -> R + Sync,
    stop: &AtomicBool,
    mut take: impl FnMut(Vec<(&T, R)>) -> Result<(), E>,
) -> Result<bool, E> {
    for some in pieces.chunks(TOGETHER) {
        let done: Vec<Option<R>> = some
            .par_iter()
            .map(|piece| (!stop.load(Ordering::Relaxed)).then(|| work(piece)))
            .collect();
        let whole = done.iter().all(Option::is_some);
        let done = some.iter().zip(done);
        take(done.filter_map(|(piece, r)| Some((piece, r?))).collect())?;
        if !whole {
            return Ok(false);
        }
    }
    Ok(true)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn results_come_in_order_and_a_stop_keeps_what_was_done() {
        let pieces: Vec<usize> = (0..100).collect();
        let go = AtomicBool::new(false);
        let mut got = Vec::new();
        let all = side_by_side(
            &pieces,
            |n| n * n,
            &go,
            |some| {
                got.extend(some.into_iter().map(|(_, r)| r));
                Ok::<(), ()>(())
            },
        );
        assert_eq!(all, Ok(true));
        assert_eq!(got, (0..100).map(|n| n * n).collect::<Vec<_>>());

        let stop = AtomicBool::new(false);
        let mut kept = 0;
        let work = |n: &usize| stop.store(*n >= 40, Ordering::Relaxed);
        let all = side_by_side(&pieces, work, &stop, |some| {
            kept += some.len();
            Ok::<(), ()>(())
        });
        assert_eq!(all, Ok(false));
        assert!((32..100).contains(&kept), "{kept}");
    }
}
