//! What is known before a look at the text, and what the look finds out.

use std::cell::RefCell;
use std::collections::BTreeSet;

/// What stood to be read at a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Expected {
    /// A number with or without a fraction.
    Number,
    /// A whole number.
    Whole,
    /// A text in quotes.
    Text,
    /// `true` or `false`.
    YesNo,
    /// One of these words, each perhaps with something in brackets; and the name of the choice.
    OneOf(&'static str, &'static [&'static str]),
    /// Named fields in round brackets.
    Fields,
    /// A list in square brackets.
    List,
    /// So many values in round brackets.
    Tuple(usize),
    /// Names and values in curly brackets.
    Map,
}

/// Where a look ended, and what stood to be read there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Failed {
    /// The path, spelt as in an outline.
    pub path: String,
    /// What was expected at that path, if it was known.
    pub expected: Option<Expected>,
}

/// The notes of one look.
#[derive(Debug, Default)]
pub struct Notes {
    /// Paths whose value is cut out, and for which another stands in.
    pub excused: BTreeSet<String>,
    /// Paths of fields that are missing, and for which a value stands in.
    pub supplied: BTreeSet<String>,
    last: RefCell<Option<Failed>>,
    failed: RefCell<Option<Failed>>,
}

impl Notes {
    /// Whether the value at this path is cut out.
    pub fn excuses(&self, path: &str) -> bool {
        self.excused.contains(path)
    }
    /// What is about to be read.
    pub fn expect(&self, path: &str, expected: Expected) {
        let path = path.to_owned();
        let expected = Some(expected);
        *self.last.borrow_mut() = Some(Failed { path, expected });
    }
    /// The innermost place of a failure; what is told of the places around it does not count.
    pub fn fail(&self, path: &str) {
        let mut failed = self.failed.borrow_mut();
        if failed.is_none() {
            let last = self.last.borrow();
            let same = last.as_ref().filter(|last| last.path == path);
            *failed = Some(Failed {
                path: path.to_owned(),
                expected: same.and_then(|last| last.expected),
            });
        }
    }
    /// The failure of a value that was read last, and is found wrong only by what follows it.
    pub fn last_at(&self, path: &str) -> Failed {
        let last = self.last.borrow();
        let same = last.as_ref().filter(|last| last.path == path);
        Failed {
            path: path.to_owned(),
            expected: same.and_then(|last| last.expected),
        }
    }
    /// Takes what the look found out.
    pub fn take_failed(&self) -> Option<Failed> {
        self.failed.borrow_mut().take()
    }
}
