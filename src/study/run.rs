//! The nights of many cases on all threads, handed over in their order.

use super::case::Case;
use super::path::Tree;
use crate::night::{self, Night, NightError, Precision, run_lanes};
use rayon::prelude::*;
use std::convert::Infallible;
use std::ops::Range;
use std::sync::atomic::{AtomicBool, Ordering};

/// Most nights that one thread computes together. A choice.
const MOST: usize = 16;
/// Batches of a window, or as many as there are threads where those are more: what is lost at most if the program is
/// killed. A choice.
const BATCHES: usize = 8;

/// What comes of one case.
type Computed = Result<Night, NightError>;

/// How many of so many nights one thread computes together, in lanes: four at a time, and where one is over the next
/// takes its place; the more there are, the less a lane waits for the last. Fewer where some threads would have nothing
/// to do otherwise: a night is the same to the last bit whoever goes beside it.
fn batch_size(nights: usize) -> usize {
    nights.div_ceil(rayon::current_num_threads()).clamp(1, MOST)
}

/// Computes the nights of `count` cases, each with its base, made from their numbers, on all threads and in lanes. What `row` keeps
/// of each goes to `sink` with its number, in order, a window at a time, so that no more than a window is held. Once
/// `stop` is set no further batch is begun; what was done is handed over. Gives whether all were done.
///
/// A night without its steady state, as of [`run_lanes`].
///
/// *Errors*: the first of the sink; the rest is not begun then.
pub fn run<'t, R: Send, E>(
    precision: Precision,
    count: usize,
    case: impl Fn(usize) -> (&'t Tree, Case) + Sync,
    row: impl Fn(Computed) -> R + Sync,
    stop: &AtomicBool,
    sink: impl FnMut(Vec<(usize, R)>) -> Result<(), E>,
) -> Result<bool, E> {
    let work = |numbers: Range<usize>| batch(precision, numbers.map(&case), &row);
    in_windows(count, work, stop, sink)
}

/// The same with all rows at once.
pub fn run_all<'t, R: Send>(
    precision: Precision,
    count: usize,
    case: impl Fn(usize) -> (&'t Tree, Case) + Sync,
    row: impl Fn(Computed) -> R + Sync,
) -> Vec<R> {
    let mut rows = Vec::with_capacity(count);
    let Ok(_) = run(
        precision,
        count,
        case,
        row,
        &AtomicBool::new(false),
        |window| {
            rows.extend(window.into_iter().map(|(_, row)| row));
            Ok::<(), Infallible>(())
        },
    );
    rows
}

/// The nights of a few cases with their steady states, each by itself on a thread.
pub fn run_each<R: Send>(
    base: &Tree,
    cases: &[Case],
    row: impl Fn(Computed) -> R + Sync,
) -> Vec<R> {
    let one = |case: &Case| row(run_one(base, case.clone()));
    cases.par_iter().map(one).collect()
}

/// The night of a case with its steady state.
///
/// *Errors*: a case that makes no night, and those of [`night::run`].
pub fn run_one(base: &Tree, case: Case) -> Computed {
    night::run(&case.night(base)?)
}

/// The rows of the cases of one batch.
fn batch<'t, R>(
    precision: Precision,
    cases: impl Iterator<Item = (&'t Tree, Case)>,
    row: impl Fn(Computed) -> R,
) -> Vec<R> {
    let mut scenarios = Vec::new();
    let made: Vec<Result<(), NightError>> = cases
        .map(|(base, case)| {
            scenarios.push(case.night(base)?);
            Ok(())
        })
        .collect();
    let mut nights = run_lanes(&scenarios, precision).into_iter();
    let mut next = |()| nights.next().expect("one night for each scenario");
    let made = made.into_iter();
    made.map(|made| row(made.and_then(&mut next))).collect()
}

