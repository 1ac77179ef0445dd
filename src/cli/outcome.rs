//! How a run ends: exit codes, and what is said on the way out.

use crate::files::fault::{Fault, FileError};
use crate::files::safe::WriteError;
use crate::files::store::StoreError;
use crate::night::NightError;
use crate::report::DrawError;
use std::process::ExitCode;

/// What is said under faults that kept a file from being looked at further.
const FURTHER: &str =
    "Mend these and check again: further checks follow once the file can be read.";

/// How a run that finished ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Done.
    Done,
    /// Nothing was ready at departure, and readiness was required.
    NotReady,
}

/// Why a run did not finish.
#[derive(Debug, thiserror::Error)]
pub enum Failure {
    /// Files that cannot be read, or have faults.
    #[error(transparent)]
    Files(#[from] FileError),
    /// Files that were checked have faults; whether those kept them from being looked at further.
    #[error("{} faults", faults.len())]
    Unsound {
        /// What is wrong with them.
        faults: Vec<Fault>,
        /// Whether more may come to light once these are mended.
        unfinished: bool,
    },
    /// The night could not be computed.
    #[error(transparent)]
    Night(NightError),
    /// The network could not be laid open.
    #[error(transparent)]
    Network(crate::inspect::SnapshotError),
    /// Results could not be written.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// A chart could not be drawn.
    #[error(transparent)]
    Draw(#[from] DrawError),
    /// Standard output could not be written.
    #[error("the result could not be told: {0}")]
    Say(std::io::Error),
    /// So many threads cannot be had here.
    #[error("{0} threads could not be had ({1}); ask for fewer with --threads, or leave it out")]
    Threads(u16, String),
    /// JSON or CSV could not be made.
    #[error("the result could not be written down: {0}")]
    Format(String),
    /// A study file that cannot be used.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// A study file that was damaged.
    #[error("{0}")]
    Study(String),
    /// A study was interrupted; how far it came.
    #[error("{0}")]
    Stopped(String),
    /// The reader of our output closed it, which is his right: a quiet success.
    #[error("closed")]
    Closed,
}

impl From<Fault> for Failure {
    fn from(fault: Fault) -> Self {
        Self::Files(fault.into())
    }
}

/// Says what went wrong, if anything did, and gives the exit code.
pub fn leave(ended: Result<Outcome, Failure>) -> ExitCode {
    match ended {
        Ok(Outcome::Done) | Err(Failure::Closed) => ExitCode::SUCCESS,
        Ok(Outcome::NotReady) => ExitCode::from(3),
        Err(Failure::Files(FileError::Faults(faults))) => {
            tell(&faults);
            ExitCode::from(2)
        }
        Err(Failure::Unsound { faults, unfinished }) => {
            tell(&faults);
            if unfinished {
                anstream::eprintln!("{FURTHER}");
            }
            ExitCode::from(2)
        }
        Err(
            failure @ (Failure::Files(_)
            | Failure::Write(
                WriteError::Exists(_)
                | WriteError::NotOurs(_)
                | WriteError::NoFile(_)
                | WriteError::NoFolder { .. },
            )),
        ) => {
            anstream::eprintln!("error: {failure}");
            ExitCode::from(2)
        }
        Err(Failure::Store(e)) if e.is_users() => {
            anstream::eprintln!("error: {e}");
            ExitCode::from(2)
        }
        Err(failure) => {
            anstream::eprintln!("error: {failure}");
            ExitCode::FAILURE
        }
    }
}

fn tell(faults: &[Fault]) {
    for fault in faults {
        anstream::eprintln!("{}\n", fault.rendered(true));
    }
}
