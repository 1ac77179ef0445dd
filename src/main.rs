//! The command: hand over to `cli`, and leave with its exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    coldsoak::cli::main()
}