fn in_windows<R: Send, E>(
    count: usize,
    work: impl Fn(Range<usize>) -> Vec<R> + Sync,
    stop: &AtomicBool,
    mut sink: impl FnMut(Vec<(usize, R)>) -> Result<(), E>,
) -> Result<bool, E> {
    let size = batch_size(count);
    let window = size * rayon::current_num_threads().max(BATCHES);
    for start in (0..count).step_by(window) {
        let numbers: Vec<usize> = (start..count.min(start + window)).collect();
        let batches: Vec<&[usize]> = numbers.chunks(size).collect();
        let done: Vec<Option<Vec<R>>> = batches
            .par_iter()
            .map(|batch| {
                let go_on = !stop.load(Ordering::Relaxed);
                go_on.then(|| work(batch[0]..batch[0] + batch.len()))
            })
            .collect();
        let whole = done.iter().all(Option::is_some);
        let rows = batches.into_iter().zip(done);
        let rows = rows.flat_map(|(batch, rows)| {
            let numbers = batch.iter().copied();
            numbers.zip(rows.into_iter().flatten())
        });
        sink(rows.collect())?;
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
        let batches = |threads, pieces: usize| {
            on_threads(threads, || pieces.div_ceil(batch_size(pieces))) as f64 / threads as f64
        };
        for threads in [1, 2, 8, 64] {
            for pieces in [1, 5, 20, 64, 1000] {
                let most = pieces.min(threads) as f64 / threads as f64;
                assert!(batches(threads, pieces) > 0.5 * most, "{threads} {pieces}");
            }
        }
        assert_eq!(on_threads(2, || batch_size(20)), 10);
        assert_eq!(on_threads(8, || batch_size(20)), 3);
        assert_eq!(on_threads(2, || batch_size(1000)), 16);
        assert_eq!(on_threads(2, || batch_size(0)), 1);
    }

    #[test]
    fn rows_come_in_order_a_window_at_a_time_whatever_the_number_of_threads() {
        let go = AtomicBool::new(false);
        for threads in [1, 3, 64] {
            let mut got = Vec::new();
            let squares = |numbers: Range<usize>| numbers.map(|n| n * n).collect();
            let all = on_threads(threads, || {
                in_windows(300, squares, &go, |window| {
                    assert!(window.len() <= MOST * BATCHES.max(threads));
                    got.extend(window);
                    Ok::<(), ()>(())
                })
            });
            assert_eq!(all, Ok(true));
            assert_eq!(got, (0..300).map(|n| (n, n * n)).collect::<Vec<_>>());
        }
    }

    /// On two threads batches are of 16 and a window is of eight: the stop comes in the second window.
    #[test]
    fn a_stop_keeps_what_was_done() {
        let stop = AtomicBool::new(false);
        let mut kept = 0;
        let work = |numbers: Range<usize>| {
            if numbers.start >= 160 {
                stop.store(true, Ordering::Relaxed);
            }
            vec![(); numbers.len()]
        };
        let all = on_threads(2, || {
            in_windows(300, work, &stop, |window| {
                kept += window.len();
                Ok::<(), ()>(())
            })
        });
        assert_eq!(all, Ok(false));
        assert!((8 * MOST..300).contains(&kept), "{kept}");
        assert_eq!(kept % MOST, 0);
    }

    #[test]
    fn a_sink_that_is_full_ends_the_work() {
        let go = AtomicBool::new(false);
        let mut windows = 0;
        let failed = on_threads(2, || {
            in_windows(
                300,
                |numbers| vec![(); numbers.len()],
                &go,
                |_| {
                    windows += 1;
                    Err("full")
                },
            )
        });
        assert_eq!((failed, windows), (Err("full"), 1));
    }

    /// A case that makes no night leaves its place to none of the others.
    #[test]
    fn a_case_that_makes_no_night_has_a_row_of_its_own() {
        let night = super::super::tests::scenario();
        let base = Tree::of(&night).unwrap();
        let cases = [0.5, 7.0, 0.9].map(|plug| Case::default().set("covers.inlet_plug", &plug));
        let lost = Case::default().set("covers.nothing", &0.0);
        let cases = [cases.to_vec(), vec![lost]].concat();
        let rows = run_all(
            Precision::Full,
            4,
            |i| (&base, cases[i].clone()),
            |night| night.map(|n| n.findings.energy.kwh),
        );
        let each = run_each(&base, &cases, |night| night.map(|n| n.findings.energy.kwh));
        assert_eq!(rows, each);
        let computed: Vec<bool> = rows.iter().map(Result::is_ok).collect();
        assert_eq!(computed, [true, false, true, false]);
    }
}
