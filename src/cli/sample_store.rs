//! The nights of a study that are done: in memory, and in a file if one was named.

use super::exit_code::Failure;
use crate::files::store::{Identity, Row, Store};
use crate::quantity::Units;
use crate::scenario::document::Scenario;
use crate::study::sample_result::SampleResult;
use crate::study::simulate::Outcome;
use crate::study::spread::{Purpose, Spread, Task};
use indicatif::ProgressBar;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};

/// Whether to stop: no further night is begun, what is done is kept.
static STOP: AtomicBool = AtomicBool::new(false);

/// From now on Ctrl-C and a request to terminate only stop the study; a second one ends the program at once.
pub fn stop_on_interrupt() {
    // It fails only if a handler exists already, which then does the same.
    let _ = ctrlc::set_handler(|| {
        if STOP.swap(true, Ordering::Relaxed) {
            std::process::exit(1);
        }
    });
}

/// Nights by what they are for and their number.
#[derive(Debug)]
pub struct SampleStore {
    nights: BTreeMap<(Purpose, u32), Outcome>,
    store: Option<Store>,
}

/// What a purpose is called in a study file.
const WORDS: [(Purpose, &str); 3] = [
    (Purpose::Sample, "sample"),
    (Purpose::OneAtATime, "one_at_a_time"),
    (Purpose::Sobol, "sobol"),
];

impl SampleStore {
    /// A store that is lost with the run.
    pub fn in_memory() -> Self {
        Self {
            nights: BTreeMap::new(),
            store: None,
        }
    }

    /// A store in a file, with what is in it already; every night has as many numbers as the one that is `written`.
    ///
    /// *Errors*: the file is not a study of this scenario, was damaged, or cannot be read or written.
    pub fn open(
        path: &Path,
        scenario: &Scenario,
        written: &SampleResult,
        seed: u32,
    ) -> Result<Self, Failure> {
        let store = Store::open(path, &identity(scenario, seed)?)?;
        let mut nights = BTreeMap::new();
        for (word, number, outcome) in store.rows()? {
            let purpose = WORDS.iter().find(|(_, w)| *w == word).map(|(p, _)| *p);
            let outcome: Option<Outcome> = serde_json::from_str(&outcome).ok();
            let outcome = outcome.filter(|o| o.as_ref().map_or(true, |h| h.is_like(written)));
            let (Some(purpose), Some(outcome)) = (purpose, outcome) else {
                return Err(Failure::Study(format!(
                    "the {word} night {number} in {} is damaged; begin a new file with --study",
                    path.display()
                )));
            };
            nights.insert((purpose, number), outcome);
        }
        Ok(Self {
            nights,
            store: Some(store),
        })
    }

    /// Computes those of the nights that are not stored yet. Gives whether all are there now: not if the run
    /// was interrupted.
    ///
    /// *Errors*: the file cannot be written.
    pub fn complete(
        &mut self,
        study: &Spread,
        tasks: &[Task],
        bar: &ProgressBar,
    ) -> Result<bool, Failure> {
        let missing: Vec<Task> = tasks.iter().filter(|t| !self.has(t)).cloned().collect();
        bar.inc((tasks.len() - missing.len()) as u64);
        study.run(&missing, &STOP, &|| bar.inc(1), |done| {
            if let Some(store) = &mut self.store {
                let rows: Vec<Row> = done
                    .iter()
                    .map(|(task, outcome)| row(task, outcome))
                    .collect::<Result<_, _>>()?;
                store.keep(&rows)?;
            }
            for (task, outcome) in done {
                self.nights.insert((task.purpose, task.number), outcome);
            }
            Ok(())
        })
    }

    /// Whether a night is done.
    pub fn has(&self, task: &Task) -> bool {
        self.nights.contains_key(&(task.purpose, task.number))
    }

    /// The outcomes of those of the nights that are done, in their order.
    pub fn outcomes(&self, tasks: &[Task]) -> Vec<Outcome> {
        tasks
            .iter()
            .filter_map(|t| self.nights.get(&(t.purpose, t.number)).cloned())
            .collect()
    }

    /// How many nights for a purpose are done.
    pub fn count(&self, purpose: Purpose) -> usize {
        self.nights.keys().filter(|(p, _)| *p == purpose).count()
    }
}

fn row(task: &Task, outcome: &Outcome) -> Result<Row, Failure> {
    let word = WORDS.iter().find(|(p, _)| *p == task.purpose);
    let word = word.map_or("", |(_, word)| word).to_owned();
    let outcome = serde_json::to_string(outcome)?;
    Ok((word, task.number, outcome))
}

/// Which program computes: its version, and the first digits of the hash of its file, since two builds of one version
/// may compute differently. The version alone where that file cannot be read.
fn program() -> String {
    let version = env!("CARGO_PKG_VERSION");
    let bytes = std::env::current_exe().and_then(std::fs::read);
    match bytes.map(|bytes| Sha256::digest(&bytes)) {
        Ok(digest) => {
            let digits: String = digest.iter().take(6).map(|b| format!("{b:02x}")).collect();
            format!("{version}, build {digits}")
        }
        Err(_) => version.to_owned(),
    }
}

/// What a study is of. The reader's degrees change nothing.
fn identity(scenario: &Scenario, seed: u32) -> Result<Identity, Failure> {
    let plain = Scenario {
        units: Units::default(),
        ..scenario.clone()
    };
    let text = serde_json::to_string(&plain)?;
    let digest = Sha256::digest(text.as_bytes());
    Ok(Identity {
        program: program(),
        title: scenario.title.clone(),
        scenario: digest.iter().map(|byte| format!("{byte:02x}")).collect(),
        seed,
    })
}
