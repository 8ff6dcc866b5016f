//! Trade words explained: those on the screen below first, found by typing.

use crate::hearing::fold::plain;
use crate::say::glossary::{line, used};
use crate::screens::app::{App, Screen};
use crate::screens::canvas::{Row, item};
use crate::screens::verdict;

/// Cells the verdict is laid out in when only its words matter: no line is broken.
const UNBROKEN: usize = 10_000;

/// The entries that are found, under headings when nothing is searched for.
pub fn rows(app: &App, search: &str, cells: usize) -> Vec<Row> {
    let base = &app.expert().base;
    let entry = |term: usize| item("· ", &line(base, term), cells, app.theme.quiet);
    if !search.trim().is_empty() {
        let out: Vec<Row> = found(app, search).into_iter().flat_map(entry).collect();
        return match out.is_empty() {
            true => vec![Row::new("No trade word is written so.", app.theme.quiet)],
            false => out,
        };
    }
    let here = here(app);
    let others: Vec<usize> = (0..base.glossary.len())
        .filter(|t| !here.contains(t))
        .collect();
    let mut out = Vec::new();
    for (heading, terms) in [("On the screen", here), ("All others", others)] {
        if !terms.is_empty() {
            out.push(Row::new(heading, app.theme.heading));
            out.extend(terms.into_iter().flat_map(entry));
        }
    }
    out
}

/// Words of the screen below.
fn here(app: &App) -> Vec<usize> {
    let base = &app.expert().base;
    let mut texts: Vec<String> = Vec::new();
    if app.screen() == Screen::Verdict {
        texts.extend(verdict::rows(app, UNBROKEN).iter().map(Row::text));
    } else if let Some(clue) = app.clue() {
        let clue = base.clue(clue);
        texts.extend([&clue.question, &clue.look, &clue.tells, &clue.because].map(String::clone));
        texts.extend(clue.findings.iter().map(|f| f.words.clone()));
    }
    let kinds = app.piece().verdict().kinds.iter().take(3);
    texts.extend(kinds.map(|(k, _)| base.kinds[usize::from(k.0)].name.clone()));
    used(base, texts.iter().map(String::as_str))
}

/// Entries written so first, then those that begin so, then those that have it in their text.
fn found(app: &App, search: &str) -> Vec<usize> {
    let folded = |text: &str| plain(text).join(" ");
    let wanted = folded(search);
    let rank = |term: &crate::rulebase::definitions::Term| {
        let written: Vec<String> = term.written().map(folded).collect();
        if written.contains(&wanted) {
            Some(0)
        } else if written.iter().any(|w| w.starts_with(&wanted)) {
            Some(1)
        } else if written.iter().any(|w| w.contains(&wanted)) {
            Some(2)
        } else {
            folded(&term.text).contains(&wanted).then_some(3)
        }
    };
    let terms = app.expert().base.glossary.iter().enumerate();
    let mut out: Vec<(i32, usize)> = terms.filter_map(|(i, t)| Some((rank(t)?, i))).collect();
    out.sort_unstable();
    out.into_iter().map(|(_, i)| i).collect()
}
