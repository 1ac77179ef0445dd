//! Weather reports: genuine ones read by eye, the worked examples of the code forms, and any text at all.

mod any_text;
mod genuine;
mod published;
