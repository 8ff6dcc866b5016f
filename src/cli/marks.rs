//! `mark` and `registered`: what stands on the back.

use std::io::Write;

use anyhow::{Result, bail};

use super::args::{MarkArgs, RegisteredArgs};
use super::outcome::{Outcome, expert};
use crate::registry::{diamond, numbers};
use crate::report;
use crate::say::registration;
use crate::setup::Setup;

/// Reads a backstamp.
pub(super) fn mark(setup: &Setup, args: &MarkArgs, out: &mut dyn Write) -> Result<Outcome> {
    let expert = expert(setup)?;
    let reading = expert.base.wording.read(&expert.base.registry, &args.text);
    if args.json {
        writeln!(out, "{}", report::json::mark(&expert.base, &reading))?;
    } else {
        write!(out, "{}", report::text::mark(&expert.base, &reading))?;
    }
    Ok(Outcome::Yes)
}

/// Reads a diamond or a number; the answer is no when no such registration is possible. What is
/// neither is an error.
pub(super) fn registered(
    setup: &Setup,
    args: &RegisteredArgs,
    out: &mut dyn Write,
) -> Result<Outcome> {
    let expert = expert(setup)?;
    let registry = &expert.base.registry;
    let (option, decoded) = match (&args.diamond, &args.number) {
        (Some(corners), _) => {
            let class = args.class.as_deref();
            ("--diamond", diamond::decode(registry, corners, class))
        }
        (None, number) => {
            let number = number.as_deref().unwrap_or_default();
            ("--number", numbers::decode(registry, number))
        }
    };
    if decoded.malformed() {
        let problem = registration::problem(&decoded).unwrap_or_default();
        bail!("{option}: {problem}");
    }
    if args.json {
        writeln!(out, "{}", report::json::registered(&decoded))?;
    } else {
        write!(out, "{}", report::text::registered(&decoded))?;
    }
    Ok(if decoded.impossible() {
        Outcome::No
    } else {
        Outcome::Yes
    })
}
