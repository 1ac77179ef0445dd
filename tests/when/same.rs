//! The same answer for any number of threads.

use super::{asked, night};

#[test]
fn the_answer_does_not_depend_on_the_number_of_threads() {
    let scenario = night("small-engine-top");
    let told = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build();
        pool.unwrap()
            .install(|| format!("{:?}", asked(&scenario).verdict))
    };
    let one = told(1);
    assert_eq!(one, told(2));
    assert_eq!(one, told(5));
}
