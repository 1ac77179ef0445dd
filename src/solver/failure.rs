//! Why a night could not be integrated: when, where, and what was tried.

use super::step::StepError;
use crate::network::Network;

/// Why a night could not be integrated.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SolveError {
    /// The steps became too short.
    #[error(
        "the night could not be followed past {time_h:.3} h: the step fell to {step_s:.1e} s at {column}{}",
        cause.as_ref().map(|c| format!(" ({c})")).unwrap_or_default()
    )]
    Stuck {
        /// When, hours after the beginning.
        time_h: f64,
        /// The last step tried, s.
        step_s: f64,
        /// The column whose error was largest.
        column: String,
        /// What the last try failed with, if it failed outright.
        cause: Option<StepError>,
    },
    /// A value stopped being a number.
    #[error("at {time_h:.3} h the value of {column} is no longer a number")]
    NotANumber {
        /// When, hours after the beginning.
        time_h: f64,
        /// The column.
        column: String,
    },
    /// The options make no sense.
    #[error("{what} must be {least:e} or more and finite, not {given}")]
    BelowMinimum {
        /// What.
        what: &'static str,
        /// The least it may be.
        least: f64,
        /// What was given.
        given: f64,
    },
    /// A thermostat would not rest.
    #[error(
        "the heaters switched {switchings} times by {}, most often \"{heater}\": give its thermostat a wider span",
        clock.clone().unwrap_or_else(|| format!("{time_h:.3} h after the beginning"))
    )]
    Restless {
        /// When, hours after the beginning.
        time_h: f64,
        /// The same on the clock, from who knows the clock.
        clock: Option<String>,
        /// How often.
        switchings: usize,
        /// The heater that switched most often.
        heater: String,
    },
}

impl SolveError {
    /// The same with the time on the clock, from the seconds after the beginning, where it helps.
    pub fn with_clock_time(self, clock_time: impl Fn(f64) -> String) -> Self {
        match self {
            Self::Restless {
                time_h,
                clock: _,
                switchings,
                heater,
            } => Self::Restless {
                time_h,
                clock: Some(clock_time(3600.0 * time_h)),
                switchings,
                heater,
            },
            other => other,
        }
    }
}

/// What a component of the vector is called in the trace.
pub fn column(net: &Network, component: usize) -> String {
    // Between the states and the books the trace has the temperature outdoors.
    let before_it = component < net.index.states();
    let column = component + usize::from(!before_it);
    net.legend.columns[column].label.clone()
}
