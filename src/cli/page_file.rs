//! Where the pages of `judge` go: `--html` and `--markdown` take a file, or print.
//!
//! `--html` may be followed by the page to write or, in haste, by the sighting to read. A name that
//! ends in `.ron`, or `-`, is the sighting where no other is named; and what is no page is never
//! written over.

use std::io::Write;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use super::args::JudgeArgs;

/// Kinds of page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum PageKind {
    Markdown,
    Html,
}

impl PageKind {
    /// The option that asks for it, and the endings its files have.
    fn names(self) -> (&'static str, [&'static str; 2]) {
        match self {
            PageKind::Markdown => ("--markdown", ["md", "markdown"]),
            PageKind::Html => ("--html", ["html", "htm"]),
        }
    }
}

/// What to read and what page to make of it.
#[derive(Debug, PartialEq)]
pub(super) struct PagePlan {
    pub sighting: Option<PathBuf>,
    /// The page, and its file unless it is printed.
    pub page: Option<(PageKind, Option<PathBuf>)>,
}

/// Tells the sighting from the page.
pub(super) fn plan(args: &JudgeArgs) -> Result<PagePlan> {
    let asked = match (&args.html, &args.markdown) {
        (Some(file), _) => Some((PageKind::Html, file.clone())),
        (None, Some(file)) => Some((PageKind::Markdown, file.clone())),
        (None, None) => None,
    };
    let Some((form, Some(file))) = asked else {
        return Ok(PagePlan {
            sighting: args.file.clone(),
            page: asked,
        });
    };
    let is_ron = file
        .extension()
        .is_some_and(|e| e.eq_ignore_ascii_case("ron"));
    let pipe = file == Path::new("-");
    match &args.file {
        None if is_ron || pipe => Ok(PagePlan {
            sighting: Some(file),
            page: Some((form, None)),
        }),
        Some(_) if is_ron => bail!(
            "{} {}: a sighting would be written over; name a page, such as {}",
            form.names().0,
            file.display(),
            file.with_extension(form.names().1[0]).display()
        ),
        sighting => Ok(PagePlan {
            sighting: sighting.clone(),
            page: Some((form, Some(file).filter(|_| !pipe))),
        }),
    }
}

/// Prints a page or writes it to its file.
pub(super) fn put(
    form: PageKind,
    page: &str,
    file: Option<&Path>,
    out: &mut dyn Write,
) -> Result<()> {
    let Some(path) = file else {
        return Ok(write!(out, "{page}")?);
    };
    let (option, endings) = form.names();
    let is_page = path
        .extension()
        .is_some_and(|e| endings.iter().any(|known| e.eq_ignore_ascii_case(known)));
    let holds_something = path.metadata().is_ok_and(|m| m.is_file() && m.len() > 0);
    if holds_something && !is_page {
        bail!(
            "{option} {}: this file is there already and its name does not end in .{}; to judge it, \
             put it before {option}",
            path.display(),
            endings[0]
        );
    }
    std::fs::write(path, page).with_context(|| format!("{}: can't be written", path.display()))
}
