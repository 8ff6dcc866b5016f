//! The report as Markdown.

use std::fmt::Write;

use super::linked::Linked;
use super::sheet::Sheet;

/// The line of a page that tells a later run that this program wrote it; not shown when rendered.
pub const MARKER: &str = "<!-- generator: printseam -->";

/// The whole sheet.
pub fn page(sheet: &Sheet) -> String {
    let mut out = String::new();
    let title = if sheet.title.is_empty() {
        "Printed tableware: verdict"
    } else {
        &sheet.title
    };
    let _ = writeln!(out, "# {}\n", escape(title));
    plain(&mut out, sheet);
    let _ = writeln!(out, "## Details\n\n{}.\n", escape(&sheet.headline));
    let _ = writeln!(
        out,
        "Setting: {}. Made in: {}.\n",
        escape(&sheet.setting),
        escape(&sheet.place)
    );
    let _ = writeln!(
        out,
        "| kind | chance | in words | AAT |\n|---|---:|---|---|"
    );
    for k in &sheet.kinds {
        let aat = escape(k.aat.as_deref().unwrap_or(""));
        let _ = writeln!(
            out,
            "| {} | {} | {} | {aat} |",
            escape(&k.name.plain()),
            k.percent,
            k.chance
        );
    }
    let _ = writeln!(
        out,
        "\n| share of the chance | years | EDTF |\n|---:|---|---|"
    );
    for b in &sheet.bands {
        let _ = writeln!(out, "| {} | {} | `{}` |", b.share, b.years, b.edtf);
    }
    let _ = writeln!(
        out,
        "\n{}. {}.\n",
        escape(&sheet.ends),
        escape(&sheet.rarity)
    );
    list(&mut out, "The guess", &sheet.guess);
    for part in &sheet.parts {
        list(&mut out, part.heading, &part.lines);
    }
    if let Some(stop) = &sheet.stop {
        let _ = writeln!(out, "{}\n", escape(stop));
    }
    if !sheet.findings.is_empty() {
        let _ = writeln!(
            out,
            "## Findings, in the order seen\n\n| | finding | decibans | left out |\n|---|---|---:|---:|"
        );
    }
    for f in &sheet.findings {
        let _ = writeln!(
            out,
            "| {} | {}: {} | {} | {} |",
            f.sign,
            escape(&f.clue),
            escape(&f.seen),
            f.decibans,
            f.leave_one_out
        );
    }
    if !sheet.findings.is_empty() {
        out.push('\n');
    }
    for (i, f) in sheet.findings.iter().enumerate() {
        let _ = writeln!(
            out,
            "{}. {} {}",
            i + 1,
            escape(&f.words.plain()),
            escape(&f.leaning.plain())
        );
    }
    if !sheet.findings.is_empty() {
        out.push('\n');
    }
    if !sheet.glossary.is_empty() {
        let _ = writeln!(out, "## Words used\n");
    }
    for t in &sheet.glossary {
        let _ = writeln!(
            out,
            "- **{}**: {} {}",
            escape(&t.term),
            escape(&t.text),
            escape(&t.because)
        );
    }
    if !sheet.sources.is_empty() {
        let _ = writeln!(out, "\n## Sources\n");
    }
    for s in &sheet.sources {
        let _ = writeln!(out, "- {}", escape(s));
    }
    let _ = writeln!(out, "\nRules {}.\n\n{MARKER}", sheet.rules);
    out
}

/// The answer in plain words, and all that a picker needs.
fn plain(out: &mut String, sheet: &Sheet) {
    for (i, line) in sheet.plain.iter().enumerate() {
        let stars = if i == 0 { "**" } else { "" };
        let _ = writeln!(out, "{stars}{}{stars}\n", escape(&line.plain()));
    }
    if !sheet.opinion.is_empty() {
        let lines: Vec<String> = sheet.opinion.iter().map(Linked::plain).collect();
        let _ = writeln!(out, "> {}\n", escape(&lines.join(" ")));
    }
    for k in &sheet.kinds {
        let _ = writeln!(out, "- {}: {}", escape(&k.name.plain()), k.odds);
    }
    let _ = writeln!(out, "\n{}\n", escape(&sheet.place_and_rarity));
    list(out, "What each finding does", &sheet.plain_findings);
    for caution in &sheet.cautions {
        let _ = writeln!(out, "> {}\n", escape(caution));
    }
}

fn list(out: &mut String, heading: &str, lines: &[Linked]) {
    if lines.is_empty() {
        return;
    }
    let _ = writeln!(out, "## {heading}\n");
    for line in lines {
        let _ = writeln!(out, "- {}", escape(&line.plain()));
    }
    out.push('\n');
}

/// Characters that would be markup, made plain.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if "\\`*_{}[]<>#|~".contains(c) {
            out.push('\\');
        }
        out.push(if c.is_control() { ' ' } else { c });
    }
    out
}
