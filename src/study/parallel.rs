//! Many pieces of work on all threads, handed over in their order, and stopped between two of them.

use rayon::prelude::*;
use std::sync::atomic::{AtomicBool, Ordering};

/// Most pieces that one thread works on together. A choice.
const MOST: usize = 16;
/// Handfuls that are handed over together, or as many as there are threads where those are more: what is lost at most if the
/// program is killed. A choice.
const HANDFULS: usize = 8;

/// How many of so many pieces one thread works on together, so that nights can go abreast: four at a time, and where one is
/// over the next takes its place; the more there are, the less a lane waits for the last. Fewer where some threads would
/// have nothing to do otherwise: a night is the same to the last bit whoever goes beside it.
pub fn batch_size(pieces: usize) -> usize {
    pieces.div_ceil(rayon::current_num_threads()).clamp(1, MOST)
}

/// Works on all pieces on all threads, a batch_size at a time, and hands the results over in the order of the pieces. Once
/// `stop` is set no further batch_size is begun; what was done is handed over. Gives whether all were done.
///
/// *Errors*: the first of whoever takes the results; the rest is not begun then.
pub fn parallel<T: Sync, R: Send, E>(
    pieces: &[T],
    work: impl Fn(&[T]) -> Vec<R> + Sync,
    stop: &AtomicBool,
    mut take: impl FnMut(Vec<(&T, R)>) -> Result<(), E>,
) -> Result<bool, E> {
    let batch_size = batch_size(pieces.len());
    let together = batch_size * rayon::current_num_threads().max(HANDFULS);
    for some in pieces.chunks(together) {
        let done: Vec<Option<Vec<R>>> = some
            .par_chunks(batch_size)
            .map(|batch_size| (!stop.load(Ordering::Relaxed)).then(|| work(batch_size)))
            .collect();
        let whole = done.iter().all(Option::is_some);
        let handfuls = some.chunks(batch_size).zip(done);
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

    fn on_threads<R: Send>(threads: usize, what: impl FnOnce() -> R + Send) -> R {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads);
        pool.build().unwrap().install(what)
    }

    #[test]
    fn more_than_half_of_the_threads_that_could_work_do() {
        let handfuls = |threads, pieces: usize| {
            on_threads(threads, || pieces.div_ceil(batch_size(pieces))) as f64 / threads as f64
        };
        for threads in [1, 2, 8, 64] {
            for pieces in [1, 5, 20, 64, 1000] {
                let most = pieces.min(threads) as f64 / threads as f64;
                assert!(handfuls(threads, pieces) > 0.5 * most, "{threads} {pieces}");
            }
        }
        assert_eq!(on_threads(2, || batch_size(20)), 10);
        assert_eq!(on_threads(8, || batch_size(20)), 3);
        assert_eq!(on_threads(2, || batch_size(1000)), 16);
        assert_eq!(on_threads(2, || batch_size(0)), 1);
    }

    #[test]
    fn results_come_in_order_whatever_the_number_of_threads() {
        let pieces: Vec<usize> = (0..300).collect();
        let go = AtomicBool::new(false);
        for threads in [1, 3, 64] {
            let mut got = Vec::new();
            let all = on_threads(threads, || {
                parallel(
                    &pieces,
                    |some| some.iter().map(|n| n * n).collect(),
                    &go,
                    |some| {
                        got.extend(some.into_iter().map(|(_, r)| r));
                        Ok::<(), ()>(())
                    },
                )
            });
            assert_eq!(all, Ok(true));
            assert_eq!(got, (0..300).map(|n| n * n).collect::<Vec<_>>());
        }
    }

    /// On two threads handfuls are of 16 and eight are handed over together: the stop comes in the second lot.
    #[test]
    fn a_stop_keeps_what_was_done() {
        let pieces: Vec<usize> = (0..300).collect();
        let stop = AtomicBool::new(false);
        let mut kept = 0;
        let work = |some: &[usize]| {
            if some[0] >= 160 {
                stop.store(true, Ordering::Relaxed);
            }
            vec![(); some.len()]
        };
        let all = on_threads(2, || {
            parallel(&pieces, work, &stop, |some| {
                kept += some.len();
                Ok::<(), ()>(())
            })
        });
        assert_eq!(all, Ok(false));
        assert!((8 * MOST..300).contains(&kept), "{kept}");
        assert_eq!(kept % MOST, 0);
    }

    #[test]
    fn what_cannot_be_taken_ends_the_work() {
        let pieces: Vec<usize> = (0..300).collect();
        let go = AtomicBool::new(false);
        let mut lots = 0;
        let work = |some: &[usize]| vec![(); some.len()];
        let failed = on_threads(2, || {
            parallel(&pieces, work, &go, |_| {
                lots += 1;
                Err("full")
            })
        });
        assert_eq!((failed, lots), (Err("full"), 1));
    }
}
