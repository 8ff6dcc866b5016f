//! A clue's findings as a numbered list: the key of each stands before it. The list is shown whole
//! where there is room: in one column, else in several, else in pages.

use std::ops::Range;

use ratatui::layout::Rect;
use ratatui::text::Span;

use crate::core::grid::ClueId;
use crate::screens::kit::canvas::Canvas;
use crate::screens::kit::rows::Row;
use crate::screens::kit::theme::Theme;
use crate::screens::kit::wrap::{width, wrap};
use crate::screens::state::keys::label_of;
use crate::screens::state::msg::Msg;
use crate::screens::state::session::Session;

/// Cells before the words: the key and a tick at the earlier answer.
const BEFORE: usize = 4;

/// Cells between columns.
const GAP: usize = 2;

/// Most columns side by side, and the fewest cells each must have.
const COLUMNS: usize = 3;
const LEAST_CELLS: usize = 20;

/// How a list is laid out.
#[derive(Debug, PartialEq)]
pub(crate) struct Plan {
    /// Cells of one column.
    cells: usize,
    /// Items of each column of each page.
    pages: Vec<Vec<Range<usize>>>,
}

/// Lays out items of these words in an area.
pub(crate) fn plan(words: &[String], cells: usize, height: usize) -> Plan {
    let counts = columns_tried(words, cells);
    for &n in &counts {
        let least = balanced(words, column(cells, n), n);
        if least <= height {
            return Plan {
                cells: column(cells, n),
                pages: vec![fill(words, column(cells, n), least)],
            };
        }
    }
    // Too long for the room: the fewest pages, with a line below that turns them.
    let rows = height.saturating_sub(1).max(1);
    let paged = |n: usize| {
        let filled = fill(words, column(cells, n), rows);
        let pages: Vec<_> = filled.chunks(n).map(<[_]>::to_vec).collect();
        (column(cells, n), pages)
    };
    let fewest = counts.into_iter().map(paged).min_by_key(|(_, p)| p.len());
    let (cells, pages) = fewest.unwrap_or_default();
    Plan { cells, pages }
}

/// Rows of the whole list in one column, and the fewest rows it can be shown whole in.
pub(crate) fn rows_wanted(words: &[String], cells: usize) -> (usize, usize) {
    let rows = |n: &usize| balanced(words, column(cells, *n), *n);
    let least = columns_tried(words, cells).iter().map(rows).min();
    (rows(&1), least.unwrap_or(0))
}

/// Numbers of columns that leave each enough cells.
fn columns_tried(words: &[String], cells: usize) -> Vec<usize> {
    let widest = words.iter().map(|w| width(w)).max().unwrap_or(0) + BEFORE;
    let enough = |n: &usize| *n == 1 || column(cells, *n) >= widest.min(LEAST_CELLS);
    (1..=COLUMNS).filter(enough).collect()
}

/// Cells of one of `n` columns.
fn column(cells: usize, n: usize) -> usize {
    (cells.saturating_sub((n - 1) * GAP) / n).max(1)
}

/// Fewest rows in which the items stand in `n` columns.
fn balanced(words: &[String], cells: usize, n: usize) -> usize {
    let total: usize = words.iter().map(|w| lines(w, cells).len()).sum();
    (total.div_ceil(n)..=total)
        .find(|rows| fill(words, cells, *rows).len() <= n)
        .unwrap_or(total)
}

/// Puts items into columns of at most `rows` rows; an item taller than that has one to itself.
fn fill(words: &[String], cells: usize, rows: usize) -> Vec<Range<usize>> {
    let mut out: Vec<Range<usize>> = Vec::new();
    let mut used = 0;
    for (i, w) in words.iter().enumerate() {
        let tall = lines(w, cells).len();
        match out.last_mut() {
            Some(last) if used + tall <= rows => {
                last.end = i + 1;
                used += tall;
            }
            _ => {
                out.push(i..i + 1);
                used = tall;
            }
        }
    }
    out
}

fn lines(words: &str, cells: usize) -> Vec<String> {
    wrap(words, cells.saturating_sub(BEFORE))
}

/// The words of a clue's findings.
pub(crate) fn words(session: &Session, clue: ClueId) -> Vec<String> {
    let findings = &session.expert().base.clue(clue).findings;
    findings.iter().map(|f| f.words.clone()).collect()
}

/// Draws the page of a clue's findings that the cursor is on.
pub(crate) fn draw(session: &Session, canvas: &mut Canvas, area: Rect, clue: ClueId) {
    let words = words(session, clue);
    let earlier = session.piece().evidence().of(clue);
    let answered = earlier.and_then(|e| e.seen.finding());
    let ticked = |i: usize| answered.is_some_and(|f| usize::from(f.0) == i);
    list(canvas, area, &words, session.place().cursor, &ticked);
}

