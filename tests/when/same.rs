//! The same answer for any number of threads.

use super::{chances, night};

#[test]
fn the_answer_does_not_depend_on_the_number_of_threads() {
    let scenario = night("small-engine-top");
    let found = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build();
        pool.unwrap()
            .install(|| format!("{:?}", chances(&scenario).found))
    };
    let one = found(1);
    assert_eq!(one, found(2));
    assert_eq!(one, found(5));
}
