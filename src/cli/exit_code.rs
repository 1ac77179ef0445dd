//! How a run ends: exit codes, and what is printed on standard error.

use crate::files::fault::{FileError, InputError, printed};
use crate::files::safe::WriteError;
use crate::files::store::StoreError;
use crate::night::NightError;
use crate::picture::draw::DrawError;
use std::process::ExitCode;

/// Printed under errors that kept a file from being checked further.
const FURTHER: &str =
    "Correct these and check again: further checks follow once the file can be read.";

/// The word before what is no error of a file, in red where colour is wanted.
const ERROR: &str = "\u{1b}[1;31merror\u{1b}[0m";

/// How a run that finished ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Done.
    Done,
    /// Nothing was ready at departure, and readiness was required.
    NotReady,
}

impl Outcome {
    /// Done, or not ready where readiness was required.
    pub fn of(done: bool) -> Self {
        if done { Self::Done } else { Self::NotReady }
    }
}

/// Why a run did not finish.
#[derive(Debug, thiserror::Error)]
pub enum Failure {
    /// A flag or its value is wrong.
    #[error("{0}")]
    Flag(String),
    /// Files that cannot be read, or have errors.
    #[error(transparent)]
    Files(#[from] FileError),
    /// Files that were checked have errors; whether those kept them from being checked further.
    #[error("{} errors", errors.len())]
    Invalid {
        /// What is wrong with them.
        errors: Vec<InputError>,
        /// Whether more may come to light once these are corrected.
        unfinished: bool,
    },
    /// The night could not be computed.
    #[error(transparent)]
    Night(NightError),
    /// The network could not be computed.
    #[error(transparent)]
    Network(crate::inspect::SnapshotError),
    /// Results could not be written.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// A chart could not be drawn.
    #[error(transparent)]
    Draw(#[from] DrawError),
    /// Standard output could not be written.
    #[error("the result could not be printed: {0}")]
    Print(std::io::Error),
    /// So many threads cannot be had here.
    #[error("{0} threads could not be started ({1}); use fewer with --threads, or leave it out")]
    Threads(u16, String),
    /// JSON could not be made.
    #[error("the result could not be written as JSON: {0}")]
    Json(#[from] serde_json::Error),
    /// RON could not be made.
    #[error("the model could not be written: {0}")]
    Ron(#[from] ron::Error),
    /// CSV could not be made.
    #[error("the result could not be written as CSV: {0}")]
    Csv(#[from] csv::Error),
    /// A study file that cannot be used.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// A study file that was damaged.
    #[error("{0}")]
    Study(String),
    /// A study was interrupted; how far it came.
    #[error("{0}")]
    Stopped(String),
    /// The reader of our output closed it: a quiet success.
    #[error("closed")]
    Closed,
}

impl From<InputError> for Failure {
    fn from(fault: InputError) -> Self {
        Self::Files(fault.into())
    }
}

impl Failure {
    /// The exit code: 2 for the user's file or flags, 1 for what could not be finished.
    fn code(&self) -> u8 {
        use WriteError::{Exists, NoFile, NoFolder, NotOurs};
        match self {
            Self::Closed => 0,
            Self::Flag(_) | Self::Files(_) | Self::Invalid { .. } => 2,
            Self::Write(Exists(_) | NotOurs(_) | NoFile(_) | NoFolder { .. }) => 2,
            Self::Store(e) if e.is_users() => 2,
            _ => 1,
        }
    }
}

/// Prints what went wrong, if anything did, and gives the exit code.
pub fn exit_code(ended: Result<Outcome, Failure>) -> ExitCode {
    let failure = match ended {
        Ok(Outcome::Done) => return ExitCode::SUCCESS,
        Ok(Outcome::NotReady) => return ExitCode::from(3),
        Err(failure) => failure,
    };
    match &failure {
        Failure::Closed => {}
        Failure::Flag(error) => anstream::eprintln!("{error}"),
        Failure::Files(FileError::Faults(errors)) => print(errors),
        Failure::Invalid { errors, unfinished } => {
            print(errors);
            if *unfinished {
                anstream::eprintln!("{FURTHER}");
            }
        }
        failure => anstream::eprintln!("{ERROR}: {failure}"),
    }
    ExitCode::from(failure.code())
}

fn print(errors: &[InputError]) {
    anstream::eprintln!("{}", printed(errors));
}
