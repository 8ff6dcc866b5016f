//! The field guide in the terminal.

use std::fmt::Write;

use super::guide::{Entry, Guide};

/// Other entries named below the one shown at most.
const OTHERS: usize = 12;

/// The contents: every chapter with the names in it.
pub fn contents(guide: &Guide) -> String {
    let mut out = String::new();
    for chapter in &guide.chapters {
        let names: Vec<&str> = chapter.entries.iter().map(|e| e.name.as_str()).collect();
        let _ = writeln!(out, "{}\n  {}\n", chapter.heading, names.join("; "));
    }
    let _ = writeln!(
        out,
        "printseam guide WORD shows an entry, for example: guide edge"
    );
    let _ = writeln!(out, "{}", guide.origins);
    out
}

/// The first entry in full, and the names of the others.
pub fn found(entries: &[&Entry]) -> String {
    let mut out = String::new();
    let Some((first, others)) = entries.split_first() else {
        return out;
    };
    entry(&mut out, first);
    if !others.is_empty() {
        let named = others.iter().take(OTHERS).map(|e| e.name.as_str());
        let named: Vec<&str> = named.collect();
        let more = match others.len().saturating_sub(OTHERS) {
            0 => String::new(),
            more => format!(" and {more} more"),
        };
        let _ = writeln!(out, "\nAlso: {}{more}", named.join("; "));
    }
    out
}

fn entry(out: &mut String, entry: &Entry) {
    let _ = writeln!(out, "{}", entry.name);
    if !entry.also.is_empty() {
        let _ = writeln!(out, "  also: {}", entry.also.join(", "));
    }
    for line in &entry.lines {
        let _ = writeln!(out, "  {}", line.plain());
    }
    let _ = writeln!(out, "  Origin: {}", entry.origin);
    for finding in &entry.findings {
        let _ = writeln!(out, "\n  - {}", finding.words);
        for line in [finding.because.plain(), finding.leaning.plain()] {
            if !line.is_empty() {
                let _ = writeln!(out, "    {line}");
            }
        }
        let _ = writeln!(out, "    Origin: {}", finding.origin);
    }
}
