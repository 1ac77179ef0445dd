//! When to switch on: the answer, the plan or why there is none, and both for programs.

mod answer;
mod json;
mod never;
mod plan;
mod words;

pub use answer::report;
