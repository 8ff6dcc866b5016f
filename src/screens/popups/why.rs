//! Why this question: what it tells, what it is worth, and where each finding would lead.

use crate::piece::prospect::prospects;
use crate::say::look;
use crate::say::names;
use crate::say::origin;
use crate::screens::app::App;
use crate::screens::canvas::{Row, item, paragraph, prose};

/// Findings whose outlook is shown.
const PROSPECTS: usize = 8;

/// Other looks shown.
const OTHERS: usize = 5;

/// The rows of the popup.
pub fn rows(app: &App, cells: usize) -> Vec<Row> {
    let theme = app.theme;
    let Some(clue) = app.clue() else {
        return paragraph("No question is open.", cells, theme.quiet);
    };
    let (expert, piece) = (app.expert(), app.piece());
    let rules = expert.base.clue(clue);
    let mut out = prose(&rules.question, cells, theme.heading);
    out.extend(prose(&rules.look, cells, theme.quiet));
    out.push(Row::blank());
    out.extend(prose(&rules.tells, cells, theme.quiet));
    out.extend(prose(&names::capital(&rules.because), cells, theme.quiet));
    let sources = origin::sources(expert, &rules.sources);
    out.extend(item("Source: ", &sources, cells, theme.quiet));
    if let Some(look) = piece.advice().looks.iter().find(|l| l.clue == clue) {
        out.push(Row::blank());
        out.extend(paragraph(&look::worth(look), cells, theme.quiet));
    }
    if rules.dated.is_none() {
        out.push(Row::blank());
        out.push(Row::new("Where each finding would lead", theme.heading));
        for prospect in prospects(app.piece(), clue).iter().take(PROSPECTS) {
            let text = look::prospect(expert, clue, prospect);
            out.extend(item("· ", &text, cells, theme.quiet));
        }
    }
    out.push(Row::blank());
    out.push(Row::new("Other looks", theme.heading));
    for look in piece
        .advice()
        .looks
        .iter()
        .filter(|l| l.clue != clue)
        .take(OTHERS)
    {
        out.extend(item("· ", &look::other(expert, look), cells, theme.quiet));
    }
    out
}
