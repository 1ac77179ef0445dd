//! What the commands on nights begin with: the night in the reader's degrees, what is told before it is computed, and
//! where its results will have come from.

use super::args::Args;
use super::outcome::Failure;
use super::{check, say};
use crate::files::fault::Fault;
use crate::files::night::{Loaded, load_named_from};
use crate::files::sources::Input;
use crate::report::provenance::{InputJson, Provenance};

/// A night by its path or its name, in the degrees that were asked for.
///
/// *Errors*: what is wrong with the file or with those it names.
pub fn loaded(name: &str, args: &Args) -> Result<Loaded, Failure> {
    let mut loaded = load_named_from(name, args.outside())?;
    if let Some(degrees) = args.units {
        loaded.scenario.units = degrees.into();
    }
    Ok(loaded)
}

/// Tells what was noticed in its files and which numbers are hard to believe (unless quiet), and gives the origin of all that will be computed of it, with the same notes.
pub fn told(loaded: &Loaded, hard_to_believe: &[Fault], args: &Args) -> Provenance {
    let notes = loaded.sources.notes();
    say::notes(notes, args.quiet);
    if !args.quiet {
        check::warn(hard_to_believe);
    }
    origin(&loaded.inputs).told_of(notes.to_vec(), check::in_words(hard_to_believe))
}

/// Where a result comes from: the words that were typed, and these files.
pub fn origin(read: &[Input]) -> Provenance {
    let typed = std::env::args_os().skip(1);
    let typed = typed.map(|word| word.to_string_lossy().into_owned());
    Provenance::new(typed.collect(), inputs(read))
}

/// Inputs as machine output tells them.
fn inputs(inputs: &[Input]) -> Vec<InputJson> {
    inputs
        .iter()
        .map(|input| InputJson {
            name: input.name.clone(),
            sha256: input.sha256.clone(),
        })
        .collect()
}
