//! Many pieces of work on all threads, handed over in their order, and stopped between two of them.

use rayon::prelude::*;
use std::sync::atomic::{AtomicBool, Ordering};

/// Pieces that one thread works on together, so that nights can go abreast: four at a time, and where one is over the
/// next takes its place; the more there are, the less a lane waits for the last. A choice.
pub const HANDFUL: usize = 16;
/// Pieces that are handed over together: what is lost at most if the program is killed. A choice.
const TOGETHER: usize = 8 * HANDFUL;

/// Works on all pieces, a handful at a time, and hands the results over in the order of the pieces. Once `stop` is set no
/// further handful is begun; what was done is handed over. Gives whether all were done. What is worked on together does
/// not depend on the number of threads.
///
/// *Errors*: the first of whoever takes the results; the rest is not begun then.
pub fn side_by_side<T: Sync, R: Send, E>(
    pieces: &[T],
    work: impl Fn(&[T]) -> Vec<R> + Sync,
    stop: &AtomicBool,
    mut take: impl FnMut(Vec<(&T, R)>) -> Result<(), E>,
) -> Result<bool, E> {
    for some in pieces.chunks(TOGETHER) {
        let done: Vec<Option<Vec<R>>> = some
            .par_chunks(HANDFUL)
            .map(|handful| (!stop.load(Ordering::Relaxed)).then(|| work(handful)))
            .collect();
        let whole = done.iter().all(Option::is_some);
        let handfuls = some.chunks(HANDFUL).zip(done);
        let done = handfuls.flat_map(|(pieces, r)| pieces.iter().zip(r.into_iter().flatten()));
        take(done.collect())?;
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
        let pieces: Vec<usize> = (0..300).collect();
        let go = AtomicBool::new(false);
        let mut got = Vec::new();
        let all = side_by_side(
            &pieces,
            |some| some.iter().map(|n| n * n).collect(),
            &go,
            |some| {
                got.extend(some.into_iter().map(|(_, r)| r));
                Ok::<(), ()>(())
            },
        );
        assert_eq!(all, Ok(true));
        assert_eq!(got, (0..300).map(|n| n * n).collect::<Vec<_>>());

        let stop = AtomicBool::new(false);
        let mut kept = 0;
        let work = |some: &[usize]| {
            stop.store(some[0] >= 160, Ordering::Relaxed);
            vec![(); some.len()]
        };
        let all = side_by_side(&pieces, work, &stop, |some| {
            kept += some.len();
            Ok::<(), ()>(())
        });
        assert_eq!(all, Ok(false));
        assert!((TOGETHER..300).contains(&kept), "{kept}");
        assert_eq!(kept % HANDFUL, 0);
    }
}
