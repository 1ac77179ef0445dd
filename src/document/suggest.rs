//! What to write instead, in its line.

use super::error::InputError;
use super::parse::parse;
use super::source::Source;

/// The longest suggestion that repeats what stands around the value, in characters.
const LONGEST_SUGGESTION: usize = 72;

/// A suggestion, unless it is too long or has several lines.
pub(super) fn on_one_line(suggestion: String) -> Option<String> {
    let fits = !suggestion.contains('\n') && suggestion.chars().count() <= LONGEST_SUGGESTION;
    fits.then_some(suggestion)
}

impl InputError {
    /// The same error, suggesting to write this in the place of what stands there: with its key and all of its value, if
    /// that is short.
    pub fn instead(self, write: &str) -> Self {
        let line = self.place.as_ref().and_then(|(text, there)| {
            let source = Source::new("", text);
            let round = parse(&source).root.entry_round(*there)?;
            let before = text.get(round.start as usize..there.start as usize)?;
            let after = text.get(there.end as usize..round.end as usize)?;
            on_one_line(format!("{before}{write}{after}"))
        });
        self.suggest(line.unwrap_or_else(|| write.to_owned()))
    }
}
