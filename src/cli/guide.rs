//! `guide`: an entry of the field guide, or all of it as one page.

use std::io::Write;

use anyhow::{Context, Result};

use super::args::GuideArgs;
use super::outcome::{Outcome, expert};
use super::page_file::{self, PageKind};
use super::picture;
use crate::piece::notation::printable;
use crate::report::guide::Guide;
use crate::report::{guide_text, html};
use crate::setup::Setup;

/// Shows the entry asked for, the contents, or writes the book. A word found nowhere is a "no".
pub(super) fn run(setup: &Setup, args: &GuideArgs, out: &mut dyn Write) -> Result<Outcome> {
    let expert = expert(setup)?;
    if let Some(what) = &args.picture {
        return picture::run(&expert, what, args, out);
    }
    let guide = Guide::new(&expert);
    if let Some(file) = &args.html {
        let page = html::guide(&guide).context("guide")?;
        page_file::put(PageKind::Html, &page, file.as_deref(), args.force, out)?;
        return Ok(Outcome::Yes);
    }
    let typed = args.word.join(" ");
    if typed.trim().is_empty() {
        write!(out, "{}", guide_text::contents(&guide))?;
        return Ok(Outcome::Yes);
    }
    let found = guide.find(&typed);
    if found.is_empty() {
        writeln!(
            out,
            "Nothing about '{}'; printseam guide alone lists all entries",
            printable(&typed)
        )?;
        return Ok(Outcome::No);
    }
    write!(out, "{}", guide_text::found(&found))?;
    Ok(Outcome::Yes)
}
