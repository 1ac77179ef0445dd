//! Which of several nights is the better one.

/// What choices are ranked by, to be printed beside every ranking.
pub const RANKING_KEY: &str = "ready before not ready; then less water on the upper inner walls at departure, in steps of 0.5 g; \
     then less energy; then the larger margin";
