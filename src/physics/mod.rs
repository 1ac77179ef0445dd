//! The laws of nature the night is computed with: pure functions, each citing its source and range.

pub mod number;
