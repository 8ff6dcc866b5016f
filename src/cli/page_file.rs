//! Where pages go, above all those of `judge`: `--html`, `--markdown`, `--card` and `--sheet` take a
//! file, or print.
//!
//! `--html` may be followed by the page to write or, in haste, by the sighting to read. A name that
//! ends in `.ron`, or `-`, is the sighting where no other is named; and a sighting is never written
//! over, other files only if they are pages of ours or the user says `--force`.

use std::io::Write;
use std::path::{Path, PathBuf};

use anyhow::{Result, bail};

use super::args::JudgeArgs;
use super::clean::cleaned;
use crate::report::{html, markdown};
use crate::setup::write::{NotWritten, Over, write};

/// Kinds of page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum PageKind {
    Markdown,
    Html,
    /// Cards for the shelf.
    Card,
    /// Sheets for a class.
    Sheet,
}

impl PageKind {
    /// True for the text of a page of this kind that this program wrote.
    fn wrote(self, text: &str) -> bool {
        let marker = match self {
            PageKind::Markdown => markdown::MARKER,
            PageKind::Html | PageKind::Card | PageKind::Sheet => html::MARKER,
        };
        text.lines().any(|line| line == marker)
    }

    /// The option of `judge` that asks for it, and the endings its files have.
    fn names(self) -> (&'static str, [&'static str; 2]) {
        match self {
            PageKind::Markdown => ("--markdown", ["md", "markdown"]),
            PageKind::Html => ("--html", ["html", "htm"]),
            PageKind::Card => ("--card", ["html", "htm"]),
            PageKind::Sheet => ("--sheet", ["html", "htm"]),
        }
    }
}

/// What to read and what page to make of it.
#[derive(Debug, PartialEq)]
pub(super) struct PagePlan {
    /// The sightings; only cards and sheets have several.
    pub sightings: Vec<PathBuf>,
    /// The page, and its file unless it is printed.
    pub page: Option<(PageKind, Option<PathBuf>)>,
}

/// Tells the sighting from the page.
pub(super) fn plan(args: &JudgeArgs) -> Result<PagePlan> {
    let asked = [
        (PageKind::Html, &args.html),
        (PageKind::Markdown, &args.markdown),
        (PageKind::Card, &args.card),
        (PageKind::Sheet, &args.sheet),
    ];
    let asked = asked
        .into_iter()
        .find_map(|(form, file)| Some((form, file.clone()?)));
    let several = matches!(asked, Some((PageKind::Card | PageKind::Sheet, _)));
    if args.files.len() > 1 && !several {
        bail!("one sighting at a time; only --card and --sheet take several");
    }
    let Some((form, Some(file))) = asked else {
        return Ok(PagePlan {
            sightings: args.files.clone(),
            page: asked,
        });
    };
    let is_ron = file
        .extension()
        .is_some_and(|e| e.eq_ignore_ascii_case("ron"));
    if args.files.is_empty() && (is_ron || file == Path::new("-")) {
        return Ok(PagePlan {
            sightings: vec![file],
            page: Some((form, None)),
        });
    }
    if is_ron {
        bail!(
            "{} {}: a sighting would be written over; name a page, such as {}",
            form.names().0,
            file.display(),
            file.with_extension(form.names().1[0]).display()
        );
    }
    Ok(PagePlan {
        sightings: args.files.clone(),
        page: Some((form, Some(file))),
    })
}

/// Prints a page, also for the file `-`, or writes it to its file, with `force` over whatever file is
/// there.
pub(super) fn put(
    form: PageKind,
    page: &str,
    file: Option<&Path>,
    force: bool,
    out: &mut dyn Write,
) -> Result<()> {
    let Some(path) = file.filter(|f| *f != Path::new("-")) else {
        return Ok(write!(out, "{page}")?);
    };
    let ours = |text: &str| form.wrote(text);
    let over = if force { Over::Any } else { Over::Ours(&ours) };
    Ok(write(path, &cleaned(page), over)?)
}

/// The same of a page of `judge`, where a file that is no page may be a sighting in the wrong place.
pub(super) fn put_judged(
    form: PageKind,
    page: &str,
    file: Option<&Path>,
    force: bool,
    out: &mut dyn Write,
) -> Result<()> {
    let (option, endings) = form.names();
    let ending = file.and_then(Path::extension);
    let named_as_page =
        ending.is_some_and(|e| endings.iter().any(|known| e.eq_ignore_ascii_case(known)));
    match put(form, page, file, force, out) {
        Err(e) if !named_as_page && matches!(e.downcast_ref(), Some(NotWritten::NotOurs(_))) => {
            bail!("{e}; to judge it, put it before {option}")
        }
        done => done,
    }
}