/// Draws the page of a list that the cursor is on.
pub(crate) fn list(
    canvas: &mut Canvas,
    area: Rect,
    words: &[String],
    cursor: usize,
    ticked: &dyn Fn(usize) -> bool,
) {
    let plan = plan(words, usize::from(area.width), usize::from(area.height));
    let here = |page: &Vec<Range<usize>>| page.iter().any(|c| c.contains(&cursor));
    let at = plan.pages.iter().position(here).unwrap_or(0);
    let Some(page) = plan.pages.get(at) else {
        return;
    };
    for (n, items) in page.iter().enumerate() {
        let mut rows = Vec::new();
        for i in items.clone() {
            let lines = item(i, &words[i], plan.cells, ticked(i), canvas.theme);
            rows.extend(lines.into_iter().map(|row| row.chosen(i == cursor)));
        }
        let column = Rect {
            x: area.x + (n * (plan.cells + GAP)) as u16,
            width: plan.cells as u16,
            ..area
        };
        canvas.rows(column.intersection(area), &rows);
    }
    if plan.pages.len() > 1 && area.height > 0 {
        turner(canvas, area, &plan.pages, at);
    }
}

/// A finding with its number before it, and a tick where it is the earlier answer.
pub(crate) fn item(i: usize, words: &str, cells: usize, ticked: bool, theme: Theme) -> Vec<Row> {
    let key = label_of(i);
    let tick = if ticked { "✓" } else { " " };
    lines(words, cells)
        .into_iter()
        .enumerate()
        .map(|(n, line)| {
            let row = if n == 0 {
                Row::of(vec![
                    Span::styled(format!("{key:>2}"), theme.key),
                    Span::raw(format!("{tick} {line}")),
                ])
            } else {
                Row::of(vec![Span::raw(" ".repeat(BEFORE) + &line)])
            };
            row.click(Msg::Choose(i))
        })
        .collect()
}

/// The line that turns pages: its left half goes back, its right half goes on.
fn turner(canvas: &mut Canvas, area: Rect, pages: &[Vec<Range<usize>>], at: usize) {
    let line = Rect {
        y: area.bottom() - 1,
        height: 1,
        ..area
    };
    let half = line.width / 2;
    let first = |page: usize| Some(pages.get(page)?.first()?.start);
    let (back, on) = (at.checked_sub(1).and_then(first), first(at + 1));
    let text = format!(
        "{} page {} of {} {}",
        if back.is_some() { "◀ PgUp" } else { "      " },
        at + 1,
        pages.len(),
        if on.is_some() { "PgDn ▶" } else { "" }
    );
    canvas.rows(line, &[Row::new(&text, canvas.theme.key)]);
    if back.is_some() {
        let left = Rect {
            width: if on.is_some() { half } else { line.width },
            ..line
        };
        canvas.hit(left, Msg::PageUp);
    }
    if on.is_some() {
        let from = if back.is_some() { half } else { 0 };
        let right = Rect {
            x: line.x + from,
            width: line.width - from,
            ..line
        };
        canvas.hit(right, Msg::PageDown);
    }
    canvas.shown.page_before = back;
    canvas.shown.page_after = on;
}

#[cfg(test)]
mod tests {
    use super::{Plan, plan};

    fn words(n: usize, length: usize) -> Vec<String> {
        (0..n).map(|_| "x".repeat(length)).collect()
    }

    /// Columns of the first page, and pages.
    fn shape(plan: &Plan) -> (usize, usize) {
        (plan.pages[0].len(), plan.pages.len())
    }

    #[test]
    fn a_list_is_shown_whole_where_it_can_be() {
        assert_eq!(shape(&plan(&words(6, 5), 40, 6)), (1, 1));
        assert_eq!(shape(&plan(&words(12, 5), 40, 6)), (2, 1));
        assert_eq!(shape(&plan(&words(12, 30), 44, 12)), (1, 1));
        // 26 letters take two rows of a column of 21 cells.
        assert_eq!(shape(&plan(&words(12, 26), 44, 12)), (1, 1));
        assert_eq!(shape(&plan(&words(12, 26), 44, 11)), (1, 2));
        assert_eq!(shape(&plan(&words(12, 26), 22, 11)), (1, 3));
        assert_eq!(shape(&plan(&words(28, 5), 44, 6)), (3, 2));
    }

    #[test]
    fn pages_hold_every_item_once_whatever_the_room() {
        for n in [0, 1, 9, 31] {
            for length in [3, 20, 95] {
                for (cells, height) in [(0, 0), (5, 1), (44, 4), (60, 12), (200, 40)] {
                    let plan = plan(&words(n, length), cells, height);
                    let all: Vec<usize> = plan.pages.into_iter().flatten().flatten().collect();
                    assert_eq!(all, (0..n).collect::<Vec<_>>());
                }
            }
        }
    }
}
