//! The program as its users meet it: commands, files, documents and pictures. One binary, a folder a theme.
//! `cargo test --test program cli::when` runs one file of it.

mod bad;
mod charts;
mod cli;
mod docs;
mod weather;
