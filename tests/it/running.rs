//! Runs the program itself, away from the clock and the user's own rules.

use std::io::{ErrorKind, Write};
use std::process::{Command, Output, Stdio};

/// The program with these arguments, ready for more to be set.
pub fn command<S: AsRef<std::ffi::OsStr>>(arguments: &[S]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_printseam"));
    command
        .args(arguments)
        .env("PRINTSEAM_NOW", "2026")
        .env("XDG_CONFIG_HOME", "/nonexistent")
        .env("XDG_DATA_HOME", "/nonexistent")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    command
}

/// Runs to the end with `input` on standard input.
pub fn run<S: AsRef<std::ffi::OsStr>>(arguments: &[S], input: &[u8]) -> Output {
    let mut child = command(arguments).spawn().unwrap();
    let mut to = child.stdin.take().unwrap();
    let input = input.to_vec();
    // Written beside the reading, or both sides could wait for each other.
    let writer = std::thread::spawn(move || {
        // The program may refuse before it has read everything.
        if let Err(e) = to.write_all(&input) {
            assert_eq!(e.kind(), ErrorKind::BrokenPipe);
        }
    });
    let output = child.wait_with_output().unwrap();
    writer.join().unwrap();
    output
}

pub fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}
