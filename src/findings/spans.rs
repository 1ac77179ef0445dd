//! Spans of time during which something held.
